"""The view: all that any screen shows, each value with its reason."""
