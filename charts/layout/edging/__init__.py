"""Rounds about the whole edge of a piece: where their stitches stand, and such a round laid."""
