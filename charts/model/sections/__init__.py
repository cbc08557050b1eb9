"""A pattern file's sections: their rows, counts and colours, worked as one piece."""
