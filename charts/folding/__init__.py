"""Panels, folds, joins and the border; the only folder that imports shapely."""
