"""Positions as polynomials in Chebyshev form, a piece after the other, as ephemerides keep them."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.signal.sky.model import Seconds, Vectors


@dataclass(frozen=True, slots=True, eq=False)
class Series:
    """Pieces of equal length, each three polynomials in Chebyshev form.

    `coefficients` is (pieces, terms, 3): kilometres.
    """

    from_s: float
    piece_s: float
    coefficients: NDArray[np.float64]

    def position_km(self, at_s: Seconds) -> Vectors:
        """The value at each instant within the pieces, and at the end of the last."""
        pieces = (at_s - self.from_s) / self.piece_s
        index = np.minimum(pieces.astype(np.intp), len(self.coefficients) - 1)
        terms = _chebyshev(2 * (pieces - index) - 1, self.coefficients.shape[1])
        found: Vectors = np.matmul(terms[:, np.newaxis, :], self.coefficients[index])[:, 0, :]
        return found

    def like(self, other: "Series") -> bool:
        """Tell whether the two are cut into the same pieces, with as many terms."""
        cut = (self.from_s, self.piece_s, self.coefficients.shape)
        return cut == (other.from_s, other.piece_s, other.coefficients.shape)


def add(series: list[Series], new: Series) -> None:
    """Put a series among others: into one cut alike, so that both are computed as one."""
    for index, old in enumerate(series):
        if old.like(new):
            both = old.coefficients + new.coefficients
            series[index] = Series(old.from_s, old.piece_s, both)
            return
    series.append(new)


def _chebyshev(x: NDArray[np.float64], count: int) -> NDArray[np.float64]:
    """The first `count` (two or more) Chebyshev polynomials at x, shape (n, count)."""
    terms = np.empty((count, len(x)))
    terms[0] = 1.0
    terms[1] = x
    twice = 2 * x
    before, last, *rest = terms  # rows of it, so that each is filled in place
    for term in rest:
        np.multiply(twice, last, out=term)
        np.subtract(term, before, out=term)
        before, last = last, term
    return terms.T
