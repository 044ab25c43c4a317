"""TO SAY: corrections owed, the sentence of the moment, and for how long it stays true."""

from dataclasses import dataclass
from enum import Enum

from app.desk import ink
from app.desk.ink import Placed, Run
from app.desk.laid_panel import LaidPanel
from app.desk.panel import HEAD, PAD
from app.theme import Text, Theme
from core.board.model import Tone
from core.board.programme import Sentence, ToSay

_FOOT = 16
_ALL_LINES = 99
_APART = 8


class Length(Enum):
    """How long a sentence may be, with its word on the screen."""

    LINE = "a line"
    TWENTY = "20 seconds"
    LONG = "long"

    def of(self, sentence: Sentence) -> str:
        """Give the sentence at that length."""
        texts = {Length.LINE: sentence.line, Length.TWENTY: sentence.twenty}
        return texts.get(self, sentence.long) or sentence.line


_SHORTER = {
    Length.LONG: (Length.LONG, Length.TWENTY, Length.LINE),
    Length.TWENTY: (Length.TWENTY, Length.LINE),
    Length.LINE: (Length.LINE,),
}
_STEP = {Text.SPOKEN: 28, Text.BODY: 25, Text.NOTE: 23, Text.HEADING: 24}
"""From one line to the next, at 1600x1000."""


@dataclass(frozen=True, slots=True)
class _Block:
    """Lines that stand together: shown whole, or not at all."""

    lines: tuple[str, ...]
    style: Text
    tone: Tone = Tone.PLAIN

    @property
    def high(self) -> int:
        """How high it is at 1600x1000."""
        return len(self.lines) * _STEP[self.style] + _APART


class ToSayPanel(LaidPanel):
    """The panel of the sentence. It is never cut: a shorter one is taken where it must be."""

    def __init__(self, theme: Theme) -> None:
        super().__init__("TO SAY", theme)
        self._shown = ToSay()
        self._wanted = Length.TWENTY

    def show_to_say(self, to_say: ToSay) -> None:
        """Show what may be said now."""
        if to_say != self._shown:
            self._shown = to_say
            self.setAccessibleDescription(self._spoken_at(self._wanted))
            self.lay()

    def next_length(self) -> None:
        """Go on to the next length: a line, twenty seconds, long."""
        lengths = list(Length)
        self._wanted = lengths[(lengths.index(self._wanted) + 1) % len(lengths)]
        self.lay()

    @property
    def grave(self) -> bool:
        """Whether the board is grave."""
        return self._shown.grave

    @property
    def first(self) -> Sentence | None:
        """What is to be said first: a correction that is owed, else the sentence of the moment."""
        return next(iter((*self._shown.owed, *self._shown.sentences)), None)

    @property
    def spoken(self) -> str:
        """That sentence as it is shown, at the length that has room."""
        return self._spoken_at(self.length)

    @property
    def length(self) -> Length:
        """The length that is shown."""
        return self._laid(self.height())[0]

    def least_px(self) -> int:
        """How high it has to be for the shortest sentence alone."""
        return self._high_px(self._top(Length.LINE))

    def wanted_px(self) -> int:
        """How high it is with the length that is wanted and all that stands below."""
        return self._high_px([*self._top(self._wanted), *self._below()])

    def first_px(self, most_px: float) -> int:
        """How high it is with the longest sentence that fits, and the line for who rejoins."""
        length, blocks = self._laid(most_px - 1)
        needed = len(self._top(length)) + bool(self._shown.away)
        return self._high_px(blocks[:needed])

    def fit_px(self, most_px: float) -> int:
        """How high it is with what of that fits whole."""
        return self._high_px(self._laid(most_px - 1)[1])

    def placed(self) -> list[Placed]:
        """Place the sentence, and below it what there is whole room for."""
        theme, room = self.theme, self.room()
        length, blocks = self._laid(self.height())
        words = ink.placed(self.heading_end_px(), room.top(), self._beside_heading(length))
        top_px = room.top() + theme.px(_APART)
        for block in blocks:
            font, colour = theme.font(block.style), theme.ink.tone(block.tone)
            baseline_px = top_px
            for line in block.lines:
                baseline_px += theme.px(_STEP[block.style])
                words += ink.placed(room.left(), baseline_px, [Run(line, font, colour)])
            top_px += theme.px(block.high)
        return words

    def _beside_heading(self, length: Length) -> list[Run]:
        """How long it stays true, and which length is shown where there is more than one."""
        theme, first = self.theme, self.first
        told = ["nothing now" if first is None else first.true_for]
        if first is not None and len({each.of(first) for each in Length}) > 1:
            told.append(length.value + ("" if length is self._wanted else ", the panel is full"))
        if self._shown.grave:
            told.append("grave")
        font = theme.font(Text.TAG)
        return [Run(text, font, theme.ink.quiet, theme.px(20)) for text in told if text]

    def _spoken_at(self, length: Length) -> str:
        return "" if self.first is None else length.of(self.first)

    def _high_px(self, blocks: list[_Block]) -> int:
        return self.theme.px(HEAD + sum(block.high for block in blocks) + _FOOT)

    def _laid(self, most_px: float) -> tuple[Length, list[_Block]]:
        """Give the length and the blocks that fit a height; the shortest sentence is always there.

        Sizes are rounded one by one, so a pixel more or less is no matter.
        """
        lengths = _SHORTER[self._wanted]
        fits = (each for each in lengths if self._high_px(self._top(each)) <= most_px + 1)
        length = next(fits, Length.LINE)
        blocks = self._top(length)
        for block in self._below():
            if self._high_px([*blocks, block]) > most_px + 1:
                break
            blocks.append(block)
        return length, blocks

    def _top(self, length: Length) -> list[_Block]:
        """Lay out what is to be said first, with a heading of its own where it is owed."""
        if self.first is None:
            return []
        blocks = [self._block(f"“{length.of(self.first)}”", Text.SPOKEN)]
        if self._shown.owed:
            owed = len(self._shown.owed)
            words = "CORRECTION OWED" if owed == 1 else f"{owed} CORRECTIONS OWED"
            blocks.insert(0, self._block(words, Text.HEADING, Tone.CHANGE))
        return blocks

    def _below(self) -> list[_Block]:
        """Lay out the rest, the most needed first."""
        shown = self._shown
        told = [(f"“{shown.away}”", Text.BODY, Tone.PLAIN)] if shown.away else []
        told += [(f"“{each.line}”", Text.BODY, Tone.CHANGE) for each in shown.owed[1:]]
        told += [(shown.said, Text.NOTE, Tone.QUIET)] if shown.said else []
        others = shown.sentences if shown.owed else shown.sentences[1:]
        told += [(f"“{each.line}”", Text.BODY, Tone.QUIET) for each in others]
        return [self._block(*each) for each in told]

    def _block(self, text: str, style: Text, tone: Tone = Tone.PLAIN) -> _Block:
        room_px = self.width() - 2 * self.theme.px(PAD)
        return _Block(ink.wrapped(text, self.theme.font(style), room_px, _ALL_LINES), style, tone)
