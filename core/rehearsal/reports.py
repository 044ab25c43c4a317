"""What reaches the desk in a rehearsal: words, and the lines a good desk enters on them."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from core.plan.model import Plan
from core.rehearsal.model import (
    CalledOff,
    CameraOn,
    Closes,
    LineFails,
    Misheard,
    Moves,
    NetworkTakes,
    Steps,
    Surprise,
    Turns,
)
from core.saying.outcomes import confirmed
from core.times.instants import ms_to_rfc3339
from core.times.writing import SECOND_MS, short_duration_words

NATURAL_MS = 30_000
"""By when what simply happens should be on the board."""


@dataclass(frozen=True, slots=True)
class Report:
    """Words that reach the desk at `at_ms`, and what is to be entered by `within_ms` after it.

    `inside` names an item: then `at_ms` counts from its beginning. `surprise` is the id of the one
    it belongs to, empty for what simply happens. `step_ms` is done to the clock, `live_ms` is for
    how long the presenter should be on the air, `fails` the item that cannot run, `moves` the
    event of which it gives a time, `outcome` the way in which it says that an event turned out.
    `then_ms` is when what simply happens really did.
    """

    id: str
    at_ms: int
    text: str
    lines: tuple[str, ...]
    within_ms: int = NATURAL_MS
    source: str = ""
    surprise: str = ""
    inside: str = ""
    step_ms: int = 0
    live_ms: int = 0
    fails: str = ""
    outcome: str = ""
    moves: str = ""
    then_ms: int | None = None


def told(surprise: Surprise, at_ms: int, plan: Plan, new_ms: int | None) -> Iterator[Report]:
    """The reports of one surprise, in order of time. `new_ms` is the time that it gives an event.

    None where nobody says anything: what happens is then heard as it happens.
    """
    text, lines = _words(surprise, plan, at_ms, new_ms)
    if surprise.desk is not None:
        lines = surprise.desk
    if surprise.quiet or not text:
        return
    what = surprise.what
    report = Report(
        id=surprise.id,
        at_ms=at_ms,
        text=text,
        lines=lines,
        within_ms=surprise.within_ms,
        source=surprise.source,
        surprise=surprise.id,
        inside=surprise.when.item,
        step_ms=what.by_ms if isinstance(what, Steps) else 0,
        live_ms=what.for_ms if isinstance(what, CameraOn) else 0,
        fails=what.item if isinstance(what, LineFails) and surprise.desk is None else "",
        outcome=what.outcome if isinstance(what, Turns) else "",
        moves=what.event if isinstance(what, Moves) else "",
    )
    if surprise.misheard is not None:
        wrong = surprise.misheard
        right_ms = at_ms + wrong.corrected_ms
        if not wrong.text and isinstance(what, Moves) and new_ms is not None:
            wrong = _with_a_wrong_figure(wrong, surprise, what, plan, new_ms, right_ms)
            if not surprise.text:
                report = replace(report, text=f"Correction. {text}")
        heard = replace(report, id=f"{surprise.id} (misheard)", text=wrong.text)
        yield replace(heard, lines=(wrong.line,), step_ms=0, live_ms=0)
        is_past = new_ms is not None and new_ms <= right_ms and surprise.desk is None
        report = replace(report, at_ms=right_ms, lines=() if is_past else lines)
    yield report
    if surprise.again_ms is not None:
        again_ms = report.at_ms + surprise.again_ms
        twice = replace(report, id=f"{surprise.id} (again)", at_ms=again_ms, lines=())
        yield replace(twice, step_ms=0, live_ms=0, fails="", outcome="")
    yield from _over(report, what)


def _with_a_wrong_figure(
    wrong: Misheard, surprise: Surprise, what: Moves, plan: Plan, new_ms: int, right_ms: int
) -> Misheard:
    """Ten times as much as was said; the other way round where that would be over by then."""
    by_ms = 10 * what.by_ms
    wrong_ms = new_ms - what.by_ms + by_ms
    if wrong_ms <= right_ms:
        by_ms = -what.by_ms
        wrong_ms = new_ms - what.by_ms + by_ms
    per = f" per {surprise.source}" if surprise.source else ""
    line = f"{what.event} {ms_to_rfc3339(wrong_ms)}{per}"
    return replace(wrong, text=_moved_words(_name(plan, what.event), by_ms), line=line)


def _over(report: Report, what: object) -> Iterator[Report]:
    """The end of what lasts for a while."""
    match what:
        case Closes(lane, for_ms):
            text, line = f"The talk is over: {lane} is open again.", f"{lane} open"
        case NetworkTakes(for_ms):
            text, line = "We have the air again.", "air on"
        case _:
            return
    at_ms = report.at_ms + for_ms
    yield replace(report, id=f"{report.id} (over)", at_ms=at_ms, text=text, lines=(line,))


def _words(
    surprise: Surprise, plan: Plan, at_ms: int, new_ms: int | None
) -> tuple[str, tuple[str, ...]]:
    """What the ground says, and what follows for the desk."""
    made, lines = _made(surprise, plan, at_ms, new_ms)
    per = f" per {surprise.source}" if surprise.source else ""
    if isinstance(surprise.what, Moves) and not lines:
        return "", ()
    if isinstance(surprise.what, Moves | Turns | CalledOff):
        lines = tuple(f"{line}{per}" for line in lines)
    return surprise.text or made, lines


def _made(
    surprise: Surprise, plan: Plan, at_ms: int, new_ms: int | None
) -> tuple[str, tuple[str, ...]]:
    """The same where the file has no words of its own."""
    made: tuple[str, tuple[str, ...]] = ("", ())
    match surprise.what:
        case Moves(event, by_ms) if new_ms is not None and new_ms > at_ms:
            made = (_moved_words(_name(plan, event), by_ms), (f"{event} {ms_to_rfc3339(new_ms)}",))
        case Turns(outcome):
            made = (turned_words(plan, outcome), (outcome,))
        case CalledOff(event, way):
            made = (f"Called off: {_name(plan, event)}.", (f"{event} scrub {way.value}",))
        case LineFails(item):
            made = (f"The line is gone: {_item(plan, item)}.", ())
        case Closes(lane, for_ms):
            about = short_duration_words(for_ms)
            made = (f"The ground closes {lane} for about {about}.", (f"{lane} closed",))
        case NetworkTakes(for_ms):
            how_long = short_duration_words(for_ms)
            line = f"air off {for_ms // SECOND_MS}s"
            made = (f"The network takes the air for {how_long}.", (line,))
        case CameraOn():
            made = ("The crew have turned their camera on.", ())
        case Steps(by_ms):
            made = (f"The clock was put right by {by_ms / SECOND_MS:+g} s.", ())
        case _:
            pass
    return made


def _moved_words(name: str, by_ms: int) -> str:
    if not by_ms:
        return f"{name}: a new time."
    late = "later" if by_ms > 0 else "earlier"
    return f"{name}: {short_duration_words(abs(by_ms))} {late}."


def turned_words(plan: Plan, outcome: str) -> str:
    """The ground's word on how an event turned out."""
    found = next(each for each in plan.outcomes if each.id == outcome)
    what = confirmed(found.name).removeprefix(":").strip()
    return f"{_name(plan, found.of)}: the ground confirms {what}."


def _name(plan: Plan, event: str) -> str:
    return next((each.name for each in plan.events if each.id == event), event)


def _item(plan: Plan, item: str) -> str:
    return next((each.name for each in plan.items if each.id == item), item)
