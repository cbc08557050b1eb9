"""What the words of a row mean: the page of words, the grammar, and the reading of one row."""
