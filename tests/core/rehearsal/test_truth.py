"""What the flight really does: derived from plan and surprises, whatever the desk has entered."""

from core.entries.model import Way
from core.plan.model import Change
from core.rehearsal.model import (
    CalledOff,
    Edges,
    Misheard,
    Moves,
    Surprise,
    Turns,
    What,
    When,
)
from core.rehearsal.reports import turned_words
from core.rehearsal.timeline import Happening, Truth
from core.rehearsal.truth import truth_of
from tests.core.board.boards import at_ms
from tests.core.rehearsal.days import day, small


def sprung(clock: str, what: What, **more: object) -> Surprise:
    return Surprise("one", When(at_ms(clock)), what, **more)  # type: ignore[arg-type]


def truth(*surprises: Surprise) -> Truth:
    return truth_of(small(), day(*surprises))


def edges(told: Truth, lane: str) -> list[tuple[int, Change | None]]:
    return [(h.at_ms, h.change) for h in told.happenings if h.lane == lane and not h.event]


def heard(told: Truth, report: str) -> list[int]:
    return [each.at_ms for each in told.reports if each.id == report]


def test_without_surprises_all_comes_as_planned_and_turns_out_as_planned_first() -> None:
    told = truth()
    assert told.at_ms("go") == at_ms("16:40")
    assert told.at_ms("ignition") == at_ms("17:00")
    assert told.at_ms("return") == at_ms("17:22:50")
    assert told.at_ms("return-none") is None
    assert told.outcomes == ("burned",)


def test_what_is_late_takes_with_it_what_hangs_on_it() -> None:
    told = truth(sprung("16:45", Moves("ignition", 180_000)))
    assert told.at_ms("ignition") == at_ms("17:03")
    assert told.at_ms("cutoff") == at_ms("17:09")
    assert told.at_ms("return") == at_ms("17:25:50")
    assert told.at_ms("go") == at_ms("16:40")


def test_it_is_so_also_when_nobody_says_so() -> None:
    told = truth(sprung("16:45", Moves("go", 20_000), quiet=True))
    assert heard(told, "one") == []
    told = truth(sprung("16:35", Moves("go", 20_000), quiet=True))
    assert told.at_ms("go") == at_ms("16:40:20")
    assert heard(told, "go") == [at_ms("16:40:20")]


def test_what_happens_behind_the_moon_is_heard_once_somebody_speaks() -> None:
    ignition = next(h for h in truth().happenings if h.event == "ignition")
    assert ignition == Happening(at_ms("17:00"), at_ms("17:23:30"), "ignition")
    assert heard(truth(), "burned") == [at_ms("17:23:30")]


def test_how_it_turns_out_decides_what_happens_and_word_of_it_comes_when_it_is_sprung() -> None:
    told = truth(sprung("17:15", Turns("no-burn", ("ignition", "cutoff"))))
    assert told.outcomes == ("no-burn",)
    assert told.at_ms("return-none") == at_ms("17:12:30")
    assert told.at_ms("return") is None
    assert told.at_ms("ignition") is None
    assert heard(told, "one") == [at_ms("17:15")]
    assert heard(told, "burned") == []
    assert "ignition" in {span.event for span in told.live}


def test_a_return_that_belongs_to_an_outcome_does_not_give_it_away() -> None:
    told = truth(sprung("17:15", Turns("no-burn")))
    back = next(r for r in told.reports if r.at_ms == at_ms("17:12:30"))
    assert back.text == "Voice back."
    assert back.lines == ("voice back 2031-05-14T20:12:30.000Z",)


def test_an_edge_comes_early_or_late_and_the_later_ones_stay() -> None:
    told = truth(sprung("16:40", Edges("voice", Change.LOST, -90_000)))
    assert told.at_ms("loss") == at_ms("16:48:30")
    late = truth(sprung("17:01", Edges("voice", Change.BACK, 240_000)))
    assert late.at_ms("return") == at_ms("17:26:50")
    assert late.at_ms("checks") == at_ms("17:32:20")


def test_no_edge_passes_its_neighbour_on_the_lane() -> None:
    # Voice is back at 5:22:50 and lost at 6:36:10; the loss of 4:50 is before both.
    for what in (Edges("voice", Change.BACK, 4_800_000), Moves("return", 4_800_000)):
        told = truth(sprung("17:01", what))
        assert told.ignored == ("one",)
        assert told.at_ms("return") == at_ms("17:22:50")
    told = truth(sprung("17:30", Edges("voice", Change.LOST, -4_800_000)))
    assert told.ignored == ("one",)
    told = truth(sprung("16:36", Moves("loss", 1_980_000)))
    assert told.ignored == ("one",)


def test_the_signal_drops_and_comes_back() -> None:
    told = truth(sprung("16:40", Edges("voice", Change.LOST, for_ms=60_000)))
    assert edges(told, "voice")[:2] == [
        (at_ms("16:40"), Change.LOST),
        (at_ms("16:41"), Change.BACK),
    ]


def test_it_does_not_drop_where_there_is_none() -> None:
    told = truth(sprung("17:01", Edges("voice", Change.LOST, for_ms=60_000)))
    assert told.ignored == ("one",)
    assert edges(told, "voice") == edges(truth(), "voice")


def test_a_return_that_never_comes_takes_with_it_what_waits_for_it() -> None:
    told = truth(sprung("17:01", Edges("voice", Change.BACK, never=True)))
    assert told.at_ms("return") is None
    assert told.at_ms("checks") is None
    assert heard(told, "ignition") == [at_ms("19:26:20")]  # the next time round
    assert told.at_ms("school") == at_ms("18:00")
    assert "return" not in {span.event for span in told.live}


def test_what_is_called_off_does_not_happen() -> None:
    told = truth(sprung("17:30", CalledOff("school", Way.WITH)))
    assert told.at_ms("school") is None
    assert told.at_ms("supper") is None


def test_a_report_is_misheard_first_and_put_right() -> None:
    wrong = Misheard("Thirty.", "ignition +30m", 60_000)
    told = truth(sprung("16:45", Moves("ignition", 180_000), misheard=wrong, again_ms=30_000))
    lines = [(r.at_ms, r.lines) for r in told.reports if r.surprise]
    assert lines == [
        (at_ms("16:45"), ("ignition +30m",)),
        (at_ms("16:46"), ("ignition 2031-05-14T20:03:00.000Z",)),
        (at_ms("16:46:30"), ()),
    ]


def test_a_surprise_may_hang_on_the_truth_of_an_event() -> None:
    told = truth(
        sprung("16:45", Moves("ignition", 180_000)),
        Surprise("two", When(event="ignition", by_ms=60_000), Turns("no-burn")),
        Surprise("three", When(elapsed_ms=75 * 3_600_000 + 1_800_000), Moves("school", 60_000)),
    )
    assert heard(told, "two") == [at_ms("17:04")]
    assert heard(told, "three") == [at_ms("16:58:30") + 400]


def test_nobody_gives_a_time_for_what_is_known_to_have_happened() -> None:
    told = truth(
        sprung("16:32", Moves("go", -300_000)),
        Surprise("late", When(at_ms("16:36")), Moves("go", 240_000)),
        Surprise("early", When(at_ms("16:37")), Moves("go", -240_000)),
    )
    assert told.at_ms("go") == at_ms("16:35")
    assert heard(told, "late") == []


def test_what_the_plan_forbids_happens_all_the_same() -> None:
    # The school call is held to six, and two minutes at least lie before it.
    told = truth(sprung("17:10", Moves("rehearsed", to_ms=at_ms("18:20"))))
    assert told.at_ms("rehearsed") == at_ms("18:20")
    assert told.at_ms("school") == at_ms("18:00")
    assert told.ignored == ()


def test_the_ground_says_how_it_turned_out_in_a_sentence_whatever_the_outcome_is_called() -> None:
    said = [turned_words(small(), outcome.id) for outcome in small().outcomes]
    assert said == [
        "Burn, ignition: the ground confirms the burn.",
        "Burn, ignition: the ground confirms no burn.",
    ]
