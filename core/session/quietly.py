"""The quiet lines of a session: the machine's clock, how it was opened, work going on."""

from core.board.meaning import step_words
from core.board.model import Said, Tone

_WORKING = Said("Working out contacts beyond tomorrow …", Tone.QUIET)
_STANDS_MS = 300_000
"""A quiet line stands so long."""


def state_of(trouble: str) -> str:
    """A store's trouble in a word or two, for the line at the top: 'not saved'."""
    return trouble.partition(":")[0]


def reason_of(trouble: str) -> tuple[Said, ...]:
    """Why a store does not keep what is entered, as a line that stands as long as that is so."""
    state, _, why = trouble.partition(": ")
    if not why:
        return ()
    words = f"{state.capitalize()}: {why}. The board goes on, and writes all as soon as it can"
    return (Said(words, Tone.CHANGE),)


class Quietly:
    """What is said quietly, each line for a while."""

    def __init__(self) -> None:
        self.working = False
        """Whether contacts far ahead are being worked out."""
        self._opened: tuple[int, Said] | None = None
        self._clock: tuple[int, Said] | None = None

    def opened(self, words: str, now_ms: int) -> None:
        """How the session was opened."""
        self._opened = now_ms + _STANDS_MS, Said(words, Tone.QUIET)

    def clock_stepped(self, by_ms: int, now_ms: int, *, slept: bool) -> None:
        """What the machine's clock did."""
        words = f"{step_words(by_ms, slept=slept)}; every countdown is right again"
        self._clock = now_ms + _STANDS_MS, Said(words, Tone.CHANGE)

    def lines(self, now_ms: int) -> tuple[Said, ...]:
        """All that still stands."""
        told = (each for each in (self._opened, self._clock) if each is not None)
        working = (_WORKING,) if self.working else ()
        return (*(said for until_ms, said in told if now_ms < until_ms), *working)
