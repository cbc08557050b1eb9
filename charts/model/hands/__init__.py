"""The hands: playing one row over the ground, clause by clause."""
