"""The shapes that rows lie in: rounds, corners, wedges from a centre, mitred squares."""
