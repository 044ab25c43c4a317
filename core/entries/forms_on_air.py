"""The catalogue of forms about the programme: items, check-offs, the air, what is said on it."""

from core.entries.formshape import About, Form

ON_THE_PROGRAMME = (
    Form(
        About.ITEM,
        "break 3",
        ("now", "now-12s"),
        "it goes on the air; now is the first Enter",
        "now",
        first=True,
    ),
    Form(
        About.ITEM,
        "break 3",
        ("at 4:46p", "4:46p", "in 4m"),
        "placed there, in any shape of a clock time",
        "at",
        first=True,
    ),
    Form(About.ITEM, "break 3", ("+2m", "-30s"), "later or earlier than where it is placed"),
    Form(
        About.ITEM,
        "break 3",
        ("over", "over 4:48:10p"),
        "it is over, now or then",
        "over",
        first=True,
    ),
    Form(About.ITEM, "break 3", ("off",), "it will not run", "off", first=True),
    Form(
        About.ITEM,
        "break 3",
        ("free",),
        "gives up the place it was given here; one that was off may run again",
        "free",
    ),
    Form(About.CHECKOFF, "clamps", ("6",), "so many of them", first=True),
    Form(
        About.CHECKOFF,
        "clamps",
        ("1 3 5 7",),
        "these of them, by position",
        first=True,
    ),
    Form(About.CHECKOFF, "clamps", ("at 3",), "that one alone", "at", first=True),
    Form(About.CHECKOFF, "clamps", ("+1",), "one more", first=True),
    Form(
        About.LANE,
        "picture",
        ("clock 4:41:03p",),
        "what a clock in the picture shows now",
        "clock",
    ),
    Form(
        About.LANE,
        "picture",
        ("delay 9s",),
        "so late it comes to the studio: taken off every now that is heard on it",
        "delay",
    ),
)
"""Those that are about one thing of the programme."""

OF_THE_PROGRAMME = (
    Form(About.BOARD, "", ("place",), "places all that is owed, in the best way", "place"),
    Form(
        About.BOARD,
        "",
        ("air off", "air off until 5:10p", "air off 11m"),
        "the network has the air, until then or so long",
        "air",
    ),
    Form(About.BOARD, "", ("air on", "air on 5:12p"), "the programme has the air again", "air"),
    Form(About.BOARD, "", ("said",), "the sentence shown was said on the air", "said"),
    Form(About.BOARD, "", ("waive",), "the corrections owed need not be said", "waive"),
    Form(
        About.BOARD,
        "",
        ("grave", "grave over"),
        "the board is grave, or no longer; both ask once more",
        "grave",
    ),
)
"""Those that begin with a word of their own."""
