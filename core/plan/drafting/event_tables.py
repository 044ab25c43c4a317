"""The tables of events, and of what hangs on them: facts, outcomes, limits, check-offs."""

from core.plan.drafting import usual
from core.plan.drafting.columns import Column, Kind, Section
from core.plan.gather import Named

FACTS = Section(
    "facts",
    "Facts",
    (
        Column("text", "Fact", Kind.WORDS, "One engine, six minutes.", "What is worth saying"),
        usual.flag("after_confirmed", "After confirmed", "Held back until the event is confirmed"),
        usual.clock("not_before", "Not before", "Held back until then"),
        Column("source", "Source", Kind.WORDS, "press kit", "Who says so"),
        Column("date", "Date", Kind.WORDS, "4 May 2031", "Of when that is"),
    ),
    called="fact",
)
EVENTS = Section(
    "event",
    "Events",
    (
        usual.name("Liftoff"),
        usual.ID,
        usual.clock("at", "At", "Its clock time; beside a tie, the earliest"),
        Column(
            "after",
            "After",
            Kind.TIES,
            "liftoff; or several: back +8m; checks +2m",
            "The event it is tied to: it moves when that one does",
            Named.EVENT,
        ),
        usual.length("offset", "Offset", "1h 20m", "So long after it; with a minus, before it"),
        usual.length("give", "Give", "30s", "How uncertain it is, plus or minus"),
        usual.flag("pinned", "Pinned", "Stays at its clock time, whatever slips before it"),
        usual.flag("live", "Live", "The presenter must be on the air for it"),
        usual.length("guard", "Guard", "2m", "Back so long before a live moment"),
        usual.length("stay", "Stay", "3m", "And still there so long after it"),
        Column(
            "least",
            "Least",
            Kind.MAYBE_LENGTH,
            "40m",
            "When time runs short the gap may shrink to this",
        ),
        Column("most", "Most", Kind.MAYBE_LENGTH, "2h", "The gap may not grow beyond this"),
        usual.flag("fixed", "Fixed", "The gap is always the offset"),
        Column("window", "Window", Kind.WINDOW, usual.BOOKED, "Not before, not after"),
        Column(
            "edge",
            "Edge",
            Kind.EDGE,
            "voice back after ignition",
            "When a lane is lost or back",
            Named.LANE,
        ),
        Column(
            "live_with",
            "Live with",
            Kind.ONE,
            "voice",
            "Where this lane is lost shortly before, the moment begins there",
            Named.LANE,
        ),
        usual.ONLY_IF,
        usual.flag("at_craft", "At craft", "Happens out there, and is heard a light-time later"),
        Column("say", "To say", Kind.WORDS, "the firing that ...", "How a sentence names it"),
        Column("sounds", "Sounds", Kind.WORDS, "PET-rul", "How its name is spoken"),
        usual.clock("happened", "Happened", "When it did, where that is known"),
    ),
    Named.EVENT,
    FACTS,
    called="event",
)
CHECKOFFS = Section(
    "checkoff",
    "Check-offs",
    (
        usual.name("Clamps released"),
        usual.ID,
        usual.event("of", "Of"),
        Column("count", "Count", Kind.NUMBER, "8", "How many there are"),
        Column("enough", "Enough", Kind.NUMBER, "4", "How many will do"),
        usual.flag("spaced", "Spaced", "Those that count must stand evenly round the ring"),
    ),
    Named.CHECKOFF,
    called="check-off",
)
OUTCOMES = Section(
    "outcome",
    "Outcomes",
    (
        usual.name("after the burn"),
        usual.ID,
        usual.event("of", "Of", "The event that may turn out in ways"),
    ),
    Named.OUTCOME,
    called="outcome",
)
LIMITS = Section(
    "limit",
    "Limits",
    (
        usual.event("from", "From", "The earlier event"),
        usual.event("to", "To", "The later event"),
        Column("least", "Least", Kind.MAYBE_LENGTH, "10m", "No sooner after it than this"),
        Column("most", "Most", Kind.MAYBE_LENGTH, "40m", "No later after it than this"),
    ),
    called="limit",
)
GRAVE = Section(
    "grave",
    "Grave lines",
    (
        usual.length(
            "after", "After", "10m", "Counted from the last possible return of the signal"
        ),
        Column("text", "Words", Kind.WORDS, "We wait.", "Words the editor passed beforehand"),
    ),
    called="grave line",
)
