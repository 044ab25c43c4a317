"""The tables of the programme: items and junctions."""

from core.plan.drafting import usual
from core.plan.drafting.columns import Column, Kind, Section
from core.plan.gather import Named

ITEMS = Section(
    "item",
    "Items",
    (
        usual.name("Break 3"),
        usual.ID,
        Column(
            "kind",
            "Kind",
            Kind.CHOICE,
            "break",
            "What it is",
            choices=("break", "remote", "tape", "studio"),
        ),
        usual.length("length", "Length", "2m 10s", "How long it runs"),
        usual.length("turnaround", "Turnaround", "30s", "To be seated and counted in again"),
        usual.flag("owed", "Owed", "Must run before the programme ends"),
        Column(
            "sponsor", "Sponsor", Kind.WORDS, "A", "Two of one sponsor do not follow each other"
        ),
        usual.flag("can_cut", "Can be cut", "It can be left early", default=True),
        usual.clock("earliest", "Earliest", "It may begin from then"),
        usual.clock("latest", "Latest", "It must be over by then"),
        usual.clock("at", "At", "Placed to begin then"),
        Column("needs", "Needs", Kind.ONE, "voice", "A lane it needs", Named.LANE),
        Column("prefers", "Prefers", Kind.CHOICE, "gap", "Where it fits best", choices=("gap",)),
        Column("booked", "Booked", Kind.STRETCHES, usual.BOOKED, "When its line is booked"),
        Column("weight", "Weight", Kind.NUMBER, "2", "How much it is wanted"),
        Column("ran", "Ran", Kind.STRETCH, usual.BOOKED, "From when till when it has run"),
    ),
    Named.ITEM,
    called="item",
)
JUNCTIONS = Section(
    "junction",
    "Junctions",
    (
        usual.name("Network joins"),
        usual.clock("at", "At", "When a network, or part of the audience, joins or leaves"),
    ),
    called="junction",
)
