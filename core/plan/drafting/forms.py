"""Ties and edges of the signal on one line, as a cell has them.

'back +8m; checks +2m least 1m' and 'voice back, 2nd after ignition +30s'.
"""

import re
from collections.abc import Mapping

_TIE = re.compile(
    r"(?P<event>\S.*?)"
    r"(?:\s+(?P<offset>[+-]\s*\d[^;]*?))?"
    r"(?:\s+least\s+(?P<least>\S[^;]*?))?"
    r"(?:\s+most\s+(?P<most>\S[^;]*?))?"
    r"(?P<fixed>\s+fixed)?"
)
_EDGE = re.compile(
    r"(?P<lane>\S+(?: \S+)*?)\s+(?P<change>back|lost),?"
    r"(?:\s+(?P<nth>\d{1,5})(?:st|nd|rd|th)?)?"
    r"(?:\s+(?P<way>after|before)\s+(?P<event>\S.*?)(?:\s+(?P<offset>[+-]\s*\d.*))?)?"
)


def read_ties(text: str) -> list[dict[str, object]]:
    """The ties of a typed cell; empty where it has none, or one that cannot be read."""
    found: list[dict[str, object]] = []
    for part in text.split(";"):
        match = _TIE.fullmatch(part.strip())
        if match is None:
            return []
        tie: dict[str, object] = {"event": match["event"]}
        if match["offset"]:
            tie["offset"] = match["offset"].removeprefix("+").strip()
        tie |= {key: match[key] for key in ("least", "most") if match[key]}
        if match["fixed"]:
            tie["fixed"] = True
        found.append(tie)
    return found


def ties_words(value: object) -> str:
    """What the key `after` says, on one line; the offset of a lone tie has a column of its own."""
    if isinstance(value, list):
        return "; ".join(_tie_words(one) for one in value)
    return _tie_words(value)


def _tie_words(tie: object) -> str:
    if not isinstance(tie, Mapping):
        return str(tie)
    words = [str(tie.get("event", ""))]
    if "offset" in tie:
        words.append(_signed(str(tie["offset"])))
    words += [f"{key} {tie[key]}" for key in ("least", "most") if key in tie]
    words += ["fixed"] if tie.get("fixed") is True else []
    return " ".join(words)


def read_edge(text: str) -> dict[str, object] | None:
    """The edge of a typed cell; None where it cannot be read."""
    match = _EDGE.fullmatch(text.strip())
    if match is None:
        return None
    edge: dict[str, object] = {"lane": match["lane"], "change": match["change"]}
    if match["way"]:
        edge[match["way"]] = match["event"]
    if match["offset"]:
        edge["offset"] = match["offset"].removeprefix("+").strip()
    if match["nth"] and int(match["nth"]) != 1:
        edge["nth"] = int(match["nth"])
    return edge


def edge_words(edge: Mapping[str, object]) -> str:
    """An edge of the signal on one line."""
    words = [str(edge.get("lane", "")), str(edge.get("change", ""))]
    nth = edge.get("nth", 1)
    if nth != 1:
        words.append(_ordinal(nth))
    for way in ("after", "before"):
        if way in edge:
            words += [way, str(edge[way])]
    if "offset" in edge:
        words.append(_signed(str(edge["offset"])))
    return " ".join(words)


def _signed(offset: str) -> str:
    return offset if offset.startswith("-") else f"+{offset}"


def _ordinal(number: object) -> str:
    if not isinstance(number, int):
        return str(number)
    teen = number % 100 in {11, 12, 13}
    return f"{number}{'th' if teen else {1: 'st', 2: 'nd', 3: 'rd'}.get(number % 10, 'th')}"
