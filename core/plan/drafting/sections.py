"""The tables a draft is shown as, in the order of the window, and what holds for all of a plan."""

from core.plan.drafting import usual
from core.plan.drafting.air_tables import ITEMS, JUNCTIONS
from core.plan.drafting.columns import Cell, Column, Kind, Section
from core.plan.drafting.event_tables import CHECKOFFS, EVENTS, GRAVE, LIMITS, OUTCOMES
from core.plan.drafting.signal_tables import BLACKOUTS, COURSES, GROUNDS, LANES
from core.plan.gather import Named

SECTIONS = (
    EVENTS, GROUNDS, LANES, COURSES, ITEMS, JUNCTIONS, OUTCOMES, LIMITS, CHECKOFFS, BLACKOUTS,
    GRAVE,
)  # fmt: skip
"""The lists of a plan, in the order of the window."""

FLIGHT = (
    Cell((), Column("title", "Flight", Kind.WORDS, "Petrel 4", "As the header shows it")),
    Cell((), Column("subtitle", "Subtitle", Kind.WORDS, "arrival at the Moon")),
    Cell(
        (),
        Column(
            "zones",
            "Time zones",
            Kind.SEVERAL,
            "America/Halifax, America/New_York",
            "The desk's zone first; others may be spoken after it",
        ),
    ),
    Cell((), usual.event("elapsed_from", "Elapsed from", "Elapsed time counts from this event")),
    Cell(
        (),
        Column(
            "auto_edges",
            "Edges as events",
            Kind.SEVERAL,
            "voice",
            "Lanes whose losses and returns are events by themselves",
            Named.LANE,
        ),
    ),
    Cell((), Column("sources", "Sources", Kind.SEVERAL, "flight, desk", "One word after 'per'")),
    Cell(
        (),
        Column(
            "usage",
            "Clock times",
            Kind.CHOICE,
            "american",
            "How the audience is told them: 4:46 p.m., 4.46pm or 16:46",
            choices=("american", "british", "24h"),
        ),
    ),
    Cell(("air",), usual.clock("on", "On the air", "When the programme begins")),
    Cell(("air",), usual.clock("off", "Off the air", "When it ends, whatever happens")),
    Cell(("air",), usual.length("item_gap", "Item gap", "20s", "Between any two items")),
    Cell(("air",), usual.length("break_gap", "Break gap", "12m", "Between breaks")),
    Cell(("air",), usual.length("delay", "Air delay", "7s", "From us to the viewers")),
)
"""What holds for the whole plan: shown one below the other."""


def section_of(key: str) -> Section | None:
    """The section of a list of the plan."""
    return next((section for section in SECTIONS if section.key == key), None)
