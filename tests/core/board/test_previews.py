from pathlib import Path

import pytest

from core.board.model import Preview, Tone
from core.session.model import Answer
from tests.core.board.boards import FLIGHT, Seat, at_ms, seat


@pytest.fixture
def desk(tmp_path: Path) -> Seat:
    return seat(tmp_path)


def test_an_empty_line_previews_nothing(desk: Seat) -> None:
    assert desk.preview("  ") == Preview()


def test_a_new_figure_gives_old_and_new_and_its_followers_together(desk: Seat) -> None:
    preview = desk.preview("ignition +1m")
    assert preview.headline == "Burn, ignition:  5:00:00 p.m. → 5:01:00 p.m.   1 min later"
    names = "Burn, cutoff; Signal back, after the burn; Cabin checks done and School call rehearsed"
    assert [line.text for line in preview.lines] == [f"{names} follow, 1 min later"]
    assert preview.clash == preview.ask == preview.error == ""
    assert ("ignition", at_ms("17:01")) in preview.ghosts
    assert ("return", at_ms("17:23:50")) in preview.ghosts
    assert "return-none" not in dict(preview.ghosts)


def test_followers_are_grouped_by_how_far_they_move(desk: Seat) -> None:
    desk.take("ignition 5:02p")
    together = "Burn, ignition; Burn, cutoff; Signal back, after the burn and Cabin checks done"
    assert desk.lines("go 5:03p") == [
        "The older figure for Burn, ignition gives way",
        "Cabin checks done to School call rehearsed down to 6 min 40 s from 10 min",
        f"{together} follow, 21 min later",
        "School call rehearsed follows, 17 min 40 later, as near to School call as may be",
    ]


def test_what_moves_before_the_typed_event_is_listed_first(desk: Seat) -> None:
    first, *rest = desk.preview("cutoff +1m").lines
    assert first.text == "Takes along Burn, ignition: 5:00:00 p.m. → 5:01:00 p.m.   1 min later"
    assert first.tone is Tone.CHANGE
    assert [line.tone for line in rest] == [Tone.PLAIN]


def test_a_follower_whose_own_follower_is_fixed_to_it_is_no_upstream_move(desk: Seat) -> None:
    lines = desk.lines("go +1m")
    assert not [line for line in lines if line.startswith("Takes along")]


def test_a_gap_squeezed_below_its_offset_is_named_with_both_lengths(desk: Seat) -> None:
    assert (
        desk.lines("ignition 4:58p")[0]
        == "Go for the burn to Burn, ignition down to 18 min from 20 min"
    )


def test_a_squeezed_gap_with_a_negative_offset_says_which_is_first(tmp_path: Path) -> None:
    text = FLIGHT.replace(
        'after = "school"\noffset = "20m"', 'after = "school"\noffset = "-10m"\nleast = "-30m"'
    )
    desk = seat(tmp_path, text=text)
    assert desk.lines("supper 5:45p") == ["Supper is 15 min before School call, instead of 10 min"]


def test_a_pinned_event_that_stays_says_so_with_the_slack_left(desk: Seat) -> None:
    desk.take("supper pin")
    assert desk.lines("school 6:05p") == [
        "School call to Supper down to 15 min from 20 min",
        "Supper stays: pinned, slack 15 min left",
    ]


def test_a_clash_is_told_with_its_set_and_what_would_fit_and_asks_once_more(desk: Seat) -> None:
    preview = desk.preview("rehearsed 5:59p")
    assert preview.clash == (
        "clash by 1 min: the figure for School call rehearsed; "
        "the least from School call rehearsed to School call; the pin of School call. "
        "5:29:50 p.m. to 5:58:00 p.m. would fit"
    )
    assert preview.ask == ("Enter once more: That is 20 min 40 later than now expected; it clashes")


def test_where_only_one_time_fits_a_clash_gives_that_one(desk: Seat) -> None:
    desk.take("ignition 5:02p")
    assert desk.preview("cutoff 5:01p").clash.endswith("Only 5:08:00 p.m. would fit")


def test_a_clash_with_an_open_side_says_from_when(desk: Seat) -> None:
    assert desk.preview("supper -25m").clash.endswith("6:00:00 p.m. or later would fit")


def test_a_planned_time_that_a_fact_pulls_earlier_is_told_as_a_move_and_nothing_more(
    desk: Seat,
) -> None:
    lines = desk.preview("ignition happened 4:41p").lines
    assert any(line.text.startswith("Takes along Go for the burn") for line in lines)
    assert not any(line.tone is Tone.CLASH for line in lines)


def test_a_fact_says_that_it_happened_and_then_how_far_off_it_was(desk: Seat) -> None:
    preview = desk.preview("go happened 4:41p")
    assert preview.headline == "Go for the burn happened at 4:41:00 p.m. Atlantic"
    assert preview.lines[0].text == "Go for the burn:  4:40:00 p.m. → 4:41:00 p.m.   1 min later"


def test_an_outcome_says_what_goes(desk: Seat) -> None:
    assert desk.lines("no-burn") == [
        "Signal back, after the burn; Cabin checks done and School call rehearsed: no time any more"
    ]


def test_calling_off_shows_what_each_way_does(desk: Seat) -> None:
    assert desk.lines("checks scrub with") == [
        "Cabin checks done and School call rehearsed: no time any more"
    ]
    assert desk.lines("checks scrub stay") == [
        "Left at the present time, tied to nothing before: School call rehearsed",
        "Cabin checks done: no time any more",
    ]
    assert desk.lines("checks scrub bridge") == [
        "With the offsets added, tied to Signal back, after the burn: School call rehearsed",
        "Cabin checks done: no time any more",
    ]


def test_the_ways_of_calling_off_tell_what_becomes_of_those_tied_to_it(desk: Seat) -> None:
    bridged = "With the offsets added, tied to Go for the burn: Burn, cutoff"
    left = "Left at the present time, tied to nothing before: Burn, cutoff"
    assert bridged in desk.lines("ignition scrub bridge")
    assert left in desk.lines("ignition scrub stay")
    assert not {bridged, left} & set(desk.lines("ignition scrub with"))
    assert "Nothing else is tied to it" in desk.lines("sleep scrub stay")


def test_a_clash_shows_what_would_stand_after_the_second_enter(desk: Seat) -> None:
    preview = desk.preview("rehearsed 5:59p")
    assert preview.clash
    assert ("rehearsed", at_ms("17:59")) in preview.ghosts
    assert any(line.text.startswith("Overruled: ") for line in preview.lines)
    assert desk.card("rehearsed").clock == "5:38:20 p.m."
    assert desk.enter("rehearsed 5:59p").answer is Answer.ASKS


def test_the_give_of_a_new_figure_is_told_with_it(desk: Seat) -> None:
    assert desk.preview("ignition about 5:01p").headline.endswith("1 min later, ± 30 s")
    assert desk.preview("ignition 5:01p").headline.endswith("1 min later")


@pytest.mark.parametrize(
    ("typed", "asked"),
    [
        ("school free", "Enter once more: the plan itself pins it"),
        ("ignition 4:41p", "4:41:00 p.m. is 12 s ago"),
        ("ignition happened 4:42p", "4:42:00 p.m. is still 48 s away"),
        ("supper 6:40p", "That is 20 min later than now expected"),
    ],
)
def test_what_is_out_of_the_common_asks_for_a_second_enter(
    desk: Seat, typed: str, asked: str
) -> None:
    assert asked in desk.preview(typed).ask


def test_an_event_added_is_called_by_its_name_not_its_id(desk: Seat) -> None:
    preview = desk.preview('new "Wave from the window" ignition +4m')
    assert preview.headline.startswith("Wave from the window, a new event, 4 min after")
    assert dict(preview.ghosts) == {"wave-from-the-window": at_ms("17:04")}
    assert preview.lines == ()


def test_edges_the_plan_did_not_name_move_on_the_strip_not_in_the_lines(desk: Seat) -> None:
    preview = desk.preview("ignition +1m")
    assert not any("orbit." in event for event, _ in preview.ghosts)
    assert not any("Voice lost" in line.text for line in preview.lines)


def test_what_cannot_be_read_says_which_part_and_what_would_be(desk: Seat) -> None:
    preview = desk.preview("ignitoin +1m")
    assert preview.error == "Nothing here is called 'ignitoin'"
    assert "ignition" in preview.hint
    assert preview.headline == ""


def test_what_cannot_be_taken_says_how_it_can(desk: Seat) -> None:
    preview = desk.preview("liftoff 4p")
    assert preview.error == "'Liftoff' has happened, so it cannot be revised"
    assert "liftoff happened" in preview.hint


def test_two_readings_are_both_offered_and_the_pick_is_previewed(desk: Seat) -> None:
    desk.go_to("12:00")
    first = desk.desk.preview("supper 6:20", "", desk.now_ms)
    assert len(first.choices) == 2
    assert first.picked == 0
    second = desk.desk.preview("supper 6:20", "", desk.now_ms, pick=1)
    assert second.picked == 1
    assert second.headline != first.headline


def test_previewing_changes_nothing(desk: Seat) -> None:
    before = [(card.id, card.at_ms) for card in desk.view.cards]
    for typed in (
        "ignition +1m",
        "rehearsed 5:59p",
        "burned",
        "go happened 4:41p",
        "checks scrub with",
    ):
        desk.preview(typed)
    assert [(card.id, card.at_ms) for card in desk.view.cards] == before
    assert desk.desk.entries() == ()


def stays(desk: Seat, text: str, selected: str = "") -> list[str]:
    lines = [said.text for said in desk.preview(text, selected).lines]
    return [line for line in lines if " stays: lost" in line or " stays: back" in line]


def test_a_loss_that_moves_says_which_lanes_do_not_go_with_it(desk: Seat) -> None:
    assert stays(desk, "loss +90s") == ["PICTURE stays: lost at 4:48:00 p.m."]
    assert stays(desk, "loss now") == ["PICTURE stays: lost at 4:48:00 p.m."]
    assert stays(desk, "loss 4:50p") == []  # it does not move
    assert stays(desk, "ignition +1m") == []


def test_an_automatic_loss_that_moves_says_so_too(tmp_path: Path) -> None:
    flight = FLIGHT.replace("lost = 2031-05-14T18:30:00", "lost = 2031-05-14T18:35:00")
    desk = seat(tmp_path, text=flight)
    loss = next(c.id for c in desk.view.cards if c.id.startswith("orbit.voice") and "lost" in c.id)
    assert stays(desk, "+90s", loss) == ["PICTURE stays: lost at 6:35:00 p.m."]


def test_rows_of_a_table_that_go_with_the_edge_do_not_stay(desk: Seat) -> None:
    assert stays(desk, "return +30s") == []


def test_what_was_observed_needs_no_word(desk: Seat) -> None:
    desk.go_to("16:48:10")
    desk.take("picture lost now")
    assert stays(desk, "loss +90s") == []
