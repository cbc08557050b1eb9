"""What checking a pattern found: its verdict row by row, in words and as JSON."""
