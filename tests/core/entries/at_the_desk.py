"""The board as a line of the entry bar finds it, in our own scenario, for the tests of reading."""

from dataclasses import dataclass, field, replace

from core.entries.aired import Aired, aired
from core.entries.context import EventNow, Proposal, Spoken
from core.entries.model import Action, Entry
from core.entries.things import Thing, event_thing, programme_things, signal_things
from core.plan.model import Change, CheckOff, Item, Lane, Outcome, Plan
from core.times.instants import rfc3339_to_ms
from core.times.writing import Style

ZONES = ("America/Halifax", "America/New_York", "America/Chicago")


def at(clock: str, day: int = 14) -> int:
    """The instant at which clocks in Halifax show that, on a day of May 2031."""
    return rfc3339_to_ms(f"2031-05-{day:02d}T{clock}-03:00")


STYLE = Style(ZONES[0])

EVENTS = (
    EventNow("liftoff", "Liftoff", at("13:28:32", 11), happened=True),
    EventNow(
        "ignition", "Insertion burn, ignition", at("16:57:20"), give_ms=20_000, plan_give_ms=20_000
    ),
    EventNow("cutoff", "Insertion burn, cutoff", at("17:03:34")),
    EventNow(
        "back", "Signal back, after the burn", at("17:21:32"), give_ms=60_000, plan_give_ms=60_000
    ),
    EventNow("photo", "First picture from orbit", at("17:40:00")),
    EventNow("school", "School call with the crew", at("18:05:00")),
    EventNow("T-9", "Nine-minute poll", at("13:19:32", 11), happened=True),
    EventNow("AOS#1", "Far side, first return", at("19:10:00")),
    EventNow("X1", "Trim burn", at("20:00:00")),
    EventNow("E13", "Crew sleeps", at("23:30:00")),
    EventNow("LOS-2", "Far side, second loss", None, planned_ms=at("20:40:00")),
    EventNow("gone", "Relay test", None),
    EventNow("relay", "Relay count", at("18:30:00"), left_ms=300_000),
)
LANES = (Lane("voice", "VOICE"), Lane("picture", "PICTURE"))
ITEMS = (
    Item("break-2", "break", "Break 2", 150_000, owed=True),
    Item("break-3", "break", "Break 3", 130_000, owed=True, can_cut=False),
    Item("walk", "remote", "Walk through the hall", 300_000, at_ms=at("17:10:00")),
    Item("tape-x", "tape", "Relay tape", 240_000, earliest_ms=at("18:00:00")),
)
CHECKOFFS = (
    CheckOff("clamps", "Clamps released", "ignition", 12, 3, spaced=True),
    CheckOff("panels", "Panels out", "cutoff", 2, 2),
)
OUTCOMES = (
    Outcome("burned", "ignition", "after the burn"),
    Outcome("no-burn", "ignition", "if no burn"),
)


@dataclass
class AtTheDesk:
    """A Context whose answers a test sets. The edges near 4:51 p.m. and of 'back' are known."""

    now_ms: int = at("16:41:12")
    style: Style = STYLE
    zones: tuple[str, ...] = ZONES
    selected: str = "ignition"
    events: tuple[EventNow, ...] = EVENTS
    lanes: tuple[Lane, ...] = LANES
    outcomes: tuple[Outcome, ...] = OUTCOMES
    sources: tuple[str, ...] = ("flight", "agency", "pool", "desk")
    elapsed_zero_ms: int | None = at("13:28:32", 11)
    simulated: bool = True
    plan_waiting: Plan | None = None
    plan_trouble: str = ""
    items: tuple[Item, ...] = ITEMS
    checkoffs: tuple[CheckOff, ...] = CHECKOFFS
    aired: Aired = field(default_factory=Aired)
    up: str = ""
    placing: Proposal = (("break-3", at("16:46:00")), ("walk", at("17:10:00")))
    sentence: Spoken | None = ("The burn is at 4:57.", (("ignition", at("16:57:20")),))
    due: tuple[str, ...] = ("ignition", "photo")
    edges: dict[str, str] = field(default_factory=lambda: {"back": "far-side/voice/1/back"})
    drops: dict[str, int] = field(default_factory=dict)

    @property
    def things(self) -> tuple[Thing, ...]:
        events = (event_thing(e.id, e.name, past=e.happened) for e in self.events)
        programme = programme_things(self.items, self.checkoffs, self.aired)
        return (*events, *signal_things(self.lanes, self.outcomes), *programme)

    def event(self, event_id: str) -> EventNow | None:
        return next((event for event in self.events if event.id == event_id), None)

    def lane_up(self) -> str:
        return self.up

    def name_of(self, event: str) -> str:
        return next((each.name for each in self.events if each.id == event), event)

    def proposal(self) -> Proposal:
        return self.placing

    def to_say(self) -> Spoken | None:
        return self.sentence

    def owed(self) -> tuple[str, ...]:
        return self.due

    def edge_near(self, lane: str, change: Change, time_ms: int) -> str:
        near = abs(time_ms - at("16:51:00")) <= 120_000
        return f"far-side/{lane}/0/{change}" if near else ""

    def dropped(self, lane: str, back_ms: int) -> int | None:
        del back_ms
        return self.drops.get(lane)

    def edge_of(self, event: str) -> str:
        return self.edges.get(event, "")

    def after(self, *actions: Action) -> "AtTheDesk":
        """The same, after these were entered."""
        entries = (Entry(n, self.now_ms, "", each) for n, each in enumerate(actions, 1))
        return replace(self, aired=aired(entries))

    def with_event(self, event_id: str, **changes: object) -> "AtTheDesk":
        """The same, with an event that stands otherwise."""
        changed = tuple(
            replace(event, **changes) if event.id == event_id else event  # type: ignore[arg-type]
            for event in self.events
        )
        return replace(self, events=changed)
