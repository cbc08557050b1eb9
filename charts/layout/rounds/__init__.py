"""Rounds laid as a whole: every stitch as tall as its kind, one sector relaxed and turned."""
