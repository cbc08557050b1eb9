"""What stands already: rows worked, the ground they offer, where a row is worked, and why one cannot be."""
