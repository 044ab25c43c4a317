"""`limbwatch say`: what the presenter may say at a moment, and for how long each sentence holds."""

from collections.abc import Iterator

from app.commands.times import clash_json
from app.commands.writing import as_json, counted, time_out
from core.board.model import View
from core.board.programme import Sentence, ToSay
from core.board.words import capital
from core.session.batch import Run
from core.session.desk import Desk

Json = dict[str, object]


def say_json(desk: Desk, run: Run, now_ms: int) -> str:
    """The sentences as JSON: corrections owed, then the one of the moment and others."""
    told = _told(desk, now_ms)
    return as_json(
        {
            "owed": [_sentence(each) for each in told.owed],
            "sentences": [_sentence(each) for each in told.sentences],
            "away": told.away or None,
            "said": told.said or None,
            "grave": told.grave,
            "clash": clash_json(run),
            "notes": list(run.notes),
        }
    )


def say_text(desk: Desk, run: Run, now_ms: int) -> str:
    """The same in words: each sentence in its lengths, with how long it stays true."""
    return "\n".join(_lines(_told(desk, now_ms), run))


def _told(desk: Desk, now_ms: int) -> ToSay:
    view: View = desk.view(now_ms)
    return ToSay() if view.to_say is None else view.to_say


def _sentence(each: Sentence) -> Json:
    return {
        "line": each.line,
        "twenty": each.twenty,
        "long": each.long,
        "true_until": time_out(each.until_ms),
        "times": [{"event": event, "time": time_out(at_ms)} for event, at_ms in each.times],
    }


def _lines(told: ToSay, run: Run) -> Iterator[str]:
    if told.grave:
        yield "Grave: nothing is counted down"
    if told.owed:
        yield f"{counted(len(told.owed), 'correction')} owed to the audience"
    for each in told.owed:
        yield from _lengths(each)
    if told.away:
        yield told.away
    for each in told.sentences:
        yield from ("", *_lengths(each))
    if not told.owed and not told.sentences:
        yield "Nothing to say"
    yield from run.notes


def _lengths(each: Sentence) -> Iterator[str]:
    """A sentence as a line, then longer where there is more of it."""
    yield capital(each.true_for) if each.true_for else "True as long as nothing is entered"
    yield from (f"  {text}" for text in dict.fromkeys((each.line, each.twenty, each.long)) if text)
