"""The desk window: one widget a file."""
