"""TOML text to plain values; the first error of syntax with its place and a remedy.

`tomllib` recurses on nested values and takes its time over very long dotted keys, so both are
counted before it sees the text.
"""

import re
import tomllib
from typing import Any

from core.errors import Place, PlanProblems, Problem

DEEPEST = 50

_TOKEN = re.compile(
    r'"""(?:[^"\\]+|\\.|"(?!""))*(?:"""|\Z)'
    r"|'''(?:[^']+|'(?!''))*(?:'''|\Z)"
    r'|"[^"\\\n]*(?:\\.[^"\\\n]*)*"'
    r"|'[^'\n]*'"
    r"|#[^\n]*"
    r"|(?P<opens>[\[{])|(?P<closes>[\]}])",
    re.DOTALL,
)
_LONG_KEY = re.compile(
    r"""^[ \t]*\[{0,2}[ \t]*(?:(?:[\w-]+|"[^"\n]*"|'[^'\n]*')[ \t]*\.[ \t]*){50}""",
    re.MULTILINE,
)
_LONG_NUMBER = re.compile(r"(?<=[\s=\[,])[+-]?\d[\d_]{4000,}")
_AT = re.compile(r"(?s)(.*) \(at (?:line (\d+), column (\d+)|end of document)\)")
_MOST_TOKENS = 3_000_000

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
    _refuse_depth(text, shown)
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise _syntax_problem(str(error), text, shown) from error
    except RecursionError as error:
        raise PlanProblems((Problem(Place(shown), _TOO_DEEP, _FLATTER),)) from error
    except ValueError as error:
        raise _number_problem(text, shown) from error


_TOO_DEEP = f"brackets here are nested deeper than {DEEPEST}"
_FLATTER = "A plan needs three levels"


def _refuse_depth(text: str, shown: str) -> None:
    if match := _LONG_KEY.search(text):
        raise _at(text, match.start(), shown, f"this key has over {DEEPEST} parts", _FLATTER)
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


def _syntax_problem(said: str, text: str, shown: str) -> PlanProblems:
    match = _AT.fullmatch(said)
    what = match[1] if match else said
    if match and match[2]:
        place = Place(shown, int(match[2]), int(match[3]))
    else:
        place = Place(shown, text.count("\n") + 1, len(text) - text.rfind("\n"))
    hint = next((hint for start, hint in _HINTS.items() if what.startswith(start)), "")
    return PlanProblems((Problem(place, f"not TOML: {_lower(what[:160])}", hint),))


def _number_problem(text: str, shown: str) -> PlanProblems:
    hint = "No number in a plan is longer than a few digits"
    if match := _LONG_NUMBER.search(text):
        return _at(text, match.start(), shown, "this number has thousands of digits", hint)
    return PlanProblems((Problem(Place(shown), "a number here is far too long", hint),))


def _at(text: str, position: int, shown: str, what: str, hint: str) -> PlanProblems:
    line = text.count("\n", 0, position) + 1
    column = position - text.rfind("\n", 0, position)
    return PlanProblems((Problem(Place(shown, line, column), what, hint),))


def _lower(text: str) -> str:
    return text[:1].lower() + text[1:]
