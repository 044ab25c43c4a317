"""The session: entries in order, the desk that takes them, their store."""
