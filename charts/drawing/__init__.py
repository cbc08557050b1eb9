"""Ink in millimetres: the display list, the style, the SVG writer and the checker of its subset."""
