"""The board without a screen: plan, schedule, signal and what there is to say.

Nothing in here knows Qt, prints, or reads a clock that was not handed to it, so all of it can
be used from a script. What may import what stands in `pyproject.toml` and is checked.
"""
