"""The typeface and the stitch dictionary; imports nothing of ours."""
