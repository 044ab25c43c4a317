"""The rest of a record: the signal, the programme, outcomes, check-offs, notes, clock, desk."""

from core.entries.model import ClockStep, Entry
from core.plan.model import Change
from core.session.record.making import Source, record_of
from core.session.record.model import Ended, Stood
from core.signal.model import Fill
from tests.core.session.days import NOON_MS
from tests.core.session.days import plan as small_plan
from tests.core.session.record.days import PLAN, Day, at, edge, event, item, long_day, plan


def test_an_edge_has_what_was_computed_and_what_was_observed() -> None:
    row = edge(long_day().record(), "16:50:00")
    assert (row.lane, row.change, row.ground) == ("voice", Change.LOST, "Tarn Hill")
    assert row.observed_ms == at("16:50:12")
    assert row.off_ms == 12_000
    assert row.credit.by == "KM"


def test_an_edge_nobody_observed_is_there_as_computed() -> None:
    day = Day()
    day.type("16:31:00", "note begun")
    assert edge(day.record(), "16:50:00").observed_ms is None


def test_an_edge_observed_twice_is_measured_against_what_was_computed_first() -> None:
    day = Day()
    day.type("16:50:20", "voice lost 16:50:12")
    day.type("16:51:20", "voice lost 16:50:30")
    rows = [row for row in day.record().edges if row.observed_ms is not None]
    assert rows[0].computed_ms == at("16:50:00")


def test_a_loss_that_was_in_no_plan_has_nothing_computed() -> None:
    day = Day()
    day.type("17:40:20", "voice lost 17:40:12")
    (row,) = [row for row in day.record().edges if row.observed_ms == at("17:40:12")]
    assert row.computed_ms is None
    assert row.off_ms is None


def test_the_lanes_of_the_day_are_cut_to_the_record() -> None:
    record = long_day().record()
    (lane,) = record.lanes
    assert lane.name == "VOICE"
    assert [each.fill for each in lane.stretches] == [Fill.CONTACT, Fill.GAP, Fill.CONTACT]
    assert lane.stretches[0].from_ms == record.begin_ms
    assert lane.stretches[-1].to_ms == record.end_ms


def test_items_ran_over_or_under_and_what_is_owed_is_to_be_made_good() -> None:
    record = long_day().record()
    first, second = item(record, "break-1"), item(record, "break-2")
    assert (first.ended, first.over_ms, first.make_good_ms) == (Ended.RAN, 20_000, 0)
    assert (second.ended, second.make_good_ms, second.sponsor) == (Ended.LOST, 90_000, "B")
    assert item(record, "tape").ended is Ended.NOT_RUN


def test_an_owed_item_cut_short_is_to_be_made_good_by_what_it_lacks() -> None:
    day = Day()
    day.type("16:52:00", "break 1 now")
    day.type("16:53:20", "break 1 over")
    row = item(day.record(), "break-1")
    assert row.over_ms == -40_000
    assert row.make_good_ms == 40_000


def test_an_owed_item_is_still_owed_while_the_programme_runs_and_lost_after_it() -> None:
    day = Day()
    day.type("16:31:00", "note begun")
    assert item(day.record(until="18:00:00"), "break-1").ended is Ended.OWED
    assert item(day.record(until="18:31:00"), "break-1").ended is Ended.LOST


def test_an_item_on_the_air_runs_over_up_to_the_end_of_the_record() -> None:
    day = Day()
    day.type("16:52:00", "break 1 now")
    row = item(day.record(until="16:54:30"), "break-1")
    assert (row.ended, row.over_ms, row.make_good_ms) == (Ended.ON_AIR, 30_000, 0)


def test_outcomes_are_named_with_their_source() -> None:
    (row,) = long_day().record().outcomes
    assert (row.outcome, row.of, row.credit.source) == ("after the burn", "Ignition", "flight")


def test_an_outcome_opened_again_is_told_in_order() -> None:
    day = Day()
    day.type("17:20:00", "burned per flight")
    day.type("17:21:00", "burned undecided per flight")
    assert [row.open_again for row in day.record().outcomes] == [False, True]


def test_check_offs_are_told_as_last_heard() -> None:
    day = long_day()
    day.type("17:03:00", "clamps 8")
    (row,) = day.record().checks
    assert (row.heard, row.count, row.enough) == (8, 8, 4)
    assert row.credit.at_ms == at("17:03:00")


def test_promises_say_whether_they_were_kept() -> None:
    day = Day()
    day.type("16:40:00", "promise the crew's names before five")
    day.type("16:41:00", "promise a word on the hall")
    day.type("16:50:00", "kept names")
    rows = day.record().promises
    assert [(row.text, row.kept_ms) for row in rows] == [
        ("the crew's names before five", at("16:50:00")),
        ("a word on the hall", None),
    ]


def test_notes_and_what_was_taken_back_have_lists_of_their_own() -> None:
    record = long_day().record()
    assert [row.words for row in record.notes] == ["line to the hall is noisy"]
    (turned,) = record.turned
    assert turned.words == "School call at 18:20:00"
    assert [row.stands for row in record.log if row.credit.number == turned.number] == [False]


def test_what_the_clock_did_is_in_the_record() -> None:
    entries = [Entry(1, NOON_MS, "", ClockStep(2_000, slept=False))]
    (row,) = record_of(Source(small_plan(), entries)).clock
    assert (row.by_ms, row.slept) == (2_000, False)


def test_who_was_at_the_desk_is_told() -> None:
    day = long_day()
    day.type("17:40:00", "sign in RJ")
    record = day.record()
    assert [(s.who, s.from_ms, s.until_ms) for s in record.sittings] == [
        ("KM", at("16:31:00"), at("17:40:00")),
        ("RJ", at("17:40:00"), None),
    ]


def test_the_network_s_hours_are_in_the_record() -> None:
    day = Day()
    day.type("16:40:00", "air off")
    day.type("16:50:00", "air on")
    (row,) = day.record().away
    assert (row.from_ms, row.until_ms) == (at("16:40:00"), at("16:50:00"))


def test_a_session_without_entries_is_a_record_of_its_plan() -> None:
    record = record_of(Source(plan(), (), end_ms=at("16:30:00")))
    assert next(row.id for row in record.events) == "ignition"
    assert record.log == ()


def test_a_plan_taken_over_leaves_what_the_first_plan_said() -> None:
    day = Day()
    day.type("16:40:00", "ignition +45s")
    later = PLAN.replace("at = 2031-05-14T18:00:00", "at = 2031-05-14T18:10:00").replace(
        'id = "cutoff"\nname = "Cutoff"\nafter = "ignition"\noffset = "6m"',
        'id = "cutoff"\nname = "Engine off"\nafter = "ignition"\noffset = "7m"',
    )
    day.desk.plan_on_disk(plan(later), at("16:45:00"))
    day.type("16:46:00", "plan")
    record = day.record()
    school = next(row for row in record.events if row.id == "school")
    assert school.planned_ms == at("18:00:00")
    assert school.replanned_ms == at("18:10:00")
    assert next(row.name for row in record.events if row.id == "cutoff") == "Engine off"


def test_an_event_that_a_later_plan_has_no_more_is_kept_and_says_so() -> None:
    day = Day()
    day.type("16:40:00", "school +5m")
    begins = PLAN.index('[[event]]\nid = "school"')
    later = PLAN[:begins] + PLAN[PLAN.index("[[outcome]]") :]
    day.desk.plan_on_disk(plan(later), at("16:45:00"))
    day.type("16:46:00", "plan")
    row = event(day.record(), "school")
    assert row.stood is Stood.GONE
    assert row.planned_ms == at("18:00:00")
