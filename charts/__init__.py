"""The engraver: a pattern in, sheets and words out. Pure: no printing, no clock, no network."""
