import pytest

from core.board.checkoffs import check_lines, check_words
from core.board.written import Said, Tone
from core.entries.airing import Count
from core.plan.model import CheckOff

ENGINES = CheckOff("engines", "Engines lit", "liftoff", 31, 26)
CLAMPS = CheckOff("clamps", "Clamps released", "separation", 8, 4, spaced=True)
BOLTS = CheckOff("bolts", "Bolts", "separation", 12, 3, spaced=True)
LEGS = CheckOff("legs", "Legs out", "landing", 4, 4)


def heard(checkoff: CheckOff, count: int) -> Said:
    return check_words(checkoff, Count(checkoff.id, count))


def named(checkoff: CheckOff, *positions: int) -> Said:
    return check_words(checkoff, Count(checkoff.id, len(positions), positions))


def test_before_any_count_it_quietly_says_the_rule() -> None:
    assert check_words(ENGINES, None) == Said("Engines lit: 0 of 31 heard, 26 will do", Tone.QUIET)
    assert check_words(CLAMPS, None).text == (
        "Clamps released: 0 of 8 heard, 4 evenly spread will do"
    )


def test_enough_is_said_with_what_would_do() -> None:
    assert heard(ENGINES, 28) == Said("Engines lit: 28 of 31, enough: 26 will do")
    assert heard(ENGINES, 26) == Said("Engines lit: 26 of 31, enough: 26 will do")


def test_too_few_say_what_is_needed_and_stand_out() -> None:
    assert heard(ENGINES, 25) == Said("Engines lit: 25 of 31; 26 are needed", Tone.CHANGE)
    assert heard(CLAMPS, 3).text == "Clamps released: 3 of 8; 4 evenly spread are needed"


def test_all_of_them_are_said_to_be_all() -> None:
    assert heard(LEGS, 4) == Said("Legs out: all 4")
    assert heard(CLAMPS, 8) == Said("Clamps released: all 8")
    assert heard(LEGS, 3).text == "Legs out: 3 of 4; 4 are needed"


def test_positions_by_name_are_held_against_the_ring() -> None:
    assert named(CLAMPS, 1, 2, 3, 5, 7, 8) == Said("Clamps released: 6 of 8, evenly spread: enough")
    assert named(CLAMPS, 1, 2, 3, 4) == Said(
        "Clamps released: 4 of 8, not evenly spread: 4 evenly spread are needed", Tone.CHANGE
    )


# Common practice, no source: any three of twelve a third of a turn apart are enough.
def test_of_twelve_three_a_third_of_a_turn_apart_are_enough() -> None:
    assert named(BOLTS, 2, 6, 10).text == "Bolts: 3 of 12, evenly spread: enough"
    assert named(BOLTS, 2, 6, 9).tone is Tone.CHANGE


def test_a_bare_count_says_so_where_it_cannot_tell() -> None:
    unsure = "the count alone does not tell if they are evenly spread: name them"
    assert heard(CLAMPS, 6) == Said(f"Clamps released: 6 of 8; {unsure}", Tone.CHANGE)
    assert heard(CLAMPS, 7) == Said(
        "Clamps released: 7 of 8, evenly spread whichever they are: enough"
    )


def test_of_some_that_were_not_named_it_says_whether_they_may_make_it_enough() -> None:
    assert check_words(CLAMPS, Count("clamps", 5, (1, 3, 5, 7))).text.endswith("spread: enough")
    assert check_words(CLAMPS, Count("clamps", 4, (1, 3, 5))).text.endswith("name them")
    assert check_words(CLAMPS, Count("clamps", 4, (1, 2, 3))).text.endswith("are needed")


@pytest.mark.parametrize(("of", "names"), [("separation", ["Clamps", "Bolts"]), ("else", [])])
def test_an_event_has_the_lines_of_its_own_check_offs(of: str, names: list[str]) -> None:
    lines = check_lines((ENGINES, CLAMPS, BOLTS), of, {"clamps": Count("clamps", 7)})
    assert [line.text.split(":")[0].split()[0] for line in lines] == names
