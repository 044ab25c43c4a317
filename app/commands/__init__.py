"""The commands that need no screen."""
