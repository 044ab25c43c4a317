"""Scripted desks on days of one surprise each, and what their score says."""

import pytest

from core.board.programme import LiveSpan
from core.entries.airing import Begin, Drop, MarkSaid
from core.entries.model import Choose, Entry, Happened, Observe, Revise, Shut, standing
from core.plan.model import Change
from core.rehearsal.answering import Answered, answers
from core.rehearsal.arriving import entered
from core.rehearsal.desk import OpenDesk
from core.rehearsal.model import (
    CameraOn,
    Closes,
    Edges,
    LineFails,
    Misheard,
    Moves,
    NetworkTakes,
    Steps,
    Surprise,
    Surprises,
    What,
    When,
)
from core.rehearsal.record import Correction, Heard, OnAir, Record
from core.rehearsal.reports import Report
from core.rehearsal.score import ItemRun, Score, score_of
from core.rehearsal.scorewords import how
from core.rehearsal.timeline import Truth
from core.rehearsal.watching import EVERY
from core.session.model import Answer
from core.times.clocks import SimClock
from tests.core.board.boards import at_ms
from tests.core.rehearsal.days import day, rehearsed, small
from tests.core.rehearsal.live_days import room

BACK = Change.BACK


def sprung(clock: str, what: What, **more: object) -> Surprise:
    return Surprise("one", When(at_ms(clock)), what, **more)  # type: ignore[arg-type]


def short(*surprises: Surprise, end: str = "17:20") -> Surprises:
    return day(*surprises, begin="16:36", end=end)


def scored(surprises: Surprises, desk: str = "perfect", number: int = 1) -> tuple[Record, Score]:
    _, record = rehearsed(surprises, desk, number, EVERY)
    score = score_of(record, small())
    assert score.troubles == ()
    return record, score


def made(record: Record, kind: type) -> list[Entry]:
    return [e for e in standing(record.entries) if isinstance(e.action, kind)]


def test_a_perfect_desk_enters_everything_rightly_at_once() -> None:
    record, score = scored(short(sprung("16:45", Moves("ignition", 180_000), source="flight")))
    assert all(each.right for each in score.reports if each.right is not None)
    assert all(each.after_ms == 0 for each in score.reports if each.right)
    assert score.wrong_ms == 0
    (entry,) = made(record, Revise)
    assert entry.source == "flight"
    assert entry.rehearsal


def test_a_slow_desk_counts_down_to_the_old_time_as_long_as_it_takes() -> None:
    record, score = scored(short(sprung("16:48", Moves("loss", 90_000))), "slow")
    (answer,) = [each for each in score.reports if not each.natural]
    (entry,) = made(record, Revise)
    assert answer.after_ms == entry.at_ms - at_ms("16:48")
    assert answer.right
    assert 0 < score.wrong_ms <= answer.after_ms


def test_a_report_heard_twice_is_entered_once() -> None:
    record, score = scored(short(sprung("16:45", Moves("ignition", 180_000), again_ms=40_000)))
    assert len(made(record, Revise)) == 1
    assert [each.right for each in score.reports if not each.natural] == [True, None]


def test_what_was_misheard_and_said_is_corrected_on_the_air() -> None:
    wrong = Misheard("Thirty.", "loss +2m", 150_000)
    record, score = scored(short(sprung("16:43", Moves("loss", 240_000), misheard=wrong)))
    assert [each.right for each in score.reports if not each.natural] == [True, True]
    assert score.corrections_owed >= 1
    assert score.corrections_said == score.corrections_owed
    assert made(record, MarkSaid)
    assert score.still_owed == ()


def test_a_line_that_fails_takes_its_item_out() -> None:
    record, _ = scored(short(sprung("16:36", LineFails("hall"))))
    assert [entry.action for entry in made(record, Drop)] == [Drop("hall")]
    assert "hall" not in {airing.item for airing in record.airings}


def test_while_the_network_has_the_air_nothing_of_ours_runs() -> None:
    away = sprung("17:03", NetworkTakes(660_000))
    record, score = scored(short(away, end="18:30"))
    begun = [entry.action for entry in made(record, Begin)]
    assert begun
    for action in begun:
        assert isinstance(action, Begin)
        assert not at_ms("17:03") <= action.at_ms < at_ms("17:14")
    assert {item.item for item in score.owed_items if item.ran} == {"break-3", "break-4"}


def test_a_camera_inside_what_cannot_be_cut_is_lost_and_that_is_proven() -> None:
    camera = Surprise("camera", When(item="break-4", by_ms=30_000), CameraOn(60_000))
    _, score = scored(short(camera, end="18:30"))
    (lost,) = score.lost
    assert (lost.event, lost.item, lost.by_ms) == ("camera", "break-4", 60_000)
    assert lost.unavoidable
    assert lost.proof == "it fitted when it began, and cannot be cut"


def test_inside_what_can_be_cut_it_is_not_lost() -> None:
    camera = Surprise("camera", When(item="break-3", by_ms=30_000), CameraOn(60_000))
    record, score = scored(short(camera))
    assert score.lost == ()
    (broke,) = [each for each in score.owed_items if each.item == "break-3"]
    assert broke.short_ms == 100_000
    assert record.cameras[0][0] == "camera"


def test_an_item_is_cut_when_word_comes_that_a_moment_is_nearer() -> None:
    # The loss comes six minutes earlier: the tape or break on the air then is ended for it.
    _, score = scored(short(sprung("16:40", Moves("loss", -360_000))))
    assert all(lost.unavoidable for lost in score.lost)


@pytest.mark.parametrize("by_ms", [40_000, -40_000])
def test_the_clock_steps_and_all_is_right_again(by_ms: int) -> None:
    record, score = scored(short(sprung("16:44:10", Steps(by_ms))))
    assert score.wrong_ms == 0
    assert [h.at_ms for h in record.heard if h.report.step_ms] == [at_ms("16:44:10") + by_ms]


def test_a_closed_lane_is_opened_again() -> None:
    record, _ = scored(short(sprung("16:40", Closes("voice", 240_000))))
    words = [h.report.text for h in record.heard if h.report.surprise]
    closed, again = words
    assert closed == "The ground closes voice for about 4 min."
    assert again == "The talk is over: voice is open again."


def test_a_dropped_signal_is_entered_as_lost_and_back() -> None:
    record, score = scored(short(sprung("16:40", Edges("voice", Change.LOST, for_ms=60_000))))
    lines = [e.typed for e in record.entries if e.typed.startswith("voice")]
    assert [line.split()[1] for line in lines] == ["lost", "back"]
    assert score.wrong_ms == 0


def test_a_careless_desk_mistypes_forgets_and_mends() -> None:
    days = [scored(short(sprung("16:38", Moves("loss", -180_000))), "careless", n) for n in (1, 8)]
    answers = [each for _, score in days for each in score.reports if each.right is not None]
    assert any(each.after_ms is None for each in answers)
    assert any(each.off_ms and each.mended_ms is not None for each in answers)
    assert any(each.right for each in answers)


def test_the_same_hand_has_the_same_day_again() -> None:
    today = short(sprung("16:45", Moves("ignition", 180_000)), end="16:55")
    days = [rehearsed(today, "careless", number)[1].entries for number in (5, 5, 6)]
    assert days[0] == days[1]
    assert days[1] != days[2]


# ------------------------------------------------------------------ the score, by hand


def test_the_score_of_a_small_day_is_right_when_counted_by_hand() -> None:
    record = Record(Truth((), (), (LiveSpan("go", 400_000, 500_000),), ()), 0, 1_000_000)
    first = Revise("go", 450_000)
    record.heard = [
        Heard(Report("a", 10_000, "Go later.", ("go",), surprise="a"), 10_000, (first,)),
        Heard(Report("b", 50_000, "Go later still.", ("go",)), 50_000, (Revise("go", 470_000),)),
        Heard(Report("c", 60_000, "It burned.", ("burned",)), 60_000, (Choose("burned"),)),
        Heard(Report("d", 70_000, "Stand by.", ()), 70_000),
        Heard(Report("e", 480_000, "Go.", ("go",)), 480_000, (Happened("go", 470_000),), 481_500),
        Heard(Report("f", 500_000, "Shut.", ("",)), 500_000, (Shut("voice", True, 0),)),
        Heard(Report("g", 560_000, "Open.", ("",)), 560_000, (Shut("voice", False, 0),)),
        Heard(Report("h", 570_000, "None.", ("",)), 570_000, (Choose("no-burn"), Drop("hall"))),
    ]
    record.entries = (
        Entry(1, 35_000, "", first),
        Entry(2, 58_000, "", Revise("go", 530_000)),
        Entry(3, 90_000, "", Begin("hall", 90_000)),
        Entry(4, 485_000, "", Happened("go", 470_000)),
        Entry(5, 400_000, "", MarkSaid("Go is at three.", (("go", 450_000),))),
        Entry(6, 563_000, "", Shut("voice", False, 0)),
        Entry(7, 590_000, "", Drop("hall")),
        Entry(8, 600_000, "", Choose("burned")),
        Entry(9, 640_000, "", Choose("no-burn")),
    )
    record.airings = [OnAir("hall", 390_000, True, True, {"go": 410_000})]
    record.on_air_ms = 600_000
    for from_ms, for_ms in ((35_000, 15_000), (50_000, 8_000), (58_000, 2_000), (700_000, 5_000)):
        record.was_wrong(from_ms, for_ms)
    record.corrections = [
        Correction("go", 390_000, 400_000),  # told while it was owed
        Correction("loss", 395_000, 405_000),  # true again, and nobody said so
        Correction("go", 450_000),
    ]
    record.still_owed = ("go",)
    score = score_of(record, small())
    told = [(each.after_ms, each.off_ms, each.right) for each in score.reports]
    assert told == [
        (25_000, 0, True),
        (8_000, 60_000, False),
        (None, 0, False),  # what is entered after the next word on it is about that
        (None, 0, None),
        (5_000, 0, True),
        (None, 0, False),
        (3_000, 0, True),
        (30_000, 0, False),
    ]
    assert [each.seen_ms for each in score.reports[3:6]] == [None, 1_500, None]
    assert [each.mended_ms for each in score.reports] == [*[None] * 7, 70_000]
    assert [each.overtaken for each in score.reports] == [*[False] * 2, True, *[False] * 5]
    assert score.wrong == ((35_000, 60_000), (700_000, 705_000))
    assert score.wrong_ms == 30_000
    (lost,) = score.lost
    assert score.runs == (ItemRun("hall", 390_000, 630_000),)
    assert (lost.item, lost.by_ms, lost.unavoidable) == ("hall", 100_000, False)
    assert lost.proof == "it could have been ended when word came"
    assert (score.corrections_owed, score.corrections_said, score.still_owed) == (3, 1, ("go",))
    assert [(each.item, each.ran) for each in score.owed_items] == [
        ("break-3", False),
        ("break-4", False),
    ]


def test_a_flicker_taken_for_the_loss_is_taken_back_when_the_ground_gives_the_loss_a_time() -> None:
    desk = OpenDesk(small(), SimClock(at_ms("16:50:50"), paused=True))
    for line in ("voice lost 4:50:31p", "voice back 4:50:43p"):
        assert entered(desk, line, at_ms("16:50:50")).answer is Answer.DONE
    assert desk.enter("loss 4:51:48p", "", at_ms("16:50:50")).answer is Answer.REFUSED
    assert entered(desk, "loss 4:51:48p", at_ms("16:50:50")).answer is Answer.DONE
    assert desk.schedule.expected_ms("loss") == at_ms("16:51:48")


def test_a_loss_that_lasts_is_not() -> None:
    desk = OpenDesk(small(), SimClock(at_ms("16:50:50"), paused=True))
    assert entered(desk, "voice lost 4:50:31p", at_ms("16:50:50")).answer is Answer.DONE
    assert entered(desk, "loss 4:51:48p", at_ms("16:50:50")).answer is Answer.REFUSED
    assert desk.schedule.expected_ms("loss") == at_ms("16:50:31")


# ------------------------------------------------------------------ which entry is for which report


def answered(heard: list[Heard], *entries: Entry, end_ms: int = 1_000_000) -> tuple[Answered, ...]:
    """The answers to a few reports, by the rule alone."""
    record = Record(Truth((), (), (), ()), 0, end_ms)
    record.heard = heard
    return answers(record, entries, small())


def test_an_entry_counts_for_the_latest_report_of_that_thing_before_it_only() -> None:
    back = [
        Heard(Report(name, at, "Voice back.", ("voice back",)), at, (Observe("voice", BACK, at),))
        for name, at in (("a", 10_000), ("b", 900_000))
    ]
    first, second = answered(back, Entry(1, 961_000, "", Observe("voice", BACK, 900_000)))
    assert (first.after_ms, first.right, first.overtaken) == (None, False, True)
    assert how(first) == "not entered before the next word on it"
    assert (second.after_ms, second.right) == (61_000, True)


def test_a_report_that_had_to_be_entered_after_the_end_is_no_fault_of_the_desk() -> None:
    late = Heard(Report("a", 980_000, "Go.", ("go",)), 980_000, (Happened("go", 980_000),))
    (open_,) = answered([late])
    assert (open_.right, open_.cut_off) == (None, True)
    assert how(open_) == "the rehearsal ended before"
    (entered_,) = answered([late], Entry(1, 985_000, "", Happened("go", 980_000)))
    assert (entered_.right, entered_.cut_off) == (True, False)


def test_what_was_entered_before_it_was_reported_is_told_as_such() -> None:
    word = Heard(Report("a", 60_000, "No burn.", ("no-burn",)), 60_000, (Choose("no-burn"),))
    (early,) = answered([word], Entry(1, 20_000, "", Choose("no-burn")))
    assert (early.after_ms, early.right, early.early_ms) == (None, None, 40_000)
    assert how(early) == "entered 40 s before it was reported"
    (other,) = answered([word], Entry(1, 20_000, "", Choose("burned")))
    assert (other.right, other.early_ms) == (False, None)


def test_what_was_entered_on_an_earlier_word_is_not_early_for_the_next() -> None:
    words = [
        Heard(Report(n, at, "Shut.", ("",)), at, (Shut("voice", True, 0),))
        for n, at in (("a", 10_000), ("b", 60_000))
    ]
    told = answered(words, Entry(1, 20_000, "", Shut("voice", True, 0)))
    assert [(each.right, each.early_ms) for each in told] == [(True, None), (False, None)]


def test_how_far_off_is_written_with_its_seconds() -> None:
    word = Heard(Report("a", 10_000, "Go.", ("go",)), 10_000, (Revise("go", 500_000),))
    (off,) = answered([word], Entry(1, 20_000, "", Revise("go", 500_000 + 2_999_000)))
    assert how(off) == "49 min 59 s later than said"


def test_an_item_whose_end_is_typed_ahead_is_on_the_air_till_then_in_both_figures() -> None:
    here = room(day(begin="16:36", end="16:50"))
    here.until("16:42")
    here.type("break-3 now")
    here.until("16:43")
    here.type("break-3 over 4:44p")
    here.until("16:46")
    (run,) = (score := here.run.score()).runs
    assert (run.from_ms, run.to_ms) == (at_ms("16:42"), at_ms("16:44"))
    assert score.on_air_ms == 600_000 - 120_000
