"""Series in Chebyshev form, held against numpy's."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.polynomial import chebyshev

from core.signal.sky.chebyshev import Series, add

PIECE_S = 100.0
DRAWN = np.random.default_rng(7)


def series(pieces: int = 3, terms: int = 5, from_s: float = -50.0) -> Series:
    return Series(from_s, PIECE_S, DRAWN.normal(size=(pieces, terms, 3)))


@given(st.integers(2, 14), st.lists(st.floats(0, 299.9), min_size=1, max_size=10))
def test_each_instant_has_the_value_of_its_own_piece(terms: int, since_s: list[float]) -> None:
    one = series(terms=terms)
    found = one.position_km(one.from_s + np.array(since_s))
    for position_km, after_s in zip(found, since_s, strict=True):
        piece, within_s = divmod(one.from_s + after_s - one.from_s, PIECE_S)
        expected = chebyshev.chebval(2 * within_s / PIECE_S - 1, one.coefficients[int(piece)])
        assert position_km == pytest.approx(expected, abs=1e-9)


def test_the_end_of_the_last_piece_belongs_to_it() -> None:
    one = series()
    (found,) = one.position_km(np.array([one.from_s + 3 * PIECE_S]))
    assert found == pytest.approx(chebyshev.chebval(1, one.coefficients[-1]), abs=1e-12)


@pytest.mark.parametrize(
    ("other", "together"),
    [(series(), 1), (series(pieces=4), 2), (series(terms=6), 2), (series(from_s=0.0), 2)],
)
def test_what_is_cut_alike_is_added_up_and_the_rest_kept_beside(
    other: Series, together: int
) -> None:
    one, at_s = series(), np.linspace(0, 249, 20)
    both: list[Series] = []
    add(both, one)
    add(both, other)
    assert len(both) == together
    found = sum(part.position_km(at_s) for part in both)
    assert found == pytest.approx(one.position_km(at_s) + other.position_km(at_s), abs=1e-12)
