"""What the pattern files of the tests of sections begin with: a mat of 20 by 30 cm, 10 stitches and 8 rows to 10 cm."""

HEAD = """title = "Bench mat"
terms = "US"
[gauge]
stitches = 10
rows = 8
over = "10 cm"
[object]
kind = "panel"
width = "20 cm"
height = "30 cm"
"""
