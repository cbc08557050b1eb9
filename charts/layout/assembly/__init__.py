"""Folding, joining, border and paper template of a piece."""
