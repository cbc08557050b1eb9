"""What the productions of the grammar mean: each a small function from the parts kept to a part of the tree.

A function that returns None refuses the reading. Places, nouns and limits are parts; a clause is a tuple of ops.
Each module adds to the one before: nouns, places, spots, stitches, making, doing, repeating.
"""
