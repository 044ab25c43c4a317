"""A rehearsal with people at the desk, its clock turned by hand."""

from dataclasses import replace

import pytest

from core.entries.model import Note, Revise, TakeBack, standing
from core.errors import EntryRefused
from core.plan.model import Change
from core.rehearsal.desk import OpenDesk
from core.rehearsal.live import LiveRun
from core.rehearsal.model import (
    CameraOn,
    Edges,
    Moves,
    NetworkTakes,
    Steps,
    Surprise,
    Surprises,
    Turns,
    What,
    When,
    Words,
)
from core.rehearsal.score import score_of
from core.rehearsal.scorewords import ScoreWords
from core.times.clocks import SimClock
from tests.core.board.boards import at_ms
from tests.core.rehearsal.days import day, drawn, rehearsed, small
from tests.core.rehearsal.live_days import Fingers, Room, room


def sprung(clock: str, what: What, name: str = "one", **more: object) -> Surprise:
    return Surprise(name, When(at_ms(clock)), what, **more)  # type: ignore[arg-type]


LATE = sprung("16:45", Moves("ignition", 180_000), source="flight")
LATER = Moves("ignition", 60_000)


def short(*surprises: Surprise, end: str = "17:20") -> Surprises:
    return day(*surprises, begin="16:36", end=end)


def reported(here: Room, name: str = "one") -> list[tuple[int | None, bool | None]]:
    answers = here.run.score().reports
    return [(each.after_ms, each.right) for each in answers if each.report == name]


# ------------------------------------------------------------------ the score


DAYS = [
    (short(LATE), "slow"),
    (short(sprung("16:40", Edges("voice", Change.LOST, for_ms=60_000))), "careless"),
    (short(sprung("17:03", NetworkTakes(660_000)), end="18:30"), "perfect"),
    (short(sprung("16:44:10", Steps(40_000))), "perfect"),
    (short(Surprise("c", When(item="break-3", by_ms=30_000), CameraOn(60_000))), "slow"),
    *((drawn(number), desk) for number, desk in ((1, "perfect"), (2, "careless"))),
]


@pytest.mark.parametrize(("surprises", "desk"), DAYS)
def test_the_same_desk_has_the_same_score_as_without_a_screen(
    surprises: Surprises, desk: str
) -> None:
    _, record = rehearsed(surprises, desk, 3)
    there = score_of(record, small())
    here = Fingers(room(surprises), desk, 3).go()
    assert replace(here, desk=desk) == there


def test_what_is_typed_late_and_wrongly_counts_as_it_was() -> None:
    here = room(short(LATE))
    assert "Burn, ignition: 3 min later." in here.until("16:45:00")
    here.until("16:45:20")
    here.type("ignition +4m")
    assert reported(here) == [(20_000, False)]
    here.until("16:45:50")
    here.type("ignition -1m")
    (answer,) = [each for each in here.run.score().reports if each.report == "one"]
    assert (answer.off_ms, answer.mended_ms) == (60_000, 50_000)


def test_nothing_counts_after_the_end() -> None:
    here = room(short(end="16:38"))
    here.until("16:39")
    assert here.run.over
    assert here.run.score().on_air_ms == 120_000


# ------------------------------------------------------------------ the trainer's hand


def test_a_surprise_sprung_now_is_heard_now_and_the_flight_goes_with_it() -> None:
    here = room(short(LATE))
    here.until("16:40")
    before_ms = here.run.truth.at_ms("ignition")
    here.run.spring("one")
    assert [each.report.text for each in here.look()] == ["Burn, ignition: 3 min later."]
    assert here.run.truth.at_ms("ignition") == before_ms
    assert not here.run.can_spring("one")
    with pytest.raises(EntryRefused, match="sprung already"):
        here.run.spring("one")
    assert "Burn, ignition: 3 min later." not in here.until("16:46")


def test_one_added_on_the_spot_moves_all_that_hangs_on_it() -> None:
    here = room(short())
    here.until("16:40:30")
    here.run.add(sprung("16:41", LATER, "added"))
    assert here.run.truth.at_ms("cutoff") == at_ms("17:07")
    assert "Burn, ignition: 1 min later." in here.until("16:41")
    here.type("ignition +1m per flight")
    assert reported(here, "added") == [(0, True)]


def test_what_was_heard_is_not_heard_again_when_the_flight_turns_another_way() -> None:
    drop = sprung("16:38", Edges("voice", Change.LOST, for_ms=60_000))
    here = room(short(drop))
    first = here.until("16:39:30")
    here.run.add(sprung("16:41", Edges("voice", Change.LOST, for_ms=30_000), "added"))
    again = here.until("16:43")
    assert [each for each in first if each.startswith("Voice")] == ["Voice lost.", "Voice back."]
    assert [each for each in again if each.startswith("Voice")] == ["Voice lost.", "Voice back."]


def test_what_has_happened_cannot_be_changed_even_unheard() -> None:
    here = room(short(sprung("17:10", Words(), "late")))
    here.until("17:06:30")
    assert here.run.truth.at_ms("cutoff") == at_ms("17:06")
    for late in (
        sprung("17:06:40", Turns("no-burn", ("ignition", "cutoff")), "a"),
        sprung("17:06:40", Moves("ignition", -600_000), "b"),
    ):
        with pytest.raises(EntryRefused, match="happened already"):
            here.run.add(late)
    with pytest.raises(EntryRefused, match="cannot happen"):
        here.run.add(sprung("17:07", Edges("voice", Change.LOST, for_ms=1_000), "c"))
    with pytest.raises(EntryRefused, match="already"):
        here.run.add(sprung("17:19", Words(), "late"))


def test_inside_an_item_it_comes_once_that_has_begun() -> None:
    here = room(short(Surprise("c", When(item="break-3", by_ms=30_000), CameraOn(60_000))))
    here.until("16:38")
    assert [each.id for each in here.run.inside] == ["c"]
    here.type("break 3 now")
    here.run.add(sprung("16:38:10", Words(), "added", text="Stand by."))
    words = here.until("16:38:30")
    assert words == ["Stand by.", "The crew have turned their camera on."]
    assert here.run.inside == ()


def test_one_goes_on_to_just_before_the_next_report() -> None:
    here = room(short(LATE))
    here.until("16:41")
    assert here.run.on_to_next() == at_ms("16:44:55")
    assert here.clock.now_ms() == at_ms("16:44:55")
    assert here.until("16:44:59") == []
    assert here.run.on_to_next() == at_ms("16:45")
    assert [each.report.id for each in here.look()] == ["one"]


def test_while_a_second_is_looked_at_a_fast_clock_goes_on_and_nothing_is_lost_of_it() -> None:
    surprises = short(sprung("16:45", Moves("loss", 90_000)), end="16:49")
    machine_s = iter(n / 100 for n in range(1_000_000))  # each look at it takes ten milliseconds
    clock = SimClock(surprises.begin_ms, lambda: next(machine_s), rate=60.0)
    desk = OpenDesk(small(), clock)
    run = LiveRun(small(), surprises, desk, clock)
    while not run.over:
        run.look(desk.view(clock.now_ms()))
    score = run.score()
    assert len(score.wrong) == 1
    assert score.on_air_ms > 12.8 * 60_000
    assert score.wrong_ms == score.wrong[0][1] - score.wrong[0][0]


# ------------------------------------------------------------------ marks


def test_back_at_a_mark_all_is_as_it_was_and_the_clock_stands() -> None:
    here = room(short(LATE))
    here.until("16:42")
    before = here.desk.view(here.clock.now_ms())
    cards = list(before.cards)  # they are written when they are asked for
    score = here.run.score()
    mark = here.run.mark("before it")
    here.until("16:45:20")
    here.type("ignition +4m")
    here.type("go now")
    here.run.add(sprung("16:46", Moves("loss", -60_000), "added"))
    here.until("16:46:30")
    here.run.back_to(mark)
    assert here.clock.paused
    assert here.clock.now_ms() == at_ms("16:42")
    after = here.desk.view(here.clock.now_ms())
    assert list(after.cards) == cards
    assert after.last_change == before.last_change
    assert here.run.day.surprises == (LATE,)
    assert here.run.score() == replace(score, attempt=2)
    assert [each.until_ms for each in here.run.attempts] == [at_ms("16:46:30")]
    assert here.run.marks[-1] == mark


def test_what_was_entered_since_is_kept_as_an_earlier_attempt() -> None:
    here = room(short(LATE))
    here.until("16:42")
    mark = here.run.mark("before it")
    here.until("16:45:20")
    here.type("ignition +4m")
    here.run.back_to(mark)
    kinds = [type(each.action) for each in here.desk.store.entries]
    assert kinds[-3:] == [Revise, TakeBack, Note]
    (note,) = [each for each in standing(here.desk.store.entries) if isinstance(each.action, Note)]
    assert note.typed == (
        "note rehearsal: back to 4:42:00 p.m.; until 4:45:20 p.m. an earlier attempt"
    )
    rows = {row.typed: row.taken_back for row in here.desk.entries()}
    assert rows["ignition +4m"]
    (attempt,) = here.run.attempts
    assert [each.report.id for each in attempt.record.heard] == ["go", "one"]


def test_the_second_attempt_is_scored_alone_and_may_be_gone_back_on_too() -> None:
    here = room(short(LATE))
    here.until("16:45:20")
    (mark,) = [each for each in here.run.marks if each.name.startswith("Burn")]
    here.type("ignition +4m")
    for _ in range(2):
        here.run.back_to(mark)
        here.clock.jump(at_ms("16:45"))
        assert "Burn, ignition: 3 min later." in here.until("16:45:05")
        here.type("ignition +3m per flight")
        assert reported(here) == [(5_000, True)]
    assert len(here.run.attempts) == 2
    assert len({mark.number for mark in here.run.marks}) == len(here.run.marks)


def test_what_was_taken_back_since_stands_again() -> None:
    here = room(short(LATE))
    here.until("16:40")
    here.type("ignition +2m")
    mark = here.run.mark("then")
    here.desk.undo(here.clock.now_ms())
    here.until("16:41")
    here.run.back_to(mark)
    assert here.desk.schedule.expected_ms("ignition") == at_ms("17:02")


def test_after_going_back_the_board_is_what_its_entries_make_of_it() -> None:
    here = room(short(LATE))
    Fingers(here, "careless", 1).go()
    middle = here.run.marks[len(here.run.marks) // 2]
    here.run.back_to(middle)
    now_ms = here.clock.now_ms()
    mine, anew = here.desk.view(now_ms), here.desk.anew().view(now_ms)
    assert list(mine.cards) == list(anew.cards)
    assert (mine.air, mine.contact, mine.to_say) == (anew.air, anew.contact, anew.to_say)


def test_the_same_second_attempt_has_the_score_of_a_first() -> None:
    surprises = short(LATE, sprung("16:50", Edges("picture", Change.LOST, -20_000)))
    first = room(surprises)
    Fingers(first, "careless", 2).go()
    first.run.back_to(first.run.marks[0])
    again = Fingers(first, "slow", 2).go()
    assert replace(again, attempt=1) == Fingers(room(surprises), "slow", 2).go()


def test_the_score_says_which_attempt_it_is_and_what_the_trainer_sprung_and_added() -> None:
    here = room(short(LATE, sprung("16:50", Words(), "talk", text="Stand by.")))
    here.until("16:40")
    score = here.run.score()
    assert (score.attempt, score.sprung, score.added) == (1, (), ())
    here.run.spring("one")
    here.run.add(sprung("16:55", NetworkTakes(660_000), "more"))
    here.until("16:41")
    day_, score = here.run.ended()
    assert (score.attempt, score.sprung, score.added) == (1, ("one",), ("more",))
    assert ScoreWords(score, day_, here.run.plan).by_trainer() == (
        "Sprung by the trainer: Burn, ignition: 3 min later",
        "Added by the trainer: The network takes the air for 11 min",
    )
    here.run.back_to(here.run.marks[0])
    day_, score = here.run.ended()
    assert ScoreWords(score, day_, here.run.plan).by_trainer() == (
        "Attempt 2; the earlier ones are left out",
    )
