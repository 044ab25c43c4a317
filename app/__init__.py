"""The program on top of `core`: commands and windows."""

__version__ = "0.1.0"
