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
    made = _Made(monkeypatch)
    windows = set(_windows())
    yield
    _flush()
    if made.running() or set(_windows()) - windows:
        gc.collect()  # what only a circle kept alive is no leak
        _flush()
    left = made.running() + [text for key, text in _windows().items() if key not in windows]
    assert not left, f"left behind by this test: {left}"


class _Made:
    """Notes which timers and threads a test makes.

    Their making, not their start: Qt would call a noted `start` with a signal's arguments.
    """

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self._seen: list[weakref.ref[QObject]] = []
        for kind in (QTimer, QThread):
            monkeypatch.setattr(kind, "__init__", self._noting(kind.__init__))

    def _noting(self, make: Any) -> Any:
        def noted(this: QObject, *arguments: Any, **named: Any) -> None:
            make(this, *arguments, **named)
            self._seen.append(weakref.ref(this))

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
