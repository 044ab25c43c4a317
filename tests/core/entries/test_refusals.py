from dataclasses import replace

import pytest

from core.entries.reading import read
from core.errors import EntryProblem
from core.times.instants import rfc3339_to_ms
from tests.core.entries.at_the_desk import AtTheDesk

DESK = AtTheDesk()
BARE = replace(DESK, selected="")


def refused(text: str, desk: AtTheDesk = DESK) -> EntryProblem:
    with pytest.raises(EntryProblem) as caught:
        read(text, desk)
    return caught.value


@pytest.mark.parametrize(
    ("typed", "what", "part", "hint"),
    [
        # nothing, or nothing known
        ("", "Nothing is typed", "", "What is read: '4:58:05p'"),
        ("   ", "Nothing is typed", "", "What is read"),
        ("igntion 4:58p", "Nothing here is called 'igntion'", "igntion", "nearest is 'ignition'"),
        ("vioce lost now", "Nothing here is called 'vioce'", "vioce", "nearest is 'voice', VOICE"),
        ("xyzzy", "Nothing here is called 'xyzzy'", "xyzzy", "What is read"),
        ("ign", "What of Insertion burn, ignition?", "", "'ign 4:58:05p'"),
        ("voice", "What of VOICE?", "", "'voice lost now'"),
        ("far side", "'far side' names 2 things", "far side", "Say which: Far side, first return"),
        ("hodl 4m", "Nothing here is called 'hodl'", "hodl", "The nearest form is 'hold'"),
        ("off", "Nothing here is called 'off'", "off", "The nearest form is 'break 3 off'"),
        ("lst now", "Nothing here is called 'lst'", "lst", "The nearest form is 'voice lost now'"),
        ("plac", "Nothing here is called 'plac'", "plac", "The nearest form is 'place'"),
        ("noet line is noisy", "Nothing here is called 'noet'", "noet", "'note line to the"),
        ("per flight", "Only who said it is typed", "", "What is read: '4:58:05p', '+45s'"),
        # a form that is nearly one
        ("ign hapened 4:58p", "no word that is read here", "hapened 4:58p", "'ign happened"),
        ("ign hodl", "no word that is read here", "hodl", "'ign hold'"),
        ("voice lsot now", "no word that is read for VOICE", "lsot now", "'voice lost now'"),
        ("burned undecied", "no word that is read for after the burn", "undecied", "undecided'"),
        ("clock puase", "nothing a clock does", "puase", "'clock pause'"),
        ("ign happened", "When did it happen?", "", "'ign now'"),
        ("ign happened +45s", "not when something happened", "+45s", "'ign happened 4:58:02p'"),
        ("voice lost", "When was it?", "lost", "'voice lost now'"),
        ("voice lost soon", "'soon' is not when it was", "lost soon", "'voice lost now'"),
        ("ign pin 4:58p", "too much after 'pin'", "4:58p", "'ign pin'"),
        ("ign free now", "too much after 'free'", "now", "'ign free'"),
        ("ign scrub all", "what becomes of those tied to it", "all", "with, scrub bridge or"),
        ("replan now", "too much after 'replan'", "now", "replan"),
        # figures that are no time
        ("ign 458", "has not the figures of a clock time", "458", "Write 4:58, or 0458"),
        ("ign 45805", "has not the figures", "45805", "Write 4:58:05, or 045805"),
        ("ign 458p", "has not the figures", "458p", "Write 4:58p"),
        ("ign 25:00", "'25:00' is no time of day", "25:00", "23:59:59"),
        ("ign 24:00", "'24:00' is no time of day", "24:00", ""),
        ("ign 4:75p", "'4:75p' is no time of day", "4:75p", ""),
        ("ign 2571", "'2571' is no time of day", "2571", ""),
        ("ign 16:58p", "Hour 16 is not said with a.m. or p.m.", "16:58p", "Write 16:58 alone"),
        ("ign 0:30a", "Hour 0 is not said with a.m. or p.m.", "0:30a", "00:30"),
        ("ign 4", "may be an hour or minutes", "4", "Write 4:00p, or in 4m"),
        ("ign 31 June 4:58p", "a day that does not exist", "31 june 4:58p", "Check the date"),
        ("ign 29 Feb 2031 4:58p", "a day that does not exist", "29 feb 2031 4:58p", ""),
        ("ign 2031-02-29T16:58", "does not exist", "2031-02-29t16:58", "2031-05-15T16:58"),
        ("ign 2031-05-15T24:00", "does not exist", "2031-05-15t24:00", ""),
        ("ign 9999-05-15T16:58Z", "outside the years", "9999-05-15t16:58z", ""),
        ("ign 4:58p mountain", "no zone of this plan", "mountain", "Atlantic, Eastern, Central"),
        ("ign 4:58p estern", "no zone of this plan", "estern", "The nearest is 'eastern'"),
        ("ign 4:58p edt", "no zone of this plan", "edt", ""),
        ("ign 2031-05-15T16:58Z eastern", "A zone is said twice", "eastern", ""),
        # lengths
        ("ign +45", "'45' has no unit", "45", "45s for seconds"),
        ("ign +", "A length is missing", "", "45s, 2m, 1:12"),
        ("ign +-", "A length is missing", "", ""),
        ("ign in", "A length is missing", "", ""),
        ("ign in -4m", "A length is missing", "-4m", ""),
        ("ign +1:72", "sixty or more", "1:72", ""),
        ("ign now-", "A length is missing", "", ""),
        ("ign now+5s", "not when something happened", "now+5s", "'ign now'"),
        ("ign elapsed 75:29", "could be hours and minutes", "75:29", "75h 29m"),
        ("ign elapsed", "no length of time", "", "3d 03:27:30"),
        ("ign +99999999h", "longer than a hundred years", "99999999h", ""),
        ("ign 4:58p +-", "A length is missing", "", ""),
        # who said so
        ("ign 4:58p per fligt", "no source of this plan", "fligt", "'per flight'"),
        ("ign 4:58p per nasa", "no source of this plan", "nasa", "'per flight', 'per agency'"),
        ("ign 4:58p per", "'per' needs a name", "per", "'per flight'"),
        # counts
        ("ign resume", "is not held", "resume", "'ign hold'"),
        ("gone hold", "has no time now", "hold", "'gone 4:58p'"),
        ("gone pin", "has no time now", "pin", ""),
        ("gone +45s", "no time now", "+45s", "clock time"),
        ("ign hold 4:58p", "cannot be held before it is", "hold 4:58p", ""),
        ("relay count resume +45s", "no time now", "+45s", ""),
        # a new event
        ("new", "has no name", "", "'new \"Correction burn\" 6:10p'"),
        ("new Trim 6:10p", "not between quotation marks", "Trim 6:10p", ""),
        ('new "Trim 6:10p', "not between quotation marks", '"Trim 6:10p', ""),
        ('new "" 6:10p', "The new event has no name", "", ""),
        ('new "Trim"', "When is Trim?", "", 'new "Trim" 6:10p'),
        ('new "Trim" soon', "neither a time nor a tie", "soon", ""),
        ('new "Trim" ign', "neither a time nor a tie", "ign", ""),
        ('new "Trim" burn +4h', "'burn' names 4 events", "burn", "Say which"),
        ('new "Trim" voice +4h', "neither a time nor a tie", "voice +4h", ""),
        ('new "Trim" ign +4', "'4' has no unit", "4", ""),
        # the board
        ("note", "The note is empty", "", ""),
        ("plan", "There is no plan to take over", "", ""),
        ("clock", "What of the clock?", "", "'clock pause'"),
        ("clock rate 0", "'0' is no rate", "0", "From 1/10 to 600"),
        ("clock rate 601", "is no rate", "601", ""),
        ("clock rate 1/0", "is no rate", "1/0", ""),
        ("clock rate", "At what rate?", "", ""),
        ("clock step", "A length is missing", "", ""),
        ("clock step 30", "'30' has no unit", "30", "30s"),
        ("clock pause now", "too much", "now", "clock pause"),
    ],
)
def test_a_line_that_cannot_be_read_says_why_and_what_would_be(
    typed: str, what: str, part: str, hint: str
) -> None:
    problem = refused(typed)
    assert what in problem.what
    assert problem.part == part
    assert hint in problem.hint


def test_without_a_card_a_form_alone_says_that_it_lacks_one() -> None:
    for typed in ("4:58p", "+45s", "hold", "now-12s", "in 4m"):
        problem = refused(typed, BARE)
        assert problem.what == "No card is selected"
        assert "ign 4:58p" in problem.hint
    assert refused('new "Trim" +4h', BARE).what == "No card is selected to tie it to"


def test_a_card_that_is_gone_is_no_card() -> None:
    assert refused("4:58p", replace(DESK, selected="vanished")).what == "No card is selected"


def test_more_things_than_a_few_are_no_choice() -> None:
    burns = tuple(replace(DESK.events[8], id=f"c{n}", name=f"Course burn {n}") for n in range(1, 7))
    problem = refused("course 4:58p", AtTheDesk(events=burns))
    assert problem.what == "'course' names 6 things"
    assert problem.hint == (
        "Say which: Course burn 1, Course burn 2, Course burn 3, Course burn 4 and others"
    )


def test_a_time_that_the_clocks_skip_is_told() -> None:
    spring = AtTheDesk(now_ms=rfc3339_to_ms("2031-03-09T05:00:00Z")).with_event(
        "ignition", expected_ms=rfc3339_to_ms("2031-03-09T06:05:00Z")
    )
    problem = refused("ign 02:30", spring)
    assert problem.what == "02:30 on 9 March does not exist in Atlantic time: clocks skip it"


def test_without_elapsed_time_none_is_read() -> None:
    problem = refused("ign elapsed 3d 03:00:00", replace(DESK, elapsed_zero_ms=None))
    assert problem.what == "There is no mission elapsed time now"


def test_nobody_sets_a_real_clock_from_the_bar() -> None:
    for typed in ("clock pause", "clock next", "clock 4:30p", "clock"):
        problem = refused(typed, replace(DESK, simulated=False))
        assert "real clock" in problem.what
        assert "--at" in problem.hint


def test_with_nothing_ahead_there_is_no_next() -> None:
    quiet = replace(DESK, events=tuple(replace(each, happened=True) for each in DESK.events))
    assert "more than a minute ahead" in refused("clock next", quiet).what


def test_a_line_as_long_as_a_page_is_refused() -> None:
    assert refused("note " + "x" * 500).what == "The line is too long"


@pytest.mark.parametrize("typed", ["clok", "cloc", "clcok"])
def test_a_word_near_clock_is_told_what_a_clock_does(typed: str) -> None:
    with pytest.raises(EntryProblem) as caught:
        read(typed, DESK)
    assert "clock pause" in caught.value.hint
