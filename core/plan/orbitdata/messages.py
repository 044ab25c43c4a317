"""What kind of file one has been given: its notation, and which message of the CCSDS it holds."""

import re
from enum import StrEnum

from core.errors import PlanProblems
from core.plan.orbitdata.kvn import lines_of, start_of
from core.plan.orbitdata.telling import Spot, Telling, quoted

_OPENING = re.compile(r"\s*CCSDS_([A-Z]{3})_VERS\b")
_TWO_LINES = re.compile(r"[12] [A-Z0-9 ]{5}")

_READ = {"OEM": "trajectory", "OMM": "elements"}
"""The messages that are read, and the kind of course that takes them."""

_VERSIONS = ("2.0", "3.0")


class Message(StrEnum):
    """How a file is written."""

    KVN = "keywords"
    XML = "XML"
    JSON = "JSON"
    TWO_LINES = "two-line elements"


def message_of(text: str, wanted: str, telling: Telling) -> Message:
    """How the file is written. Raises PlanProblems where it is plainly not what is wanted.

    `wanted` is OEM or OMM. XML tells what it holds only as it is read.
    """
    number, line = next(lines_of(text), (1, ""))
    spot = start_of(number, line)
    first = line.lstrip()
    if not first:
        raise telling.stopped((1, 1), "this file is empty", "Fetch it again")
    if first.startswith("<"):
        return Message.XML
    if match := _OPENING.match(line):
        check_kind(match[1], wanted, telling, spot)
        return Message.KVN
    if wanted == "OEM":
        raise _no_trajectory(first, telling, spot)
    if first[0] in "[{":
        return Message.JSON
    return Message.KVN if "=" in first else Message.TWO_LINES


def check_kind(found: str, wanted: str, telling: Telling, spot: Spot) -> None:
    """Raise PlanProblems where a file holds another message of the CCSDS than is wanted."""
    if found == wanted:
        return
    what = f"this is {_with_article(found)}, and {_with_article(wanted)} is wanted here"
    kind = _READ.get(found)
    hint = f'A course of kind = "{kind}" takes it' if kind else f"Ask for {_with_article(wanted)}"
    raise telling.stopped(spot, what, hint)


def check_version(version: str, wanted: str, telling: Telling, spot: Spot) -> None:
    """Raise PlanProblems where a message is of a version that is not read."""
    if version not in _VERSIONS:
        what = f"this {wanted} is of version {quoted(version)}"
        raise telling.stopped(spot, what, f"Versions {' and '.join(_VERSIONS)} are read")


def _with_article(message: str) -> str:
    return f"{'an' if message[0] in 'AO' else 'a'} {message}"


def _no_trajectory(first: str, telling: Telling, spot: Spot) -> PlanProblems:
    if _TWO_LINES.match(first):
        hint = 'A course of kind = "elements" takes them'
        return telling.stopped(spot, "these are two-line elements, and no OEM", hint)
    if first[0] in "[{":
        return telling.stopped(spot, "this is JSON, and no OEM", "An OEM is in keywords or XML")
    return telling.stopped(spot, "this is no OEM", "It begins with CCSDS_OEM_VERS = 2.0, or <")
