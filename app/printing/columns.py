"""How wide the columns of a table are: as what stands in them needs, as far as there is room."""

from collections.abc import Sequence
from dataclasses import dataclass

from app.printing.blocks import Cell, Column, Table
from app.printing.faces import PT, Face
from app.printing.wrapping import least_tw, natural_tw

BETWEEN_TW = 9 * PT
"""From one column to the next."""
SIGN_TW = 7 * PT
"""A contact mark is so wide."""
SIGN_ROOM_TW = SIGN_TW + 4 * PT
"""What it takes from the text beside it."""

_COMFORT_TW = 120 * PT
"""Narrower than that, long text becomes a pile of words."""


@dataclass(frozen=True, slots=True)
class Need:
    """How wide a column would like to be, and how wide its widest word is.

    `kept_tw` is what it gets at least as long as all have room: all of it, where its lines are not
    to be broken.
    """

    natural_tw: float
    kept_tw: float
    least_tw: float


def widths_tw(table: Table, room_tw: float) -> tuple[float, ...]:
    """The width of each column. All of them together, with what is between, have room."""
    count = len(table.columns)
    needs = [_need(table, place) for place in range(count)]
    inner_tw = room_tw - BETWEEN_TW * (count - 1)
    return tuple(_shared(table.columns, needs, inner_tw))


def comfortable_tw(table: Table) -> float:
    """So wide that nothing is broken that should be kept, and words are not piled up."""
    needs = [_need(table, place) for place in range(len(table.columns))]
    inner_tw = sum(max(n.kept_tw, min(n.natural_tw, _COMFORT_TW)) for n in needs)
    return inner_tw + BETWEEN_TW * (len(needs) - 1)


def text_faces(cell: Cell) -> tuple[Face, Face]:
    """The letters of its text, and of what stands below."""
    return (Face.STRONG if cell.strong else Face.CELL), Face.FINE


def _need(table: Table, place: int) -> Need:
    column = table.columns[place]
    naturals, leasts = [natural_tw(Face.HEAD, column.head)], [least_tw(Face.HEAD, column.head)]
    for row in table.rows:
        if row.group:
            continue
        cell = row.cells[place]
        beside_tw = SIGN_ROOM_TW if cell.sign is not None else 0.0
        for face, text in zip(text_faces(cell), (cell.text, cell.below), strict=True):
            naturals.append(natural_tw(face, text) + beside_tw)
            leasts.append(least_tw(face, text) + beside_tw)
    natural = max(naturals)
    return Need(natural, natural if column.keep else max(leasts), max(leasts))


def _shared(columns: Sequence[Column], needs: Sequence[Need], room_tw: float) -> list[float]:
    left_tw = room_tw - sum(need.natural_tw for need in needs)
    if left_tw >= 0:
        wide = sum(column.wide for column in columns)
        share_tw = left_tw / wide if wide else 0.0
        return [
            need.natural_tw + (share_tw if column.wide else 0.0)
            for column, need in zip(columns, needs, strict=True)
        ]
    for leasts in ([n.kept_tw for n in needs], [n.least_tw for n in needs]):
        if sum(leasts) <= room_tw:
            return _grown(needs, leasts, room_tw)
    return _squeezed(needs, room_tw)


def _grown(needs: Sequence[Need], leasts: Sequence[float], room_tw: float) -> list[float]:
    """What is left over goes to the columns by what they still want."""
    wants = [need.natural_tw - least_tw for need, least_tw in zip(needs, leasts, strict=True)]
    share = (room_tw - sum(leasts)) / (sum(wants) or 1.0)
    return [least_tw + share * want for least_tw, want in zip(leasts, wants, strict=True)]


def _squeezed(needs: Sequence[Need], room_tw: float) -> list[float]:
    """Where not even the widest words have room: the narrow columns keep theirs."""
    found = [0.0] * len(needs)
    rest_tw, rest = room_tw, len(needs)
    for place in sorted(range(len(needs)), key=lambda each: needs[each].least_tw):
        found[place] = min(needs[place].least_tw, rest_tw / rest)
        rest_tw -= found[place]
        rest -= 1
    return found
