"""What the strip draws of a lane: contact, gap, either, closed, one after another."""

from collections.abc import Iterable, Sequence

from core.entries.model import Shut
from core.signal.cuts import EVER_MS
from core.signal.joining import ends
from core.signal.lane import InWorld
from core.signal.model import Fill, Stretch
from core.signal.tiles import Tile

Piece = tuple[int, int, Fill, str | None, str]
"""From, to, fill, ground station, cause."""


def stretches(
    lane: str, worlds: Sequence[InWorld], shut: Iterable[tuple[int, int]]
) -> tuple[Stretch, ...]:
    """A lane's stretches over all of time, meeting without a gap, no two neighbours alike."""
    pieces = _plain(worlds[0].tiles) if len(worlds) == 1 else _laid_over(worlds)
    for from_ms, to_ms in shut:
        pieces = [part for piece in pieces for part in _closed(piece, from_ms, to_ms)]
    return tuple(
        Stretch(lane, ends(from_ms), ends(to_ms), fill, ground, cause)
        for from_ms, to_ms, fill, ground, cause in _run_together(pieces)
    )


def shut_times(lane: str, shut: Iterable[Shut]) -> tuple[tuple[int, int], ...]:
    """When a lane is closed by the ground, from what was typed in that order."""
    found: list[tuple[int, int]] = []
    begun_ms: int | None = None
    for word in sorted((s for s in shut if s.lane == lane), key=lambda s: s.at_ms):
        if word.shut and begun_ms is None:
            begun_ms = word.at_ms
        elif not word.shut and begun_ms is not None:
            found.append((begun_ms, word.at_ms))
            begun_ms = None
    if begun_ms is not None:
        found.append((begun_ms, EVER_MS))
    return tuple(found)


def _plain(tiles: Iterable[Tile]) -> list[Piece]:
    return [
        (t.from_ms, t.to_ms, Fill.CONTACT, t.ground, "")
        if t.contact
        else (t.from_ms, t.to_ms, Fill.GAP, None, t.cause)
        for t in tiles
    ]


def _laid_over(worlds: Sequence[InWorld]) -> list[Piece]:
    """The worlds' tiles over each other, each stretch of time in which no world changes."""
    tiles = [world.tiles for world in worlds]
    at = [0] * len(tiles)
    bounds_ms = sorted({tile.from_ms for row in tiles for tile in row})
    pieces: list[Piece] = []
    for from_ms, to_ms in zip(bounds_ms, [*bounds_ms[1:], EVER_MS], strict=True):
        here = []
        for lane, row in enumerate(tiles):
            if row[at[lane]].to_ms <= from_ms:
                at[lane] += 1
            here.append(row[at[lane]])
        pieces.append(_together(from_ms, to_ms, here))
    return pieces


def _together(from_ms: int, to_ms: int, tiles: Sequence[Tile]) -> Piece:
    """What the tiles of all worlds come to: either where they do not agree on contact.

    Of several causes that of the nominal world, or the first that has one, stands.
    """
    first, gap, same, heard = tiles[0], None, True, False
    for tile in tiles:
        if tile.contact:
            heard = True
            same = same and tile.ground == first.ground
        elif gap is None:
            gap = tile
    if gap is None:
        return from_ms, to_ms, Fill.CONTACT, first.ground if same else None, ""
    return from_ms, to_ms, Fill.EITHER if heard else Fill.GAP, None, gap.cause


def _closed(piece: Piece, shut_ms: int, open_ms: int) -> list[Piece]:
    """A piece with its closed part marked; a gap stays a gap, whoever has closed the lane."""
    from_ms, to_ms, fill, ground, cause = piece
    begin_ms, end_ms = max(from_ms, shut_ms), min(to_ms, open_ms)
    if fill is Fill.GAP or begin_ms >= end_ms:
        return [piece]
    parts: list[Piece] = [
        (from_ms, begin_ms, fill, ground, cause),
        (begin_ms, end_ms, Fill.CLOSED, None, ""),
        (end_ms, to_ms, fill, ground, cause),
    ]
    return [part for part in parts if part[0] < part[1]]


def _run_together(pieces: Iterable[Piece]) -> list[Piece]:
    """Neighbours that are all one thing become one."""
    kept: list[Piece] = []
    for piece in pieces:
        if kept and kept[-1][2:] == piece[2:]:
            kept[-1] = (kept[-1][0], *piece[1:])
        else:
            kept.append(piece)
    return kept
