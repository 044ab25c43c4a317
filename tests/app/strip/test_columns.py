from app.strip.columns import Columns
from core.signal.model import Fill
from tests.app.views import MINUTE_MS, NOW_MS, YEAR_MS, arrival_strip

COLUMNS = Columns.of(arrival_strip((NOW_MS + 5, NOW_MS + 3, NOW_MS + 9)))
VOICE = COLUMNS.lanes[0]


def test_stretches_in_sight_are_those_that_touch_it() -> None:
    in_sight = VOICE.between(NOW_MS, NOW_MS + 35 * MINUTE_MS)
    assert [VOICE.fills[i] for i in in_sight] == [Fill.CONTACT, Fill.GAP, Fill.EITHER]


def test_a_stretch_that_only_meets_it_is_not_in_sight() -> None:
    start_ms = int(VOICE.starts_ms[1])
    assert list(VOICE.between(start_ms, start_ms + 1)) == [1]
    assert list(VOICE.between(start_ms - 1, start_ms)) == [0]


def test_beyond_all_stretches_there_is_nothing() -> None:
    assert list(VOICE.between(NOW_MS + 2 * YEAR_MS, NOW_MS + 3 * YEAR_MS)) == []


def test_events_and_edges_are_found_between_two_instants() -> None:
    assert COLUMNS.events_between(NOW_MS + 3, NOW_MS + 9).tolist() == [NOW_MS + 3, NOW_MS + 5]
    edges = VOICE.edges_between(NOW_MS, NOW_MS + 10 * MINUTE_MS)
    assert [edge.text for edge in edges] == ["LOS 4:49 p.m."]


def test_ground_stations_are_found_by_what_overlaps() -> None:
    names = [g.name for g in COLUMNS.grounds_between(NOW_MS, NOW_MS + MINUTE_MS)]
    assert names == ["Tarn Hill"]
