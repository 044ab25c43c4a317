"""What is checked on each look at a rehearsal's board; it holds on any day, whatever was typed."""

from collections.abc import Iterable, Iterator
from datetime import UTC, datetime
from itertools import combinations, count
from zoneinfo import ZoneInfo

from core.board.model import Card, CardState, View
from core.board.programme import ItemState
from core.board.written import Figure
from core.rehearsal.driver import Check, Look
from core.saying.model import Claim, Kind, Subject, Told, speaking_ms
from core.times.writing import SECOND_MS, floor_second_ms

_UNITS_S = {"d": 86_400, "h": 3_600, "min": 60, "s": 1}
Found = Iterator[tuple[str, str]]


def adds_up(look: Look) -> Found:
    """The clock on the wall and a countdown are the time on the card, to the second."""
    zone = look.desk.plan.zones[0]
    for card in look.view.cards:
        figure = card.figure
        if figure is None or figure.about or not card.clock:
            continue
        counts = seconds(card) * SECOND_MS
        shown_ms = look.now_ms + (-counts if card.state is CardState.DUE else counts)
        written = _written(shown_ms, zone)
        if not card.clock.endswith(written):
            yield "countdown + clock", f"{card.id}: {written} by its countdown, '{card.clock}'"


def contact_adds_up(look: Look) -> Found:
    """What is left of a lane, or of a gap, and the clock are an edge of that lane."""
    signal = {lane.lane: lane for lane in look.desk.signal()}
    for lane in look.view.contact.lanes:
        if lane.figure is None or lane.figure.about:
            continue
        ends_ms = look.now_ms + _length_ms(lane.figure)
        begin = {each.from_ms for each in signal[lane.lane].stretches if each.from_ms is not None}
        if ends_ms not in {floor_second_ms(at_ms) for at_ms in begin}:
            yield "contact + clock", f"{lane.name}: nothing changes in {_length_ms(lane.figure)} ms"


def presenter_counts_alike(look: Look) -> Found:
    """The presenter's countdown is the big card's, as far as it is shown."""
    shown, index = look.view.presenter, look.view.big_index
    if shown is None or shown.figure is None or index is None:
        return
    if shown.name != look.view.cards[index].name:
        return
    figure = look.view.cards[index].figure
    parts = () if figure is None else figure.parts[: len(shown.figure.parts)]
    if shown.figure.parts != parts and not shown.second:
        yield "presenter", f"{shown.figure.parts} of {shown.name}, on its card {parts}"


def _length_ms(figure: Figure) -> int:
    return sum(int(digits) * _UNITS_S[unit] for digits, unit in figure.parts) * SECOND_MS


def seconds(card: Card) -> int:
    """The length that a card's figure shows."""
    return 0 if card.figure is None else _length_ms(card.figure) // SECOND_MS


def _written(at_ms: int, zone: str) -> str:
    """A clock time, made here anew and not by what writes the cards."""
    there = datetime.fromtimestamp(at_ms / 1000, UTC).astimezone(ZoneInfo(zone))
    half = "a.m." if there.hour < 12 else "p.m."
    return f"{(there.hour + 11) % 12 + 1}:{there:%M:%S} {half}"


def in_order(look: Look) -> Found:
    """Cards still to come stand in order of time, each once."""
    cards = list(look.view.cards)
    if len({card.id for card in cards}) != len(cards):
        yield "cards", "an event has two cards"
    coming = cards[look.view.next_index :]
    times = [floor_second_ms(card.at_ms) for card in coming if card.at_ms is not None]
    if times != sorted(times):
        yield "cards", "they are not in order of time"


def says_what_is_shown(look: Look) -> Found:
    """No sentence contradicts a countdown, the contact panel, or another sentence."""
    told = look.desk.told(look.now_ms)
    cards = {card.id: card for card in look.view.cards}
    for one in told:
        if one.until_ms < look.now_ms:
            yield "sentence", f"it is over, and still shown: '{one.twenty}'"
        for claim in one.claims:
            if claim.event in cards and claim.kind is not Kind.LENGTH:
                yield from _against_card(claim, cards[claim.event], look, one)
        if one.subject is Subject.LOSS:
            yield from _against_contact(one, look.view)
    every = [(claim, one) for one in told for claim in one.claims]
    for (claim, says), (other, also) in combinations(every, 2):
        same = claim.event == other.event and claim.kind is other.kind
        if same and max(claim.low_ms, other.low_ms) > min(claim.high_ms, other.high_ms):
            yield "sentences", f"'{says.twenty}' against '{also.twenty}'"


def _against_card(claim: Claim, card: Card, look: Look, told: Told) -> Found:
    if card.at_ms is None:
        yield "sentence", f"{card.id} has no time: '{told.twenty}'"
        return
    event_ms = floor_second_ms(card.at_ms)
    if claim.kind is Kind.CLOCK:
        if not claim.low_ms <= event_ms <= claim.high_ms:
            yield "sentence", f"not the time of {card.id}, {card.clock}: '{told.twenty}'"
        return
    begun = (look.now_ms, max(look.now_ms, min(told.until_ms, look.now_ms + 120_000)))
    heard = (*begun, *(at_ms + speaking_ms(told.twenty) for at_ms in begun))
    away = [heard_ms - event_ms for heard_ms in heard]
    sign = 1 if claim.kind is Kind.AGE else -1
    if not all(claim.low_ms <= sign * each <= claim.high_ms for each in away):
        yield "sentence", f"not the distance of {card.id}, {card.clock}: '{told.twenty}'"


def _against_contact(told: Told, view: View) -> Found:
    """What is left of a lane by its words is what the panel says is left of one."""
    left = [lane.figure for lane in view.contact.lanes if lane.word == "left" and lane.figure]
    left_ms = [_length_ms(figure) for figure in left]
    for claim in told.claims:
        if not any(claim.low_ms <= each <= claim.high_ms for each in left_ms):
            yield "sentence", f"no lane has so much left: '{told.twenty}'"


def loses_nothing_unsaid(look: Look) -> Found:
    """An item that reaches into a live moment still to come says so on its box.

    Of one that has not begun when it should have, that is said, and where it could go.
    """
    late = {lost.item for lost in look.desk.on_air(look.now_ms).broken if lost.gone}
    for box in look.view.air.boxes:
        if box.state not in (ItemState.ON_AIR, ItemState.PLACED) or box.clash:
            continue
        if box.state is ItemState.PLACED and box.item in late:
            continue
        for span in look.view.air.live:
            begins_ms = floor_second_ms(span.from_ms)
            meets = box.from_ms < span.to_ms and box.to_ms > begins_ms
            if meets and begins_ms > look.now_ms:
                yield "on the air", f"{box.item} loses {span.event}, and nothing says so"


def as_from_scratch(look: Look) -> Found:
    """The board after all that was entered is the board built anew from the same entries."""
    other = look.desk.anew().view(look.now_ms)
    mine = look.view
    parts = ("header", "due", "next_index", "big_index", "summary", "contact", "air", "clear")
    for part in parts:
        if getattr(mine, part) != getattr(other, part):
            yield "from scratch", f"{part} differs"
    for card, again in zip(mine.cards, other.cards, strict=False):
        if card != again:
            yield "from scratch", f"the card of {card.id} differs"
    if len(mine.cards) != len(other.cards):
        yield "from scratch", "other cards"
    if mine.strip != other.strip:
        yield "from scratch", "the strip differs"


def seldom(check: Check, looks: int) -> Check:
    """The same check on each so-manieth look only: for one that takes long."""
    turns = count(1)

    def now_and_then(look: Look) -> Iterable[tuple[str, str]]:
        return () if next(turns) % looks else check(look)

    return now_and_then


EVERY = (
    adds_up,
    contact_adds_up,
    presenter_counts_alike,
    in_order,
    says_what_is_shown,
    loses_nothing_unsaid,
)
"""Those that are checked on every look; `as_from_scratch` takes longer."""
