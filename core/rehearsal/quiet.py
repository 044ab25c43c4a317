"""What the desk itself is shown of a rehearsal: reports that have come, and nothing else."""

from core.board.model import Said, Tone
from core.board.reported import Reported
from core.rehearsal.live import LiveRun
from core.rehearsal.score import Score
from core.rehearsal.wording import at_desk
from core.times.writing import clock_text, floor_second_ms

_NOTHING = Said("Nothing reported yet", Tone.QUIET)


def reported(run: LiveRun, score: Score) -> tuple[Reported, ...]:
    """All reports that have come, oldest first."""
    told = zip(run.record.heard, score.reports, strict=True)
    return tuple(
        Reported(
            heard.at_ms,
            clock_text(heard.at_ms, run.style),
            at_desk(heard.report, run.plan, run.style),
            answer.after_ms is not None,
        )
        for heard, answer in told
    )


def quiet_line(reports: tuple[Reported, ...]) -> Said:
    """The line that stands at the desk: what came last, until it is entered or more comes."""
    if not reports:
        return _NOTHING
    last = reports[-1]
    second_ms = floor_second_ms(last.at_ms)
    together = [each for each in reports if floor_second_ms(each.at_ms) == second_ms]
    open_ = [each.words for each in together if not each.entered]
    if not open_:
        words = "  ·  ".join(each.words for each in together)
        return Said(f"Reported {last.when}, entered – {words}", Tone.QUIET)
    return Said(f"Reported {last.when} – {'  ·  '.join(open_)}", Tone.CHANGE)
