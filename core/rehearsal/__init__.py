"""Rehearsals: a day sprung on the desk, flown beneath it in truth, and what the desk made of it."""
