"""The score page of one rehearsal, every figure of it worked out on paper beforehand.

16:36:00  begins, at the desk, on the air
16:40:00  heard: go. Seen 16:40:04, entered 16:40:10: 10 s after, in time
16:40:20  said: the loss of signal is due at 4:50 p.m.
16:40:30  heard: the loss comes 1 min 30 s later, at 4:51:30. Seen 16:40:34
16:40:50  entered as 4:52:30: 20 s after, a minute late; a correction is owed
16:41:00  the correction is said, as it stood
16:41:20  entered as 4:51:30: mended 50 s after. The countdown was wrong for 50 s.
          Another correction is owed, said at 16:41:40
16:42:00  break 3, over at 16:44:10: 2 min 10 s, its whole length
16:46:00  the remote from the hall, over at 16:50:00. The loss is live from 16:48:30 on,
          three minutes before it: 1 min 30 s of that are lost, and the board had said so
16:48:00  heard: picture lost. Seen 16:48:30; never entered
16:51:30  heard: loss of signal. Seen 16:51:31, entered 16:52:10: 40 s after: late
16:58:00  ends. On the air: 22 min less 2 min 10 s and 4 min, 15 min 50 s
"""

import re
from dataclasses import replace
from functools import cache
from html import escape
from html.parser import HTMLParser
from xml.etree import ElementTree

import pytest

from app.score.page import score_page
from core.rehearsal.model import Moves, Surprise, Surprises, When
from core.rehearsal.score import Score
from core.times.writing import Hours
from tests.core.board.boards import at_ms
from tests.core.rehearsal.days import day, small
from tests.core.rehearsal.live_days import room

LATER = Surprise(
    "later", When(at_ms("16:40:30")), Moves("loss", 90_000), "Loss a minute and a half later."
)


def plan_day() -> Surprises:
    return day(LATER, begin="16:36", end="16:58")


@cache
def score() -> Score:
    here = room(plan_day())
    steps = {
        "16:40:04": "", "16:40:10": "go happened 4:40p", "16:40:20": "said", "16:40:34": "",
        "16:40:50": "loss 4:52:30p", "16:41:00": "said", "16:41:20": "loss 4:51:30p",
        "16:41:40": "said", "16:42:00": "break-3 now", "16:44:10": "break-3 over",
        "16:46:00": "hall now", "16:48:30": "", "16:50:00": "hall over", "16:51:31": "",
        "16:52:10": "loss happened 4:51:30p",
    }  # fmt: skip
    for clock, line in steps.items():
        here.until(clock)
        if line:
            here.type(line)
        else:
            here.run.saw()
    here.until("16:58")
    return here.run.score()


class Cells(HTMLParser):
    """The words of a page, a list for each row, figure, title or paragraph."""

    def __init__(self) -> None:
        super().__init__()
        self.rows: list[list[str]] = []
        self._skips = ""

    def handle_starttag(self, tag: str, _attrs: object) -> None:
        if tag in ("tr", "dt", "h1", "h2", "p"):
            self.rows.append([])
        if tag in ("svg", "style"):
            self._skips = tag

    def handle_endtag(self, tag: str) -> None:
        if tag == self._skips:
            self._skips = ""

    def handle_data(self, data: str) -> None:
        if data.strip() and self.rows and not self._skips:
            self.rows[-1].append(data.strip())


@cache
def page() -> str:
    return score_page(score(), plan_day(), small())


@cache
def rows() -> list[list[str]]:
    cells = Cells()
    cells.feed(page())
    return cells.rows


def part(title: str) -> list[list[str]]:
    """The rows under that title, without their heads."""
    begun = rows().index([title]) + 2
    ends = (at for at in range(begun, len(rows())) if len(rows()[at]) < 2)
    return rows()[begun : next(ends)]


def test_the_figures_are_those_on_paper() -> None:
    first = next(at for at, row in enumerate(rows()) if row[0] == "Reports")
    assert rows()[first : first + 9] == [
        ["Reports", "4, of them 4 to be entered"],
        ["Entered rightly", "2, of them 1 in time"],
        ["Entered wrongly", "1, of them 1 mended"],
        ["Not entered", "1"],
        ["Live moments lost to an item", "1, of them 1 that could have been kept"],
        ["On the air", "15 min 50 s"],
        ["With a wrong countdown", "50 s"],
        ["Corrections owed", "2, of them 2 said"],
        ["Breaks and items owed", "2, of them 1 run"],
    ]


def test_each_report_has_when_it_was_seen_and_entered_and_how() -> None:
    assert part("Reports") == [
        ["4:40:00 p.m.", "Go for the burn.", "4 s", "10 s", "right"],
        [
            *("4:40:30 p.m.", "Loss a minute and a half later.", "4 s", "20 s"),
            "1 min later than said; mended after 50 s",
        ],
        ["4:48:00 p.m.", "Picture lost.", "30 s", "not entered"],
        ["4:51:30 p.m.", "Loss of signal.", "1 s", "40 s", "right, late"],
    ]


def test_so_has_each_moment_lost_each_wrong_countdown_and_each_item() -> None:
    why = "before or after it: it was begun although the board said that it loses something"
    assert part("Live moments lost") == [["Loss of signal", "Remote, the hall", "1 min 30 s", why]]
    assert part("A wrong countdown on the air") == [["4:40:30 p.m.", "4:41:20 p.m.", "50 s"]]
    assert part("Items on the air") == [
        ["Break 3", "4:42:00 p.m.", "4:44:10 p.m.", "2 min 10 s"],
        ["Remote, the hall", "4:46:00 p.m.", "4:50:00 p.m.", "4 min"],
    ]
    assert part("Breaks and items owed") == [
        ["Break 3", "yes"],
        ["Break 4", "no", "break 4 is owed by 6:30 p.m."],
    ]


def test_it_says_that_it_is_a_rehearsal_and_what_it_is_not_for() -> None:
    assert '<div class="rehearsal">REHEARSAL</div>' in page()
    assert "<title>REHEARSAL: a day</title>" in page()
    assert page().count("For editorial use: not for navigation, range safety or flight") == 2


def test_it_needs_nothing_from_outside_and_no_script() -> None:
    for sign in ("<script", "src=", "href=", "@import", "url("):
        assert sign not in page()
    assert re.findall(r"https?://[^\"]*", page()) == ["http://www.w3.org/2000/svg"]
    for side in ("prefers-color-scheme: dark", "@media print"):
        assert side in page()


def drawn(told: str) -> ElementTree.Element:
    """The picture of a page: it must be XML."""
    return ElementTree.fromstring(re.findall(r"<svg.*?</svg>", told, re.DOTALL)[0])  # noqa: S314


def test_its_picture_has_each_report_where_it_was_heard_and_entered() -> None:
    shapes = drawn(page())
    discs = [float(each.get("cx", 0)) for each in shapes.findall(".//{*}circle")]
    # 860 units are 22 minutes, from 128 on: the report comes 4 min 30 s after the beginning.
    assert sum(abs(x - (128 + 860 * 4.5 / 22)) < 0.06 for x in discs) == 1
    assert sum(abs(x - (128 + 860 * (4 + 1 / 6) / 22)) < 0.06 for x in discs) == 1
    assert len(discs) == 4 + 2  # all that were heard, and those entered rightly
    labels = ["".join(each.itertext()) for each in shapes.findall(".//{*}text")]
    assert labels[:2] == ["4:40 p.m.", "4:45 p.m."]
    assert "Remote, the hall" in labels


def test_a_rehearsal_without_anything_has_a_page_too() -> None:
    nothing = room(day(begin="16:36", end="16:37")).run.score()
    told = score_page(nothing, day(begin="16:36", end="16:37"), small(), Hours.TWENTY_FOUR)
    assert "Nothing was reported." in told
    assert "16:36:00 to 16:37:00" in told
    assert "None was lost to an item." in told


@pytest.mark.parametrize("word", ["A & B", "<b>bold</b>", "quote \" and '"])
def test_words_of_a_day_stand_as_they_are(word: str) -> None:
    told = score_page(score(), replace(plan_day(), title=word), small())
    assert f"<h1>{escape(word)}</h1>" in told
    assert drawn(told)


def test_the_page_says_what_the_trainer_did_to_the_day() -> None:
    told = replace(score(), attempt=3, sprung=("later",))
    page = score_page(told, plan_day(), small())
    assert "<p>Attempt 3; the earlier ones are left out</p>" in page
    assert "<p>Sprung by the trainer: " in page
    assert "Attempt" not in score_page(score(), plan_day(), small())
