"""Looks over the places of all that stands on a page."""

import itertools

from app.printing.paper import Paper
from app.printing.pieces import Box, Page, PictureAt, SignAt, Words


def words(page: Page) -> list[Words]:
    return [piece for piece in page.pieces if isinstance(piece, Words)]


def boxes(page: Page) -> list[Box]:
    return [p.box for p in page.pieces if isinstance(p, Words | SignAt | PictureAt)]


def laid_over(one: Box, other: Box) -> bool:
    return (
        one.left_tw < other.right_tw - 1
        and other.left_tw < one.right_tw - 1
        and one.top_tw < other.bottom_tw - 1
        and other.top_tw < one.bottom_tw - 1
    )


def holds(page: Page, paper: Paper) -> None:
    """Nothing leaves the paper's margin, nothing lies over anything else."""
    found = boxes(page)
    for box in found:
        assert box.left_tw >= 400
        assert box.right_tw <= paper.width_tw - 400
        assert box.top_tw >= 400
        assert box.bottom_tw <= paper.height_tw - 400
    for one, other in itertools.combinations(found, 2):
        assert not laid_over(one, other)
