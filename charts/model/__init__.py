"""What the hands do: the worked fabric, sizing and fit, checks."""
