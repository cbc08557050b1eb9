"""What a text agrees on with its reader: terms, sizes, special stitches, conventions."""
