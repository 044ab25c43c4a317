"""The screens of the machine by name, and when one comes or goes."""

from collections.abc import Callable
from typing import Protocol

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QGuiApplication, QScreen

Heard = Callable[[str], None]


class Screens(Protocol):
    """What the presenter window needs to know of screens. Names stay with a screen's plug."""

    def names(self) -> tuple[str, ...]:
        """Give the names of those there are, in the order the machine has them."""

    def screen(self, name: str) -> QScreen | None:
        """Give the screen of that name, if it is there."""

    def words(self, name: str) -> str:
        """Give its name with its size."""

    def listen(self, came: Heard, went: Heard) -> None:
        """Call with the name of a screen that comes, and of one that goes."""


class QtScreens(QObject):
    """The screens as Qt has them. Two of the same name are told apart by a number."""

    _came = Signal(str)
    _went = Signal(str)

    def __init__(self, app: QGuiApplication) -> None:
        super().__init__()
        self._app = app
        self._known = self._named()
        app.screenAdded.connect(self._look)
        app.screenRemoved.connect(self._lost)

    def names(self) -> tuple[str, ...]:
        """Give the names of those there are."""
        return tuple(self._known)

    def screen(self, name: str) -> QScreen | None:
        """Give the screen of that name."""
        return self._known.get(name)

    def words(self, name: str) -> str:
        """Give 'HDMI-1 (1920 × 1080)'."""
        screen = self._known.get(name)
        if screen is None:
            return name
        size = screen.size() * screen.devicePixelRatio()
        return f"{name} ({size.width()} × {size.height()})"

    def name_of(self, screen: QScreen | None) -> str:
        """Give the name of a screen; empty for one that is not known."""
        return next((name for name, each in self._known.items() if each == screen), "")

    def listen(self, came: Heard, went: Heard) -> None:
        """Call with the name of a screen that comes, and of one that goes."""
        self._came.connect(came)
        self._went.connect(went)

    def _lost(self, screen: QScreen) -> None:
        """Take note at once: Qt moves what is on it to another screen right after this."""
        self._look(None, without=screen)

    def _look(self, _new: QScreen | None, without: QScreen | None = None) -> None:
        before, self._known = self._known, self._named(without)
        for name in before:
            if name not in self._known:
                self._went.emit(name)
        for name in self._known:
            if name not in before:
                self._came.emit(name)

    def _named(self, without: QScreen | None = None) -> dict[str, QScreen]:
        named: dict[str, QScreen] = {}
        for screen in self._app.screens():
            if screen == without:
                continue
            name = plain = screen.name() or "screen"
            number = 1
            while name in named:
                number += 1
                name = f"{plain}, {number}"
            named[name] = screen
        return named
