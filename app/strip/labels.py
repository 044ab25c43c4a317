"""Everything written on the strip, placed so that nothing runs into anything else."""

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor

from app.patterns import muted
from app.strip.air import NO_AIR, AirColumn
from app.strip.air_paint import NOTHING_HELD, Held
from app.strip.air_words import AirWords
from app.strip.columns import Column, Columns
from app.strip.frame import Frame, heading_px, sagitta_px
from app.strip.grounds import ground_names, ground_px
from app.strip.placing import Placing
from app.theme import Text, Theme
from app.words import Words
from core.board.model import EdgeLabel
from core.signal.model import Fill

_ROOM_FOR_CAUSE_PX = 120
"""A gap lower than this does not say its cause: the card and the panel do."""
_NEAR_PX = 5
"""Between an edge and its label."""
_BESIDE_PX = 8
"""Between a low bracket and its station's name."""
_UPRIGHT_PX = 24
"""So far from the bracket reaches a name that stands along it."""


class Labels:
    """Places words one after the other, the most needed first, and leaves out what has no room."""

    def __init__(
        self,
        frame: Frame,
        columns: Columns,
        theme: Theme,
        air: AirColumn = NO_AIR,
        held: Held = NOTHING_HELD,
    ) -> None:
        self._frame = frame
        self._columns = columns
        self._theme = theme
        self._air = air
        placing = Placing(theme)
        self.words = placing.words
        self._taken = placing.taken
        self._keep = placing.keep
        self._on_air = AirWords(frame, air, theme, placing, held)

    def place(self) -> tuple[Words, ...]:
        """Give all words of the frame."""
        self._headings()
        self._now()
        if self._air:
            self._on_air.inside()
            self._on_air.names()
        self._ticks()
        for index, column in enumerate(self._columns.lanes):
            self._lane(index, column)
        if self._air:
            self._on_air.live()  # in the place of the short brackets' names
        else:
            self._short_grounds()
        return tuple(self.words)

    def _headings(self) -> None:
        for (left_px, width_px), column in zip(
            self._frame.across.lanes, self._columns.lanes, strict=True
        ):
            metrics = self._theme.metrics(Text.HEADING)
            text = metrics.elidedText(column.name, Qt.TextElideMode.ElideRight, width_px)
            wide_px = metrics.horizontalAdvance(text)
            at_px = left_px + (width_px - wide_px) / 2
            quiet = self._theme.ink.quiet
            baseline_px = heading_px(self._theme)
            self._keep(Words(text, at_px, baseline_px, wide_px, Text.HEADING, quiet))

    def _now(self) -> None:
        """The word beside the limb; where that is out of sight, an arrow towards it."""
        frame, ink = self._frame, self._theme.ink
        low_px = self._theme.metrics(Text.NOW).capHeight()
        if frame.now_in_sight:
            middle_px = frame.now_px + sagitta_px(self._theme)
            self._beside("now", middle_px, Text.NOW, ink.text)
        elif frame.now_px < frame.scale.top_px:
            self._beside("▲ now", frame.scale.top_px + low_px / 2, Text.NOW, ink.text)
        else:
            self._beside("▼ now", frame.scale.bottom_px - low_px / 2, Text.NOW, ink.text)
        if not frame.at_now:
            # Its own line where the word for now leaves no room beside it.
            for shift_px in (0.0, 1.6 * low_px, -1.6 * low_px):
                middle_px = frame.scale.origin_px + shift_px
                if self._beside(frame.origin_words, middle_px, Text.EDGE, ink.text):
                    break

    def _ticks(self) -> None:
        for at_ms, text in self._frame.scale.ticks():
            sign = "" if self._frame.at_now else "+ "
            middle_px = self._frame.scale.y_of(at_ms)
            self._beside(f"{sign}{text}", middle_px, Text.TICK, self._theme.ink.quiet)

    def _beside(self, text: str, middle_px: float, style: Text, colour: QColor) -> bool:
        """Place words in the column of ticks, if they fit it: never cut."""
        metrics = self._theme.metrics(style)
        width_px = self._theme.width_px(style, text)
        if self._frame.across.ticks_px + width_px > self._frame.across.right_px:
            return False
        baseline_px = middle_px + metrics.capHeight() / 2
        left_px = self._frame.across.ticks_px
        return self._keep(Words(text, left_px, baseline_px, width_px, style, colour))

    def _short_grounds(self) -> None:
        """Names of stations whose brackets are too low for them: beside, where there is room."""
        frame, theme = self._frame, self._theme
        metrics, left_px = theme.metrics(Text.EDGE), frame.across.ground_px + theme.px(_BESIDE_PX)
        upright = list(ground_names(frame, self._columns, theme))
        for top_px, bottom_px, _ in upright:
            box = QRectF(frame.across.ground_px, top_px, theme.px(_UPRIGHT_PX), bottom_px - top_px)
            self._taken.append(box)
        if frame.now_in_sight:
            limb_px = frame.across.ticks_px - frame.across.ground_px
            arc = QRectF(frame.across.ground_px, frame.now_px, limb_px, sagitta_px(theme))
            self._taken.append(arc)
        long = {top_px for top_px, _, _ in upright}
        for ground in self._columns.grounds_between(max(frame.from_ms, frame.now_ms), frame.to_ms):
            top_px, bottom_px = ground_px(frame, theme, ground)
            width_px = theme.width_px(Text.EDGE, ground.name)
            if top_px in long or left_px + width_px > frame.across.right_px:
                continue
            baseline_px = (top_px + bottom_px) / 2 + metrics.capHeight() / 2
            colour = theme.ink.text
            self._keep(Words(ground.name, left_px, baseline_px, width_px, Text.EDGE, colour))

    def _lane(self, index: int, column: Column) -> None:
        frame = self._frame
        in_sight = column.between(frame.from_ms, frame.to_ms)
        for stretch in in_sight:
            if column.fills[stretch] in (Fill.EITHER, Fill.CLOSED):
                self._word(index, column, stretch)
        for edge in column.edges_between(frame.from_ms, frame.to_ms):
            self._edge(index, column, edge)
        for stretch in in_sight:
            if column.fills[stretch] is Fill.GAP:
                self._word(index, column, stretch)

    def _word(self, index: int, column: Column, stretch: int) -> None:
        """What a stretch is, in its middle, below the limb."""
        fill, ink = column.fills[stretch], self._theme.ink
        rect = self._rect(index, column, stretch)
        least_px = self._theme.px(_ROOM_FOR_CAUSE_PX) if fill is Fill.GAP else 0
        if rect.height() < least_px or not column.words[stretch]:
            return
        ground = ink.ground if fill is Fill.GAP else muted(column.role, self._theme)
        colour = ink.quiet if fill is Fill.GAP else ink.text
        self._inside(rect, column.words[stretch], rect.center().y(), colour, ground)

    def _edge(self, index: int, column: Column, edge: EdgeLabel) -> None:
        """The time of an edge: in the contact beside it, else in the gap, else nowhere."""
        theme, ink = self._theme, self._theme.ink
        edge_px = self._frame.scale.y_of(edge.at_ms)
        half_px = theme.metrics(Text.EDGE).capHeight() / 2 + theme.px(_NEAR_PX)
        past = edge.at_ms < self._frame.now_ms
        contact_px = edge_px - half_px if edge.lost else edge_px + half_px
        gap_px = edge_px + half_px if edge.lost else edge_px - half_px
        on_contact = (ink.quiet, ink.ground) if past else (ink.on_fill, ink.lane(column.role))
        in_gap = (ink.quiet if past else ink.text, ink.ground)
        for middle_px, (colour, plate) in ((contact_px, on_contact), (gap_px, in_gap)):
            at_ms = self._frame.scale.instant_ms(middle_px)
            beside = column.between(at_ms, at_ms + 1)
            if len(beside) != 1:
                continue
            wanted = Fill.CONTACT if middle_px == contact_px else Fill.GAP
            if column.fills[beside[0]] is not wanted:
                continue
            rect = self._rect(index, column, beside[0])
            if self._inside(rect, edge.text, middle_px, colour, plate):
                return

    def _inside(
        self, rect: QRectF, text: str, middle_px: float, colour: QColor, plate: QColor
    ) -> bool:
        """Place words in a stretch, if they fit it; never cut: half a time is a wrong time."""
        metrics = self._theme.metrics(Text.EDGE)
        width_px = self._theme.width_px(Text.EDGE, text)
        left_px = rect.left() + (rect.width() - width_px) / 2
        baseline_px = middle_px + metrics.capHeight() / 2
        words = Words(text, left_px, baseline_px, width_px, Text.EDGE, colour, plate)
        return rect.contains(words.box(self._theme)) and self._keep(words)

    def _rect(self, index: int, column: Column, stretch: int) -> QRectF:
        """A stretch of a lane as far as it is in sight and on this side of the limb."""
        frame = self._frame
        top_px, bottom_px = frame.between(
            int(column.starts_ms[stretch]), int(column.ends_ms[stretch])
        )
        limb_px = frame.now_px + sagitta_px(self._theme)
        if frame.now_in_sight and top_px < frame.now_px < bottom_px:
            top_px = min(limb_px, bottom_px)
        return frame.lane_rect(index, top_px, max(top_px, bottom_px))
