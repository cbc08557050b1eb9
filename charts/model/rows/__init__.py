"""Row after row: which reading of a row holds, rows told by other rows, multiples, what is reported."""
