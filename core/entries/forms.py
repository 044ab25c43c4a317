"""The catalogue of forms: what may be typed and how it is read. Help sheet and hints draw on it."""

from collections.abc import Sequence
from dataclasses import replace

from core.entries.forms_on_air import OF_THE_PROGRAMME, ON_THE_PROGRAMME
from core.entries.formshape import About, Form
from core.entries.words import nearest

_ZONED = Form(About.EVENT, "ign", ("19:58:05z",), "in UTC; another zone of the plan by its name")

_FORMS = (
    Form(
        About.EVENT,
        "ign",
        ("4:58:05p", "16:58:05", "1658", "165805"),
        "a new time, on the day nearest to expected; 24 h without a or p",
        first=True,
    ),
    Form(About.EVENT, "ign", ("4:58",), "either half of the day, the nearer first; Tab picks"),
    Form(
        About.EVENT,
        "ign",
        ("15 May 4:58p", "Thu 4:58p", "2031-05-15T16:58", "2031-05-15T19:58:05.250Z"),
        "with a date",
    ),
    _ZONED,
    Form(
        About.EVENT,
        "ign",
        ("+45s", "-2m", "+1:12"),
        "later or earlier than now expected",
        first=True,
    ),
    Form(About.EVENT, "ign", ("in 4m",), "from now", "in", first=True),
    Form(About.EVENT, "ign", ("elapsed 3d 03:29:33",), "by mission elapsed time", "elapsed"),
    Form(About.EVENT, "ign", ("about 4:58p",), "with a give of 30 s, or the plan's", "about"),
    Form(About.EVENT, "ign", ("4:58p +-30s", "+-30s"), "with that give"),
    Form(
        About.EVENT,
        "ign",
        ("now", "now-12s"),
        "it has happened; now is the first Enter",
        "now",
        first=True,
    ),
    Form(
        About.EVENT,
        "ign",
        ("now on picture",),
        "heard on that lane: earlier by its delay; without it, on the lane that is in contact",
        "on",
    ),
    Form(About.EVENT, "ign", ("happened 4:58:02p",), "it happened then", "happened"),
    Form(
        About.EVENT, "liftoff", ("hold",), "the count stops with what is left", "hold", first=True
    ),
    Form(
        About.EVENT,
        "liftoff",
        ("resume", "resume 5:10p"),
        "the count goes on, now or then",
        "resume",
    ),
    Form(
        About.EVENT,
        "ign",
        ("scrub with", "scrub bridge", "scrub stay"),
        "called off: those tied to it go too, are tied across the gap, or stay",
        "scrub",
    ),
    Form(About.EVENT, "ign", ("pin",), "held to its present clock time", "pin"),
    Form(About.EVENT, "ign", ("free",), "follows its ties again", "free"),
    Form(About.OUTCOME, "burned", ("",), "the outcome that a source has named"),
    Form(About.OUTCOME, "burned", ("undecided",), "open again", "undecided", first=True),
    Form(
        About.LANE, "voice", ("lost now", "lost 4:51:10p"), "a loss as observed", "lost", first=True
    ),
    Form(
        About.LANE,
        "voice",
        ("back now", "back 4:51:10p"),
        "a return as observed",
        "back",
        first=True,
    ),
    Form(About.LANE, "voice", ("back now alone",), "the table's later rows stay", "alone"),
    Form(About.LANE, "voice", ("back now shift",), "the later rows move with it", "shift"),
    Form(
        About.LANE,
        "voice",
        ("closed", "open"),
        "shut by the ground: no loss of signal",
        "closed",
        first=True,
    ),
    *ON_THE_PROGRAMME,
    Form(
        About.BOARD,
        "",
        ('new "Correction burn" 6:10p', 'new "Crew sleeps" ign +4h'),
        "an event added, alone or tied",
        "new",
        first=True,
    ),
    Form(
        About.BOARD, "", ("note line to the hall is noisy",), "into the record", "note", first=True
    ),
    Form(
        About.BOARD,
        "",
        ("sign in AB", "sign out"),
        "who is at the desk: every entry from then on has these initials",
        "sign",
    ),
    Form(
        About.BOARD,
        "",
        ("promise back to the hall after the burn",),
        "promised to the audience; stands on the handover page until kept",
        "promise",
    ),
    Form(
        About.BOARD,
        "",
        ("kept", "kept hall"),
        "the promise was kept; of several the one with these words",
        "kept",
    ),
    *OF_THE_PROGRAMME,
    Form(About.BOARD, "", ("replan",), "the present times become the planned ones", "replan"),
    Form(About.BOARD, "", ("plan",), "takes over the plan as changed on disk", "plan"),
    Form(About.ANY, "...", ("per flight",), "who said so, after any form", "per", first=True),
    Form(About.CLOCK, "clock", ("pause", "go"), "the simulated clock stands, runs", first=True),
    Form(About.CLOCK, "clock", ("rate 60",), "from 1/10 to 600 times as fast", "rate", first=True),
    Form(About.CLOCK, "clock", ("step 30s", "step -30s"), "so far on, or back", "step"),
    Form(About.CLOCK, "clock", ("4:30p",), "set to a clock time"),
    Form(About.CLOCK, "clock", ("next",), "to a minute before the next event", "next", first=True),
)


WORDS_READ = tuple(sorted({word for form in _FORMS for word in form.words} | {"clock"}))
"""The words that begin or mark a form: no id should be one of them."""


def catalogue(*, zones: Sequence[str] = (), simulated: bool = True) -> tuple[Form, ...]:
    """All forms in the order of the help sheet.

    `zones` are the spoken names of the plan's other zones, for an example that works there; the
    clock's own forms are left out where it is not simulated.
    """
    forms = [form for form in _FORMS if simulated or form.about is not About.CLOCK]
    return tuple(_with_zone(form, zones[0]) if form is _ZONED and zones else form for form in forms)


def nearest_form(about: About, target: str, rest: str) -> str:
    """A hint for a line that no form reads: the form whose word is nearest, else a few of them."""
    own = [form for form in _FORMS if form.about is about]
    near = nearest(rest.partition(" ")[0], (word for form in own for word in form.words))
    if near:
        return form_of(near, target, own)
    few = (_quoted(target, form.examples[0]) for form in own if form.first)
    return "What is read: " + ", ".join(few)


def form_of(word: str, target: str = "", among: Sequence[Form] = _FORMS) -> str:
    """The hint that names the form with that word; StopIteration where there is none."""
    form = next(form for form in among if word in form.words)
    example = next((each for each in form.examples if word in each.split()), form.examples[0])
    if not target and form.about is not About.EVENT:
        target = form.target  # of events alone a form needs no name: it is the selected card's
    return f"The nearest form is {_quoted(target, example)}"


def _quoted(target: str, example: str) -> str:
    return f"'{f'{target} {example}'.strip()}'"


def _with_zone(form: Form, zone: str) -> Form:
    return replace(form, examples=(*form.examples, f"3:58p {zone.lower()}"))
