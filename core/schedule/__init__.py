"""The network that retimes: expected times, explanations, clashes."""
