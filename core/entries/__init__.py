"""What was typed, as data, and the reading of the entry bar's line."""
