"""Who puts metric and customary side by side: a units library, fetched when it is first needed."""

from threading import Thread

from core.saying.units import Convert, has_measure, side_by_side


class Units:
    """Texts with the other system's figures in brackets; as they are until the library is there.

    The library takes half a second to come, so a window lets it come in a thread of its own, and
    only after its first paint (`begin`); a command waits for it (`at_once`). A text without a
    measure never asks for it, and before `begin` none is looked at.
    """

    def __init__(self, *, at_once: bool = False) -> None:
        self._at_once = at_once
        self._thread: Thread | None = None
        self._may = at_once
        self._convert: Convert | None = None
        self._known: dict[tuple[str, bool], str] = {}

    def begin(self) -> None:
        """From now on the library may be fetched."""
        self._may = True

    def __call__(self, text: str, *, american: bool) -> str:
        """The text as it is shown; the same text is worked out once."""
        if not self._may:
            return text
        known = self._known.get((text, american))
        if known is not None:
            return known
        if not has_measure(text):
            made = text
        elif (convert := self._ready()) is not None:
            made = side_by_side(text, convert, american=american)
        else:
            return text
        self._known[text, american] = made
        return made

    def wait(self) -> None:
        """Wait until the library that is being fetched is there."""
        if self._thread is not None:
            self._thread.join()

    def _ready(self) -> Convert | None:
        if self._convert is None and self._at_once:
            self._fetch()
        elif self._may and self._thread is None:
            self._thread = Thread(target=self._fetch, name="units", daemon=True)
            self._thread.start()
        return self._convert

    def _fetch(self) -> None:
        self._convert = converter()


def converter() -> Convert:
    """The library's arithmetic; half a second the first time."""
    # Late, and only here: the library and the reading of its units take half a second, which the
    # first frame and a plan without measures need not wait for.
    from pint import UnitRegistry  # noqa: PLC0415

    registry: UnitRegistry[float] = UnitRegistry()

    def convert(value: float, unit: str, other: str) -> float:
        return float(registry.convert(value, unit, other))

    return convert
