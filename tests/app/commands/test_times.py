"""`times`: what is told of every event, in words and as JSON, and what an entry does."""

import re

import pytest

from tests.app.commands.plans import HEAD, LOST_AND_FOUND, SQUEEZED, Run

_STAMP = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z")


def test_the_table_tells_what_is_planned_expected_and_what_binds_it(run: Run) -> None:
    answer = run("times", SQUEEZED, "turn +10m")
    assert answer.status == 0
    assert answer.err == ""
    assert answer.line("Clock times") == "Clock times: UTC"
    assert answer.line("EVENT") == "EVENT PLANNED EXPECTED CHANGE EARLIEST LATEST BY"
    assert answer.line("Turn") == (
        "Turn 10:00:00 a.m. 10:10:00 a.m. 10 min later 10:10:00 a.m. 10:10:00 a.m. "
        "the time that was typed"
    )
    assert answer.line("Mating") == (
        "Mating 10:10:00 a.m. 10:20:00 a.m. 10 min later 10:15:00 a.m. 10:20:00 a.m. tied to Turn"
    )
    assert answer.line("Door opens") == (
        "Door opens 10:20:00 a.m. 10:25:00 a.m. ± 20 s 5 min later 10:20:00 a.m. 10:25:00 a.m. "
        "as near to Mating as may be"
    )
    assert answer.line("School call").endswith("10:30:00 a.m. pinned")


def test_events_stand_in_order_of_time(run: Run) -> None:
    lines = run("times", LOST_AND_FOUND).out
    times = [line for line in lines.splitlines() if " a.m." in line]
    shown = [re.findall(r"\d+:\d\d:\d\d a\.m\.", line)[1] for line in times]
    assert any("lost" in line for line in times)
    assert [at.rjust(13) for at in shown] == sorted(at.rjust(13) for at in shown)


def test_a_plan_of_another_year_says_its_day_and_dates_what_is_typed_now(run: Run) -> None:
    answer = run("times", SQUEEZED, "turn now", now="2030-01-02T15:00:00")
    assert answer.line("Clock times") == "Clock times: UTC; without a date: 14 May 2031"
    assert answer.line("Turn").startswith("Turn 10:00:00 a.m. 2 Jan 2030 3:00:00 p.m. ")


def test_json_gives_every_key_with_times_in_utc_and_lengths_in_seconds(run: Run) -> None:
    answer = run("times", SQUEEZED.replace('"UTC"', '"America/Halifax"'), "turn +10m", "--json")
    told = answer.told
    assert list(told) == ["events", "yielded", "broken", "clash", "notes"]
    assert answer.event("door") == {
        "id": "door",
        "name": "Door opens",
        "planned": "2031-05-14T13:20:00.000Z",
        "expected": "2031-05-14T13:25:00.000Z",
        "happened": None,
        "earliest": "2031-05-14T13:20:00.000Z",
        "latest": "2031-05-14T13:25:00.000Z",
        "give_s": 20.0,
        "state": "ahead",
        "pinned": False,
        "outcome": None,
        "cause": {"kind": "least", "of": "mate"},
    }
    for event in told["events"]:
        for key in ("planned", "expected", "earliest", "latest"):
            assert event[key] is None or _STAMP.fullmatch(event[key])
    assert (told["yielded"], told["broken"], told["clash"], told["notes"]) == ([], [], None, [])


def test_a_thousandth_of_a_second_is_kept(run: Run) -> None:
    answer = run("times", SQUEEZED, "turn 2031-05-14T10:01:00.007Z", "--json")
    assert answer.event("mate")["expected"] == "2031-05-14T10:11:00.007Z"


def test_entries_are_taken_in_their_order(run: Run) -> None:
    answer = run("times", SQUEEZED, "turn +5m", "turn +1m", "turn free", "turn -2m", "--json")
    assert answer.status == 0
    assert answer.event("turn")["expected"] == "2031-05-14T09:58:00.000Z"
    answer = run("times", SQUEEZED, "turn 10:05", "turn happened 10:06", "--json")
    assert answer.event("turn")["happened"] == "2031-05-14T10:06:00.000Z"
    assert answer.event("turn")["state"] == "happened"
    assert run("times", SQUEEZED, "turn happened 10:06", "turn 10:05").status == 2


def test_an_entry_that_clashes_stops_the_run(run: Run) -> None:
    answer = run("times", SQUEEZED, "turn +10m", "turn +6m", "mate free", "turn free", "--json")
    assert answer.status == 1
    assert answer.event("turn")["expected"] == "2031-05-14T10:10:00.000Z"
    assert answer.told["clash"] == {
        "entry": "turn +6m",
        "set": [
            {"kind": "figure", "of": "turn", "to": None},
            {"kind": "least", "of": "turn", "to": "mate"},
            {"kind": "least", "of": "mate", "to": "door"},
            {"kind": "least", "of": "door", "to": "call"},
            {"kind": "pin", "of": "call", "to": None},
        ],
        "over_s": 60.0,
        "fits_from": None,
        "fits_until": "2031-05-14T10:15:00.000Z",
    }
    assert answer.told["broken"] == []


def test_the_clash_is_told_in_words_with_what_would_fit(run: Run) -> None:
    answer = run("times", SQUEEZED, "turn +10m", "turn +6m")
    assert answer.status == 1
    said = answer.line("turn +6m")
    assert said.startswith("turn +6m: clash by 1 min: the figure for Turn; the least from Turn to")
    assert said.endswith("the pin of School call. 10:15:00 a.m. or earlier would fit")


def test_anyway_sets_it_and_shows_what_is_too_close(run: Run) -> None:
    answer = run("times", SQUEEZED, "turn +16m", "door +1m", "--anyway", "--json")
    assert answer.status == 1
    assert answer.told["clash"]["entry"] == "door +1m"
    assert answer.told["clash"]["over_s"] == 120.0
    assert answer.event("turn")["expected"] == "2031-05-14T10:16:00.000Z"
    assert answer.event("call")["expected"] == "2031-05-14T10:30:00.000Z"
    assert answer.told["broken"] == [
        {"limit": {"kind": "least", "of": "door", "to": "call"}, "short_s": 120.0}
    ]
    back = run("times", SQUEEZED, "turn +16m", "turn -10m", "--anyway", "--json")
    assert (back.status, back.told["clash"], back.told["broken"]) == (0, None, [])
    text = run("times", SQUEEZED, "turn +16m", "--anyway")
    assert text.line("Overruled") == (
        "Overruled: the least from Door opens to School call, 1 min short"
    )


def test_an_older_figure_that_gives_way_is_told(run: Run) -> None:
    answer = run("times", SQUEEZED, "mate 10:12", "turn 10:08", "--json")
    assert answer.status == 0
    assert answer.told["yielded"] == ["mate"]
    assert run("times", SQUEEZED, "mate 10:12", "turn 10:08").line("Gave way") == (
        "Gave way: the older figure for Mating"
    )


def test_a_plan_that_contradicts_itself_is_a_clash_without_an_entry(run: Run) -> None:
    plan = SQUEEZED.replace("10:30:00", "10:12:00")
    answer = run("times", plan, "--json")
    assert answer.status == 1
    assert answer.told["clash"]["entry"] is None
    assert answer.told["clash"]["over_s"] == 180.0
    assert run("times", plan).line("The plan").startswith("The plan: clash by 3 min: ")


@pytest.mark.parametrize(
    ("typed", "note"),
    [
        ("turn 8:30", "turn 8:30: 8:30:00 a.m. is 30 min ago"),
        ("turn happened 9:30", "turn happened 9:30: 9:30:00 a.m. is still 30 min away"),
        ("turn -55m", "turn -55m: That is 55 min earlier than now expected"),
        ("turn scrub", "turn scrub: What becomes of those tied to it was not said"),
        ("call free", "call free: the plan itself pins it"),
        ("turn 9:58", "turn 9:58: also read as Turn at 9:58:00 p.m. UTC (read as p.m.)"),
    ],
)
def test_what_the_bar_would_ask_holds_nothing_back_and_is_noted(
    typed: str, note: str, run: Run
) -> None:
    answer = run("times", SQUEEZED, typed, "--json")
    assert answer.status == 0
    assert note in answer.told["notes"]
    assert note in run("times", SQUEEZED, typed).out.splitlines()


def test_the_states_of_an_event_are_said_in_words(run: Run) -> None:
    held = run("times", SQUEEZED, "turn hold")
    assert held.line("Turn").endswith("held with 1 h left")
    assert (
        run("times", SQUEEZED, "turn hold", "turn 10:05")
        .line("Turn")
        .endswith("held with 1 h left; the time that was typed")
    )
    goes_on = run("times", SQUEEZED, "turn hold", "turn resume 9:10")
    assert goes_on.line("Turn").endswith("its count, which goes on")
    off = run("times", SQUEEZED, "mate scrub with")
    assert off.line("Mating") == "Mating 10:10:00 a.m. called off"
    assert off.line("Door opens") == "Door opens 10:20:00 a.m. called off"
    gone = run("times", LOST_AND_FOUND, "ignition scrub stay")
    assert gone.line("Checks done").endswith("unknown: what it hangs on is not there")
    assert run("times", LOST_AND_FOUND, "ignition scrub stay", "--json").event("checks") | {
        "planned": None
    } == {
        "id": "checks",
        "name": "Checks done",
        "planned": None,
        "expected": None,
        "happened": None,
        "earliest": None,
        "latest": None,
        "give_s": 0.0,
        "state": "unknown",
        "pinned": False,
        "outcome": None,
        "cause": None,
    }


def test_an_outcome_that_was_named_drops_the_other(run: Run) -> None:
    plan = (
        SQUEEZED
        + """
only_if = "turned"
[[outcome]]
id = "turned"
of = "turn"
name = "if it turns"
[[outcome]]
id = "stuck"
of = "turn"
name = "if it sticks"
"""
    )
    assert run("times", plan, "--json").event("call")["outcome"] == "turned"
    answer = run("times", plan, "stuck")
    assert answer.line("School call").endswith("belongs to an outcome that did not come")
    assert run("times", plan, "stuck", "--json").event("call")["state"] == "dropped"


def test_an_edge_by_itself_is_told_once_and_hides_behind_an_event_that_names_it(run: Run) -> None:
    answer = run("times", LOST_AND_FOUND, "--json")
    named = [event["name"] for event in answer.told["events"]]
    assert named == [
        "Ignition",
        "Signal back",
        "Checks done",
        "Voice back, Tarn Hill",
        "Voice lost, Tarn Hill",
        "Voice lost, Kestrel Bay",
    ]
    assert answer.event("return")["expected"] == "2031-05-14T10:20:00.000Z"
    assert answer.event("return")["cause"] == {"kind": "edge", "of": "return"}


def test_a_contact_that_is_not_there_any_more_is_a_clash_that_says_what_would_fit(run: Run) -> None:
    plan = LOST_AND_FOUND.replace('follows = "ignition"\ntimes = "offset"', 'times = "clock"')
    for length, clock in (("-30m", "09:30"), ("-10m", "09:50"), ("20m", "10:20"), ("21m", "10:21")):
        plan = plan.replace(f'"{length}"', f'"2031-05-14T{clock}:00"')
    for length, clock in (
        ("50m", "10:50"),
        ("45m", "10:45"),
        ("1h 30m", "11:30"),
        ("40m", "10:40"),
    ):
        plan = plan.replace(f'"{length}"', f'"2031-05-14T{clock}:00"')
    answer = run("times", plan, "ignition 11:00")
    assert answer.status == 1
    assert answer.line("ignition 11:00") == (
        "ignition 11:00: clash by 40 min: the figure for Ignition; "
        "the signal's edge for Signal back. 10:20:00 a.m. or earlier would fit"
    )


def test_a_bound_beyond_all_calendars_is_as_good_as_open(run: Run) -> None:
    plan = HEAD + '[[event]]\nid = "e0"\nwindow = ["none", 2199-01-01T00:00:00]\n'
    for number in range(1, 90):
        plan += f'[[event]]\nid = "e{number}"\nafter = "e{number - 1}"\nmost = "36000d"\n'
    answer = run("times", plan, "--json")
    assert answer.status == 0
    assert answer.event("e89")["latest"] is None
    assert run("times", plan).status == 0


def test_all_entries_of_the_bar_that_make_no_figure_are_taken_too(run: Run) -> None:
    answer = run(
        "times",
        LOST_AND_FOUND,
        "ignition +-30s",
        "voice lost 9:51:00a per desk",
        "voice closed",
        "voice open",
        'new "Wake-up song" ign +4h',
        "note the line to the hall is noisy",
        "replan",
        "ignition +30s",
        "--json",
        now="2031-05-14T09:52:00",
    )
    assert answer.status == 0, answer.err
    assert answer.event("ignition")["give_s"] == 30.0
    assert answer.event("ignition")["planned"] == "2031-05-14T10:00:00.000Z"
    song = answer.told["events"][-1]
    assert (song["name"], song["expected"]) == ("Wake-up song", "2031-05-14T14:00:30.000Z")


def test_entries_about_the_programme_are_taken_and_move_nothing(run: Run) -> None:
    items = """
[[item]]
id = "break-3"
kind = "break"
name = "Break 3"
length = "2m 10s"
[[checkoff]]
id = "clamps"
name = "Clamps released"
of = "door"
count = 12
enough = 3
"""
    plain = run("times", SQUEEZED, "--json").told
    lines = ("break 3 at 10:02", "break 3 now", "clamps 1 5 9", "air off 11m")
    answer = run("times", SQUEEZED + items, *lines, "--json")
    assert answer.status == 0
    assert answer.told["events"] == plain["events"]
    refused = run("times", SQUEEZED + items, "break 3 over")
    assert refused.status == 2
    assert "Break 3 is not on the air" in refused.err


def test_a_line_that_clashes_is_not_set_and_the_way_to_set_it_is_said(run: Run) -> None:
    way = "It is not set: --anyway sets it all the same"
    assert run("times", SQUEEZED, "turn +16m").out.splitlines()[-1] == way
    assert way not in run("times", SQUEEZED, "turn +16m", "--anyway").out
    assert way not in run("times", SQUEEZED, "turn +1m").out
