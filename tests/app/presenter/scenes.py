"""Made-up views of the presenter window, one of every sort, for tests and pictures."""

from dataclasses import replace

from core.board.model import Figure, Said, Tone
from core.board.programme import PresenterLane, PresenterThen, PresenterView
from tests.app.views import LONG_NAME


def minutes(number: int, seconds: int, **more: bool) -> Figure:
    """A length of minutes and seconds."""
    return Figure(((f"{number}", "min"), (f"{seconds:02d}", "s")), **more)


def long(number: int, minute: int) -> Figure:
    """A length of hours as a lane has it."""
    return Figure(((f"{number}", "h"), (f"{minute:02d}", "min")))


def hours(number: int, minute: int, seconds: int) -> Figure:
    """A length with an hour."""
    return Figure(((f"{number}", "h"), (f"{minute:02d}", "min"), (f"{seconds:02d}", "s")))


SENTENCE = (
    "“We have about five and a half minutes of pictures left, and just under eight of voice. "
    "Then Petrel slips behind the Moon. The engine is due to fire while nobody on Earth can "
    "hear it.”"
)
SHORTER = "“About five and a half minutes of pictures left, and just under eight of voice.”"

ORDINARY = PresenterView(
    clock="4:41:12 p.m.",
    name="Loss of signal",
    figure=minutes(7, 48),
    at="4:49 p.m. Atlantic",
    change=Said("about a minute later than planned", Tone.CHANGE),
    lanes=(
        PresenterLane("picture", minutes(5, 48), ""),
        PresenterLane("voice", minutes(7, 48), ""),
    ),
    back="by 4:46 p.m.",
    sentence=SENTENCE,
    shorter=SHORTER,
    then=(
        PresenterThen("16 min", "insertion burn, out of contact"),
        PresenterThen("31 or 42 min", "signal back"),
        PresenterThen("about 50 min", "first picture"),
    ),
)

CROWDED = replace(
    ORDINARY,
    name=LONG_NAME,
    figure=hours(1, 23, 48),
    at="Thursday, about 12:49 p.m. Central European",
    change=Said("about 1 hour 13 minutes earlier than planned", Tone.CHANGE),
    lanes=(
        PresenterLane("picture back in", long(1, 28), "or later"),
        PresenterLane("voice back in", minutes(22, 48), "or 33 min"),
        PresenterLane("data lost at the latest in", long(11, 22), ""),
    ),
    sentence=SENTENCE.replace("”", "") + " " + SENTENCE.replace("“", ""),
    fact="They were asked for the Earth over the edge of the Moon, with the crew's own words to "
    "go with it. They said they would see, and would promise nothing at all before supper.",
    then=(
        PresenterThen("1 h 16 min", LONG_NAME.lower()),
        PresenterThen("2 h 31 min or 2 h 42 min", "signal back"),
    ),
)

BREAK = replace(
    ORDINARY,
    lead="back in",
    name="Break 3",
    figure=minutes(1, 12),
    at="4:42:24 p.m.",
    change=Said(""),
    second=(("wrap", minutes(1, 2)), ("Loss of signal, far side", minutes(7, 48))),
)

LONG_BREAK = replace(
    CROWDED,
    lead="back in",
    name="Remote from the hall beside the simulator, with the whole crew's families",
    figure=minutes(12, 12),
    at="4:53:24 p.m.",
    second=(("wrap", minutes(12, 2)), (LONG_NAME, hours(1, 23, 48))),
)

LATE_BREAK = replace(
    BREAK, lead="due back", figure=Figure((("14", "s"),), past=True), second=BREAK.second[1:]
)

HELD = replace(
    ORDINARY,
    name="Liftoff",
    figure=minutes(9, 0),
    change=Said(""),
    at="on the clock, and the count is holding",
)

DAYS = replace(ORDINARY, figure=Figure((("2", "d"), ("02", "h")), about=True))

SOUNDING = replace(ORDINARY, sounds="PET-rul · LAN-tern KOHV")

WAITING = replace(ORDINARY, back_word="live", back="until there is word")

BARE = PresenterView(clock="11:41:12 p.m.")

PASSED = (
    "We have not heard from Petrel for longer than planned. Mission control has said nothing "
    "yet, and we will not guess. We stay here, and will tell you what they tell us."
)

GRAVE = PresenterView(
    clock="Wednesday, 5:31:12 p.m. Atlantic",
    grave=True,
    lines=(
        "Loss of signal, far side happened at 4:49:00 p.m., per flight",
        PASSED,
    ),
)

EVERY = {
    "ordinary": ORDINARY,
    "crowded": CROWDED,
    "break": BREAK,
    "long-break": LONG_BREAK,
    "late-break": LATE_BREAK,
    "held": HELD,
    "days": DAYS,
    "waiting": WAITING,
    "sounding": SOUNDING,
    "bare": BARE,
    "grave": GRAVE,
}
