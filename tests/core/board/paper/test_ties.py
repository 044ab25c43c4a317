"""Ties and edges in words."""

import pytest

from core.board.paper.ties import edge_words, tie_words
from core.board.words import Names
from core.plan.model import Change, EdgeRef, Tie

NAMES = Names({"x": "Closest"})
MIN = 60_000


@pytest.mark.parametrize(
    ("tie", "words"),
    [
        (Tie("x", 8 * MIN, 0, None), "8 min after Closest"),
        (Tie("x", 0, 0, None), "with Closest"),
        (Tie("x", 8 * MIN, 8 * MIN, 8 * MIN), "8 min after Closest, fixed"),
        (Tie("x", 8 * MIN, 5 * MIN, None), "8 min after Closest, at least 5 min"),
        (Tie("x", 8 * MIN, 0, 9 * MIN), "8 min after Closest, at most 9 min"),
        (Tie("x", 8 * MIN, None, None), "8 min after Closest, or as early as may be"),
        (Tie("x", 8 * MIN, -MIN, None), "8 min after Closest, no more than 1 min before it"),
        (Tie("x", -3 * MIN, None, 0), "3 min before Closest"),
        (
            Tie("x", -3 * MIN, -20 * MIN, 20 * MIN),
            "3 min before Closest, no more than 20 min before it, at most 20 min after it",
        ),
        (Tie("x", -6 * MIN, None, -4 * MIN), "6 min before Closest, at least 4 min before it"),
        (Tie("x", None, 5 * MIN, None), "after Closest, at least 5 min"),
    ],
)
def test_a_tie_is_told_with_the_bounds_that_do_not_go_without_saying(tie: Tie, words: str) -> None:
    assert tie_words(tie, NAMES) == words


@pytest.mark.parametrize(
    ("edge", "words"),
    [
        (EdgeRef("voice", Change.BACK), "first return of voice"),
        (EdgeRef("voice", Change.LOST, after="x", nth=2), "second loss of voice after Closest"),
        (EdgeRef("voice", Change.LOST, before="x"), "last loss of voice before Closest"),
        (
            EdgeRef("voice", Change.LOST, before="x", nth=2),
            "second to last loss of voice before Closest",
        ),
        (
            EdgeRef("voice", Change.BACK, after="x", offset_ms=30 * MIN),
            "first return of voice later than 30 min after Closest",
        ),
        (
            EdgeRef("voice", Change.BACK, before="x", offset_ms=-30 * MIN),
            "last return of voice earlier than 30 min before Closest",
        ),
        (EdgeRef("voice", Change.BACK, nth=11), "11th return of voice"),
        (EdgeRef("voice", Change.BACK, nth=22), "22nd return of voice"),
    ],
)
def test_an_edge_is_told_by_what_it_lies_beside(edge: EdgeRef, words: str) -> None:
    assert edge_words(edge, NAMES, Names({"voice": "VOICE"})) == words
