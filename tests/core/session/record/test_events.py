"""The events of a record: planned, expected, said, happened; by whose word; how they moved."""

from hypothesis import given, settings

from core.entries.model import standing
from core.session.ground import make_ready, no_skies
from core.session.record.making import Source
from core.session.record.model import Closed, Credit, How, Stood
from core.session.record.replay import Replay
from core.times.writing import Hours
from tests.core.session.record.days import PLAN, Day, at, event, long_day
from tests.core.session.record.drawn import sources

_LOSS = """
[[event]]
id = "loss"
name = "Loss of signal"
edge = { lane = "voice", change = "lost", nth = 1 }
"""


def test_an_event_has_its_four_times() -> None:
    row = event(long_day().record(), "ignition")
    assert row.planned_ms == at("17:00:00")
    assert row.expected_ms == at("17:01:15")
    assert row.said_ms == at("17:00:45")
    assert row.happened_ms == at("17:01:16")
    assert row.stood is Stood.HAPPENED


def test_it_says_who_said_so_and_who_typed_it() -> None:
    row = event(long_day().record(), "ignition")
    assert (row.credit.source, row.credit.by) == ("agency", "KM")
    assert row.credit.at_ms == at("17:01:20")


def test_every_move_is_kept_in_order_with_the_instant_of_typing() -> None:
    moves = event(long_day().record(), "ignition").moves
    assert [(m.from_ms, m.to_ms, m.credit.at_ms) for m in moves] == [
        (at("17:00:00"), at("17:00:45"), at("16:35:00")),
        (at("17:00:45"), at("17:01:15"), at("16:40:00")),
        (at("17:01:15"), at("17:01:16"), at("17:01:20")),
    ]
    assert {move.how for move in moves} == {How.TYPED}


def test_what_follows_is_told_apart_from_what_was_typed() -> None:
    moves = event(long_day().record(), "cutoff").moves
    assert {move.how for move in moves} == {How.FOLLOWS}
    assert moves[0].from_ms == at("17:06:00")
    assert moves[0].to_ms == at("17:06:45")


def test_a_figure_taken_back_leaves_its_moves_and_no_credit() -> None:
    row = event(long_day().record(), "school")
    assert [move.how for move in row.moves] == [How.TYPED, How.TAKEN_BACK]
    assert row.expected_ms == at("18:00:00")
    assert row.credit == Credit()


def test_what_belongs_to_an_outcome_that_did_not_come_says_so() -> None:
    row = event(long_day().record(), "quiet-back")
    assert row.stood is Stood.OTHER_OUTCOME
    assert row.last_ms is None


def test_what_nobody_confirmed_is_told_apart_from_what_is_ahead() -> None:
    record = long_day().record(until="17:30:00")
    assert event(record, "cutoff").stood is Stood.UNCONFIRMED
    assert event(record, "school").stood is Stood.AHEAD


def test_a_fact_corrected_keeps_what_was_expected_before_the_first() -> None:
    day = Day()
    day.type("17:00:30", "ignition happened 17:00:10")
    day.type("17:01:30", "ignition happened 17:00:20")
    row = event(day.record(), "ignition")
    assert row.expected_ms == at("17:00:00")
    assert row.happened_ms == at("17:00:20")
    assert [move.to_ms for move in row.moves] == [at("17:00:10"), at("17:00:20")]


def test_a_fact_taken_back_and_typed_again_counts_from_the_last() -> None:
    day = Day()
    number = day.type("17:00:30", "ignition happened 17:00:10")
    day.desk.take_back(number, at("17:00:40"))
    day.type("17:00:50", "ignition 17:02")
    day.type("17:02:10", "ignition happened 17:02:05")
    row = event(day.record(), "ignition")
    assert row.expected_ms == at("17:02:00")
    assert row.happened_ms == at("17:02:05")


def test_a_held_count_slides_in_one_move() -> None:
    day = Day()
    day.type("16:40:00", "ignition hold")
    day.type("16:50:00", "ignition resume")
    moves = event(day.record(), "cutoff").moves
    slid = [move for move in moves if move.how is How.HELD]
    assert [(move.from_ms, move.to_ms) for move in slid] == [(at("17:06:00"), at("17:16:00"))]
    assert slid[0].credit.source == ""


def test_a_count_still_held_slides_to_the_end_of_the_record() -> None:
    day = Day()
    day.type("16:40:00", "ignition hold")
    row = event(day.record(until="16:45:00"), "cutoff")
    assert row.moves[-1].to_ms == at("17:11:00")
    assert event(day.record(until="16:45:00"), "ignition").stood is Stood.HELD


def test_an_event_added_at_the_desk_is_in_the_record() -> None:
    day = Day()
    day.type("16:40:00", 'new "Correction burn" 17:40')
    row = next(row for row in day.record().events if row.name == "Correction burn")
    assert row.added
    assert row.planned_ms == at("17:40:00")


def test_one_called_off_says_so() -> None:
    day = Day()
    day.type("16:40:00", "school scrub stay")
    assert event(day.record(), "school").stood is Stood.CALLED_OFF


def test_a_new_reference_is_kept_beside_the_plan() -> None:
    day = Day()
    day.type("16:40:00", "ignition +45s")
    day.type("16:41:00", "replan")
    row = event(day.record(), "ignition")
    assert row.planned_ms == at("17:00:00")
    assert row.replanned_ms == at("17:00:45")


def test_a_correction_is_owed_from_the_entry_that_made_what_was_said_false() -> None:
    (row,) = long_day().record().corrections
    assert row.event == "ignition"
    assert row.owed.at_ms == at("16:40:00")
    assert row.told_ms == at("17:00:45")
    assert row.now_ms == at("17:01:16")
    assert row.closed is Closed.OWED


def test_a_correction_that_was_said_says_when() -> None:
    day = Day()
    day.type("16:36:00", "said")
    day.type("16:40:00", "ignition +2m per flight")
    day.type("16:41:00", "said")
    (row,) = day.record().corrections
    assert row.closed is Closed.SAID
    assert row.closing is not None
    assert row.closing.at_ms == at("16:41:00")
    assert event(day.record(), "ignition").said_ms == at("17:02:00")


def test_a_correction_may_be_waived() -> None:
    day = Day()
    day.type("16:36:00", "said")
    day.type("16:40:00", "ignition +2m")
    day.type("16:41:00", "waive")
    (row,) = day.record().corrections
    assert row.closed is Closed.WAIVED


def test_a_correction_lapses_when_what_was_said_is_right_again() -> None:
    day = Day()
    day.type("16:36:00", "said")
    number = day.type("16:40:00", "ignition +2m")
    day.desk.take_back(number, at("16:41:00"))
    (row,) = day.record().corrections
    assert row.closed is Closed.LAPSED


def test_what_was_said_and_taken_back_was_not_told() -> None:
    day = Day()
    number = day.type("16:36:00", "said")
    day.desk.take_back(number, at("16:37:00"))
    row = event(day.record(), "ignition")
    assert row.said_ms is None
    assert [telling.stands for telling in row.told] == [False]


def test_an_edge_observed_again_is_no_follower_of_itself() -> None:
    day = Day(text=PLAN.replace("[[outcome]]", _LOSS + "\n[[outcome]]", 1))
    day.type("16:50:20", "voice lost 16:50:12")
    day.type("16:51:20", "loss happened 16:50:30")
    row = event(day.record(), "loss")
    assert {move.how for move in row.moves} == {How.TYPED}
    assert row.happened_ms == at("16:50:30")


def test_the_replay_ends_where_a_session_opened_again_stands() -> None:
    day = long_day()
    day.type("17:32:00", "school hold")
    entries = day.store.entries
    replay = Replay(day.plan, entries[0].at_ms, Hours.TWELVE, no_skies)
    list(replay.steps(entries))
    _, at_end = replay.end(at("17:40:00"))
    opened = make_ready(day.plan).schedule(at("17:40:00"), standing(entries))
    assert dict(at_end) == opened.expected()


@settings(max_examples=40, deadline=None)
@given(sources())
def test_the_replay_of_any_session_ends_where_it_stands(source: Source) -> None:
    begin_ms = source.entries[0].at_ms if source.entries else 0
    replay = Replay(source.plan, begin_ms, Hours.TWELVE, no_skies)
    steps = list(replay.steps(source.entries))
    assert len(steps) == len(source.entries)
    end_ms = source.end_ms or 0
    _, at_end = replay.end(end_ms)
    opened = make_ready(source.plan).schedule(end_ms, standing(source.entries))
    assert dict(at_end) == opened.expected()


def test_a_figure_for_a_held_count_slides_on_as_it_did() -> None:
    day = Day()
    day.type("16:40:00", "ignition hold")
    day.type("16:41:00", "ignition 17:40:00 per flight")
    record = day.record(until="18:00:00")
    shown = day.desk.view(at("18:00:00"))
    assert event(record, "ignition").last_ms == day.desk.schedule.expected_ms("ignition")
    assert shown.now_ms == at("18:00:00")
