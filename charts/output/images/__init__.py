"""Images of a pattern: the fabric as it will look, and what is shared."""
