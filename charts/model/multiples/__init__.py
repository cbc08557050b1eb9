"""What number of stitches a row, a section or a foundation needs, and what is said where none fits."""
