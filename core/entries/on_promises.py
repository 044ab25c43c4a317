"""The forms about promises to the audience: one that was made, one that was kept."""

from collections.abc import Sequence

from core.entries.airing import KeepPromise, Promise
from core.entries.context import Context
from core.entries.promised import Promised, open_promises
from core.entries.readings import Reading
from core.entries.words import shown, tokens
from core.errors import EntryProblem

_MOST = 4
"""More promises than these that the words may mean are no choice to be made in passing."""


def read_promise(text: str) -> Reading:
    """The reading of what follows 'promise'; EntryProblem where nothing does."""
    if not text:
        what = "What was promised?"
        raise EntryProblem(what, hint="Write promise and the words, as 'promise back to the hall'")
    return Reading(Promise(text), f"Promised to the audience: {shown(text)}")


def read_kept(words: str, context: Context) -> tuple[Reading, ...]:
    """Which promise was kept: the one that has these words, the oldest first where several do."""
    still = open_promises(context.aired.promises)
    if not still:
        raise EntryProblem("No promise is open", words, "To note one: promise and its words")
    meant = [each for each in still if _has(each, words)]
    if not meant:
        raise EntryProblem(f"No open promise has '{shown(words)}'", words, f"Open: {_all(still)}")
    if len(meant) > _MOST:
        what = f"{len(meant)} promises are open" if not words else f"{len(meant)} have these words"
        raise EntryProblem(what, words, f"Say which, by its words: {_all(meant)}")
    return tuple(
        Reading(
            KeepPromise(each.number, each.text),
            f"Promise kept: {shown(each.text)}",
            asks=_which(each, meant),
        )
        for each in meant
    )


def _which(taken: Promised, meant: Sequence[Promised]) -> tuple[str, ...]:
    """What Enter asks where the words are those of others too."""
    others = [each for each in meant if each is not taken]
    return (f"it takes '{shown(taken.text)}'; also meant: {_all(others)}",) if others else ()


def _has(promise: Promised, words: str) -> bool:
    """Whether each word begins one of the promise's."""
    has = tokens(promise.text)
    return all(any(each.startswith(word) for each in has) for word in tokens(words))


def _all(promises: Sequence[Promised]) -> str:
    more = f" and {len(promises) - _MOST} more" if len(promises) > _MOST else ""
    return "; ".join(shown(each.text) for each in promises[:_MOST]) + more
