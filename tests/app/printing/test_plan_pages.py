"""The printed plan laid out: nothing clipped, nothing over anything, whatever the plan holds."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from app.plans import take_plan
from app.printing.blocks import Heading, Paragraph, Table
from app.printing.paper import Paper, Size, fitting, pages, pdf
from app.printing.pieces import Rule
from app.printing.plan_pages import plan_blocks, plan_pdf
from app.printing.running import Running
from app.resources import sample_plan
from app.skies import skies_for
from core.board.paper.model import PlanSheet
from core.board.paper.sheet import AsOf
from core.plan.model import Plan
from core.session.desk import Desk
from core.session.on_paper import printed_plan
from core.times.clocks import SimClock
from core.times.instants import rfc3339_to_ms
from tests.app.printing.leaves import greys, texts
from tests.app.printing.places import holds, words
from tests.strategies import plans

NOW_MS = rfc3339_to_ms("2031-05-14T19:41:12Z")


def sheet_of(plan: Plan, *, stands: bool = False) -> PlanSheet:
    desk = Desk(plan, SimClock(NOW_MS, paused=True), skies_for=skies_for)
    return printed_plan(desk, AsOf(NOW_MS if stands else None, NOW_MS))


@settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(plans(), st.sampled_from(Size), st.booleans())
def test_any_plan_fits_its_pages(plan: Plan, size: Size, landscape: bool) -> None:
    sheet = sheet_of(plan, stands=True)
    paper = Paper(size, landscape)
    running = Running(sheet.title, sheet.what, "REHEARSAL", sheet.made)
    for page in pages(running, list(plan_blocks(sheet)), paper):
        holds(page, paper)


@pytest.mark.parametrize("name", ["first-steps", "petrel-arrival"])
def test_no_clock_time_of_a_sample_is_broken_in_two(name: str) -> None:
    sheet = sheet_of(take_plan(sample_plan(name)))
    blocks = list(plan_blocks(sheet))
    paper = fitting(blocks, Size.A4)
    told = [w.text for page in pages(Running("x"), blocks, paper) for w in words(page)]
    assert "p.m." not in told
    assert any(text.endswith(" p.m.") for text in told)
    for page in pages(Running("x"), blocks, paper):
        holds(page, paper)


def test_the_head_of_a_section_its_lead_and_the_first_rows_stand_together() -> None:
    sheet = sheet_of(take_plan(sample_plan("petrel-arrival")))
    blocks = list(plan_blocks(sheet))
    titles = {block.text for block in blocks if isinstance(block, Heading)}
    leads = {b.text for b in blocks if isinstance(b, Paragraph) and b.leads}
    assert len(titles) > 5
    assert leads
    for page in pages(Running("x"), blocks, fitting(blocks, Size.A4)):
        last = words(page)[-1].text
        assert last not in titles | leads


def test_a_small_table_is_not_parted() -> None:
    sheet = sheet_of(take_plan(sample_plan("petrel-arrival")))
    blocks = list(plan_blocks(sheet))
    (air,) = [b for b in blocks if isinstance(b, Table) and b.columns[-1].head == "WHAT"]
    made = pages(Running("x"), blocks, fitting(blocks, Size.A4))
    names = [row.cells[-1].text for row in air.rows if not row.group]
    (page,) = [page for page in made if names[0] in page.texts]
    assert set(names) <= set(page.texts)


def test_what_cannot_be_met_stands_out_at_the_head() -> None:
    sheet = sheet_of(take_plan(sample_plan("first-steps")))
    warned = PlanSheet(
        sheet.title, sheet.what, sheet.made, sheet.lead, ("Clash by 4 min",), sheet.legend, ()
    )
    first = next(plan_blocks(warned))
    assert first == Paragraph("Clash by 4 min", strong=True)


def test_a_rehearsal_is_unmistakable_on_every_page() -> None:
    sheet = sheet_of(take_plan(sample_plan("petrel-arrival")), stands=True)
    found = texts(plan_pdf(sheet, Size.LETTER, "REHEARSAL").data)
    assert len(found) > 5
    assert all("REHEARSAL" in page for page in found)


def test_it_is_black_on_white_with_nothing_shaded() -> None:
    """Most is paper, and nowhere is there a patch of grey: only edges are smoothed."""
    sheet = sheet_of(take_plan(sample_plan("petrel-arrival")))
    for page in greys(plan_pdf(sheet, Size.A4).data, 3)[:3]:
        assert (page > 250).mean() > 0.85
        grey = (page > 70) & (page < 190)
        for _ in range(3):  # what is left is the corner of four by four grey dots
            grey = grey[1:, 1:] & grey[:-1, 1:] & grey[1:, :-1] & grey[:-1, :-1]
        assert not grey.any()


def test_all_that_is_said_survives_a_fax() -> None:
    """One bit for each dot, 204 by 196 to the inch (ITU-T T.4, fine, from memory): no line goes."""
    sheet = sheet_of(take_plan(sample_plan("first-steps")))
    blocks = list(plan_blocks(sheet))
    (made,) = pages(Running("x"), blocks, Paper())
    (page,) = greys(pdf(Running("x"), blocks, Paper()).data, 200 / 72)
    dots = page < 128
    dot_tw = 20 * 72 / 200
    for rule in (piece for piece in made.pieces if isinstance(piece, Rule)):
        row = round((rule.y_tw + rule.thick_tw / 2) / dot_tw)
        left, right = round(rule.left_tw / dot_tw) + 2, round(rule.right_tw / dot_tw) - 2
        assert dots[row - 1 : row + 2, left:right].any(axis=0).all()
    for piece in words(made):
        top, bottom = piece.box.top_tw / dot_tw, piece.box.bottom_tw / dot_tw
        begin, end = piece.box.left_tw / dot_tw, piece.box.right_tw / dot_tw
        assert dots[round(top) : round(bottom), round(begin) : round(end)].mean() > 0.04
