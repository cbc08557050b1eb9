"""How many stitches and rows fit a measure, and how much yarn they take."""
