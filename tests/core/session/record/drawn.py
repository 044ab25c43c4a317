"""Records of drawn sessions: any names, instants in many zones, round their changes of clocks."""

from hypothesis import strategies as st

from core.entries.airing import Begin, Finish, MarkSaid
from core.entries.model import (
    Action,
    BringBack,
    Entry,
    Happened,
    Hold,
    Note,
    Revise,
    TakeBack,
)
from core.plan.model import Event, Item, Plan
from core.session.record.making import Source, record_of
from core.session.record.model import DayRecord
from core.times.instants import rfc3339_to_ms

ZONES = (
    "America/Halifax", "America/St_Johns", "Europe/London", "Europe/Berlin", "Australia/Lord_Howe",
    "Asia/Kolkata", "Pacific/Auckland", "America/Sao_Paulo", "UTC",
)  # fmt: skip

_CHANGES = ("2031-03-09T06:00:00Z", "2031-03-30T01:00:00Z", "2031-10-26T01:00:00Z",
            "2031-11-02T05:00:00Z", "2031-04-05T15:00:00Z", "2031-10-04T15:30:00Z")  # fmt: skip
"""Round these, clocks in some of the zones are changed."""

names = st.text(
    st.characters(exclude_categories=("Cs", "Cc"), exclude_characters="\u2028\u2029"),
    min_size=1,
    max_size=30,
).filter(lambda text: text == text.strip())
"""Quotes, commas, semicolons and every script; no control signs, which no plan takes."""


@st.composite
def instants(draw: st.DrawFn) -> int:
    """An instant within three hours of a change of clocks."""
    return rfc3339_to_ms(draw(st.sampled_from(_CHANGES))) + draw(
        st.integers(-11_000_000, 11_000_000)
    )


def records() -> st.SearchStrategy[DayRecord]:
    """Records of drawn sessions."""
    return sources().map(record_of)


@st.composite
def sources(draw: st.DrawFn) -> Source:
    """A drawn session: events and items, told to have moved, happened, run, been taken back."""
    zone = draw(st.sampled_from(ZONES))
    near_ms = draw(instants())
    count = draw(st.integers(1, 5))
    events = tuple(
        Event(f"e{n}", draw(names), at_ms=near_ms + draw(st.integers(0, 20_000_000)))
        for n in range(count)
    )
    items = tuple(
        Item(f"i{n}", "break", draw(names), draw(st.integers(1, 300)) * 1000)
        for n in range(draw(st.integers(0, 3)))
    )
    plan = Plan(draw(names), (zone,), events=events, items=items)
    actions = draw(st.lists(_actions(near_ms, count, len(items)), max_size=8))
    entries: list[Entry] = []
    for number, action in enumerate(actions, start=1):
        at_ms = near_ms - 1_000_000 + number * 1000
        fitting = _fitting(action, at_ms, entries)
        entries.append(Entry(number, at_ms, "typed", fitting, "flight", by="KM"))
    rehearsal = draw(st.booleans())
    return Source(plan, tuple(entries), "drawn", rehearsal, end_ms=near_ms + 30_000_000)


def _fitting(action: Action, at_ms: int, before: list[Entry]) -> Action:
    """The action as a desk would have it: a count held now, an earlier entry taken back."""
    if isinstance(action, Hold):
        return Hold(action.event, at_ms, action.left_ms)
    if isinstance(action, TakeBack | BringBack):
        earlier = [e.number for e in before if not isinstance(e.action, TakeBack | BringBack)]
        if not earlier:
            return Note("nothing to take back yet")
        return type(action)(earlier[action.number % len(earlier)])
    return action


def _actions(near_ms: int, events: int, items: int) -> st.SearchStrategy[Action]:
    at_ms = st.integers(near_ms - 3_000_000, near_ms + 20_000_000)
    event = st.integers(0, events - 1).map(lambda n: f"e{n}")
    kinds: list[st.SearchStrategy[Action]] = [
        st.builds(Revise, event, at_ms),
        st.builds(Happened, event, at_ms),
        st.builds(lambda e, t: MarkSaid("said", ((e, t),)), event, at_ms),
        st.builds(Note, names),
        st.builds(Hold, event, at_ms, st.integers(0, 900_000)),
        st.builds(TakeBack, st.integers(1, 8)),
        st.builds(BringBack, st.integers(1, 8)),
    ]
    if items:
        item = st.integers(0, items - 1).map(lambda n: f"i{n}")
        kinds += [st.builds(Begin, item, at_ms), st.builds(Finish, item, at_ms)]
    return st.one_of(kinds)
