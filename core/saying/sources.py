"""Who said it, as the audience is told."""

_SPOKEN = {"flight": "mission control"}
"""'flight' is the trade's word for who runs it; the other words speak for themselves."""

OURSELVES = "desk"


def is_named(source: str) -> bool:
    """Whether somebody other than ourselves has said it, and we know who."""
    return source not in ("", OURSELVES)


def spoken_source(source: str) -> str:
    """'mission control', 'the agency'."""
    return _SPOKEN.get(source, f"the {source}")
