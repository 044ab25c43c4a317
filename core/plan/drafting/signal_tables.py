"""The tables of the signal: ground stations, lanes, courses with their contacts, blackouts."""

from core.plan.drafting import usual
from core.plan.drafting.columns import Column, Kind, Section
from core.plan.gather import Named

GROUNDS = Section(
    "ground",
    "Ground stations",
    (
        usual.name("Tarn Hill"),
        usual.ID,
        usual.lanes("What it carries"),
        Column("latitude", "Latitude", Kind.NUMBER, "34.2", "Degrees north; south is negative"),
        Column("longitude", "Longitude", Kind.NUMBER, "-112.4", "Degrees east; west is negative"),
        Column("height", "Height", Kind.NUMBER, "900", "Metres above the sea"),
        Column("mask", "Mask", Kind.NUMBER, "10", "Degrees above the horizon where it begins"),
        Column("open", "Open", Kind.STRETCHES, usual.BOOKED, "The hours it works for this flight"),
        usual.flag("geocentre", "Earth's centre", "It stands nowhere: for the Earth as a whole"),
    ),
    Named.GROUND,
    called="ground station",
)
LANES = Section(
    "lane",
    "Lanes",
    (
        usual.ID,
        usual.name("VOICE"),
        usual.length("delay", "Delay", "9s", "From the ground station to the studio"),
        usual.length(
            "first_words", "First words", "45s", "Usually so long after the signal is back"
        ),
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
        usual.ID,
        Column(
            "kind",
            "Kind",
            Kind.CHOICE,
            "passes",
            "passes: a table of contacts; the others are computed",
            choices=("passes", "orbit", "arrival", "trajectory", "elements"),
        ),
        Column("file", "File", Kind.WORDS, "petrel-4.oem", "A file beside the plan"),
        usual.event("follows", "Follows", "Its contacts move with this event"),
        Column(
            "times",
            "Times",
            Kind.CHOICE,
            "clock",
            "What its contacts count from: the clock, elapsed time, or the event it follows",
            choices=("clock", "elapsed", "offset"),
        ),
        Column("gap", "Gap", Kind.WORDS, "behind the Moon", "Why there is none between contacts"),
        usual.ONLY_IF,
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
BLACKOUTS = Section(
    "blackout",
    "Blackouts",
    (
        usual.event("after", "After"),
        usual.length("from", "From", "25s", "It begins so long after"),
        usual.length("to", "To", "4m 40s", "It ends so long after"),
        usual.lanes("What carries nothing meanwhile"),
        Column("cause", "Cause", Kind.WORDS, "plasma", "Why"),
    ),
    called="blackout",
)
