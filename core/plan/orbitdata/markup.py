"""XML of the CCSDS formats, element by element with places, read by the standard library's expat.

Document types are refused as soon as one begins: with them fall entities of a file's own, and so
those that grow without end or fetch other files.
"""

from itertools import count
from typing import Protocol
from xml.parsers import expat

from core.plan.orbitdata.telling import AGAIN, Spot, Telling

DEEPEST = 50
_MOST_ELEMENTS = 2_000_000

_FEWER = "Ask for coarser steps"
_CUT = (
    expat.errors.XML_ERROR_NO_ELEMENTS,
    expat.errors.XML_ERROR_UNCLOSED_TOKEN,
    expat.errors.XML_ERROR_UNCLOSED_CDATA_SECTION,
    expat.errors.XML_ERROR_PARTIAL_CHAR,
)


class Visitor(Protocol):
    """Is told of each element as it begins and ends; `spot` is where it begins."""

    def opened(self, tag: str, attributes: dict[str, str], spot: Spot) -> None:
        """An element begins."""

    def closed(self, tag: str, text: str, unit: str, spot: Spot) -> None:
        """An element ends; `text` is what stood in it, without the spaces around."""


def walk(text: str, telling: Telling, visitor: Visitor) -> None:
    """Tell `visitor` of every element. Raises PlanProblems where the text is no XML to the end."""
    # The text is Unicode already, so whatever encoding it names for itself is of no account.
    parser = expat.ParserCreate("utf-8")
    parser.buffer_text = True
    parser.buffer_size = 65_536
    open_elements: list[tuple[str, str, Spot]] = []
    pieces: list[str] = []
    counted = count()

    def here() -> Spot:
        return parser.CurrentLineNumber, parser.CurrentColumnNumber + 1

    def begin(name: str, attributes: dict[str, str]) -> None:
        spot, tag = here(), name.rpartition(":")[2]
        if len(open_elements) >= DEEPEST:
            what = f"elements here are nested deeper than {DEEPEST}"
            raise telling.stopped(spot, what, "These formats need eight levels")
        if next(counted) >= _MOST_ELEMENTS:
            raise telling.stopped(spot, "there are over two million elements here", _FEWER)
        open_elements.append((tag, attributes.get("units", ""), spot))
        pieces.clear()
        visitor.opened(tag, attributes, spot)

    def end(_name: str) -> None:
        tag, unit, spot = open_elements.pop()
        visitor.closed(tag, "".join(pieces).strip(), unit, spot)
        pieces.clear()

    def document_type(*_said: object) -> None:
        what = "a document type (<!DOCTYPE) is not taken"
        raise telling.stopped(here(), what, "Take it out: orbit data needs none")

    parser.StartElementHandler = begin
    parser.EndElementHandler = end
    parser.CharacterDataHandler = pieces.append
    parser.StartDoctypeDeclHandler = document_type
    try:
        parser.Parse(text, True)  # noqa: FBT003  # expat takes no names
    except expat.ExpatError as error:
        spot, said = (error.lineno, error.offset + 1), expat.ErrorString(error.code)
        if said in _CUT:
            inside = f" inside <{open_elements[-1][0]}>" if open_elements else ""
            raise telling.stopped(spot, f"the file is cut off here{inside}", AGAIN) from error
        raise telling.stopped(spot, f"not XML: {said}", "Every <name> ends with </name>") from error
