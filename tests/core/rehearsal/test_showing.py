"""What the trainer sees of a rehearsal, and what the desk does."""

from core.board.model import Said, Tone
from core.plan.model import Change
from core.rehearsal.model import (
    CameraOn,
    Edges,
    Misheard,
    Moves,
    Surprise,
    When,
    Words,
)
from core.rehearsal.quiet import quiet_line, reported
from core.rehearsal.rows import Of, Row
from core.rehearsal.showing import TrainerView, trainer_view
from core.times.writing import apart_ms
from tests.core.board.boards import at_ms
from tests.core.rehearsal.days import day
from tests.core.rehearsal.live_days import Room, room

LATE = Surprise("late", When(at_ms("16:45")), Moves("ignition", 180_000), source="flight")
EARLY = Surprise("early", When(at_ms("16:46")), Edges("picture", Change.LOST, -20_000))
CAMERA = Surprise("camera", When(item="break-3", by_ms=30_000), CameraOn(60_000))


def begun(*surprises: Surprise, end: str = "17:30") -> Room:
    return room(day(*(surprises or (LATE, EARLY, CAMERA)), begin="16:36", end=end))


def shown(here: Room) -> TrainerView:
    here.look()
    return trainer_view(here.run, here.run.score())


def row(here: Room, what: str) -> Row:
    (found,) = [each for each in shown(here).rows if what in each.what]
    return found


def line(here: Room) -> Said:
    return quiet_line(reported(here.run, here.run.score()))


def test_what_is_coming_stands_in_order_with_its_countdown_and_how_it_really_is() -> None:
    here = begun()
    here.until("16:37")
    view = shown(here)
    coming = view.rows[view.next_index :]
    times = [each.at_ms for each in coming if each.at_ms is not None]
    assert times == sorted(times)
    for each in coming:
        if each.at_ms is not None:
            assert each.away.startswith("in ")
            assert apart_ms(each.at_ms, here.clock.now_ms()) > 0
    late = row(here, "Burn, ignition: 3 min later")
    assert (late.clock, late.away, late.of) == ("4:45:00 p.m.", "in 8 min 00 s", Of.SURPRISE)
    assert late.more[0] == "A good desk enters within 30 s: ignition 5:03:00 p.m. per flight"
    burn = row(here, "Burn, ignition, at 5:03:00 p.m.")
    assert burn.of is Of.FLIGHT
    assert burn.stands.text == "really 5:03:00 p.m."
    silent = row(here, "Picture: the next loss comes 20 s earlier")
    assert silent.stands.text == "nobody says so"
    assert coming[-1].away == "30 s into Break 3"


def test_what_has_happened_unheard_is_told_to_the_trainer_alone() -> None:
    here = begun()
    here.until("17:04")
    assert row(here, "Burn, ignition, at").stands.text == "has happened 5:03:00 p.m."
    assert "5:03" not in line(here).text


def test_of_what_was_heard_it_says_what_the_desk_made_of_it() -> None:
    here = begun(LATE)
    here.until("16:45:10")
    assert row(here, "3 min later").stands == Said("not entered; 20 s left")
    here.until("16:45:40")
    late = row(here, "3 min later")
    assert late.stands == Said("not entered, late by 10 s", Tone.CLASH)
    assert (late.away, late.past) == ("40 s ago", True)
    here.type("ignition +4m")
    assert "1 min later than said" in row(here, "3 min later").stands.text
    here.type("ignition -1m")
    assert "mended after 40 s" in row(here, "3 min later").stands.text


def test_only_what_is_to_come_can_be_sprung_and_only_what_was_can_be_gone_back_to() -> None:
    here = begun()
    here.until("16:45:10")
    here.run.mark("a breath")
    view = shown(here)
    past, coming = view.rows[: view.next_index], view.rows[view.next_index :]
    assert not any(each.surprise for each in past)
    assert {each.surprise for each in coming if each.of is Of.SURPRISE} == {"early", "camera"}
    assert all(each.mark is not None for each in past)
    assert not any(each.mark for each in coming)
    assert row(here, "a breath").of is Of.MARK
    assert len({each.key for each in view.rows}) == len(view.rows)


def test_a_row_keeps_its_key_when_it_is_heard() -> None:
    here = begun(LATE)
    key = row(here, "3 min later").key
    here.until("16:45:10")
    assert row(here, "3 min later").key == key


def test_a_surprise_that_cannot_happen_says_so() -> None:
    drop = Surprise("drop", When(at_ms("17:00")), Edges("voice", Change.LOST, for_ms=1_000))
    assert row(begun(drop), "Voice drops for 1 s").stands == Said("cannot happen", Tone.CLASH)


def test_the_score_so_far_stands_beside_it() -> None:
    here = begun(LATE)
    here.until("16:45:10")
    here.type("ignition +3m per flight")
    view = shown(here)
    score = {name: said.text for name, said in view.score}
    assert score["Entered rightly"] == "1, of them 1 in time"
    assert view.attempt == 1
    here.run.back_to(here.run.marks[0])
    assert shown(here).attempt == 2
    assert view.ends == "ends 5:30:00 p.m., in 44 min 50 s"


# ------------------------------------------------------------------ the desk


def test_the_desk_reads_a_report_as_it_comes_until_it_is_entered() -> None:
    here = begun(LATE)
    assert line(here) == Said("Nothing reported yet", Tone.QUIET)
    here.until("16:45:10")
    told = "Reported 4:45:00 p.m. – flight: Burn, ignition: 3 min later."
    assert line(here) == Said(told, Tone.CHANGE)
    here.type("ignition +3m per flight")
    assert line(here).tone is Tone.QUIET
    assert ", entered – flight: Burn" in line(here).text


def test_what_comes_at_the_same_second_stands_together_and_the_next_takes_its_place() -> None:
    two = (Surprise(n, When(at_ms("16:38")), Words(), text=f"{n}.") for n in ("One", "Two"))
    here = begun(*two, Surprise("three", When(at_ms("16:39")), Words(), text="Three."))
    here.until("16:38:10")
    assert line(here).text == "Reported 4:38:00 p.m. – One.  ·  Two."
    here.until("16:39")
    assert line(here).text == "Reported 4:39:00 p.m. – Three."


def test_whether_there_is_anything_to_enter_is_not_given_away() -> None:
    wrong = Misheard("Thirty.", "loss +2m", 150_000)
    twice = Surprise(
        "m", When(at_ms("16:38")), Moves("loss", 60_000), misheard=wrong, again_ms=30_000
    )
    here = begun(twice)
    here.until("16:38:10")
    assert line(here).text == "Reported 4:38:00 p.m. – Thirty."
    here.until("16:41:00")
    assert line(here).tone is Tone.CHANGE
    assert [each.entered for each in reported(here.run, here.run.score())][-1] is False


def test_surprises_at_the_end_or_beyond_it_are_not_waited_for() -> None:
    beyond = Surprise("b", When(at_ms("17:31")), Words(), text="Too late.")
    view = shown(begun(beyond, Surprise("q", When(at_ms("17:40")), EARLY.what)))
    assert [each for each in view.rows if each.of is Of.SURPRISE] == []
