"""A sentence put together: three lengths, and the last moment at which one may begin to read it."""

from collections.abc import Iterable, Sequence

from core.saying.model import TWENTY_MS, Claim, Kind, Subject, Told, speaking_ms
from core.times.writing import SECOND_MS

LEAST_LIFE_MS = 15_000
"""A form that would be true for less than this gives way to one that lasts."""


def ends_ms(claim: Claim, at_ms: int) -> int | None:
    """Up to when a claim about an event at `at_ms` is true; None: as long as nothing changes."""
    if claim.kind is Kind.WAIT:
        return at_ms - claim.low_ms
    if claim.kind is Kind.AGE:
        return at_ms + claim.high_ms
    return None


def make(
    subject: Subject,
    line: str,
    body: str,
    ends: Iterable[int],
    claims: Sequence[Claim] = (),
    times: Sequence[tuple[str, int]] = (),
    more: Sequence[str] = (),
    fact: str = "",
) -> Told:
    """The sentence that must be read out by the earliest of `ends`.

    `body` is the whole of it; `more` are further sentences, as many as twenty seconds hold, the
    rest only in the long one, with the fact. What they add is not bound to time.
    """
    twenty, rest = body, [text for text in more if text]
    while rest and speaking_ms(f"{twenty} {rest[0]}") <= TWENTY_MS:
        twenty = f"{twenty} {rest.pop(0)}"
    until_ms = min(ends) - speaking_ms(twenty)
    return Told(
        subject=subject,
        line=line,
        twenty=twenty,
        long=" ".join([twenty, *rest, *([fact] if fact else [])]),
        until_ms=until_ms // SECOND_MS * SECOND_MS,
        claims=tuple(claims),
        times=tuple(times),
    )


def lasting(told: Told, now_ms: int, least_ms: int = LEAST_LIFE_MS) -> bool:
    """Whether there is time enough to begin reading it."""
    return told.until_ms - now_ms >= least_ms
