"""What a technical editor checks before a pattern is published, and the sheet for those who try it."""
