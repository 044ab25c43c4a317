"""Entries about the programme at the desk: kept, told, taken back, and moving nothing."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.entries.airing import (
    Begin,
    Count,
    Drop,
    Finish,
    Grave,
    LeaveAir,
    MarkSaid,
    PictureClock,
    Place,
    TakeAir,
    Unplace,
    Waive,
)
from core.entries.model import Action, Entry, Note
from core.plan.model import Plan
from core.schedule.model import Effect
from core.session.batch import run
from core.session.ground import make_ready, no_skies
from core.session.model import Answer
from tests.core.board.boards import FLIGHT, Seat, at_ms, plan_of, seat
from tests.strategies import FROM_MS, instants_ms, plans

PROGRAMME = (
    FLIGHT.replace('name = "PICTURE"', 'name = "PICTURE"\ndelay = "9s"').replace(
        'first_words = "40s"', 'first_words = "40s"\ndelay = "2s"'
    )
    + """
[[item]]
id = "break-3"
kind = "break"
name = "Break 3"
length = "2m 10s"
owed = true
can_cut = false

[[item]]
id = "walk"
kind = "remote"
name = "Walk through the hall"
length = "5m"

[[checkoff]]
id = "clamps"
name = "Clamps released"
of = "ignition"
count = 12
enough = 3
spaced = true
"""
)


@pytest.fixture
def desk(tmp_path: Path) -> Seat:
    return seat(tmp_path, text=PROGRAMME)


def times(desk: Seat) -> dict[str, int | None]:
    return dict(desk.desk.schedule.expected())


TYPED = [
    ("break 3 now", "Break 3 on the air at 4:41:12 p.m."),
    ("break 3 at 4:44p", "Placed: Break 3 at 4:44:00 p.m."),
    ("walk in 20s", "Placed: Walk through the hall at 4:41:32 p.m."),
    ("break 3 off", "Break 3 will not run"),
    ("air off", "Off the air from 4:41:12 p.m."),
    ("air off 11m", "Off the air from 4:41:12 p.m. until 4:52:12 p.m."),
    ("clamps 6", "Clamps released: 6"),
    ("clamps 1 5 9", "Clamps released: 3: 1, 5, 9"),
    ("grave", "Grave"),
    (
        "picture clock 4:41:03p",
        "The clock in PICTURE showed 4:41:03 p.m. at 4:41:12 p.m.",
    ),
]


@pytest.mark.parametrize(("line", "meaning"), TYPED)
def test_an_entry_is_kept_in_words_taken_back_and_brought_back(
    desk: Seat, line: str, meaning: str
) -> None:
    before = times(desk)
    desk.take(line)
    (row,) = desk.desk.entries()
    assert (row.typed, row.meaning, row.taken_back) == (line, meaning, False)
    assert times(desk) == before
    undone = desk.desk.undo(desk.now_ms)
    assert undone.words == f"Taken back: {meaning}"
    assert [row.taken_back for row in desk.desk.entries()] == [True]
    assert times(desk) == before
    desk.desk.redo(desk.now_ms)
    assert [row.taken_back for row in desk.desk.entries()] == [False]
    assert times(desk) == before


@pytest.mark.parametrize("line", [line for line, _ in TYPED])
def test_the_preview_says_how_it_was_read_and_nothing_would_move(desk: Seat, line: str) -> None:
    preview = desk.preview(line)
    assert not preview.error
    assert preview.headline
    assert preview.clash == ""
    items = {item.id for item in desk.desk.plan.items}
    assert {of for of, _ in preview.ghosts} <= items
    lost = "The network has the air during Loss of signal; take it back by 4:47:00 p.m."
    assert [said.text for said in preview.lines] == ([lost] if line == "air off 11m" else [])


def test_of_an_item_on_the_air_the_preview_says_when_it_is_over(desk: Seat) -> None:
    assert desk.preview("break 3 now").headline == (
        "Break 3 on the air at 4:41:12 p.m. Atlantic, over at 4:43:22 p.m."
    )


def test_what_was_taken_back_is_as_if_never_typed(desk: Seat) -> None:
    desk.take("break 3 now")
    assert desk.preview("break 3 at 4:50p").error == "Break 3 is on the air"
    desk.desk.undo(desk.now_ms)
    assert desk.preview("break 3 over").error == "Break 3 is not on the air"
    assert desk.enter("break 3 at 4:50p").answer is Answer.DONE
    assert desk.preview("break 3 +1m").headline.startswith("Break 3 placed at 4:51:00 p.m.")


def test_a_break_that_cannot_be_cut_is_over_at_the_second_enter_or_in_its_time(desk: Seat) -> None:
    desk.take("break 3 now")
    desk.go_to("16:42:12")
    asked = desk.enter("break 3 over")
    assert asked.answer is Answer.ASKS
    assert asked.words == "Enter once more: It cannot be cut, and has 1 min 10 s to run"
    desk.go_to("16:43:22")
    assert desk.enter("break 3 over").answer is Answer.DONE
    assert desk.desk.entries()[-1].meaning == "Break 3 over at 4:43:22 p.m."


def test_a_grave_board_is_left_by_two_enters_too(desk: Seat) -> None:
    for line in ("grave", "grave over"):
        assert desk.enter(line).answer is Answer.ASKS
        assert desk.enter(line, again=True).answer is Answer.DONE
    assert desk.preview("grave over").error == "The board is not grave"


def test_counts_go_on_from_what_was_heard_last(desk: Seat) -> None:
    desk.take("clamps 4")
    desk.take("clamps +2")
    assert desk.desk.entries()[-1].meaning == "Clamps released: 6"
    desk.desk.undo(desk.now_ms)
    assert desk.preview("clamps +1").headline == "Clamps released: 5 of 12"


def test_an_entry_on_an_item_that_the_new_plan_has_no_more_is_kept_and_says_so(
    desk: Seat, tmp_path: Path
) -> None:
    desk.take("break 3 now")
    desk.take("clamps 6")
    without = PROGRAMME[: PROGRAMME.index("[[item]]")]
    desk.desk.plan_on_disk(plan_of(tmp_path, without), desk.now_ms)
    desk.take("plan")
    assert [row.meaning for row in desk.desk.entries()][:2] == [
        "break-3 on the air at 4:41:12 p.m. (not in the plan now)",
        "clamps: 6 (not in the plan now)",
    ]
    assert desk.preview("break 3 over").error == "Nothing here is called 'break'"


# ----- what is heard later than it was


def test_now_is_corrected_by_the_lane_and_both_times_are_kept(desk: Seat) -> None:
    desk.take("go now on picture")
    entry = desk.desk.entries()[-1]
    assert entry.meaning == (
        "Go for the burn happened at 4:41:03 p.m., heard 4:41:12 p.m. on picture"
    )
    assert desk.card("go").at_ms == at_ms("16:41:03")


def test_without_a_lane_it_is_the_first_that_is_in_contact(desk: Seat) -> None:
    assert "4:41:10 p.m." in desk.preview("go now").headline
    assert "heard 4:41:12 p.m. on voice (2 s)" in desk.preview("go now").headline
    desk.take("voice closed")
    assert "heard 4:41:12 p.m. on picture (9 s)" in desk.preview("go now").headline
    desk.go_to("16:55:00")
    assert "heard" not in desk.preview("go now").headline


def test_an_event_that_stands_for_an_edge_is_heard_on_its_lane(desk: Seat) -> None:
    desk.go_to("16:50:20")
    assert "4:50:18 p.m." in desk.preview("loss now").headline
    assert "on voice (2 s)" in desk.preview("loss now").headline


def test_an_edge_seen_now_was_there_earlier(desk: Seat) -> None:
    desk.go_to("16:48:09")
    desk.take("picture lost now")
    assert desk.desk.entries()[-1].meaning == (
        "Picture lost at 4:48:00 p.m., heard 4:48:09 p.m. on picture"
    )


# ----- nothing of it moves an event

ACTIONS: st.SearchStrategy[Action] = st.one_of(
    st.builds(Begin, st.just("item-0"), instants_ms),
    st.builds(Finish, st.just("item-0"), instants_ms),
    st.builds(Place, st.tuples(st.tuples(st.just("item-1"), instants_ms))),
    st.builds(Unplace, st.just("item-1")),
    st.builds(Drop, st.just("item-0")),
    st.builds(LeaveAir, instants_ms, st.none() | instants_ms),
    st.builds(TakeAir, instants_ms),
    st.builds(Count, st.just("clamps"), st.integers(0, 8)),
    st.builds(MarkSaid, st.text(), st.tuples(st.tuples(st.just("start"), instants_ms))),
    st.builds(Waive, st.just(("start",))),
    st.builds(Grave, st.booleans()),
    st.builds(PictureClock, st.just("voice"), instants_ms, instants_ms),
)


@given(plans(), st.lists(ACTIONS, min_size=1, max_size=4))
@settings(max_examples=25)
def test_no_entry_about_the_programme_changes_any_time(plan: Plan, actions: list[Action]) -> None:
    ground = make_ready(plan, no_skies)
    schedule = ground.schedule(FROM_MS, ())
    before, clashes = schedule.expected(), schedule.clashes
    nothing = schedule.preview(Entry(1, FROM_MS, "", Note("noisy")), FROM_MS)
    entries = tuple(Entry(n, FROM_MS, "", action) for n, action in enumerate(actions, 1))
    for entry in entries:
        assert _told(schedule.preview(entry, FROM_MS)) == _told(nothing)
        assert _told(schedule.take(entry, FROM_MS)) == _told(nothing)
    assert (schedule.expected(), schedule.clashes) == (before, clashes)
    assert ground.schedule(FROM_MS, entries).expected() == before


def _told(effect: Effect) -> tuple[object, ...]:
    """All that an entry does: of one that does nothing only what contradicts itself anyway."""
    assert not any((effect.moves, effect.yielded, effect.squeezed, effect.notes, effect.asks))
    return effect.clash, effect.broken


def test_lines_of_a_command_may_be_about_the_programme(desk: Seat) -> None:
    before = times(desk)
    lines = ["break 3 now", "break 3 over", "air off 11m", "clamps 1 5 9", "grave"]
    done = run(desk.desk, lines, desk.now_ms)
    assert done.clash is None
    assert done.notes == (
        "break 3 over: It cannot be cut, and has 2 min 10 s to run",
        (
            "air off 11m: The network has the air during Loss of signal; take it back by "
            "4:47:00 p.m."
        ),
        (
            "grave: The presenter window keeps the clock, the last confirmed words and lines "
            "passed; breaks, tapes and facts are not proposed"
        ),
    )
    assert times(desk) == before
    assert len(desk.desk.entries()) == 5
