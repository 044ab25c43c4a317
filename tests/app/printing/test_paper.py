"""Pages: their size, their head and foot, and what flows over them."""

import itertools

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from app import EDITORIAL
from app.printing.blocks import (
    Block,
    Cell,
    Column,
    Heading,
    NewPage,
    Paragraph,
    Picture,
    Row,
    Sign,
    Signs,
    Table,
    group,
    row,
)
from app.printing.paper import Paper, Size, pages, pdf
from app.printing.pieces import PictureAt, SignAt, Words
from app.printing.running import Running, frames
from core.signal.model import Fill
from tests.app.printing.leaves import greys, sizes_pt, texts
from tests.app.printing.places import holds, words

C, G, E, X = Fill.CONTACT, Fill.GAP, Fill.EITHER, Fill.CLOSED
RUNNING = Running("Petrel 4", "The plan for the desk", "REHEARSAL", "Printed 14 May 2031")
SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 400 100">'
    '<rect width="400" height="100" fill="black"/>'
    '<text x="20" y="40" font-family="IBM Plex Sans" fill="white">slips</text></svg>'
)


def table(count: int, *, days: bool = False) -> Table:
    rows = [row(f"{place}:00", f"event {place}", "note " * (place % 9)) for place in range(count)]
    if days:
        rows = [
            each
            for place, one in enumerate(rows)
            for each in ((group(f"day {place // 10}"), one) if place % 10 == 0 else (one,))
        ]
    return Table(
        (Column("TIME", keep=True), Column("EVENT"), Column("NOTE", wide=True)), tuple(rows)
    )


@pytest.mark.parametrize("landscape", [False, True])
@pytest.mark.parametrize("size", list(Size))
def test_the_pages_have_the_size_of_the_paper(size: Size, landscape: bool) -> None:
    made = pdf(RUNNING, [Paragraph("text"), NewPage(), Paragraph("more")], Paper(size, landscape))
    wide, high = size.value[::-1] if landscape else size.value
    assert made.pages == 2
    for width_pt, height_pt in sizes_pt(made.data):
        assert width_pt == pytest.approx(wide, abs=1)
        assert height_pt == pytest.approx(high, abs=1)


def test_every_page_says_what_it_is_where_it_belongs_and_what_it_is_for() -> None:
    made = pdf(RUNNING, [table(200)], Paper())
    found = texts(made.data)
    assert len(found) == made.pages > 3
    for number, text in enumerate(found, start=1):
        assert f"page {number} of {made.pages}" in text
        for part in ("Petrel 4", "The plan for the desk", "REHEARSAL", EDITORIAL):
            assert part in text
        assert "Printed 14 May 2031" in text
        assert text.index("TIME") > text.index("Petrel 4")


def test_a_document_without_a_rehearsal_says_nothing_of_one() -> None:
    assert "REHEARSAL" not in texts(pdf(Running("Petrel 4"), [table(3)], Paper()).data)[0]


def test_an_empty_document_is_one_page() -> None:
    made = pdf(Running("Petrel 4"), [], Paper())
    assert made.pages == 1
    assert "page 1 of 1" in texts(made.data)[0]


def test_every_row_is_on_exactly_one_page_and_in_order() -> None:
    found = texts(pdf(RUNNING, [table(150, days=True)], Paper(Size.LETTER)).data)
    places = [next(n for n, t in enumerate(found) if f" event {i} " in f"{t} ") for i in range(150)]
    assert places == sorted(places)
    assert sum(text.count(" event ") for text in found) == 150


def test_no_row_is_cut_in_two() -> None:
    tall = [row(str(place), "word " * 150, "") for place in range(30)]
    made = pages(RUNNING, [Table((Column("N"), Column("A"), Column("B")), tuple(tall))], Paper())
    counts = [sum(w.text.startswith("word") for w in words(page)) for page in made]
    lines_a_row = sum(counts) // 30
    assert lines_a_row > 3
    assert all(count % lines_a_row == 0 for count in counts)


def test_the_line_of_a_day_comes_again_on_the_next_page_and_never_stands_alone() -> None:
    made = pages(RUNNING, [table(200, days=True)], Paper())
    for page in made:
        days = [w for w in words(page) if w.text.startswith("day ")]
        events = [w for w in words(page) if w.text.startswith("event ")]
        assert days[0].baseline_tw < events[0].baseline_tw
        assert days[-1].baseline_tw < events[-1].baseline_tw
        first = int(events[0].text.split()[1])
        assert days[0].text == f"day {first // 10}" + (", continued" if first % 10 else "")


def test_a_heading_stays_with_the_table_under_it() -> None:
    for count in range(30, 60):
        made = pages(RUNNING, [table(count), Heading("Next part"), table(3)], Paper())
        (page,) = [page for page in made if "Next part" in page.texts]
        below = page.texts[page.texts.index("Next part") :]
        assert "0:00" in below


def test_a_row_too_high_for_any_page_goes_on_over_the_next() -> None:
    long = row("a", " ".join(f"w{place}" for place in range(4_000)), "")
    made = pages(RUNNING, [Table(table(1).columns, (long, row("b", "after", "")))], Paper())
    assert len(made) > 1
    said = " ".join(text for page in made for text in page.texts)
    assert all(f"w{place}" in said for place in range(0, 4_000, 97))
    for page in made:
        holds(page, Paper())


def test_a_word_wider_than_its_column_is_broken_and_stays_whole_in_all() -> None:
    name = "Llanfairpwllgwyngyllgogerychwyrndrobwllllantysiliogogoch" * 4
    made = pages(RUNNING, [Table((Column("A"), Column("B")), (row(name, name),))], Paper())
    joined = "".join(text for page in made for text in page.texts)
    assert name[:40] in joined
    for page in made:
        holds(page, Paper())


def test_a_picture_keeps_its_shape_and_is_found_with_its_words() -> None:
    made = pages(RUNNING, [Heading("Slips"), Picture(SVG, "planned against happened")], Paper())
    (at,) = [piece for piece in made[0].pieces if isinstance(piece, PictureAt)]
    assert at.box.width_tw / at.box.height_tw == pytest.approx(4)
    found = texts(pdf(RUNNING, [Picture(SVG, "planned against happened")], Paper()).data)[0]
    assert "slips" in found
    assert "planned against happened" in found


def test_a_high_picture_has_room_on_one_page_with_its_heading() -> None:
    high = SVG.replace("0 0 400 100", "0 0 100 900")
    made = pages(RUNNING, [Paragraph("text"), Heading("Day"), Picture(high, "the day")], Paper())
    (page,) = [page for page in made if any(isinstance(p, PictureAt) for p in page.pieces)]
    assert "Day" in page.texts
    holds(page, Paper())


def test_letters_in_a_picture_are_no_bolder_than_it_says() -> None:
    thin = SVG.replace('fill="black"', 'fill="none"').replace('fill="white"', "")
    after_heading = pdf(Running(""), [Heading("x"), Picture(thin)], Paper())
    alone = pdf(Running(""), [Paragraph("x"), Picture(thin)], Paper())
    below = [int((greys(p.data, 4)[0][380:700] < 128).sum()) for p in (after_heading, alone)]
    assert below[0] == pytest.approx(below[1], rel=0.05)


def test_what_is_no_picture_is_refused() -> None:
    with pytest.raises(ValueError, match="no SVG"):
        pdf(RUNNING, [Picture("<p>nothing</p>")], Paper())


def test_each_contact_mark_looks_different_without_colour() -> None:
    fills = ((C, C), (G, G), (C, G), (G, C), (E, E), (X, X))
    blocks: list[Block] = [
        Table((Column("LANE"),), tuple(Row((Cell("voice", sign=Sign(*each)),)) for each in fills))
    ]
    made = pages(Running("x"), blocks, Paper())
    marks = [piece.box for piece in made[0].pieces if isinstance(piece, SignAt)]
    image = greys(pdf(Running("x"), blocks, Paper()).data, 8)[0]
    looks = []
    for box in marks:
        left, top = round(box.left_tw * 0.4) + 5, round(box.top_tw * 0.4) + 5
        right, bottom = round(box.right_tw * 0.4) - 5, round(box.bottom_tw * 0.4) - 5
        looks.append(image[top:bottom, left:right])
    shape = min(look.shape for look in looks)
    looks = [look[: shape[0], : shape[1]].astype(int) for look in looks]
    for one, other in itertools.combinations(looks, 2):
        assert np.abs(one - other).mean() > 25


def test_the_page_has_no_colour_and_no_grey_behind_its_letters() -> None:
    legend = Signs(((Sign(C, C), "signal"), (Sign(G, G), "no signal")))
    image = greys(pdf(RUNNING, [legend, table(40, days=True)], Paper()).data, 2)[0]
    assert (image > 250).mean() > 0.8  # paper: nothing is shaded


def test_a_legend_with_more_marks_than_a_line_has_room_for_takes_another() -> None:
    made = pages(RUNNING, [Signs(tuple((Sign(C, G), f"mark {n} " * 3) for n in range(9)))], Paper())
    lines = {w.baseline_tw for w in words(made[0]) if w.text.startswith("mark")}
    assert len(lines) > 1
    holds(made[0], Paper())


def test_a_very_long_title_leaves_room_for_the_document() -> None:
    running = Running("Title " * 400, "what " * 400, "REHEARSAL", "")
    made = pages(running, [table(20)], Paper())
    assert sum("event 7" in page.texts for page in made) == 1
    for page in made:
        holds(page, Paper())


def test_a_row_of_another_number_of_cells_is_a_slip_of_the_programmer() -> None:
    with pytest.raises(ValueError, match="2 cells in 1 columns"):
        Table((Column("A"),), (row("a", "b"),))


TEXTS = st.text(
    st.characters(exclude_categories=("Cs", "Cc")) | st.sampled_from(" \n-/éØЖ\u00ad"), max_size=60
)
CELLS = st.builds(
    Cell,
    TEXTS,
    TEXTS,
    st.booleans(),
    st.none() | st.builds(Sign, st.sampled_from(Fill), st.just(C)),
)


@st.composite
def tables(draw: st.DrawFn) -> Table:
    columns = draw(st.lists(st.builds(Column, TEXTS, *[st.booleans()] * 3), min_size=1, max_size=7))
    cells = st.tuples(*[CELLS for _ in columns])
    rows = st.builds(Row, cells) | TEXTS.map(group)
    return Table(tuple(columns), tuple(draw(st.lists(rows, max_size=25))))


BLOCKS = st.one_of(
    st.builds(Heading, TEXTS),
    st.builds(Paragraph, st.text(max_size=900), st.booleans(), st.booleans()),
    tables(),
    st.just(NewPage()),
    st.builds(Picture, st.just(SVG), TEXTS, st.floats(0.2, 1.0)),
)


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    st.lists(BLOCKS, max_size=8),
    st.sampled_from(Size),
    st.booleans(),
    TEXTS,
    st.sampled_from(["", "REHEARSAL"]),
)
def test_whatever_flows_nothing_is_clipped_and_nothing_lies_over_anything(
    blocks: list[Block], size: Size, landscape: bool, title: str, badge: str
) -> None:
    paper = Paper(size, landscape)
    running = Running(title, title, badge, "made")
    made = pages(running, blocks, paper)
    body = frames(running, paper.width_tw, paper.height_tw).body
    for number, page in enumerate(made, start=1):
        holds(page, paper)
        around = len(frames(running, paper.width_tw, paper.height_tw).around(number, len(made)))
        for piece in page.pieces[around:]:
            if isinstance(piece, Words):
                assert piece.box.bottom_tw <= body(number).bottom_tw + 1


def test_the_same_document_has_the_same_pages_again() -> None:
    first, again = (pdf(RUNNING, [table(80, days=True)], Paper()) for _ in range(2))
    assert texts(first.data) == texts(again.data)
    for one, other in zip(greys(first.data), greys(again.data), strict=True):
        assert np.array_equal(one, other)
