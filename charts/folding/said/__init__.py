"""What is said of folding, joining and bordering."""
