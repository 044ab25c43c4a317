"""The two pictures of a record: drawn as text, read back as XML."""

import itertools
import re
from collections.abc import Iterator
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.record.day import strips
from app.record.day_strip import strip_pictures
from app.record.fills import slanted
from app.record.inks import LIGHT, PAGE, PAPER
from app.record.slips import Scale, slip_pictures, slips
from app.record.spreading import spread
from app.record.svg import fitted, width_of
from core.plan.model import Event, Plan
from core.session.record.making import Source, record_of
from core.session.record.model import DayRecord
from core.times.writing import HOUR_MS, MINUTE_MS
from tests.core.session.record.days import ZONE, Day, at, long_day

_SVG = "{http://www.w3.org/2000/svg}"


def texts(svg: str) -> list[ET.Element]:
    return list(ET.fromstring(svg).iter(f"{_SVG}text"))  # noqa: S314 - our own text


def said(svg: str) -> list[str]:
    return [text.text or "" for text in texts(svg)]


def crowd(count: int, over_ms: int = 10 * HOUR_MS) -> DayRecord:
    """A record of that many events in a day, none of which anybody confirmed."""
    events = tuple(
        Event(
            f"e{n}",
            f"Reading of the tanks, number {n}",
            at_ms=at("08:00:00") + n * over_ms // count,
        )
        for n in range(count)
    )
    plan = Plan("Petrel 4", (ZONE,), events=events)
    return record_of(Source(plan, (), begin_ms=at("08:00:00"), end_ms=at("18:00:00")))


def extents(svg: str) -> Iterator[tuple[float, float]]:
    """From where to where each text goes across."""
    for text in texts(svg):
        wide = width_of(text.text or "", float(text.get("font-size", "13")))
        x, anchor = float(text.get("x", "0")), text.get("text-anchor", "start")
        left = x - {"start": 0.0, "middle": wide / 2, "end": wide}[anchor]
        yield left, left + wide


@pytest.mark.parametrize("width", [860.0, 1000.0])
def test_no_text_leaves_the_picture(width: float) -> None:
    record = long_day(rehearsal=True).record()
    for svg in (
        *slip_pictures(record, LIGHT, width, 46, 34),
        *strip_pictures(record, LIGHT, width),
    ):
        assert all(left >= 0 and right <= width for left, right in extents(svg)), svg[:200]


@pytest.mark.parametrize("count", [1, 60, 300])
def test_every_event_has_its_line_in_the_first_picture(count: int) -> None:
    pictures = slip_pictures(crowd(count), LIGHT, 1000, 46, 34)
    told = [text for svg in pictures for text in said(svg) if text.startswith("Reading")]
    assert len(told) == count


@pytest.mark.parametrize("count", [60, 300])
def test_no_two_labels_of_the_strip_are_upon_one_another(count: int) -> None:
    record = crowd(count)
    labels = 0
    for svg in strip_pictures(record, LIGHT, 1000):
        found = [t for t in texts(svg) if (t.text or "").startswith("Reading")]
        heights = [float(text.get("y", "0")) for text in found]
        assert all(low + 15 <= high for low, high in itertools.pairwise(heights))
        labels += len(found)
    assert labels == count


def test_a_crowd_in_a_few_minutes_is_told_too() -> None:
    record = crowd(120, over_ms=10 * MINUTE_MS)
    assert sum(len(strip.marks) for strip in strips(record)) == 120
    for svg in strip_pictures(record, LIGHT, 1000):
        heights = [float(t.get("y", "0")) for t in texts(svg) if (t.text or "").startswith("Read")]
        assert all(low + 15 <= high for low, high in itertools.pairwise(heights))


def test_a_late_event_lies_right_of_the_plan_and_an_early_one_left() -> None:
    day = Day()
    day.type("17:01:30", "ignition happened 17:01:16")
    day.type("17:50:30", "school happened 17:50")
    found = {slip.row.id: slip.by_ms for slip in slips(day.record())}
    assert found["ignition"] == 76_000
    assert found["school"] == -600_000
    scale = Scale(400, 800, -HOUR_MS, HOUR_MS)
    assert scale.x(-600_000) < scale.x(0) == 600 < scale.x(76_000)


@given(st.lists(st.integers(-HOUR_MS, HOUR_MS), min_size=2, max_size=8))
def test_the_scale_keeps_the_order_of_differences(by_ms: list[int]) -> None:
    scale = Scale(400, 800, -HOUR_MS, HOUR_MS)
    places = [scale.x(each) for each in sorted(by_ms)]
    assert places == sorted(places)
    assert all(400 <= place <= 800 for place in places)


def test_what_did_not_come_is_not_in_the_picture() -> None:
    assert "quiet-back" not in {slip.row.id for slip in slips(long_day().record())}


def test_both_pictures_say_that_it_is_a_rehearsal() -> None:
    record = long_day(rehearsal=True).record()
    for svg in (*slip_pictures(record, PAGE, 1000, 46, 34), *strip_pictures(record, PAGE, 1000)):
        assert "REHEARSAL" in said(svg)
    for svg in strip_pictures(long_day().record(), PAGE, 1000):
        assert "REHEARSAL" not in said(svg)


def test_the_strip_shows_lanes_stations_causes_items_and_events() -> None:
    (svg,) = strip_pictures(long_day().record(), LIGHT, 1000)
    told = said(svg)
    for wanted in ("VOICE", "Tarn Hill", "behind the", "Break 1", "Ignition", "17:01:16"):
        assert wanted in told


def test_pictures_for_the_page_have_no_colour_of_their_own_and_paper_has_only_greys() -> None:
    record = long_day().record()
    for svg in (*slip_pictures(record, PAGE, 1000, 46, 34), *strip_pictures(record, PAGE, 1000)):
        assert set(re.findall(r"#[0-9a-f]{6}", svg)) <= {"#14110c"}
    for svg in (*slip_pictures(record, PAPER, 860, 46, 34), *strip_pictures(record, PAPER, 860)):
        greys = set(re.findall(r"#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})", svg)) - {
            ("14", "11", "0c")
        }
        assert all(red == green == blue for red, green, blue in greys)


def test_names_from_a_plan_cannot_break_the_picture() -> None:
    odd = Plan("P", (ZONE,), events=(Event("e", '<b>&"x', at_ms=at("09:00:00")),))
    made = record_of(Source(odd, (), end_ms=at("10:00:00")))
    assert '<b>&"x' in said(slip_pictures(made, PAGE, 1000, 46, 34)[0])


@settings(max_examples=80)
@given(st.floats(0, 500), st.floats(0, 500), st.floats(1, 200), st.floats(0.5, 400))
def test_hatching_keeps_to_its_box(left: float, top: float, width: float, height: float) -> None:
    for x1, y1, x2, y2 in slanted(left, top, width, height):
        for x, y in ((x1, y1), (x2, y2)):
            assert left - 1e-6 <= x <= left + width + 1e-6
            assert top - 1e-6 <= y <= top + height + 1e-6


@settings(max_examples=100)
@given(st.lists(st.floats(0, 1000), max_size=40).map(sorted))
def test_labels_are_spread_in_order_and_apart(wanted: list[float]) -> None:
    found = spread(wanted, 18, 10, 1000)
    assert len(found) == len(wanted)
    assert all(high - low >= 18 - 1e-6 for low, high in itertools.pairwise(found))
    assert all(10 - 1e-6 <= height <= 1000 + 1e-6 for height in found)


def test_labels_with_room_stay_where_they_belong() -> None:
    assert spread([100, 200, 300], 18, 0, 1000) == [100, 200, 300]


def test_a_text_without_room_is_shortened_with_dots() -> None:
    assert fitted("Insertion burn, ignition", 500) == "Insertion burn, ignition"
    short = fitted("Insertion burn, ignition", 90)
    assert short.endswith("…")
    assert width_of(short) <= 90
