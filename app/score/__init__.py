"""The score of a rehearsal as a page by itself."""
