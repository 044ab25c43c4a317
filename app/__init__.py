"""The program on top of `core`: commands and windows."""

__version__ = "0.1.0"

EDITORIAL = "For editorial use: not for navigation, range safety or flight control."
"""Stands in the About line, on every report and on every page."""
