"""Smooth vectors from knots: near enough, made once, and only where they are asked for."""

import numpy as np
import pytest

from core.signal.sky.knots import Knots
from core.signal.sky.model import Body
from tests.core.signal.sky.flights import KERNEL, SITES, START_S


def test_knots_keep_a_place_on_the_ground_within_a_metre_and_a_body_within_a_millimetre() -> None:
    place = SITES["east"]
    at_s = START_S + np.linspace(0, 3 * 86_400, 1000)
    knots = Knots(lambda s: place.position_km(s)[None])
    bodies = Knots(lambda s: KERNEL.from_earth_km(Body.MOON, s)[None])
    for one in (knots, bodies):
        one.reach(at_s[0], at_s[-1])
    assert np.abs(knots.at(at_s) - place.position_km(at_s)).max() < 2e-4
    assert np.abs(bodies.at(at_s) - KERNEL.from_earth_km(Body.MOON, at_s)).max() < 1e-6


def test_knots_are_made_once_and_grow_to_both_sides() -> None:
    asked: list[int] = []

    def line(at_s: np.ndarray) -> np.ndarray:
        asked.append(len(at_s))
        return np.stack((at_s, -at_s))[:, :, None]

    knots = Knots(line)
    day = 86_400.0
    for first, last in ((1.1, 1.2), (1.3, 2.9), (0.5, 1.5), (1.1, 2.9), (500.0, 500.1), (1.1, 1.2)):
        knots.reach(first * day, last * day)
        at_s = np.array([first, last]) * day
        assert knots.at(at_s, np.array([0, 1]))[:, 0] == pytest.approx([at_s[0], -at_s[1]])
    days = [round((count - 5) / 144) for count in asked]
    assert days == [1, 1, 1, 1, 1]
