"""What a listener takes from a sentence is what the sentence claims: a check for rehearsals."""

import re
from collections.abc import Iterator

from core.rehearsal.driver import Look
from core.saying.model import Kind, Told
from tests.core.board.telling.test_telling_agrees import dial
from tests.core.saying.aloud import clocks, lengths

_AGAINST_PLAN = re.compile(r"Its time is now [^.]* (?P<way>later|earlier) than planned\.")
_ON_ITS_WAY = re.compile(r"The signal takes [^.]* to get here\.")
_ROUNDED_MS = 45_000


def heard_aloud(look: Look) -> Iterator[tuple[str, str]]:
    """Clock times and lengths, read out of the words alone, against the claims."""
    zones = look.desk.plan.zones
    for told in look.desk.told(look.now_ms):
        dials = {
            dial(at_ms, zone)
            for claim in told.claims
            if claim.kind is Kind.CLOCK
            for at_ms in range(claim.low_ms // 60_000 * 60_000, claim.high_ms + 1, 60_000)
            for zone in zones
        }
        if not set(clocks(told.twenty)) <= dials:
            yield "aloud", f"a clock time that is not claimed: '{told.twenty}'"
        yield from _against_plan(told, look)
        for length in lengths(_ON_ITS_WAY.sub("", _AGAINST_PLAN.sub("", told.twenty))):
            if not any(
                claim.low_ms - 1 <= length.ms <= claim.high_ms + 1  # 'more than', 'just under'
                for claim in told.claims
                if claim.kind is not Kind.CLOCK
            ):
                yield "aloud", f"a length that is not claimed: '{told.twenty}'"


def _against_plan(told: Told, look: Look) -> Iterator[tuple[str, str]]:
    """So much later or earlier than planned: by the schedule's own two times."""
    said = _AGAINST_PLAN.search(told.twenty)
    event = next((claim.event for claim in told.claims if claim.kind is Kind.CLOCK), "")
    if said is None or event.startswith("lane:") or not event:
        return
    line = look.desk.schedule.line(event)
    if line.expected_ms is None or line.planned_ms is None:
        yield "aloud", f"against a plan that has no time: '{told.twenty}'"
        return
    by_ms = line.expected_ms - line.planned_ms
    ways = [each.ms * (1 if said["way"] == "later" else -1) for each in lengths(said[0])]
    if any(abs(each - by_ms) > max(_ROUNDED_MS, line.give_ms) for each in ways):
        yield "aloud", f"it is {by_ms / 1000:+g} s against the plan: '{told.twenty}'"
