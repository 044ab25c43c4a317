"""A draft of a plan: its text as it stands and the changes to it, shown as tables of cells.

The text is the only state. What is half typed stands in it too, as text in quotation marks, so
that the reader tells what is wrong with it; each change edits the text at its place.
"""
