"""Flat objects of a JSON text: keys and values as words, with their places."""

import json
import re

from core.plan.orbitdata.telling import ABSENT, AGAIN, Spot, Telling, Word

_TOKEN = re.compile(r'"(?:[^"\\]|\\.)*"|[][{}:,]|[^][{}:,"\s]+')
_NOTHING = "null"

Flat = dict[str, Word]


def flat_objects(text: str, telling: Telling) -> list[Flat]:
    """The objects of a JSON text: one alone, or those of a list. Keys of null are left out.

    Raises PlanProblems where the text is no JSON, or holds lists or objects within an object.
    """
    _check_syntax(text, telling)
    found: list[Flat] = []
    spots = _Spots(text)
    depth, key = 0, ""
    for match in _TOKEN.finditer(text):
        piece = match[0]
        if piece in "[{":
            depth += 1
            if depth > 2 or (found and key) or (depth == 2 and piece == "["):
                hint = "These elements are plain pairs of a key and a value"
                raise telling.stopped(spots.of(match.start()), "this is nested too deep", hint)
            if piece == "{":
                found.append({})
        elif piece in "]}":
            depth -= 1
        elif piece == ",":
            key = ""
        elif piece != ":" and found:
            if key:
                if piece != _NOTHING:
                    _keep(telling, found[-1], key, _value(piece), spots.of(match.start()))
                key = ""
            else:
                key = str(_value(piece))
    return found


def _keep(telling: Telling, into: Flat, key: str, value: str, spot: Spot) -> None:
    if key in into:
        telling.problem(spot, f"{key[:60]} stands twice", "Take one of them out")
    else:
        into[key] = Word(value.strip(), spot)


def _value(piece: str) -> str:
    return str(json.loads(piece)) if piece.startswith('"') else piece


def _check_syntax(text: str, telling: Telling) -> None:
    try:
        json.loads(text, parse_int=str, parse_float=str)
    except json.JSONDecodeError as error:
        spot = (error.lineno, error.colno)
        if not text[error.pos :].strip() or error.msg.startswith("Unterminated"):
            raise telling.stopped(spot, "the file is cut off here", AGAIN) from error
        raise telling.stopped(spot, f"not JSON: {error.msg.lower()}", AGAIN) from error
    except RecursionError as error:
        raise telling.stopped(ABSENT, "this is nested too deep", AGAIN) from error


class _Spots:
    """Lines and columns of one text, asked for from its beginning to its end."""

    def __init__(self, text: str) -> None:
        self._text = text
        self._line = 1
        self._at = 0

    def of(self, at: int) -> Spot:
        self._line += self._text.count("\n", self._at, at)
        self._at = at
        return self._line, at - self._text.rfind("\n", 0, at)
