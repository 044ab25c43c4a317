from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.errors import PlanProblems
from core.plan.imports.model import Imported, Row, Setting, TwoParts
from core.plan.imports.opening import lines_of
from core.plan.imports.timeline import read_timeline
from core.times.instants import ms_to_rfc3339, rfc3339_to_ms

HALIFAX = Setting("America/Halifax", date(2031, 5, 14), ("America/New_York",))


def read(text: str, setting: Setting = HALIFAX) -> Imported:
    return read_timeline(text, setting)


def only(text: str, setting: Setting = HALIFAX) -> Row:
    """The one row of a text that holds nothing else."""
    imported = read(text, setting)
    assert not imported.not_read
    (row,) = imported.rows
    return row


def at(row: Row) -> str:
    assert row.at_ms is not None
    return ms_to_rfc3339(row.at_ms).removesuffix(".000Z")


def h_mm_ss(hours: int, minutes: int, seconds: int) -> int:
    return ((hours * 60 + minutes) * 60 + seconds) * 1_000


# ------------------------------------------------------------------ one line


@pytest.mark.parametrize(
    ("line", "when", "name"),
    [
        ("May 14, 4:46 p.m. ADT  Loss of signal", "2031-05-14T19:46:00", "Loss of signal"),
        ("14 May 2031 16:46 Loss of signal", "2031-05-14T19:46:00", "Loss of signal"),
        ("Wednesday, May 14, 2031 at 4:46 pm: Lost", "2031-05-14T19:46:00", "Lost"),
        ("2031-05-14T16:46:00-03:00 Lost", "2031-05-14T19:46:00", "Lost"),
        ("2031-05-14 16:46 Lost", "2031-05-14T19:46:00", "Lost"),
        ("16:46 UTC Lost", "2031-05-14T16:46:00", "Lost"),
        ("1646Z Lost", "2031-05-14T16:46:00", "Lost"),
        ("1646 hrs Lost", "2031-05-14T19:46:00", "Lost"),
        ("16h46 Lost", "2031-05-14T19:46:00", "Lost"),
        ("GMT 134/16:46:00 Lost", "2031-05-14T16:46:00", "Lost"),
        ("4:46 p.m. EDT – Lost", "2031-05-14T20:46:00", "Lost"),
        ("4:46 p.m. Eastern time – Lost", "2031-05-14T20:46:00", "Lost"),
        ("4.46pm Lost", "2031-05-14T19:46:00", "Lost"),
        ("noon Lost", "2031-05-14T15:00:00", "Lost"),
        ("24:00 Lost", "2031-05-15T03:00:00", "Lost"),
        ("• 16:46:30 — Lost", "2031-05-14T19:46:30", "Lost"),
        ("3. 16:46 Lost", "2031-05-14T19:46:00", "Lost"),
        ("Loss of signal ........ 4:46 p.m.", "2031-05-14T19:46:00", "Loss of signal"),
        ("Loss of signal . . . . . 4:46 p.m. ADT", "2031-05-14T19:46:00", "Loss of signal"),
        ("Loss of signal\t16:46", "2031-05-14T19:46:00", "Loss of signal"),
        ("16:46 Lost*", "2031-05-14T19:46:00", "Lost"),
        ("16:46 Lost [3]", "2031-05-14T19:46:00", "Lost"),
        ("| 16:46 | Lost |", "2031-05-14T19:46:00", "Lost"),
        ("8:46 a.m. EDT (1246 UTC) Both zones", "2031-05-14T12:46:00", "Both zones"),
        ("The hatch opens at 16:46 at last.", "2031-05-14T19:46:00", "The hatch opens at last"),
    ],
)
def test_a_line_with_a_clock_time_is_a_row(line: str, when: str, name: str) -> None:
    row = only(line)
    assert (at(row), row.name, row.text) == (when, name, line)


@pytest.mark.parametrize(
    ("line", "elapsed_ms", "name"),
    [
        ("T+03:29:33 Ignition", h_mm_ss(3, 29, 33), "Ignition"),
        ("L-00:10:00 Hold", -h_mm_ss(0, 10, 0), "Hold"),
        ("L−00:10:00 Hold", -h_mm_ss(0, 10, 0), "Hold"),
        ("T minus 10 minutes: Hold", -h_mm_ss(0, 10, 0), "Hold"),
        ("T-0 Liftoff", 0, "Liftoff"),
        ("T+1 h 12 min Orbit", h_mm_ss(1, 12, 0), "Orbit"),
        ("2/12:23:00 MET Burn", h_mm_ss(60, 23, 0), "Burn"),
        ("MET 2d 12:23:00 Burn", h_mm_ss(60, 23, 0), "Burn"),
        ("GET 074:16:29 Burn", h_mm_ss(74, 16, 29), "Burn"),
        ("74:16:29 Burn", h_mm_ss(74, 16, 29), "Burn"),
        ("+00:01:12.5 Burn", h_mm_ss(0, 1, 12) + 500, "Burn"),
        ("Burn ..... T+00:01:12", h_mm_ss(0, 1, 12), "Burn"),
    ],
)
def test_a_line_with_an_elapsed_time_is_a_row(line: str, elapsed_ms: int, name: str) -> None:
    row = only(line)
    assert (row.at_ms, row.elapsed_ms, row.name) == (None, elapsed_ms, name)


def test_about_gives_half_a_minute_and_a_written_give_counts_as_written() -> None:
    about, given_, net = read("~16:46 A\n16:50 ±2 min B\nNET 16:55 C").rows
    assert (about.give_ms, given_.give_ms) == (30_000, 120_000)
    assert net.told == "no earlier than this"


def test_a_range_is_a_row_that_lasts() -> None:
    text = "11:30–12:15 p.m. A\n16:46 - 16:52 B\nT+1:00:00 to T+1:10:00 C\n23:50-00:10 D"
    rows = read(text).rows
    assert [row.length_ms for row in rows] == [2_700_000, 360_000, 600_000, 1_200_000]
    assert at(rows[0]) == "2031-05-14T14:30:00"


def test_a_clock_time_counts_before_an_elapsed_time_beside_it() -> None:
    row = only("10:00 a.m. / T+91:00:00  Both")
    assert (at(row), row.elapsed_ms) == ("2031-05-14T13:00:00", None)
    assert row.told == "elapsed 3 d 19:00:00 stands beside it"


def test_further_columns_are_kept_as_a_note() -> None:
    row = only("16:46   Ignition   Tarn Hill   six minutes")
    assert (row.name, row.note) == ("Ignition", "Tarn Hill six minutes")


# ------------------------------------------------------------------ from line to line


def test_a_date_above_holds_for_what_follows() -> None:
    rows = read("Thursday 15 May\n9:00 a.m. A\nMay 16 – the last day\n9:00 a.m. B").rows
    assert [at(row) for row in rows] == ["2031-05-15T12:00:00", "2031-05-16T12:00:00"]


def test_past_midnight_it_is_the_next_day_and_the_row_says_so() -> None:
    rows = read("11:50 p.m. A\n12:20 a.m. B\n12:10 a.m. C").rows
    assert [at(row) for row in rows] == [
        "2031-05-15T02:50:00",
        "2031-05-15T03:20:00",
        "2031-05-15T03:10:00",
    ]
    assert rows[1].told == "taken as the next day, 15 May 2031"
    assert rows[2].told == "earlier than the line above"


def test_a_half_of_the_day_that_is_not_said_is_the_next_one_that_comes() -> None:
    rows = read("4:46 p.m. A\nabout 6:46 B\n1:00 C").rows
    assert [at(row) for row in rows][1:] == ["2031-05-14T21:46:00", "2031-05-15T04:00:00"]
    assert rows[1].told == "read as p.m."


def test_a_half_that_nothing_tells_is_asked_for() -> None:
    (one,) = read("about 4:46 Lost").not_read
    assert (one.why, one.hint) == ("4:46 may be a.m. or p.m.", "Write 4:46 p.m., or 04:46")


def test_a_zone_above_the_columns_holds_for_what_follows() -> None:
    imported = read("Time (EDT)   MET   Event\n14:00  00:00:00  Liftoff\n14:02  00:02:10  Off")
    assert [at(row) for row in imported.rows] == ["2031-05-14T18:00:00", "2031-05-14T18:02:00"]
    assert imported.headings[0].meaning == "times are UTC−4, elapsed times"
    assert not imported.told


def test_a_zone_that_nothing_names_is_told() -> None:
    assert read("16:46 A").told == ("Clock times that name no zone were read in America/Halifax",)


def test_what_two_figures_count_is_said_above_or_by_the_person() -> None:
    (one,) = read("T+2:30 A").not_read
    assert "may be hours and minutes" in one.why
    assert read("Mission time (min:sec)  Event\n-10:00 A").rows[0].elapsed_ms == -600_000
    by_person = Setting("UTC", two_parts=TwoParts.HOURS_MINUTES)
    assert only("T+2:30 A", by_person).elapsed_ms == h_mm_ss(2, 30, 0)


def test_a_broken_word_and_an_indented_line_go_on_with_the_row_above() -> None:
    text = "16:46 Insertion burn, igni-\ntion of the engine\n16:52 Cutoff\n   of the engine"
    first, second = read(text).rows
    assert (first.name, first.more_lines) == ("Insertion burn, ignition of the engine", (2,))
    assert (second.name, second.more_lines) == ("Cutoff of the engine", (4,))


def test_a_time_alone_takes_the_words_below_or_above_but_never_guesses() -> None:
    below = read("9:00 a.m.\nReturn\n\nMore\n9:30 a.m.\n")
    assert [(row.name, row.line) for row in below.rows] == [("Return", 1), ("More", 4)]
    unclear = read("Timeline\n9:00 a.m.\nReturn")
    assert not unclear.rows
    assert [one.line for one in unclear.not_read] == [1, 2, 3]


def test_times_that_clocks_skip_or_show_twice_are_not_guessed() -> None:
    skipped = read("2031-03-09 02:30 A").not_read[0]
    assert "clocks skip it" in skipped.why
    twice = read("2031-11-02 01:30 A").not_read[0]
    assert "comes twice" in twice.why
    assert "-03:00 or 2031-11-02T01:30:00-04:00" in twice.hint
    assert at(only("2031-11-02 01:30 AST A")) == "2031-11-02T05:30:00"


def test_columns_of_several_zones_behind_the_names_are_read_by_their_heading() -> None:
    text = (
        "Event             EDT           PDT           UTC\n"
        "Entry             8:31 p.m.     5:31 p.m.     0031\n"
        "Parachute         8:35:14 p.m.  5:35:14 p.m.  00:35:14\n"
        "Wrong             8:40 p.m.     5:40 p.m.     0041"
    )
    imported = read(text)
    assert [(row.name, at(row)) for row in imported.rows] == [
        ("Entry", "2031-05-15T00:31:00"),
        ("Parachute", "2031-05-15T00:35:14"),
    ]
    assert imported.not_read[0].why == "the times in this line do not agree"


def test_figures_with_a_stroke_are_days_of_the_year_or_elapsed_as_the_heading_says() -> None:
    (row,) = read("GMT   MET   EVENT\n134/17:21:00   003/00:52:28   Contact").rows
    assert at(row) == "2031-05-14T17:21:00"
    assert row.told == "elapsed 3 d 00:52:28 stands beside it"
    (one,) = read("134/17:21:00   Contact").not_read
    assert "may count elapsed days or days of the year" in one.why


def test_a_remark_on_all_times_anywhere_says_the_zone() -> None:
    (row,) = read("MISSION TIMELINE (all times UTC)\n16:46 A").rows
    assert at(row) == "2031-05-14T16:46:00"


@pytest.mark.parametrize(
    "text",
    [
        "0:00:00\tLiftoff\n0:02:10\tStaging",
        "00:01:10 Max Q\n00:02:25 Cutoff",
        "14 May 2031\n00:00:00 Liftoff\n00:02:10 Staging",
        "Hr/Min/Sec   Event\n01:00:00 Engines chill\n02:00:00 Liftoff",
    ],
)
def test_bare_times_that_count_from_a_start_are_elapsed(text: str) -> None:
    rows = read(text).rows
    assert all(row.at_ms is None and row.elapsed_ms is not None for row in rows)


@pytest.mark.parametrize(
    "text",
    ["May 15\n00:01:10 A", "00:01:10 UTC A\n00:02:25 UTC B", "16:46:00 A", "12:01:10 a.m. A"],
)
def test_bare_times_of_a_named_day_or_zone_are_times_of_day(text: str) -> None:
    assert all(row.at_ms is not None for row in read(text).rows)


def test_how_bare_times_were_read_is_told_and_a_person_may_say_otherwise() -> None:
    text = "00:01:10 Max Q"
    assert read(text).told == ("Times like 0:01:12 were read as elapsed times",)
    as_clock = Setting("UTC", date(2031, 5, 14), bare_elapsed=False)
    assert at(only(text, as_clock)) == "2031-05-14T00:01:10"
    as_elapsed = Setting("UTC", date(2031, 5, 14), bare_elapsed=True)
    assert only("16:46:00 A", as_elapsed).elapsed_ms == h_mm_ss(16, 46, 0)


def test_a_dash_before_some_elapsed_times_is_a_minus_and_before_all_a_bullet() -> None:
    some = read("- 00:38:00   Tanking\n00:00:00     Liftoff\n00:01:12     Max Q").rows
    assert [row.elapsed_ms for row in some] == [-2_280_000, 0, 72_000]
    every = read("- 00:00:00 Liftoff\n- 00:01:12 Max Q").rows
    assert [row.elapsed_ms for row in every] == [0, 72_000]


def test_a_day_in_a_column_is_the_day_of_its_row() -> None:
    text = (
        "EVENT\tGET (hr:min:sec)\tDATE\tADT\n"
        "Orbit\t00:11:53\tMay 11\t8:43 a.m.\n"
        "Landing\t102:47:11\tMay 15\t3:19 p.m."
    )
    rows = read(text).rows
    assert [(row.name, at(row)) for row in rows] == [
        ("Orbit", "2031-05-11T11:43:00"),
        ("Landing", "2031-05-15T18:19:00"),
    ]


def test_figures_in_a_line_set_in_below_a_row_are_words_of_it() -> None:
    text = "12:22 p.m.    Insertion burn, engine fires for\n              5:59 behind the Moon"
    row = only(text)
    assert row.name == "Insertion burn, engine fires for 5:59 behind the Moon"


def test_a_long_description_is_a_name_and_a_note() -> None:
    text = (
        "16:46 Ignition. The engine fires for six minutes behind the Moon\n"
        "   and nobody on Earth hears it."
    )
    row = only(text)
    assert (row.name, row.note) == (
        "Ignition",
        "The engine fires for six minutes behind the Moon and nobody on Earth hears it.",
    )


def test_days_of_the_flight_are_counted_from_the_first_that_is_named() -> None:
    imported = read("Flight Day 2\n14:28 A\nFlight Day 4 (landing)\n06:30 B")
    assert [at(row)[:10] for row in imported.rows] == ["2031-05-14", "2031-05-16"]
    assert imported.headings[1].meaning.endswith("16 May 2031 (day 4 of the flight)")


def test_a_table_drawn_with_signs_is_read() -> None:
    imported = read("| Time (UTC) | Event |\n|---|---|\n| 17:21 | Contact |")
    assert [(row.name, at(row)) for row in imported.rows] == [("Contact", "2031-05-14T17:21:00")]
    assert [head.meaning for head in imported.headings] == ["times are UTC", "a line of signs"]


def test_a_day_in_the_line_is_the_day_of_its_time() -> None:
    rows = read(
        "Thursday: 6 a.m. A\nOn May 16 the crew wakes at 6 a.m. as ever\n12:30 a.m. C (May 17)"
    ).rows
    assert [at(row)[:10] for row in rows] == ["2031-05-15", "2031-05-16", "2031-05-17"]
    assert rows[0].told == "Thursday taken as 15 May 2031"


def test_a_day_among_the_words_of_another_day_is_told() -> None:
    row = only("9:00 a.m. Talk about the May 20 landing")
    assert row.told == "the words name 20 May 2031"
    assert at(row)[:10] == "2031-05-14"


def test_another_time_among_the_words_is_told() -> None:
    row = only("16:46 Ignition, cutoff at 16:52")
    assert (row.name, row.told) == ("Ignition, cutoff at 16:52", "another time stands in its words")


def test_a_day_with_words_and_no_time_is_listed_and_holds_for_what_follows() -> None:
    imported = read("May 15: Landing\n9:00 a.m. A")
    assert imported.not_read[0].why == "a day without a time"
    assert at(imported.rows[0])[:10] == "2031-05-15"


def test_a_time_in_brackets_at_the_end_stands_beside_the_first() -> None:
    row = only("5:27:32 p.m.  Ignition (MET 3/03:59:00)")
    assert (row.name, row.told) == ("Ignition", "elapsed 3 d 03:59:00 stands beside it")


# ------------------------------------------------------------------ published ones


def test_the_end_of_a_mission_as_its_people_announced_it() -> None:
    # NASA/JPL, media advisory for the end of Cassini, September 2017, from memory.
    text = "Friday, Sept. 15, 2017\n4:55 a.m. PDT (7:55 a.m. EDT)  Loss of signal"
    row = only_row(read(text, Setting("America/Los_Angeles", date(2017, 9, 1))))
    assert row.at_ms == rfc3339_to_ms("2017-09-15T11:55:00Z")


def test_ground_elapsed_times_as_the_first_landing_was_planned() -> None:
    # NASA, Apollo 11 Mission Report, table of events, from memory: hours of three figures.
    text = "GET 102:45:40  Lunar landing\n109:24:19 GET  First step"
    first, second = read(text).rows
    assert first.elapsed_ms == h_mm_ss(102, 45, 40)
    assert second.elapsed_ms == h_mm_ss(109, 24, 19)


def only_row(imported: Imported) -> Row:
    assert not imported.not_read
    (row,) = imported.rows
    return row


# ------------------------------------------------------------------ nothing is dropped

_PIECES = st.sampled_from(
    [
        "May 14, 4:46 p.m. ADT  Loss of signal",
        "T+03:29:33 Ignition",
        "2/12:23:00 MET",
        "about 4:46",
        "9:00 a.m.",
        "Thursday 15 May",
        "Time (EDT)  MET  Event",
        "    off the coast",
        "tion of the engine",
        "12:00 igni-",
        "TBD Conference",
        "31:99 x",
        "Words",
        "",
        "   ",
        "16:46 (12:00 UTC) A",
        "30 Feb 10:00 B",
        "16:46–",
        "T+",
        "* 4",
    ]
)
_LINES = st.lists(_PIECES | st.text(st.characters(exclude_categories=("Cc", "Cs")), max_size=30))


@settings(max_examples=150, deadline=None)
@given(_LINES, st.sampled_from([HALIFAX, Setting("UTC")]))
def test_every_line_is_accounted_for_exactly_once(lines: list[str], setting: Setting) -> None:
    text = "\n".join(lines)
    if not text.strip():
        return
    imported = read(text, setting)
    seen = [one.line for one in imported.headings]
    for row in imported.rows:
        seen += [row.line, *row.more_lines]
    for one in imported.not_read:
        seen += [one.line, *one.more_lines]
    assert sorted(seen) == [
        at for at, line in enumerate(lines_of(text), 1) if line.strip("\ufeff \t") and line.strip()
    ]


@settings(max_examples=100, deadline=None)
@given(_LINES)
def test_what_was_not_read_says_why_and_rows_have_words_and_one_time(lines: list[str]) -> None:
    text = "\n".join(lines)
    if not text.strip():
        return
    imported = read(text)
    assert all(one.why and one.hint and one.text.strip() for one in imported.not_read)
    for row in imported.rows:
        assert row.name
        assert (row.at_ms is None) != (row.elapsed_ms is None)


# ------------------------------------------------------------------ long and stopped


def test_a_long_reading_shows_progress_and_can_be_stopped() -> None:
    text = "\n".join(f"{at // 60 % 24:02d}:{at % 60:02d} Event {at}" for at in range(3_000))
    seen: list[tuple[int, int]] = []

    def until_half(done: int, of: int) -> bool:
        seen.append((done, of))
        return done < 1_500

    imported = read_timeline(text, HALIFAX, progress=until_half)
    assert imported.stopped
    assert len(imported.rows) == 1_500
    assert seen[-1] == (1_500, 3_000)
    assert not read_timeline(text, HALIFAX, progress=lambda _done, _of: True).stopped


def test_a_paste_of_fifty_megabytes_is_refused() -> None:
    with pytest.raises(PlanProblems, match="over 20 MB"):
        read("x" * 50_000_000)
