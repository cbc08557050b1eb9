"""Pages for a browser: one file each, with all that they need, and nothing fetched."""
