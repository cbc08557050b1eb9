"""A whole page: its lines, heads, explanations, sizes and terms, up to the rows."""
