"""Cases of fitting written as plan files, the way a reader of the plan format would write them."""

from collections.abc import Iterator, Mapping
from typing import Any

from tests.contract.converting import PLAIN, Hand

Told = Mapping[str, Any]

_BEFORE_MS = 6 * 3_600_000
"""So long before and after the case's hours the lane's table goes on."""


def plan_text(case: Told, hand: Hand = PLAIN) -> str:
    """A case's plan as the text of a plan file."""
    return "\n".join(_lines(case, hand)) + "\n"


def _lines(case: Told, hand: Hand) -> Iterator[str]:
    yield from ("limbwatch = 1", 'title = "Trial"', 'zones = ["UTC"]')
    yield from ("[air]", f"off = {hand.at(case['out'])}")
    yield f"item_gap = {hand.length(case['spacing'])}"
    for number, (at_ms, guard_ms, stay_ms) in enumerate(case["live"], 1):
        yield from ("[[event]]", f'id = "moment-{number}"', f"at = {hand.at(at_ms)}", "live = true")
        yield from (f"guard = {hand.length(guard_ms)}", f"stay = {hand.length(stay_ms)}")
    yield from _signal(case, hand)
    if case.get("last_end") is not None:
        yield from ("[[item]]", 'id = "earlier"', 'kind = "tape"', 'length = "60s"')
        yield f"ran = [{hand.at(case['last_end'] - 60_000)}, {hand.at(case['last_end'])}]"
    for item in case["items"]:
        yield from _item(item, hand)


def _signal(case: Told, hand: Hand) -> Iterator[str]:
    """Contact everywhere but where the case has none."""
    yield from ("[[course]]", 'id = "table"', 'kind = "passes"', "rows = [")
    back_ms = case["now"] - _BEFORE_MS
    for lost_ms, again_ms in case["nosignal"]:
        yield f'  {{ lane = "voice", back = {hand.at(back_ms)}, lost = {hand.at(lost_ms)} }},'
        back_ms = again_ms
    last_ms = case["out"] + _BEFORE_MS
    yield f'  {{ lane = "voice", back = {hand.at(back_ms)}, lost = {hand.at(last_ms)} }},'
    yield "]"


def _item(item: Told, hand: Hand) -> Iterator[str]:
    kind = "remote" if item.get("signal") else "studio"
    yield from ("[[item]]", f'id = "{item["id"]}"', f'kind = "{kind}"', "owed = true")
    yield f"length = {hand.length(item['len'])}"
    yield f"weight = {item['weight']}"
    if item.get("signal"):
        yield 'needs = "voice"'
