"""Rows that come again, as a line of a page says it in its own words, told in the usual ones."""
