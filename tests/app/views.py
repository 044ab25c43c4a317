"""Made-up views of Petrel 4's arrival, at any number of cards, for all tests of widgets.

`arrival_view()` has one card of every sort; `day_view(count)` is as long as one likes.
"""

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import overload

from core.board.model import (
    Card,
    CardState,
    ContactPanel,
    DueRow,
    EdgeLabel,
    Figure,
    GroundSpan,
    Header,
    LaneColumn,
    LaneNow,
    LastChange,
    Mark,
    RehearsalBadge,
    Said,
    Strip,
    Tone,
    View,
)
from core.signal.model import Fill

SECOND_MS = 1_000
MINUTE_MS = 60_000
HOUR_MS = 60 * MINUTE_MS
YEAR_MS = 365 * 24 * HOUR_MS

NOW_MS = 1_776_800_472_000
"""4:41:12 p.m. in the Atlantic zone of summer, a Tuesday."""

LONG_NAME = (
    "Press conference with the whole crew and the flight director from the hall beside the "
    "simulator, in two languages"
)

_ZONE_MS = -3 * HOUR_MS

VOICE_AT_LOSS = Mark("voice", Fill.CONTACT, Fill.GAP)
VOICE_AT_RETURN = Mark("voice", Fill.GAP, Fill.CONTACT)
OUT = Mark("voice", Fill.GAP, Fill.GAP)
PICTURE = Mark("picture", Fill.CONTACT, Fill.CONTACT)


def figure(from_now_ms: int, *, about: bool = False) -> Figure:
    """A length of time as the board writes it."""
    seconds = abs(from_now_ms) // SECOND_MS
    hours, minutes, left = seconds // 3600, seconds // 60 % 60, seconds % 60
    parts = [(f"{hours}", "h")] if hours else []
    parts.append((f"{minutes:02d}" if hours else f"{minutes}", "min"))
    if not about:
        parts.append((f"{left:02d}", "s"))
    return Figure(tuple(parts), about=about, past=from_now_ms < 0)


def clock_text(at_ms: int, *, seconds: bool = True) -> str:
    """A clock time in the zone of the made-up audience."""
    seconds_of_day = (at_ms + _ZONE_MS) // SECOND_MS % 86_400
    hours, minutes, left = seconds_of_day // 3600, seconds_of_day // 60 % 60, seconds_of_day % 60
    tail = f":{left:02d}" if seconds else ""
    return f"{(hours - 1) % 12 + 1}:{minutes:02d}{tail} {'p.m.' if hours >= 12 else 'a.m.'}"


def card(card_id: str, name: str, in_ms: int, *, now_ms: int = NOW_MS, about: bool = False) -> Card:
    """A plain card, so long from now; other fields by `dataclasses.replace`."""
    at_ms = now_ms + in_ms
    return Card(
        id=card_id,
        name=name,
        state=CardState.AHEAD if in_ms > 0 else CardState.HAPPENED,
        at_ms=at_ms,
        figure=figure(in_ms, about=about),
        lead="" if in_ms > 0 else "happened",
        clock=("about " if about else "") + clock_text(at_ms, seconds=not about),
        zone="Atlantic",
        note=Said("", Tone.QUIET),
        change=Said(""),
        tags=(),
        mark=PICTURE,
        live=False,
        clash="",
        pair="",
        reason="as the flight plan has it",
    )


def header(now_ms: int = NOW_MS) -> Header:
    """The top line at a moment."""
    return Header(
        title="Petrel 4",
        subtitle="arrival at the Moon",
        weekday="Tuesday",
        clock=clock_text(now_ms),
        zone="Atlantic",
        utc="19:41:12",
        elapsed="3 d 03:12:40",
        elapsed_word="elapsed",
        status=Said("picture and voice", Tone.QUIET),
    )


def lane(
    lane_id: str, name: str, edges_ms: Sequence[int], fills: Sequence[Fill], words: Sequence[str]
) -> LaneColumn:
    """A column: one stretch more than there are edges between them."""
    return LaneColumn(
        lane=lane_id,
        name=name,
        colour=lane_id,
        starts_ms=(NOW_MS - YEAR_MS, *edges_ms),
        ends_ms=(*edges_ms, NOW_MS + YEAR_MS),
        fills=tuple(fills),
        words=tuple(words),
    )


def _at(*minutes: float) -> tuple[int, ...]:
    return tuple(NOW_MS + int(m * MINUTE_MS) for m in minutes)


def arrival_strip(events_ms: tuple[int, ...] = ()) -> Strip:
    """Voice and picture of the arrival, with each of the four fills on one of them."""
    contact, gap = Fill.CONTACT, Fill.GAP
    far = "behind the Moon"
    voice = lane(
        "voice",
        "VOICE",
        _at(7.8, 31.3, 41.63, 118, 160, 226, 262, 330, 345),
        (contact, gap, Fill.EITHER, contact, gap, contact, gap, contact, Fill.CLOSED, contact),
        ("", far, "either", "", far, "", far, "", "closed", ""),
    )
    picture = lane(
        "picture",
        "PICTURE",
        _at(5.8, 50, 75, 78.5, 101, 300),
        (contact, gap, contact, gap, contact, gap, Fill.CLOSED),
        ("", "no ground station in view", "", "", "", far, "closed"),
    )
    return Strip(
        lanes=(voice, picture),
        grounds=(
            GroundSpan("Tarn Hill", NOW_MS - 2 * HOUR_MS, NOW_MS + 59 * MINUTE_MS),
            GroundSpan("Kestrel Bay", NOW_MS + 59 * MINUTE_MS, NOW_MS + 12 * HOUR_MS),
        ),
        edges=_edges((voice, picture)),
        events_ms=events_ms,
    )


def _edges(columns: tuple[LaneColumn, ...]) -> tuple[EdgeLabel, ...]:
    labels = []
    for column in columns:
        for start_ms, before, after in zip(
            column.starts_ms[1:], column.fills, column.fills[1:], strict=False
        ):
            if {before, after} == {Fill.CONTACT, Fill.GAP}:
                lost = after is Fill.GAP
                text = f"{'LOS' if lost else 'AOS'} {clock_text(start_ms, seconds=False)}"
                labels.append(EdgeLabel(start_ms, column.lane, text, lost))
    return tuple(sorted(labels, key=lambda label: label.at_ms))


def contact_panel() -> ContactPanel:
    """CONTACT at the made-up moment."""
    return ContactPanel(
        lanes=(
            LaneNow(
                "voice",
                "Voice",
                "voice",
                figure(468_000),
                "left",
                "through Tarn Hill; hand-over 5:40 p.m.",
                "then out of contact 24 or 34 min",
            ),
            LaneNow(
                "picture",
                "Picture",
                "picture",
                figure(348_000),
                "left",
                "through Tarn Hill",
                "then no pictures for 44 min",
            ),
        ),
        totals=("3 gaps to come on voice, the longest 42 min",),
    )


def last_change() -> LastChange:
    """LAST CHANGE at the made-up moment."""
    return LastChange(
        when="4:38:05 p.m.",
        source="flight",
        headline="Loss of signal 1 min 18 later",
        rows=(
            ("7 follow, each by", Said("1 min 18", Tone.CHANGE)),
            ("School call stays", Said("pinned")),
        ),
    )


def arrival_cards() -> tuple[Card, ...]:
    """The cards of the picture of the desk window."""
    out = Said("out of contact", Tone.QUIET)
    return (
        replace(
            card("picture-lost", "picture lost", 348_000),
            mark=Mark("picture", Fill.CONTACT, Fill.GAP),
        ),
        replace(
            card("loss", "Loss of signal, far side", 468_000),
            mark=VOICE_AT_LOSS,
            live=True,
            tags=(Said("must be live"),),
            note=Said("then out of contact 24 or 34 min", Tone.QUIET),
        ),
        replace(card("ignition", "Insertion burn, ignition", 968_000), mark=OUT, note=out),
        replace(
            card("back-no-burn", "Signal back, if no burn", 1_878_000),
            mark=VOICE_AT_RETURN,
            note=Said("voice", Tone.QUIET),
            pair="insertion",
        ),
        replace(
            card("back-burn", "Signal back, after the burn", 2_498_000),
            mark=VOICE_AT_RETURN,
            note=Said("voice; ± 20 s", Tone.QUIET),
            pair="insertion",
        ),
        replace(
            card("first-picture", "First picture from orbit", 3_000_000, about=True),
            note=Said("their choice", Tone.QUIET),
        ),
        replace(
            card("school", "School call with the crew", 5_028_000),
            change=Said("stays", Tone.CHANGE),
            tags=(Said("pinned", Tone.QUIET),),
        ),
        replace(card("circularise", "Circularisation burn", 15_658_000), mark=OUT, note=out),
    )


def sorts_of_cards() -> tuple[Card, ...]:
    """One card of every sort that can stand in the column."""
    held = replace(
        card("held", "Undocking", 900_000),
        state=CardState.HELD,
        lead="HELD WITH",
        clock="",
        note=Said("since 4:36 p.m., per flight", Tone.QUIET),
    )
    hidden = replace(
        card("hidden", "Insertion burn, cut-off", -65_000),
        state=CardState.OUT_OF_SIGHT,
        figure=None,
        lead="out of sight",
        note=Said("first word 5:12 or 5:23", Tone.QUIET),
        mark=OUT,
    )
    clashing = replace(
        card("clashing", "Landing site pass", 1_400_000),
        clash="2 min too late",
        mark=Mark("voice", Fill.EITHER, Fill.EITHER),
    )
    closed = replace(
        card("closed", "Medical talk", 1_500_000), mark=Mark("voice", Fill.CLOSED, Fill.CLOSED)
    )
    unknown = replace(
        card("unknown", "Third pass over the pole", 1_600_000),
        state=CardState.UNKNOWN,
        at_ms=None,
        figure=None,
        lead="no time",
        clock="",
        mark=None,
        note=Said("its edge is gone", Tone.QUIET),
    )
    return (hidden, held, clashing, closed, unknown)


def view_of(
    cards: Sequence[Card],
    *,
    next_index: int = 0,
    big_index: int | None = None,
    due: DueRow | None = None,
    strip: Strip | None = None,
    now_ms: int = NOW_MS,
) -> View:
    """A view of these cards."""
    if strip is None:
        strip = arrival_strip(tuple(c.at_ms for c in cards if c.at_ms is not None))
    return View(
        now_ms=now_ms,
        header=header(now_ms),
        due=due,
        cards=cards,
        next_index=next_index,
        big_index=big_index,
        summary=Said(
            "All but the school call run 1 min 18 later than the flight plan.", Tone.CHANGE
        ),
        strip=strip,
        contact=contact_panel(),
        last_change=last_change(),
        rehearsal=None,
        notices=(),
        saved="not saved",
    )


def arrival_view(*, now_ms: int = NOW_MS) -> View:
    """The picture of the desk window."""
    return view_of(arrival_cards(), big_index=1, now_ms=now_ms)


def sorts_view() -> View:
    """Every sort of card at once, two events due, four before the big one."""
    happened = card("tweak", "Course correction", -900_000)
    overdue = replace(card("overdue", "Crew awake", -120_000), state=CardState.DUE, lead="due")
    all_cards = (happened, overdue, *sorts_of_cards(), *arrival_cards())
    return view_of(
        all_cards,
        next_index=2,
        big_index=8,
        due=DueRow(("overdue",), "1 due: Crew awake, 2 min 00 s past"),
    )


_DAY_NAMES = (
    "Wake-up music", "Menu for the day", "Tour of the galley", "Window shutters open",
    "Talk with the schools of Skerry", "Medical conference", "Antenna turned", "Tank warmed",
    "Star sighting", "Dump of the recorder", "Crew at rest", "Exercise",
)  # fmt: skip


class LazyCards(Sequence[Card]):
    """Cards made when they are asked for; `made` tells which were, in order."""

    def __init__(self, size: int, make: Callable[[int], Card]) -> None:
        self.made: list[int] = []
        self._size = size
        self._make = make

    def __len__(self) -> int:
        return self._size

    @overload
    def __getitem__(self, index: int) -> Card: ...

    @overload
    def __getitem__(self, index: slice) -> Sequence[Card]: ...

    def __getitem__(self, index: int | slice) -> Card | Sequence[Card]:
        if isinstance(index, slice):
            return tuple(self[i] for i in range(*index.indices(self._size)))
        place = range(self._size)[index]
        self.made.append(place)
        return self._make(place)


def day_view(
    count: int,
    *,
    now_ms: int = NOW_MS,
    every_ms: int = 7 * MINUTE_MS,
    past: int = 0,
    before_big: int = 1,
    long_names: bool = False,
) -> View:
    """As many cards as wanted, the first `past` of them over, with lazily made words."""
    marks = (VOICE_AT_LOSS, OUT, VOICE_AT_RETURN, PICTURE)

    def make(index: int) -> Card:
        name = LONG_NAME if long_names else _DAY_NAMES[index % len(_DAY_NAMES)]
        plain = card(f"e{index}", name, (index - past + 1) * every_ms, now_ms=now_ms)
        return replace(plain, mark=marks[index % 4], live=index % 9 == 2)

    cards = LazyCards(count, make)
    big = past + before_big
    events_ms = tuple(now_ms + (i - past + 1) * every_ms for i in range(count))
    return view_of(
        cards,
        next_index=past,
        big_index=big if big < count else None,
        strip=arrival_strip(events_ms),
        now_ms=now_ms,
    )


def rehearsing(view: View, rate: str = "10", *, paused: bool = False) -> View:
    """The same, in a rehearsal."""
    return replace(view, rehearsal=RehearsalBadge(rate, paused))
