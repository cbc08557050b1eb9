"""How yarn is seen: tubes in a z-buffer, their plies and fibres, light on them, and the file of an image."""
