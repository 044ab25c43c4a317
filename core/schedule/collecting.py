"""Building without the collector of cycles: it would walk all that is half built, many times."""

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def uncollected() -> Iterator[None]:
    """Keep the collector waiting. Nothing that is built meanwhile could be collected anyway."""
    enabled = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if enabled:
            gc.enable()
