import pytest

from core.entries.airing import Count
from core.entries.reading import read
from core.entries.readings import Reading, TargetKind
from core.errors import EntryProblem
from tests.core.entries.at_the_desk import AtTheDesk

DESK = AtTheDesk()
"""Of twelve clamps any three a third of a turn apart are enough (common practice, no source)."""


def only(text: str, desk: AtTheDesk = DESK) -> Reading:
    (reading,) = read(text, desk)
    return reading


@pytest.mark.parametrize(
    ("typed", "before", "action"),
    [
        ("clamps 6", (), Count("clamps", 6)),
        ("clamps 0", (), Count("clamps", 0)),
        ("clamps 12", (), Count("clamps", 12)),
        ("clamps released 6", (), Count("clamps", 6)),
        ("clam 6", (), Count("clamps", 6)),
        ("clamps 1 5 9", (), Count("clamps", 3, (1, 5, 9))),
        ("clamps 9 5 1", (), Count("clamps", 3, (1, 5, 9))),
        ("clamps 1, 5, 9", (), Count("clamps", 3, (1, 5, 9))),
        ("clamps 1, 5 and 9", (), Count("clamps", 3, (1, 5, 9))),
        ("clamps at 3", (), Count("clamps", 1, (3,))),
        ("clamps at 3 4", (), Count("clamps", 2, (3, 4))),
        ("clamps +1", (), Count("clamps", 1)),
        ("clamps + 2", (Count("clamps", 4),), Count("clamps", 6)),
        ("clamps -1", (Count("clamps", 4),), Count("clamps", 3)),
        ("clamps +1", (Count("clamps", 3, (1, 5, 9)),), Count("clamps", 4, (1, 5, 9))),
        ("clamps -1", (Count("clamps", 3, (1, 5, 9)),), Count("clamps", 2)),
        ("panels +1", (Count("clamps", 3),), Count("panels", 1)),
    ],
)
def test_a_line_about_a_check_off_is_read(
    typed: str, before: tuple[Count, ...], action: Count
) -> None:
    reading = only(typed, DESK.after(*before))
    assert reading.action == action
    assert reading.asks == ()
    assert reading.target is not None
    assert reading.target.kind is TargetKind.CHECKOFF


@pytest.mark.parametrize(
    ("typed", "what", "part", "hint"),
    [
        ("clamps", "What of Clamps released?", "", "'clamps 6', 'clamps 1 3 5 7'"),
        (
            "clamps 13",
            "Clamps released: there are 12 in all, not 13",
            "13",
            "Up to 12, as 'clamps 12'",
        ),
        ("clamps 1 13", "Clamps released: there is no 13", "13", "from 1 to 12: 'clamps at 1'"),
        ("clamps 0 1", "Clamps released: there is no 0", "0", ""),
        ("clamps at 0", "there is no 0", "0", ""),
        ("clamps 1 5 1", "1 stands here twice", "1", "from 1 to 12"),
        ("clamps at", "'at' is nothing that is read for Clamps released", "at", "'clamps at 3'"),
        ("clamps +13", "Clamps released: 0 of 12 so far", "+13", "Up to 12"),
        ("clamps -1", "Clamps released: 0 of 12 so far", "-1", ""),
        ("clamps +", "'+' is nothing that is read", "+", "'clamps 6'"),
        ("clamps all", "'all' is nothing that is read", "all", "'clamps 6'"),
        ("clamps 1 two", "'1 two' is nothing that is read", "1 two", ""),
        ("clamps ٣", "nothing that is read", "٣", ""),
        ("clamps 1658", "12 in all, not 1658", "1658", ""),
    ],
)
def test_what_no_count_can_be_is_refused_with_what_would_be_read(
    typed: str, what: str, part: str, hint: str
) -> None:
    with pytest.raises(EntryProblem) as caught:
        read(typed, DESK)
    assert what in caught.value.what
    assert caught.value.part == part
    assert hint in caught.value.hint


def test_it_says_how_it_was_read() -> None:
    assert only("clamps 6").how == "Clamps released: 6 of 12"
    assert only("clamps 9 1 5").how == "Clamps released: 3 of 12: 1, 5, 9"
