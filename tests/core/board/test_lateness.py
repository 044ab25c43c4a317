"""How late 'now' is typed on a lane: by the edges heard, offered, and never applied by itself."""

from collections.abc import Sequence
from pathlib import Path

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from core.board.lateness import FEWEST, LAST, Lateness, is_by_ear, lateness, offers
from core.entries.model import Action, Entry, Happened, Observe, Shut
from core.plan.model import Change, Lane
from core.signal.model import Computed
from tests.core.board.boards import Seat, at_ms, seat

MINUTE_MS = 60_000
PICTURE = Lane("picture", "PICTURE", delay_ms=9_000)
VOICE = Lane("voice", "VOICE", first_words_ms=40_000)
LANES = (PICTURE, VOICE)


def edge_at(number: int, lane: str = "picture", give_ms: int = 0) -> Computed:
    """Every odd edge is a loss; they are ten minutes apart."""
    change = Change.LOST if number % 2 else Change.BACK
    return Computed(lane, change, number * 10 * MINUTE_MS, give_ms)


def computed(edge: str) -> Computed | None:
    """Edges are called 'picture.7', or 'picture.7.30' where they are sure to 30 s."""
    lane, number, *give = edge.split(".")
    if lane not in {"picture", "voice"}:
        return None
    return edge_at(int(number), lane, int(give[0]) * 1_000 if give else 0)


def heard(
    number: int, late_ms: int, lane: str = "picture", typed: str = "", give: str = ""
) -> Entry:
    """An edge typed so late."""
    edge = edge_at(number, lane)
    at = edge.time_ms + late_ms
    typed = typed or f"{lane} {edge.change} now"
    name = f"{lane}.{number}{give}"
    return Entry(number, at, typed, Observe(lane, edge.change, at - 9_000, edge=name))


def only(entries: Sequence[Entry], lane: str = "picture") -> Lateness | None:
    return lateness(entries, LANES, computed).get(lane)


# ------------------------------------------------------------------ the estimate


@given(
    late_ms=st.integers(0, 30_000),
    noise=st.lists(st.integers(-3_000, 3_000), min_size=FEWEST, max_size=20),
)
@settings(max_examples=80)
def test_a_constant_lateness_is_found_within_its_noise(late_ms: int, noise: list[int]) -> None:
    found = only([heard(n, late_ms + more) for n, more in enumerate(noise, 1)])
    assert found is not None
    last = noise[-LAST:]
    assert late_ms + min(last) <= found.late_ms <= late_ms + max(last)
    assert found.spread_ms <= max(last) - min(last)
    assert found.count == len(last)


@given(
    late_ms=st.integers(0, 20_000),
    wrong=st.integers(30_000, 60_000),
    place=st.integers(0, 4),
)
@settings(max_examples=40)
def test_one_that_was_typed_far_too_late_hardly_moves_it(
    late_ms: int, wrong: int, place: int
) -> None:
    assume(wrong > late_ms)
    lates = [late_ms + more for more in (-200, -100, 0, 100, 200)]
    lates[place] = wrong
    found = only([heard(number, late) for number, late in enumerate(lates, 1)])
    assert found is not None
    assert abs(found.late_ms - late_ms) <= 200
    assert found.spread_ms <= 400


def test_fewer_than_three_edges_tell_nothing() -> None:
    assert only([heard(1, 6_000), heard(2, 6_000)]) is None
    assert only([heard(1, 6_000), heard(2, 6_000), heard(3, 6_000)]) == Lateness(6_000, 0, 3)


def test_only_the_last_edges_count() -> None:
    day = [heard(n, 20_000) for n in range(1, 9)] + [heard(n, 5_000) for n in range(9, 9 + LAST)]
    assert only(day) == Lateness(5_000, 0, LAST)


# ------------------------------------------------------------------ what tells nothing of the ear

THREE = [heard(number, 6_000) for number in (1, 2, 3)]


@pytest.mark.parametrize(
    "entry",
    [
        heard(5, 20_000, typed="picture lost now-12s"),
        heard(5, 20_000, typed="picture lost 4:51:10p"),
        heard(5, 20_000, typed="picture lost now−12s"),
        heard(5, 61_000),
        heard(5, -61_000),
        heard(5, 20_000, give=".30"),
        Entry(5, 0, "picture lost now", Observe("picture", Change.LOST, 0)),
        Entry(5, 20_000, "pool now on voice", Happened("pool", 0, "picture.0", 0, "voice")),
        Entry(5, 20_000, "pool now on voice", Happened("pool", 0, "picture.0")),
        Entry(5, 20_000, "pool now", Happened("pool", 0, "blackout.0")),
    ],
)
def test_what_was_not_heard_as_it_came_does_not_count(entry: Entry) -> None:
    assert only([*THREE, entry]) == Lateness(6_000, 0, 3)


def test_an_event_that_stands_for_an_edge_counts_like_it() -> None:
    at = edge_at(5).time_ms + 6_000
    event = Entry(5, at, "lost now", Happened("lost", at - 9_000, "picture.5", at, "picture"))
    assert only([*THREE, event]) == Lateness(6_000, 0, 4)


def test_a_correction_takes_the_edge_out() -> None:
    again = Entry(9, 0, "picture lost 4:51p", Observe("picture", Change.LOST, 0, edge="picture.3"))
    assert only([*THREE, again]) is None


def test_an_edge_of_a_closed_lane_does_not_count() -> None:
    def shut(from_ms: int, to_ms: int) -> list[Entry]:
        words: list[Action] = [Shut("picture", True, from_ms), Shut("picture", False, to_ms)]
        return [Entry(20 + n, 0, "", action) for n, action in enumerate(words)]

    edge_ms = edge_at(3).time_ms
    assert only([*THREE, *shut(edge_ms - MINUTE_MS, edge_ms + MINUTE_MS)]) is None
    assert only([*THREE, *shut(edge_ms + 3_000, edge_ms + MINUTE_MS)]) is None
    assert only([*THREE, *shut(edge_ms + MINUTE_MS, edge_ms + 2 * MINUTE_MS)]) is not None


def test_a_return_that_is_heard_with_its_first_words_does_not_count() -> None:
    voices = [heard(number, 6_000, "voice") for number in range(1, 6)]
    assert only(voices, "voice") == Lateness(6_000, 0, 3)  # the losses alone


@pytest.mark.parametrize(
    ("typed", "by_ear"),
    [
        ("picture lost now", True),
        ("Picture lost NOW alone", True),
        ("now on picture", True),
        ("picture lost now-3s", False),
        ("picture lost now - 3s", False),
        ("picture lost 4:51p", False),
        ("picture unknown", False),
    ],
)
def test_now_alone_is_by_ear(typed: str, by_ear: bool) -> None:
    assert is_by_ear(typed) is by_ear


# ------------------------------------------------------------------ the offer


@pytest.mark.parametrize(
    ("found", "delays_ms", "words"),
    [
        (
            Lateness(15_200, 1_400, 5),
            {},
            (
                "Your now is about 6 s late on picture (± 2 s, the last 5); "
                "'picture delay 15s' takes it off"
            ),
        ),
        (
            Lateness(6_000, 0, 3),
            {},
            (
                "Your now is put about 3 s too early on picture (± 1 s, the last 3); "
                "'picture delay 6s' mends it"
            ),
        ),
        (Lateness(10_400, 100, 5), {}, ""),
        (Lateness(15_200, 7_000, 5), {}, ""),
        (Lateness(15_200, 1_400, 5), {"picture": 15_000}, ""),
        (Lateness(-4_000, 500, 5), {"picture": 0}, ""),
    ],
)
def test_what_is_worth_it_is_offered_as_a_line_to_type(
    found: Lateness, delays_ms: dict[str, int], words: str
) -> None:
    assert offers({"picture": found}, LANES, delays_ms).get("picture", "") == words


# ------------------------------------------------------------------ at the desk

PASSES = "".join(
    f'  {{ lane = "picture", ground = "tarn", back = 2031-05-14T{hour}:10:00, '
    f"lost = 2031-05-14T{hour}:40:00 }},\n"
    for hour in range(12, 20)
)
FLIGHT = f"""
limbwatch = 1
title = "Whimbrel 5"
zones = ["America/Halifax"]
sources = ["flight"]

[[event]]
id = "supper"
name = "Supper"
at = 2031-05-14T19:00:00

[lane.picture]
name = "PICTURE"
delay = "9s"

[[ground]]
id = "tarn"
name = "Tarn Hill"
lanes = ["picture"]

[[course]]
id = "low"
kind = "passes"
rows = [
{PASSES}]
"""
OFFER = (
    "Your now is about 6 s late on picture (± 1 s, the last 3); 'picture delay 15s' takes it off"
)


def hear(taken: Seat, hour: int, word: str, late_ms: int) -> None:
    """Type an edge by ear, so late after its computed time."""
    minute = 10 if word == "back" else 40
    clock = taken.clock
    clock.jump(at_ms(f"{hour}:{minute}") + late_ms)  # type: ignore[union-attr]  # it is simulated
    taken.take(f"picture {word} now")


@pytest.fixture
def here(tmp_path: Path) -> Seat:
    return seat(tmp_path, "12:00", FLIGHT)


def three(here: Seat) -> None:
    hear(here, 12, "back", 15_000)
    hear(here, 12, "lost", 15_400)
    hear(here, 13, "back", 14_800)


def test_after_three_edges_contact_offers_to_take_it_off(here: Seat) -> None:
    hear(here, 12, "back", 15_000)
    hear(here, 12, "lost", 15_400)
    assert list(here.view.contact.delays) == ["Picture comes 9 s late"]
    hear(here, 13, "back", 14_800)
    assert list(here.view.contact.delays) == [OFFER, "Picture comes 9 s late"]


def test_the_table_that_moves_with_what_was_heard_hides_nothing(here: Seat) -> None:
    """Later rows go with an observed edge; lateness is measured on the course alone."""
    for hour in range(12, 16):
        hear(here, hour, "back", 15_000)
        hear(here, hour, "lost", 15_000)
    assert here.view.contact.delays[0].startswith("Your now is about 6 s late on picture")


def test_the_preview_of_what_is_heard_offers_it_too_and_nothing_else_does(here: Seat) -> None:
    three(here)
    assert here.lines("picture lost now")[-1] == OFFER
    assert OFFER not in here.lines("picture lost now-5s")
    assert OFFER not in here.lines("picture lost 1:40p")
    assert OFFER not in here.lines("supper +5m")


def test_nothing_is_taken_off_until_the_line_is_typed(here: Seat) -> None:
    three(here)
    hear(here, 13, "lost", 15_000)
    assert "lost at 1:40:06 p.m." in here.desk.entries()[-1].meaning
    here.take("picture delay 15s")
    assert here.view.contact.delays == ("Picture comes 15 s late",)
    hear(here, 14, "back", 15_000)
    assert "back at 2:10:00 p.m." in here.desk.entries()[-1].meaning
    assert here.view.contact.delays == ("Picture comes 15 s late",)


def test_an_entry_taken_back_tells_nothing_any_more(here: Seat) -> None:
    three(here)
    here.desk.undo(here.now_ms)
    assert here.view.contact.delays == ("Picture comes 9 s late",)


def test_each_has_an_ear_of_their_own(here: Seat) -> None:
    here.take("sign in AB")
    three(here)
    assert here.view.contact.delays[0] == OFFER
    here.take("sign in CD")
    assert list(here.view.contact.delays) == ["Picture comes 9 s late"]
    hear(here, 13, "lost", 9_000)
    hear(here, 14, "back", 9_000)
    here.take("sign in AB")
    assert here.view.contact.delays[0] == OFFER
