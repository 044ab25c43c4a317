"""The record as a page by itself, and on paper."""

from html.parser import HTMLParser

import pytest

from app import theme
from app.record.inks import DARK, LIGHT, NAMES
from app.record.page import record_page
from app.record.svg import Ink
from core.plan.model import Event, Plan
from core.session.record.making import Source, record_of
from core.session.record.tables import parts
from core.session.record.words import EDITORIAL
from tests.core.session.record.days import ZONE, at, long_day


class Read(HTMLParser):
    """What a page has: its elements with their attributes, and the cells of each row."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.rows: list[list[str]] = []
        self.words: list[str] = []
        self._open: list[str] = []
        self.feed(page)
        assert self._open == []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        if tag not in ("meta", "br"):
            self._open.append(tag)
        if tag == "tr":
            self.rows.append([])

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        assert self._open.pop() == tag

    def handle_data(self, data: str) -> None:
        if data.strip() and self._open and self._open[-1] != "style":
            self.words.append(data)
        if self._open and self._open[-1] == "td":
            self.rows[-1].append(data)


def test_the_page_needs_nothing_from_outside_and_no_script() -> None:
    read = Read(record_page(long_day().record()))
    tags = {tag for tag, _ in read.tags}
    assert not tags & {"script", "link", "img", "iframe", "object", "image", "use"}
    for _, given in read.tags:
        assert not {"src", "href", "onclick", "onload", "style"} & given.keys()
    page = record_page(long_day().record())
    assert "url(" not in page
    assert "@import" not in page
    assert page.count("http") == page.count('xmlns="http://www.w3.org/2000/svg"') + page.count(
        "http-equiv"
    )


def test_it_has_both_pictures_and_every_table() -> None:
    record = long_day().record()
    read = Read(record_page(record))
    assert sum(tag == "svg" for tag, _ in read.tags) == 2
    for part in parts(record):
        assert part.title in read.words
    assert sum(tag == "table" for tag, _ in read.tags) == len(parts(record))


def test_it_is_light_dark_and_for_print() -> None:
    page = record_page(long_day().record())
    assert "prefers-color-scheme: dark" in page
    assert "@media print" in page
    for ink in (LIGHT, DARK):
        assert f"--text: {ink.text};" in page


def test_it_says_what_it_is_not_for_at_its_top_and_its_foot() -> None:
    assert Read(record_page(long_day().record())).words.count(EDITORIAL) == 2


def test_every_row_of_a_rehearsal_says_so_and_of_a_real_day_none() -> None:
    rows = [row for row in Read(record_page(long_day(rehearsal=True).record())).rows if row]
    assert rows
    assert all(row[0] == "REHEARSAL" for row in rows)
    assert "REHEARSAL" not in Read(record_page(long_day().record())).words


def test_a_name_with_signs_of_the_markup_is_only_a_name() -> None:
    name = "<script>alert('x')</script> & \"more\""
    plan = Plan(name, (ZONE,), events=(Event("e", name, at_ms=at("17:00:00")),))
    record = record_of(Source(plan, (), end_ms=at("18:00:00")))
    read = Read(record_page(record))
    assert "script" not in {tag for tag, _ in read.tags}
    assert name in read.words


@pytest.mark.parametrize(("ours", "theirs"), [(DARK, theme.DARK), (LIGHT, theme.LIGHT)])
def test_the_colours_are_those_of_the_windows(ours: Ink, theirs: theme.Palette) -> None:
    for name in NAMES:
        assert getattr(ours, name) == getattr(theirs, name).name()


def test_text_on_the_page_is_well_to_read() -> None:
    for ink in (LIGHT, DARK):
        for colour in (ink.text, ink.quiet, ink.change):
            assert contrast(colour, ink.ground) >= 4.5


def contrast(one: str, other: str) -> float:
    """The contrast of two colours by WCAG 2.2."""
    light, dark = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def _luminance(colour: str) -> float:
    parts_of = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts_of
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue
