"""How the commands with windows begin."""

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def loading_windows() -> Iterator[None]:
    """While windows are loaded and run: what draws must be imported within.

    The garbage collector rests until all is painted (`app.main.calm`): nothing made meanwhile is
    garbage.
    """
    gc.disable()
    # Late: it loads Qt, which only commands with windows may.
    from app import features  # noqa: PLC0415

    features.turn_off()
    try:
        yield
    finally:
        gc.enable()
