"""Hooks closed round posts: which stem each clasps, and where."""
