"""The tables a draft is shown as: which keys of the plan format are columns, and of what kind."""

from dataclasses import dataclass
from enum import StrEnum

from core.plan.gather import Named
from core.plan.positions import Trail


class Kind(StrEnum):
    """How a cell is typed and written."""

    WORDS = "words"
    IDENTITY = "identity"
    LENGTH = "length"
    CLOCK = "clock"
    EITHER = "clock or length"
    """A clock time, or a length where its table counts from an event."""
    FLAG = "flag"
    CHOICE = "choice"
    ONE = "one"
    """The id of something."""
    SEVERAL = "several"
    """Several ids or words."""
    NUMBER = "number"
    NUMBERS = "numbers"
    """A number, or several."""
    BOUND = "bound"
    """A clock time, or the id of an event."""
    MAYBE_LENGTH = "maybe length"
    """A length, or 'none'."""
    WINDOW = "window"
    STRETCHES = "stretches"
    STRETCH = "stretch"
    TIES = "ties"
    EDGE = "edge"
    EPOCH = "epoch"
    KEYED = "keyed"
    """Keys and their values: 'event ignition; duration 374s'."""
    LINES = "lines"


@dataclass(frozen=True, slots=True)
class Column:
    """A key of a table as a column: what stands over it, how it is typed, and like what."""

    key: str
    heading: str
    kind: Kind
    like: str = ""
    about: str = ""
    named: Named | None = None
    """What its ids stand for."""
    choices: tuple[str, ...] = ()
    default: bool = False
    """What a flag is where it is left out."""


@dataclass(frozen=True, slots=True)
class Section:
    """A list of tables of the plan. `inside`: of each row, a list that has a table of its own."""

    key: str
    title: str
    columns: tuple[Column, ...]
    named: Named | None = None
    inside: "Section | None" = None
    called: str = ""
    """What one row is called."""

    def column(self, key: str) -> Column | None:
        """The column of a key."""
        return next((column for column in self.columns if column.key == key), None)


@dataclass(frozen=True, slots=True)
class Cell:
    """One place in a draft: the table that a trail leads to, and a column of it."""

    trail: Trail
    column: Column


_ID = Column("id", "Id", Kind.IDENTITY, "orbit", "The short name one types at the board")
_ONLY_IF = Column("only_if", "Only if", Kind.ONE, "burned", "Only with this outcome", Named.OUTCOME)


def _name(example: str, about: str = "As it is read on the screen") -> Column:
    return Column("name", "Name", Kind.WORDS, example, about)


def _event(key: str, heading: str, about: str = "") -> Column:
    return Column(key, heading, Kind.ONE, "liftoff", about or "The event it hangs on", Named.EVENT)


def _clock(key: str, heading: str, about: str = "") -> Column:
    return Column(key, heading, Kind.CLOCK, "14 May 2031 17:50:00", about)


def _length(key: str, heading: str, like: str, about: str = "") -> Column:
    return Column(key, heading, Kind.LENGTH, like, about)


def _flag(key: str, heading: str, about: str, *, default: bool = False) -> Column:
    return Column(key, heading, Kind.FLAG, "yes", about, default=default)


def _lanes(about: str) -> Column:
    return Column("lanes", "Lanes", Kind.SEVERAL, "voice, picture", about, Named.LANE)


_BOOKED = "14 May 2031 16:00 to 17:30"

FACTS = Section(
    "facts",
    "Facts",
    (
        Column("text", "Fact", Kind.WORDS, "One engine, six minutes.", "What is worth saying"),
        _flag("after_confirmed", "After confirmed", "Held back until the event is confirmed"),
        _clock("not_before", "Not before", "Held back until then"),
        Column("source", "Source", Kind.WORDS, "press kit", "Who says so"),
        Column("date", "Date", Kind.WORDS, "4 May 2031", "Of when that is"),
    ),
    called="fact",
)
EVENTS = Section(
    "event",
    "Events",
    (
        _name("Liftoff"),
        _ID,
        _clock("at", "At", "Its clock time; beside a tie, the earliest"),
        Column(
            "after",
            "After",
            Kind.TIES,
            "liftoff; or several: back +8m; checks +2m",
            "The event it is tied to: it moves when that one does",
            Named.EVENT,
        ),
        _length("offset", "Offset", "1h 20m", "So long after it; with a minus, before it"),
        _length("give", "Give", "30s", "How uncertain it is, plus or minus"),
        _flag("pinned", "Pinned", "Stays at its clock time, whatever slips before it"),
        _flag("live", "Live", "The presenter must be on the air for it"),
        _length("guard", "Guard", "2m", "Back so long before a live moment"),
        _length("stay", "Stay", "3m", "And still there so long after it"),
        Column(
            "least",
            "Least",
            Kind.MAYBE_LENGTH,
            "40m",
            "When time runs short the gap may shrink to this",
        ),
        Column("most", "Most", Kind.MAYBE_LENGTH, "2h", "The gap may not grow beyond this"),
        _flag("fixed", "Fixed", "The gap is always the offset"),
        Column("window", "Window", Kind.WINDOW, _BOOKED, "Not before, not after"),
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
        _ONLY_IF,
        _flag("at_craft", "At craft", "Happens out there, and is heard a light-time later"),
        Column("say", "To say", Kind.WORDS, "the firing that ...", "How a sentence names it"),
        Column("sounds", "Sounds", Kind.WORDS, "PET-rul", "How its name is spoken"),
        _clock("happened", "Happened", "When it did, where that is known"),
    ),
    Named.EVENT,
    FACTS,
    called="event",
)
GROUNDS = Section(
    "ground",
    "Ground stations",
    (
        _name("Tarn Hill"),
        _ID,
        _lanes("What it carries"),
        Column("latitude", "Latitude", Kind.NUMBER, "34.2", "Degrees north; south is negative"),
        Column("longitude", "Longitude", Kind.NUMBER, "-112.4", "Degrees east; west is negative"),
        Column("height", "Height", Kind.NUMBER, "900", "Metres above the sea"),
        Column("mask", "Mask", Kind.NUMBER, "10", "Degrees above the horizon where it begins"),
        Column("open", "Open", Kind.STRETCHES, _BOOKED, "The hours it works for this flight"),
        _flag("geocentre", "Earth's centre", "It stands nowhere: for the Earth as a whole"),
    ),
    Named.GROUND,
    called="ground station",
)
LANES = Section(
    "lane",
    "Lanes",
    (
        _ID,
        _name("VOICE"),
        _length("delay", "Delay", "9s", "From the ground station to the studio"),
        _length("first_words", "First words", "45s", "Usually so long after the signal is back"),
    ),
    Named.LANE,
    called="lane",
)
CONTACTS = Section(
    "rows",
    "Contacts",
    (
        Column("lane", "Lane", Kind.ONE, "voice", "The lane", Named.LANE),
        Column("ground", "Ground station", Kind.ONE, "tarn", "Through whom", Named.GROUND),
        Column("back", "Back", Kind.EITHER, "17:21:32", "Acquisition: a time, or a length"),
        Column("lost", "Lost", Kind.EITHER, "18:33:10", "Loss: a time, or a length"),
    ),
    called="contact",
)
COURSES = Section(
    "course",
    "Courses",
    (
        _ID,
        Column(
            "kind",
            "Kind",
            Kind.CHOICE,
            "passes",
            "passes: a table of contacts; the others are computed",
            choices=("passes", "orbit", "arrival", "trajectory", "elements"),
        ),
        Column("file", "File", Kind.WORDS, "petrel-4.oem", "A file beside the plan"),
        _event("follows", "Follows", "Its contacts move with this event"),
        Column(
            "times",
            "Times",
            Kind.CHOICE,
            "clock",
            "What its contacts count from: the clock, elapsed time, or the event it follows",
            choices=("clock", "elapsed", "offset"),
        ),
        Column("gap", "Gap", Kind.WORDS, "behind the Moon", "Why there is none between contacts"),
        _ONLY_IF,
        Column("from", "From", Kind.BOUND, "liftoff", "An event or a time", Named.EVENT),
        Column("until", "Until", Kind.BOUND, "ignition", "An event or a time", Named.EVENT),
        Column(
            "about",
            "About",
            Kind.CHOICE,
            "moon",
            "What it goes round",
            None,
            ("moon", "mars", "earth"),
        ),
        Column("epoch", "Epoch", Kind.EPOCH, "ignition +5m", "A time, or an event", Named.EVENT),
        Column("altitude_km", "Altitude km", Kind.NUMBERS, "100, 250", "One, or low and high"),
        Column("periapsis_km", "Periapsis km", Kind.NUMBER, "1838", "From the centre"),
        Column("eccentricity", "Eccentricity", Kind.NUMBER, "0.01"),
        Column("inclination", "Inclination", Kind.NUMBER, "90", "Degrees"),
        Column("node", "Node", Kind.NUMBER, "12.5", "Degrees"),
        Column("argument", "Argument", Kind.NUMBER, "0", "Degrees"),
        Column("mean_anomaly", "Mean anomaly", Kind.NUMBER, "0", "Degrees"),
        Column("position_km", "Position km", Kind.NUMBERS, "1, 2, 3"),
        Column("velocity_km_s", "Velocity km/s", Kind.NUMBERS, "1, 2, 3"),
        Column("v_infinity_km_s", "V infinity km/s", Kind.NUMBER, "0.9"),
        Column("low_point_km", "Low point km", Kind.NUMBER, "1838", "From the centre"),
        Column("burn", "Burn", Kind.KEYED, "event ignition; duration 374s; along_m_s -850"),
        Column("outcomes", "Outcomes", Kind.KEYED, "burned burned; without no-burn"),
        Column(
            "frame", "Frame", Kind.CHOICE, "equator", "Of the angles", None, ("icrf", "equator")
        ),
        Column("tle", "Two lines", Kind.LINES, "1 ... | 2 ...", "Two-line elements"),
    ),
    Named.COURSE,
    CONTACTS,
    called="course",
)
ITEMS = Section(
    "item",
    "Items",
    (
        _name("Break 3"),
        _ID,
        Column(
            "kind",
            "Kind",
            Kind.CHOICE,
            "break",
            "What it is",
            choices=("break", "remote", "tape", "studio"),
        ),
        _length("length", "Length", "2m 10s", "How long it runs"),
        _length("turnaround", "Turnaround", "30s", "To be seated and counted in again"),
        _flag("owed", "Owed", "Must run before the programme ends"),
        Column(
            "sponsor", "Sponsor", Kind.WORDS, "A", "Two of one sponsor do not follow each other"
        ),
        _flag("can_cut", "Can be cut", "It can be left early", default=True),
        _clock("earliest", "Earliest", "It may begin from then"),
        _clock("latest", "Latest", "It must be over by then"),
        _clock("at", "At", "Placed to begin then"),
        Column("needs", "Needs", Kind.ONE, "voice", "A lane it needs", Named.LANE),
        Column("prefers", "Prefers", Kind.CHOICE, "gap", "Where it fits best", choices=("gap",)),
        Column("booked", "Booked", Kind.STRETCHES, _BOOKED, "When its line is booked"),
        Column("weight", "Weight", Kind.NUMBER, "2", "How much it is wanted"),
        Column("ran", "Ran", Kind.STRETCH, _BOOKED, "From when till when it has run"),
    ),
    Named.ITEM,
    called="item",
)
JUNCTIONS = Section(
    "junction",
    "Junctions",
    (
        _name("Network joins"),
        _clock("at", "At", "When a network, or part of the audience, joins or leaves"),
    ),
    called="junction",
)
CHECKOFFS = Section(
    "checkoff",
    "Check-offs",
    (
        _name("Clamps released"),
        _ID,
        _event("of", "Of"),
        Column("count", "Count", Kind.NUMBER, "8", "How many there are"),
        Column("enough", "Enough", Kind.NUMBER, "4", "How many will do"),
        _flag("spaced", "Spaced", "Those that count must stand evenly round the ring"),
    ),
    Named.CHECKOFF,
    called="check-off",
)
OUTCOMES = Section(
    "outcome",
    "Outcomes",
    (_name("after the burn"), _ID, _event("of", "Of", "The event that may turn out in ways")),
    Named.OUTCOME,
    called="outcome",
)
LIMITS = Section(
    "limit",
    "Limits",
    (
        _event("from", "From", "The earlier event"),
        _event("to", "To", "The later event"),
        Column("least", "Least", Kind.MAYBE_LENGTH, "10m", "No sooner after it than this"),
        Column("most", "Most", Kind.MAYBE_LENGTH, "40m", "No later after it than this"),
    ),
    called="limit",
)
BLACKOUTS = Section(
    "blackout",
    "Blackouts",
    (
        _event("after", "After"),
        _length("from", "From", "25s", "It begins so long after"),
        _length("to", "To", "4m 40s", "It ends so long after"),
        _lanes("What carries nothing meanwhile"),
        Column("cause", "Cause", Kind.WORDS, "plasma", "Why"),
    ),
    called="blackout",
)
GRAVE = Section(
    "grave",
    "Grave lines",
    (
        _length("after", "After", "10m", "Counted from the last possible return of the signal"),
        Column("text", "Words", Kind.WORDS, "We wait.", "Words the editor passed beforehand"),
    ),
    called="grave line",
)
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
    Cell((), _event("elapsed_from", "Elapsed from", "Elapsed time counts from this event")),
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
    Cell(("air",), _clock("on", "On the air", "When the programme begins")),
    Cell(("air",), _clock("off", "Off the air", "When it ends, whatever happens")),
    Cell(("air",), _length("item_gap", "Item gap", "20s", "Between any two items")),
    Cell(("air",), _length("break_gap", "Break gap", "12m", "Between breaks")),
    Cell(("air",), _length("delay", "Air delay", "7s", "From us to the viewers")),
)
"""What holds for the whole plan: shown one below the other."""


def section_of(key: str) -> Section | None:
    """The section of a list of the plan."""
    return next((section for section in SECTIONS if section.key == key), None)
