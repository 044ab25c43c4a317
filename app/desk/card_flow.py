"""Which cards stand in the column, and where: places only, no words."""

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum

from app.theme import Theme

MOST_LINES = 3
"""At most so many events before the big card have a line of their own."""

_HEIGHTS_PX = {
    "due": 46,
    "line": 58,
    "kept": 58,
    "more": 26,
    "big": 208,
    "card": 74,
    "now": 28,
    "summary": 30,
}
LINE_PX = 26
"""A line more on a card."""
_GAP_PX = 8


class Kind(Enum):
    """What a row of the column is."""

    DUE = "due"
    LINE = "line"
    MORE = "more"
    BIG = "big"
    CARD = "card"
    NOW = "now"
    KEPT = "kept"
    """The next live moment, kept in sight while the column is scrolled ahead of it."""
    SUMMARY = "summary"


@dataclass(frozen=True, slots=True)
class Row:
    """A row and its place. `index` is that of its card.

    Of MORE, `count` is how many events it stands for, of DUE and SUMMARY how many lines. Of NOW
    it is how far off the present is: negative that many cards back, positive ahead, 0 here.
    """

    kind: Kind
    top_px: int
    height_px: int
    index: int = -1
    count: int = 0

    @property
    def bottom_px(self) -> int:
        """The first pixel below it."""
        return self.top_px + self.height_px

    @property
    def middle_px(self) -> int:
        """Its height's middle."""
        return self.top_px + self.height_px // 2


def _none(_index: int) -> int:
    return 0


def _alone(index: int) -> int:
    return index


@dataclass(frozen=True, slots=True)
class Shape:
    """What the flow must know of a view."""

    count: int
    next_index: int
    big_index: int | None
    due: int
    """How many lines take what is due."""
    tall: frozenset[int] = frozenset()
    """Those before the big card for which a thin line has no room."""
    more_lines: Callable[[int], int] = _none
    """How many lines more than usual a card takes; asked only of cards that may be in sight."""
    big_lines: Callable[[int], int] = _none
    """The same of the big card."""
    last_with: Callable[[int], int] = _alone
    """The last card that must be in sight where this one is: outcomes of one event stand together.
    """


class _Stack:
    """Rows put one below the other as long as there is room."""

    def __init__(self, shape: Shape, theme: Theme, height_px: int, *, summary: int) -> None:
        self.rows: list[Row] = []
        self._theme = theme
        self._more_lines = {Kind.CARD: shape.more_lines, Kind.BIG: shape.big_lines}
        self._last_with = shape.last_with
        self._top_px = 0
        self._summary = summary
        self._end_px = height_px
        self.room_px = height_px
        if summary:
            self.room_px -= self.needed_px(Kind.SUMMARY, summary - 1)

    def needed_px(self, kind: Kind, lines: int = 0) -> int:
        """The height of a row of that kind, and so many lines more, with the space above it."""
        height_px = self._theme.px(_HEIGHTS_PX[kind.value] + lines * LINE_PX)
        return height_px + self._theme.px(_GAP_PX)

    def add(self, kind: Kind, index: int = -1, count: int = 0) -> bool:
        """Put a row below the others; False where there is no room for it."""
        lines = self._more_lines.get(kind, _none)(index)
        if kind in (Kind.SUMMARY, Kind.DUE):
            lines = count - 1
        height_px = self._theme.px(_HEIGHTS_PX[kind.value] + lines * LINE_PX)
        if self._top_px + height_px > self.room_px:
            return False
        self.rows.append(Row(kind, self._top_px, height_px, index, count))
        self._top_px += height_px + self._theme.px(_GAP_PX)
        return True

    def cards(self, first: int, count: int) -> None:
        """Put cards below the others, as many as there is room for.

        What must stand together is put as thin lines where there is no room for cards.
        """
        index = first
        while index < count:
            last = min(self._last_with(index), count - 1)
            kinds = (Kind.CARD,) if last == index else (Kind.CARD, Kind.LINE)
            if not any(self.together(kind, index, last) for kind in kinds):
                return
            index = last + 1

    def together(self, kind: Kind, first: int, last: int) -> bool:
        """Put all these cards below the others, or none of them."""
        kept, top_px = len(self.rows), self._top_px
        if all(self.add(kind, index) for index in range(first, last + 1)):
            return True
        del self.rows[kept:]
        self._top_px = top_px
        return False

    def done(self) -> tuple[Row, ...]:
        """The rows, the summary below the last of them."""
        self.room_px = self._end_px
        if self._summary:
            self.add(Kind.SUMMARY, count=self._summary)
        return tuple(self.rows)


def before_big(shape: Shape) -> tuple[int, ...]:
    """The cards before the big one that have a line: outcomes of one event, else the first."""
    big = shape.next_index if shape.big_index is None else shape.big_index
    before = range(shape.next_index, big)
    lasts = [(index, last) for index in before if (last := shape.last_with(index)) > index]
    joined = {each for pair in lasts for each in pair}
    kept = [index for index in before if index in joined][-MOST_LINES:]
    others = [index for index in before if index not in joined]
    return tuple(sorted([*others[: MOST_LINES - len(kept)], *kept]))


def at_rest(shape: Shape, theme: Theme, height_px: int, *, summary: int) -> tuple[Row, ...]:
    """The column at now: what is due, what comes before the big card, that, and what follows.

    `summary`: how many lines the summary takes, 0 for none.
    """
    stack = _Stack(shape, theme, height_px, summary=summary)
    if shape.due:
        stack.add(Kind.DUE, count=shape.due)
    if shape.big_index is None:
        stack.cards(shape.next_index, shape.count)
        return stack.done()
    lines = before_big(shape)
    for index in lines:
        stack.add(Kind.CARD if index in shape.tall else Kind.LINE, index)
    hidden = [i for i in range(shape.next_index, shape.big_index) if i not in lines]
    if hidden:
        stack.add(Kind.MORE, hidden[0], len(hidden))
    stack.add(Kind.BIG, shape.big_index)
    after, last = shape.big_index + 1, shape.last_with(shape.big_index)
    if last >= after and not stack.together(Kind.CARD, after, last):
        stack.together(Kind.LINE, after, last)
    stack.cards(max(after, last + 1), shape.count)
    return stack.done()


def scrolled(
    shape: Shape, first: int, theme: Theme, height_px: int, *, summary: int
) -> tuple[Row, ...]:
    """The column from the card `first` on, all alike, with a marker that tells where now is."""
    stack = _Stack(shape, theme, height_px, summary=summary)
    if first > shape.next_index:
        stack.add(Kind.NOW, count=shape.next_index - first)
        if shape.big_index is not None and shape.big_index < first:
            stack.add(Kind.KEPT, shape.big_index)
        stack.cards(first, shape.count)
        return stack.done()
    # The marker may have to stand at the bottom: keep its room.
    marker_px = stack.needed_px(Kind.NOW)
    stack.room_px -= marker_px
    stack.cards(first, min(shape.next_index, shape.count))
    stack.room_px += marker_px
    shown = first + len(stack.rows)
    stack.add(Kind.NOW, count=shape.next_index - shown)
    if shown == shape.next_index:
        stack.cards(shown, shape.count)
    return stack.done()
