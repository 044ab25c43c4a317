"""What a listener takes from a sentence is what the sentence claims: a check for rehearsals."""

from collections.abc import Iterator

from core.rehearsal.driver import Look
from core.saying.model import Kind
from tests.core.board.telling.test_telling_agrees import dial
from tests.core.saying.aloud import clocks, lengths


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
        for length in lengths(told.twenty):
            if not any(
                claim.low_ms <= length.ms <= claim.high_ms + 1
                for claim in told.claims
                if claim.kind is not Kind.CLOCK
            ):
                yield "aloud", f"a length that is not claimed: '{told.twenty}'"
