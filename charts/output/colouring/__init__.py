"""Other ways to colour a piece: shown side by side, with their ends and the small balls wound beforehand."""
