"""The record of a day: what was planned, expected, said and happened, and who said and typed it."""
