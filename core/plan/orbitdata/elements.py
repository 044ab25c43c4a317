"""Reads mean elements: CCSDS OMM (502.0-B) in keywords, XML or JSON, and two-line elements."""

from pathlib import Path

from core.plan.files import read_text
from core.plan.orbitdata.elements_kvn import read_kvn
from core.plan.orbitdata.elements_xml import read_xml
from core.plan.orbitdata.mean import mean_elements
from core.plan.orbitdata.messages import Message, check_version, message_of
from core.plan.orbitdata.model import MeanElements
from core.plan.orbitdata.plainjson import flat_objects
from core.plan.orbitdata.telling import Telling, Word
from core.plan.orbitdata.two_line import two_lines

LARGEST_BYTES = 1_000_000
ONE_OBJECT = "Keep the elements of the one object in the file"
"""The remedy for a file that is too large."""

_ONE = "Keep one of them in the file"


def read_elements(path: Path, shown: str = "") -> MeanElements:
    """The elements in a file; `shown` is the file's name in problems.

    Raises PlanProblems with everything wrong with it (the first twenty). A file of over 1 MB is
    refused without being read.
    """
    shown = shown or str(path)
    return elements_of(read_text(path, shown, LARGEST_BYTES, ONE_OBJECT), shown)


def elements_of(text: str, shown: str) -> MeanElements:
    """The elements in a text; raises PlanProblems as `read_elements` does."""
    telling = Telling(shown)
    match message_of(text, "OMM", telling):
        case Message.XML:
            return read_xml(text, telling)
        case Message.JSON:
            return _read_json(text, telling)
        case Message.KVN:
            return read_kvn(text, telling)
        case _:
            return _read_lines(text, telling)


def elements_of_lines(line_1: str, line_2: str, shown: str = "tle") -> MeanElements:
    """The elements of two lines out of a plan. Raises PlanProblems, with lines 1 and 2."""
    telling = Telling(shown)
    lines = (Word(line_1.rstrip(), (1, 1)), Word(line_2.rstrip(), (2, 1)))
    return _checked(two_lines(lines, "", telling), telling)


def _checked(elements: MeanElements | None, telling: Telling) -> MeanElements:
    if elements is None or telling.any:
        raise telling.raised()
    return elements


def _read_json(text: str, telling: Telling) -> MeanElements:
    found = flat_objects(text, telling)
    if len(found) != 1:
        what = f"this file holds {len(found)} sets of elements" if found else "this list is empty"
        raise telling.stopped((1, 1), f"{what}: one is wanted", _ONE if found else "Fetch it again")
    words = found[0]
    version = words.get("CCSDS_OMM_VERS")
    if version is not None:
        check_version(version.text, "OMM", telling, version.spot)
    return mean_elements(words, (1, 1), telling, plain=True)


def _read_lines(text: str, telling: Telling) -> MeanElements:
    """The elements of two lines, or of three, of which the first is a name."""
    words = [
        Word(line.rstrip(), (number, 1))
        for number, line in enumerate(text.split("\n"), start=1)
        if line.strip()
    ]
    name = ""
    if not words[0].text.startswith("1 "):
        name = words.pop(0).text.removeprefix("0 ").strip()
    if len(words) > 2:
        what = f"here is more than one set of two-line elements: {len(words)} lines"
        raise telling.stopped(words[2].spot, what, _ONE)
    if len(words) < 2:
        hint = "An OMM begins with CCSDS_OMM_VERS = 2.0; two-line elements have two lines"
        raise telling.stopped((1, 1), "there are no mean elements in this file", hint)
    return _checked(two_lines((words[0], words[1]), name, telling), telling)
