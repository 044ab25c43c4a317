"""On any plan, at any second of its shelf life, no sentence contradicts a countdown, a clock or
another sentence of the same view."""

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import replace
from datetime import datetime
from itertools import combinations
from pathlib import Path
from zoneinfo import ZoneInfo

from hypothesis import given, settings
from hypothesis import strategies as st

from core.board.model import Card, CardState
from core.entries.airing import MarkSaid
from core.entries.model import (
    Action,
    Choose,
    Happened,
    Hold,
    Note,
    Observe,
    Revise,
    Scrub,
    Way,
)
from core.errors import EntryRefused
from core.plan.model import Change, Plan
from core.plan.reader import read_plan_text
from core.saying.model import Claim, Kind, Subject, Told, speaking_ms
from tests import strategies as drawn
from tests.core.board.boards import FLIGHT, at_ms, seat_on
from tests.core.board.talk import Talk, talk_on
from tests.core.board.test_times_add_up import exact, seconds
from tests.core.saying.aloud import Clock, clocks, lengths

MOST_SECONDS = 120
SMALL = read_plan_text(FLIGHT, "flight", Path())


@st.composite
def moments(draw: st.DrawFn) -> tuple[Plan, int]:
    """A plan, and a second not long before one of its events, its losses or its returns."""
    plan = draw(drawn.plans())
    talk = talk_on(plan, drawn.FROM_MS)
    edges = [edge.time_ms for lane in talk.session.scene.lanes for edge in lane.edges]
    times = [*talk.session.scene.times_ms, *edges]
    if not times:
        return plan, draw(drawn.instants_ms)
    around_ms = draw(st.sampled_from(times))
    return plan, (around_ms - draw(st.integers(-300, 1_500)) * 1_000) // 1_000 * 1_000


@st.composite
def flown(draw: st.DrawFn) -> tuple[Plan, int]:
    """The small flight with another time and another give for its burn, at any second of it."""
    go_ms = draw(st.integers(-240, 240)) * 1_000
    give_ms = draw(st.sampled_from((0, 20_000, 60_000)))
    events = [
        replace(event, at_ms=event.at_ms + go_ms)
        if event.id == "go" and event.at_ms is not None
        else replace(event, give_ms=give_ms, say=draw(st.sampled_from(("", "the burn"))))
        for event in SMALL.events
    ]
    return replace(SMALL, events=tuple(events)), at_ms("16:30") + draw(
        st.integers(0, 4_500)
    ) * 1_000


def life(told: Told, now_ms: int) -> Iterator[int]:
    """Each second at which it may be begun, and when its last word is heard."""
    for begun_ms in range(now_ms, min(told.until_ms, now_ms + MOST_SECONDS * 1_000) + 1, 1_000):
        yield begun_ms
        yield begun_ms + speaking_ms(told.twenty)


@given(st.one_of(moments(), flown(), flown()))
@settings(max_examples=60)
def test_no_sentence_contradicts_a_countdown_or_a_clock(moment: tuple[Plan, int]) -> None:
    plan, now_ms = moment
    talk, seat = talk_on(plan, now_ms), seat_on(plan, now_ms)
    cards = {card.id: card for card in seat.view.cards}
    left_ms = [
        seconds(lane.figure) * 1_000
        for lane in seat.view.contact.lanes
        if lane.word == "left" and lane.figure is not None
    ]
    for told in talk.telling(now_ms).told(now_ms):
        assert now_ms <= told.until_ms
        if told.subject is Subject.LOSS:
            for claim in told.claims:
                assert any(claim.low_ms <= left <= claim.high_ms for left in left_ms)
        for claim in told.claims:
            if claim.event in cards and claim.kind is not Kind.LENGTH:
                assert_card_agrees(claim, cards[claim.event], now_ms, told)
        for event, time_ms in told.times:
            assert event.startswith("lane:") or cards[event].at_ms is not None
            assert event.startswith("lane:") or cards[event].at_ms // 1_000 == time_ms // 1_000  # type: ignore[operator]


def assert_card_agrees(claim: Claim, card: Card, now_ms: int, told: Told) -> None:
    """By the countdown that is written on the card, where that is exact; else by its thread."""
    assert card.at_ms is not None
    event_ms = card.at_ms // 1_000 * 1_000
    if exact(card) and card.figure is not None and card.state is CardState.AHEAD:
        assert event_ms == now_ms + seconds(card.figure) * 1_000
    if claim.kind is Kind.CLOCK:
        assert claim.low_ms <= event_ms <= claim.high_ms
        return
    for heard_ms in life(told, now_ms):
        assert claim.low_ms <= event_ms - heard_ms <= claim.high_ms


@given(st.one_of(moments(), flown(), flown()))
@settings(max_examples=60)
def test_no_two_sentences_of_one_moment_contradict_each_other(moment: tuple[Plan, int]) -> None:
    plan, now_ms = moment
    every = talk_on(plan, now_ms).telling(now_ms).told(now_ms)
    for one, other in combinations((claim for told in every for claim in told.claims), 2):
        if one.event == other.event and one.kind is other.kind:
            assert max(one.low_ms, other.low_ms) <= min(one.high_ms, other.high_ms)
    times = [pair for told in every for pair in told.times]
    assert len(dict(times)) == len(set(times))


@given(st.one_of(moments(), flown(), flown()))
@settings(max_examples=60)
def test_what_is_heard_in_the_words_is_what_the_sentence_claims(moment: tuple[Plan, int]) -> None:
    plan, now_ms = moment
    for told in talk_on(plan, now_ms).telling(now_ms).told(now_ms):
        dials = {
            dial(at_ms, zone)
            for claim in told.claims
            if claim.kind is Kind.CLOCK
            for at_ms in range(claim.low_ms // 60_000 * 60_000, claim.high_ms + 1, 60_000)
            for zone in plan.zones
        }
        assert set(clocks(told.twenty)) <= dials
        for length in lengths(told.twenty):
            assert any(
                claim.low_ms - 1 <= length.ms <= claim.high_ms + 1  # 'more than', 'just under'
                for claim in told.claims
                if claim.kind is not Kind.CLOCK
            )


def dial(at_ms: int, zone: str) -> Clock:
    there = datetime.fromtimestamp(at_ms / 1000, ZoneInfo(zone))
    return Clock((there.hour + 11) % 12 + 1, there.minute)


@given(st.one_of(moments(), flown()), st.integers(1, 60))
@settings(max_examples=40)
def test_a_kept_sentence_is_never_older_than_it_may_be(
    moment: tuple[Plan, int], steps: int
) -> None:
    plan, now_ms = moment
    talk: Talk = talk_on(plan, now_ms)
    telling = talk.telling(now_ms)
    for second in range(steps):
        at_ms = now_ms + second * 1_000
        for sentence in telling.at(at_ms).sentences:
            assert at_ms <= sentence.until_ms


SOURCES = st.sampled_from(("flight", "pool", "desk", ""))
NAMES = ("go", "loss", "ignition", "cutoff", "return", "return-none", "checks", "school")


@st.composite
def actions(draw: st.DrawFn, now_ms: int) -> Action:
    """An entry about the small flight."""
    name = draw(st.sampled_from(NAMES))
    by_ms = draw(st.integers(-300, 600)) * 1_000
    ways: tuple[Action, ...] = (
        Revise(name, now_ms + abs(by_ms)),
        Happened(name, now_ms - abs(by_ms) // 4),
        Hold(name, now_ms, abs(by_ms)),
        Scrub(name, Way.STAY),
        Choose(draw(st.sampled_from(("burned", "no-burn")))),
        Observe("voice", draw(st.sampled_from(Change)), now_ms),
        Note("as it was said"),
    )
    return draw(st.sampled_from(ways))


@given(st.data())
@settings(max_examples=60)
def test_after_any_entries_what_is_said_and_owed_still_agrees(data: st.DataObject) -> None:
    now_ms = at_ms("16:30")
    talk = talk_on(SMALL, now_ms)
    telling = None
    for _ in range(data.draw(st.integers(1, 5))):
        now_ms += data.draw(st.integers(1, 900)) * 1_000
        telling = talk.telling(now_ms, telling)
        said = [*telling.owed(now_ms), *telling.told(now_ms)]
        assert_all_agree(talk, said, now_ms)
        says: bool = data.draw(st.booleans())
        if said and says:
            talk.take_at(now_ms, MarkSaid(said[0].twenty, said[0].times))
            assert said[0] not in talk.telling(now_ms, telling).owed(now_ms)
        with suppress(EntryRefused):
            talk.take_at(now_ms, data.draw(actions(now_ms)), data.draw(SOURCES))
        telling = talk.telling(now_ms, telling)
        assert_all_agree(talk, [*telling.owed(now_ms), *telling.told(now_ms)], now_ms)
        assert telling.at(now_ms).grave is False


def assert_all_agree(talk: Talk, every: list[Told], now_ms: int) -> None:
    """Kept or new, every claim is true of the times as they stand."""
    scene = talk.session.scene
    times = dict(zip(scene.order, scene.times_ms, strict=True))
    for told in every:
        for claim in told.claims:
            if claim.event not in times:
                continue
            if claim.kind is Kind.CLOCK:
                assert claim.low_ms <= times[claim.event] <= claim.high_ms
            if claim.kind is Kind.WAIT:
                assert claim.low_ms <= times[claim.event] - now_ms <= claim.high_ms
        assert told.until_ms >= now_ms
