"""What stands beside rows and among rounds: their numbers, arrows and counts, and where yarn begins and ends."""
