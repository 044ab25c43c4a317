"""What the trainer's window shows: the hidden timeline, what the desk was told, the score so far.

Every text is written here; the window holds no rule.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from core.board.model import Said, Tone
from core.rehearsal.live import LiveRun
from core.rehearsal.rows import Row, rows_of
from core.rehearsal.score import Score
from core.rehearsal.scorewords import ScoreWords
from core.times.writing import apart_ms, clock_text, duration_words


@dataclass(frozen=True, slots=True)
class TrainerView:
    """All of the trainer's window at one second.

    `rows` are in order of time: up to `next_index` what is past, then what is coming. `attempt`
    counts from 1: one more each time that one has gone back.
    """

    title: str
    ends: str
    rows: tuple[Row, ...]
    next_index: int
    score: tuple[tuple[str, Said], ...]
    attempt: int = 1


def trainer_view(run: LiveRun, score: Score) -> TrainerView:
    """The rehearsal as its trainer sees it now, with the score of now."""
    rows, next_index = rows_of(run, score)
    end_ms = run.day.end_ms
    left = "over" if run.over else f"in {duration_words(apart_ms(end_ms, run.now_ms))}"
    ends = f"ends {clock_text(end_ms, run.style)}, {left}"
    figures = tuple(_score(run, score))
    return TrainerView(run.day.title, ends, rows, next_index, figures, len(run.attempts) + 1)


def _score(run: LiveRun, score: Score) -> Iterator[tuple[str, Said]]:
    """The score so far, in a few rows."""
    for name, words in ScoreWords(score, run.day, run.plan, run.style.hours).figures():
        lost = bool(score.lost) and name.startswith("Live moments")
        yield name, Said(words, Tone.CLASH if lost else Tone.PLAIN)
