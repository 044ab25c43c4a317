"""The rehearsal as a small picture: what happened, was heard, entered and on the air, and when."""

from collections.abc import Iterator

from app.record.fills import slanted
from app.record.svg import Ink, box, dot, line, path, picture, segments, width_of, words
from core.rehearsal.answering import Answered
from core.rehearsal.model import Surprises
from core.rehearsal.score import Score
from core.rehearsal.scorewords import ScoreWords
from core.times.writing import MINUTE_MS

_LEFT, _RIGHT = 128.0, 12.0
_TOP, _ROW = 30.0, 34.0
_STEPS_MIN = (1, 2, 5, 10, 15, 30, 60, 120, 180, 360)
_MOST_LABELS = 9
_SIZE = 13.0
_ROWS = ("Happened", "Heard", "Entered", "On the air", "Countdown wrong")

CAPTION = (
    "Ring: heard as it happened. Disc: a surprise, and what was entered rightly. "
    "Diamond: entered wrongly. Cross under a report: not entered. Time runs to the right."
)
"""What the signs mean."""


def score_picture(score: Score, day: Surprises, told: ScoreWords, ink: Ink, width: float) -> str:
    """The picture, with its words in that ink."""
    drawn = _Drawing(score, day, told, ink, width)
    height = _TOP + _ROW * len(_ROWS) + 6
    return picture(width, height, f"{day.title}, from left to right", drawn.shapes(), ink.font)


class _Drawing:
    """One picture being drawn."""

    def __init__(
        self, score: Score, day: Surprises, told: ScoreWords, ink: Ink, width: float
    ) -> None:
        self._score = score
        self._day = day
        self._told = told
        self._ink = ink
        self._width = width

    def shapes(self) -> Iterator[str]:
        """Everything, what lies lower first."""
        yield from self._scale()
        for row, name in enumerate(_ROWS):
            yield line(0, self._top(row), self._width, self._top(row), self._ink.rule)
            yield words(0, self._middle(row) + 4.5, name, self._ink.quiet, _SIZE)
        for _, at_ms in self._score.happened:
            x = self._x(at_ms)
            yield line(x, self._middle(0) - 7, x, self._middle(0) + 7, self._ink.text, 1.6)
        for each in self._score.reports:
            yield from self._report(each)
        yield from self._runs()
        for from_ms, to_ms in self._score.wrong:
            yield from self._hatched(4, from_ms, to_ms)

    # ------------------------------------------------------------ where

    def _x(self, at_ms: int) -> float:
        """Where an instant is; what lies outside the rehearsal is at its edge."""
        begin_ms, end_ms = self._day.begin_ms, self._day.end_ms
        part = (min(max(at_ms, begin_ms), end_ms) - begin_ms) / max(1, end_ms - begin_ms)
        return _LEFT + part * (self._width - _LEFT - _RIGHT)

    def _top(self, row: int) -> float:
        return _TOP + row * _ROW

    def _middle(self, row: int) -> float:
        return self._top(row) + _ROW / 2

    # ------------------------------------------------------------ rows

    def _scale(self) -> Iterator[str]:
        """Clock times along the top, each with a line down."""
        begin_ms, end_ms = self._day.begin_ms, self._day.end_ms
        room = (end_ms - begin_ms) / MINUTE_MS / _MOST_LABELS
        step_ms = next((s for s in _STEPS_MIN if s >= room), _STEPS_MIN[-1]) * MINUTE_MS
        bottom = self._top(len(_ROWS))
        for at_ms in range(-(-begin_ms // step_ms) * step_ms, end_ms + 1, step_ms):
            x, text = self._x(at_ms), self._told.minute(at_ms)
            yield line(x, _TOP - 6, x, bottom, self._ink.rule)
            middle = min(x, self._width - width_of(text, _SIZE) / 2)
            yield words(middle, _TOP - 11, text, self._ink.quiet, _SIZE, "middle")

    def _report(self, each: Answered) -> Iterator[str]:
        """A report, and what was made of it on the row below."""
        ink, x, y = self._ink, self._x(each.at_ms), self._middle(1)
        below = self._middle(2)
        if each.natural:
            yield dot(x, y, 3.4, ink.ground, ink.text)
        else:
            yield dot(x, y, 4.2, ink.change)
        if each.right is None:
            return
        if each.after_ms is None:
            yield segments(_cross(x, below, 4), ink.text, 1.8)
            return
        entered_x = self._x(each.at_ms + each.after_ms)
        yield line(x, y + 5, entered_x, below - 5, ink.thread)
        if each.right:
            yield dot(entered_x, below, 3.4, ink.text)
        else:
            yield path(_diamond(entered_x, below, 5.5), ink.text, 1.8)

    def _runs(self) -> Iterator[str]:
        top, height = self._top(3) + 5, _ROW - 10
        for run in self._score.runs:
            x, to_x = self._x(run.from_ms), self._x(run.to_ms)
            yield box(x, top, max(2.0, to_x - x), height, "none", self._ink.text, 1.4)
            name = self._told.name(run.item)
            if width_of(name, _SIZE) <= to_x - x - 8:
                yield words(x + 4, self._middle(3) + 4.5, name, self._ink.text, _SIZE)

    def _hatched(self, row: int, from_ms: int, to_ms: int) -> Iterator[str]:
        """A stretch, hatched and outlined."""
        x, top, height = self._x(from_ms), self._top(row) + 8, _ROW - 16
        wide = max(2.0, self._x(to_ms) - x)
        yield segments(slanted(x, top, wide, height), self._ink.text, 1.2)
        yield box(x, top, wide, height, "none", self._ink.text, 1.2)


def _cross(x: float, y: float, arm: float) -> Iterator[tuple[float, float, float, float]]:
    yield x - arm, y - arm, x + arm, y + arm
    yield x - arm, y + arm, x + arm, y - arm


def _diamond(x: float, y: float, arm: float) -> Iterator[tuple[float, float]]:
    yield from ((x, y - arm), (x + arm, y), (x, y + arm), (x - arm, y), (x, y - arm))
