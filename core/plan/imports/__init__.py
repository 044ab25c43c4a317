"""What a mission hands out, read as rows of a plan: tables, calendars, timelines, orbit files.

Each reader gives an `Imported`: what was read, what was not and why, and what it was taken for.
Nothing is dropped: each line of a text is in exactly one of these. Exports go the other way.
"""
