"""What holds for every test with windows: nothing is left running or open behind it.

A timer left running fails in some *later* test, where nobody looks for it; so each test answers
for its own.
"""

import gc
import weakref
from collections.abc import Iterator
from typing import Any

import pytest
import shiboken6
from PySide6.QtCore import QCoreApplication, QEvent, QObject, QThread, QTimer
from PySide6.QtWidgets import QApplication


@pytest.fixture(autouse=True)
def _nothing_left(
    request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch
) -> Iterator[None]:
    """Fail a test after which a timer or a thread still runs, or a window is still there."""
    if "qapp" not in request.fixturenames:
        yield
        return
    started = _Started(monkeypatch)
    windows = set(_windows())
    yield
    _flush()
    if started.running() or set(_windows()) - windows:
        gc.collect()  # what only a circle kept alive is no leak
        _flush()
    left = started.running() + [text for key, text in _windows().items() if key not in windows]
    assert not left, f"left behind by this test: {left}"


class _Started:
    """Notes which timers and threads a test starts."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self._seen: list[weakref.ref[QObject]] = []
        for kind in (QTimer, QThread):
            monkeypatch.setattr(kind, "start", self._noting(kind.start))

    def _noting(self, start: Any) -> Any:
        def noted(this: QObject, *arguments: Any, **named: Any) -> None:
            self._seen.append(weakref.ref(this))
            start(this, *arguments, **named)

        return noted

    def running(self) -> list[str]:
        """Those that run now, as text."""
        alive = [ref() for ref in self._seen]
        return sorted({_called(one) for one in alive if one is not None and _runs(one)})


def _runs(one: QObject) -> bool:
    """Whether a timer or a thread is there and goes on."""
    if not shiboken6.isValid(one):
        return False
    if isinstance(one, QTimer):
        return one.isActive()
    return isinstance(one, QThread) and one.isRunning()


def _windows() -> dict[int, str]:
    """The top-level widgets there are, by their address, as text."""
    return {
        shiboken6.getCppPointer(widget)[0]: _called(widget)
        for widget in QApplication.topLevelWidgets()
        if shiboken6.isValid(widget)
    }


def _called(one: QObject) -> str:
    """A name by which a person finds the object."""
    return f"{type(one).__name__} {one.objectName() or hex(id(one))}"


def _flush() -> None:
    """Carry out deletions that were put off, and what they set off."""
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    QCoreApplication.processEvents()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
