"""Stitches in their places: one row laid over the one below, whatever the shape."""
