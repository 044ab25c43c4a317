"""`limbwatch rehearse`: a rehearsal run without a screen by a scripted desk, and its score."""

import json
from collections.abc import Iterator

from app.commands.writing import clock_out, columns, seconds_out, time_out
from core.plan.model import Plan
from core.rehearsal.answering import Answered
from core.rehearsal.drawing import drawn_day
from core.rehearsal.draws import Draws
from core.rehearsal.driver import Run
from core.rehearsal.frame import frame_of
from core.rehearsal.habits import DESKS, Hand
from core.rehearsal.model import Surprises
from core.rehearsal.score import Score, score_of
from core.rehearsal.scorewords import how
from core.rehearsal.watching import EVERY, as_from_scratch
from core.session.ground import SkiesFor
from core.times.writing import Style, short_duration_words

Json = dict[str, object]


def rehearsed(
    plan: Plan, day: Surprises, desk: str, number: int, skies_for: SkiesFor
) -> tuple[Score, int]:
    """The score of a day with a scripted desk, and how often the board was looked at and checked.

    The number is that of the desk's hand: another one mistypes and forgets other things.
    """
    run = Run(plan, day, Hand(DESKS[desk], number), skies_for, EVERY)
    record = run.go()
    run.note(as_from_scratch(run.look()))
    return score_of(record, plan), record.looks


def drawn(plan: Plan, draws: Draws, number: int, severity: int, skies_for: SkiesFor) -> Surprises:
    """The drawn day of that number on a plan."""
    return drawn_day(plan, draws, frame_of(plan, skies_for), number, severity)


def score_json(score: Score, day: Surprises) -> str:
    """The score as one line of JSON: times in RFC 3339, lengths in seconds."""
    told: Json = {
        "title": day.title,
        "begin": time_out(day.begin_ms),
        "end": time_out(day.end_ms),
        "desk": score.desk,
        "attempt": score.attempt,
        "sprung": list(score.sprung),
        "added": list(score.added),
        "reports": [_report(each) for each in score.reports],
        "lost": [
            {
                "event": each.event,
                "item": each.item,
                "by_s": seconds_out(each.by_ms),
                "itself": each.itself,
                "unavoidable": each.unavoidable,
                "proof": each.proof,
            }
            for each in score.lost
        ],
        "on_air_s": seconds_out(score.on_air_ms),
        "wrong_countdown_s": seconds_out(score.wrong_ms),
        "wrong_countdown": [_stretch(*each) for each in score.wrong],
        "items": [{"id": e.item, **_stretch(e.from_ms, e.to_ms)} for e in score.runs],
        "corrections": {
            "owed": score.corrections_owed,
            "said": score.corrections_said,
            "still_owed": list(score.still_owed),
        },
        "owed_items": [
            {"id": e.item, "ran": e.ran, "short_s": seconds_out(e.short_ms), "why": e.why}
            for e in score.owed_items
        ],
        "troubles": list(score.troubles),
    }
    return json.dumps(told, separators=(",", ":"))


def _stretch(from_ms: int, to_ms: int) -> Json:
    return {"from": time_out(from_ms), "to": time_out(to_ms)}


def _report(each: Answered) -> Json:
    return {
        "report": each.report,
        "at": time_out(each.at_ms),
        "text": each.text,
        "surprise": not each.natural,
        "after_s": seconds_out(each.after_ms),
        "seen_s": seconds_out(each.seen_ms),
        "within_s": seconds_out(each.within_ms),
        "off_s": seconds_out(each.off_ms),
        "right": each.right,
        "early_s": seconds_out(each.early_ms),
        "overtaken": each.overtaken,
        "ended_before": each.cut_off,
        "mended_s": seconds_out(each.mended_ms),
    }


def score_text(score: Score, day: Surprises, plan: Plan) -> str:
    """The score in words and figures."""
    return "\n".join(_lines(score, day, Style(plan.zones[0])))


def _lines(score: Score, day: Surprises, style: Style) -> Iterator[str]:
    yield f"{day.title}: rehearsed by the scripted desk '{score.desk}'"
    head = ("HEARD", "REPORT", "ENTERED AFTER", "")
    rows = [_row(each, day, style) for each in score.reports]
    yield columns([head, *rows])
    for lost in score.lost:
        by = short_duration_words(lost.by_ms)
        yield f"Lost to {lost.item}: {by} of {lost.event}; {lost.proof}"
    on_air, wrong = short_duration_words(score.on_air_ms), short_duration_words(score.wrong_ms)
    yield f"On the air: {on_air}, of it {wrong} with a wrong countdown"
    said = f"{score.corrections_said} of {score.corrections_owed}"
    yield f"Corrections owed to the audience: {said} said"
    for item in score.owed_items:
        short = f", {short_duration_words(item.short_ms)} short" if item.short_ms else ""
        why = f": {item.why}" if item.why else ""
        yield f"Owed: {item.item} {'has run' if item.ran else 'has not run'}{short}{why}"
    for trouble in score.troubles:
        yield f"Trouble: {trouble}"


def _row(each: Answered, day: Surprises, style: Style) -> tuple[str, ...]:
    when = clock_out(each.at_ms, style, day.begin_ms)
    if each.after_ms is None:
        return (when, each.text, "", how(each))
    return (when, each.text, short_duration_words(each.after_ms), how(each))
