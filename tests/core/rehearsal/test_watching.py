"""Each check of a rehearsal fails on a board that is wrong in its way."""

from collections.abc import Iterator
from dataclasses import replace
from functools import cache

import pytest

from core.board.model import Card, View
from core.board.programme import AirBox, ItemState
from core.board.written import Figure
from core.rehearsal import watching
from core.rehearsal.desk import OpenDesk
from core.rehearsal.driver import Check, Look
from core.saying.model import Claim, Kind, Subject, Told
from core.times.clocks import SimClock
from tests.core.board.boards import at_ms
from tests.core.rehearsal.aloud_check import heard_aloud
from tests.core.rehearsal.days import small


class Tongue(OpenDesk):
    """A desk that says something else."""

    says: tuple[Told, ...] | None = None

    def told(self, now_ms: int) -> tuple[Told, ...]:
        return super().told(now_ms) if self.says is None else self.says


@cache
def look() -> Look:
    desk = Tongue(small(), SimClock(at_ms("16:41:12"), paused=True))
    return Look(desk, desk.view(at_ms("16:41:12")), at_ms("16:41:12"))


def saying(*changes: Told) -> Look:
    desk = Tongue(small(), SimClock(at_ms("16:41:12"), paused=True))
    desk.says = changes
    return Look(desk, desk.view(at_ms("16:41:12")), at_ms("16:41:12"))


def with_card(event: str, **changes: object) -> Look:
    cards = [
        replace(card, **changes) if card.id == event else card  # type: ignore[arg-type]
        for card in look().view.cards
    ]
    return replace(look(), view=replace(look().view, cards=cards))


def shown(**changes: object) -> View:
    return replace(look().view, **changes)  # type: ignore[arg-type]


def card(event: str) -> Card:
    return next(each for each in look().view.cards if each.id == event)


def told() -> Told:
    return look().desk.told(look().now_ms)[0]


@pytest.mark.parametrize("check", [*watching.EVERY, watching.as_from_scratch, heard_aloud])
def test_a_right_board_passes(check: Check) -> None:
    assert list(check(look())) == []


def test_a_countdown_one_second_off_is_found() -> None:
    figure = card("ignition").figure
    assert figure is not None
    off = Figure((*figure.parts[:-1], ("49", "s")))
    assert [name for name, _ in watching.adds_up(with_card("ignition", figure=off))] == [
        "countdown + clock"
    ]


def test_what_is_left_of_a_lane_one_second_off_is_found() -> None:
    panel = look().view.contact
    assert panel.lanes[0].figure is not None
    off = replace(panel.lanes[0], figure=Figure((("8", "min"), ("47", "s"))))
    assert panel.lanes[0].figure.parts == (("8", "min"), ("48", "s"))
    wrong = shown(contact=replace(panel, lanes=(off, *panel.lanes[1:])))
    assert list(watching.contact_adds_up(replace(look(), view=wrong)))


def test_a_presenter_who_counts_down_to_another_second_is_found() -> None:
    presenter = look().view.presenter
    assert presenter is not None
    off = replace(presenter, figure=Figure((("8", "min"), ("47", "s"))))
    assert list(watching.presenter_counts_alike(replace(look(), view=shown(presenter=off))))


def test_a_clock_in_the_wrong_half_of_the_day_is_found() -> None:
    assert list(watching.adds_up(with_card("ignition", clock="5:00:00 a.m.")))


def test_cards_out_of_order_or_twice_are_found() -> None:
    assert list(watching.in_order(with_card("ignition", at_ms=at_ms("19:50"))))
    twice = [*look().view.cards, card("ignition")]
    assert list(watching.in_order(replace(look(), view=shown(cards=twice))))


def wrong_tellings() -> Iterator[Told]:
    at_five = at_ms("17:00")
    yield replace(told(), until_ms=at_ms("16:41:11"))
    yield replace(told(), claims=(Claim(Kind.CLOCK, "ignition", at_five + 1, at_five + 60_000),))
    yield replace(told(), claims=(Claim(Kind.WAIT, "ignition", 0, 60_000),))
    yield replace(told(), claims=(Claim(Kind.AGE, "ignition", 0, 60_000),))


@pytest.mark.parametrize("number", range(4))
def test_a_sentence_against_the_board_is_found(number: int) -> None:
    wrong = list(wrong_tellings())[number]
    assert list(watching.says_what_is_shown(saying(wrong)))


def test_two_sentences_against_each_other_are_found() -> None:
    one, other = (
        replace(told(), subject=Subject.NEXT, claims=(Claim(Kind.LENGTH, "ignition", low, high),))
        for low, high in ((0, 60_000), (61_000, 62_000))
    )
    assert not list(watching.says_what_is_shown(saying(one)))
    assert list(watching.says_what_is_shown(saying(one, other)))


def test_words_that_are_not_claimed_are_found() -> None:
    words = replace(told(), twenty="It is due at four fifty-nine.", claims=())
    assert list(heard_aloud(saying(words)))
    words = replace(told(), twenty="It is due in about eight minutes.", claims=())
    assert list(heard_aloud(saying(words)))


def test_an_item_in_a_live_moment_that_says_nothing_is_found() -> None:
    lane = look().view.air
    box = AirBox("hall", "Hall", "remote", at_ms("16:45"), at_ms("16:49"), ItemState.PLACED)
    bad = shown(air=replace(lane, boxes=(box,)))
    assert list(watching.loses_nothing_unsaid(replace(look(), view=bad)))
    said = shown(air=replace(lane, boxes=(replace(box, clash="too late"),)))
    assert not list(watching.loses_nothing_unsaid(replace(look(), view=said)))


def test_of_an_item_that_was_not_begun_it_is_enough_that_this_is_said() -> None:
    desk = Tongue(small(), SimClock(at_ms("17:50"), paused=True))
    for line in ("hall 6:00p", "voice lost 5:38:05p", "school 6:04:38p"):
        desk.enter(line, "", at_ms("17:50"))
        desk.enter(line, "", at_ms("17:50"), again=True)
    for clock, says in (("17:59", "on the box"), ("18:00:08", "beside it")):
        here = Look(desk, desk.view(at_ms(clock)), at_ms(clock))
        (box,) = [each for each in here.view.air.boxes if each.item == "hall"]
        assert bool(box.clash) is (says == "on the box")
        assert any(lost.item == "hall" for lost in desk.on_air(at_ms(clock)).broken)
        assert not list(watching.loses_nothing_unsaid(here))


def test_a_board_that_differs_from_one_built_anew_is_found() -> None:
    wrong = (
        shown(next_index=0),
        with_card("ignition", note=replace(card("ignition").note, text="!")).view,
        shown(cards=list(look().view.cards)[1:]),
    )
    for view in wrong:
        assert list(watching.as_from_scratch(replace(look(), view=view)))
