"""Lines of the keyword notation of the CCSDS formats: one `KEY = value` on a line."""

from collections.abc import Iterator

from core.plan.orbitdata.telling import Word


def lines_of(text: str) -> Iterator[tuple[int, str]]:
    """Every line that says something, with its number. Comments and empty lines are left out."""
    for number, line in enumerate(text.split("\n"), start=1):
        said = line.strip()
        if said and not (said.startswith("COMMENT") and (said + " ")[7].isspace()):
            yield number, line.rstrip()


def keyed(number: int, line: str) -> tuple[str, Word] | None:
    """The key and the value of a line; None where it has no equals sign after a first word."""
    before, sign, after = line.partition("=")
    key = before.strip()
    if not sign or not key or len(key.split()) > 1:
        return None
    value = after.strip()
    column = line.index(value, len(before) + 1) + 1
    return key, Word(value, (number, column))


def start_of(number: int, line: str) -> tuple[int, int]:
    """Where the first letter of a line stands."""
    return number, len(line) - len(line.lstrip()) + 1
