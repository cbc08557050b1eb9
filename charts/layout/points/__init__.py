"""Points that stand out from a row: chains with stitches worked back along them."""
