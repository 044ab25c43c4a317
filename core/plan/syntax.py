"""TOML text to plain values; the first error of syntax with its place and a remedy.

`tomllib` recurses on nested values, and takes its time over very long keys and numbers, so these
are looked for before it sees the text.
"""

import re
import tomllib
from typing import Any

from core.errors import Place, PlanProblems, Problem

DEEPEST = 50

_TOKEN = re.compile(
    r'"""(?:[^"\\]+|\\.|"(?!""))*(?:"""|\Z)'
    r"|'''(?:[^']+|'(?!''))*(?:'''|\Z)"
    r'|"[^"\\\n]*(?:\\.[^"\\\n]*)*(?:"|(?=\n)|\Z)'
    r"|'[^'\n]*(?:'|(?=\n)|\Z)"
    r"|#[^\n]*"
    r"|(?P<opens>[\[{])|(?P<closes>[\]}])",
    re.DOTALL,
)
_KEY = r"""(?:[\w-]+|"[^"\\\n]*(?:\\.[^"\\\n]*)*"|'[^'\n]*')"""
_LONG_KEY = re.compile(rf"(?:\.[ \t]*{_KEY}[ \t]*){{{DEEPEST}}}")
_LONG_NUMBER = re.compile(r"(?<!\w)\d\w{999}")
_AT = re.compile(r"(?s)(.*) \(at (?:line (\d+), column (\d+)|end of document)\)")
_MOST_TOKENS = 2_000_000
_MOST_LINES = 1_000_000

_HINTS = {
    "Invalid value": "Text stands in quotation marks; times look like 2031-05-14T17:50:00",
    "Cannot overwrite a value": "The same key stands here twice: take one out",
    "Duplicate inline table key": "The same key stands here twice: take one out",
    "Cannot declare": "Write [[event]], with two brackets, for each of several",
    "Cannot mutate": "Write [[event]], with two brackets, for each of several",
    "Expected '=' after": "Write key = value",
    "Invalid statement": "Write key = value, or a heading in brackets",
    "Expected newline or end of document": "Begin a new line here",
    "Invalid date or datetime": "Check the day of the month and the time",
    "Unterminated string": "Close the quotation marks",
    "Unclosed array": "Put a comma between values, and close the list with ]",
    "Unclosed inline table": "Put a comma between keys, and close the table with }",
    "Illegal character": "Close the quotation marks on the same line",
    "Unescaped '\\' in a string": "Write a backslash twice, or use single quotation marks",
    "Invalid initial character for a key part": "A key is made of letters, digits, - and _",
}


def parse_toml(text: str, shown: str) -> dict[str, Any]:
    """The values of a TOML document. Raises PlanProblems with its first error of syntax."""
    _refuse_monsters(text, shown)
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise _syntax_problem(str(error), text, shown) from error
    except RecursionError as error:
        raise PlanProblems((Problem(Place(shown), _TOO_DEEP, _FLATTER),)) from error
    except ValueError as error:
        what = "a number here is too long"
        raise PlanProblems((Problem(Place(shown), what, _SHORTER),)) from error


_TOO_DEEP = f"brackets here are nested deeper than {DEEPEST}"
_FLATTER = "A plan needs three levels"
_SHORTER = "No number in a plan is longer than a few digits"


def _refuse_monsters(text: str, shown: str) -> None:
    """Refuse what a reader would choke on, without reading it."""
    for pattern, what, hint in (
        (_LONG_KEY, f"this key has over {DEEPEST} parts", _FLATTER),
        (_LONG_NUMBER, "this number has a thousand digits or more", _SHORTER),
    ):
        if (at := _outside_strings(pattern, text)) is not None:
            raise _at(text, at, shown, what, hint)
    if text.count("\n") > _MOST_LINES:
        raise PlanProblems((Problem(Place(shown), "over a million lines are no plan"),))
    depth = 0
    for count, token in enumerate(_TOKEN.finditer(text)):
        if token["opens"]:
            depth += 1
            if depth > DEEPEST:
                raise _at(text, token.start(), shown, _TOO_DEEP, _FLATTER)
        elif token["closes"]:
            depth -= 1
        if count > _MOST_TOKENS:
            raise _at(text, token.start(), shown, "there is far too much here for a plan", "")


def _outside_strings(pattern: re.Pattern[str], text: str) -> int | None:
    """Where a pattern is first met that is in no string and no comment."""
    match = pattern.search(text)
    for token in _TOKEN.finditer(text) if match is not None else ():
        if match is None or token.start() > match.start():
            break
        if token.end() > match.start():
            match = pattern.search(text, token.end())
    return match.start() if match is not None else None


def _syntax_problem(said: str, text: str, shown: str) -> PlanProblems:
    match = _AT.fullmatch(said)
    what = match[1] if match else said
    if match and match[2]:
        place = Place(shown, int(match[2]), int(match[3]))
    else:
        place = Place(shown, text.count("\n") + 1, len(text) - text.rfind("\n"))
    hint = next((hint for start, hint in _HINTS.items() if what.startswith(start)), "")
    return PlanProblems((Problem(place, f"not TOML: {_lower(what[:160])}", hint),))


def _at(text: str, position: int, shown: str, what: str, hint: str) -> PlanProblems:
    line = text.count("\n", 0, position) + 1
    column = position - text.rfind("\n", 0, position)
    return PlanProblems((Problem(Place(shown, line, column), what, hint),))


def _lower(text: str) -> str:
    return text[:1].lower() + text[1:]
