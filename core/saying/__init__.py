"""Sentences for the presenter, and for how long they stay true."""
