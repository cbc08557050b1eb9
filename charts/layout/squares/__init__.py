"""A flat piece as a numbered grid: filet in open and filled squares, colour work in the colours of its yarns."""
