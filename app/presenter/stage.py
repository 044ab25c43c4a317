"""Where the presenter window stands: on which screen, shown or hidden, mirrored or not."""

from collections.abc import Callable, Mapping

from PySide6.QtCore import QObject, Signal

from app.desk.keys import Command, key_text
from app.presenter.screens import Screens
from app.presenter.window import PresenterWindow
from core.board.model import View

_PLAIN = ""
"""In place of a screen's name: an ordinary window, beside the desk's."""


class Stage(QObject):
    """Carries out what the desk asks of the presenter window, and says in words what it did.

    It never puts the window over the desk's own screen: without another there is an ordinary
    window. A screen once chosen is kept while the program runs; unplugged, the window is hidden
    until a screen of that name is there again. `wanted` is the one it was on in earlier days: the
    first choice, if it is there.
    """

    said = Signal(str)
    """A line for the desk."""
    placed = Signal(str)
    """The name of the screen that the window was put on."""

    def __init__(
        self,
        screens: Screens,
        desk_screen: Callable[[], str],
        window: PresenterWindow,
        wanted: str = "",
    ) -> None:
        super().__init__()
        self.window = window
        self._screens = screens
        self._desk_screen = desk_screen
        self._chosen: str | None = None
        self._wanted = wanted
        self._on = False
        screens.listen(self._came, self._went)
        window.closed.connect(self._closed)

    def commands(self) -> Mapping[Command, Callable[[], object]]:
        """Give what each of its keys does."""
        return {
            Command.PRESENTER: self.turn_shown,
            Command.NEXT_SCREEN: self.next_screen,
            Command.MIRRORED: self.turn_mirrored,
        }

    def show_view(self, view: View) -> None:
        """Show another moment."""
        self.window.show_view(view.presenter, view.rehearsal)

    def turn_shown(self) -> None:
        """Show it where it was last, or hide it."""
        if self._on:
            self._on = False
            self.window.hide()
            self.said.emit("Presenter window: hidden.")
        else:
            self._show()

    def next_screen(self) -> None:
        """Go to the next of the other screens, after the last to an ordinary window."""
        if self._on:
            places = self._places()
            here = places.index(self._chosen) if self._chosen in places else -1
            self._chosen = places[(here + 1) % len(places)]
        self._show()

    def turn_mirrored(self) -> None:
        """Change left and right over, for prompter glass; or back."""
        self.window.mirror(on=not self.window.mirrored)
        self.said.emit(f"Presenter window: {'mirrored' if self.window.mirrored else 'as usual'}.")

    def end(self) -> None:
        """Take the window away for good."""
        self._on = False
        self.window.hide()
        self.window.deleteLater()

    def _places(self) -> tuple[str, ...]:
        """Give where it may stand: every screen but the desk's, then an ordinary window."""
        desk = self._desk_screen()
        return (*(name for name in self._screens.names() if name != desk), _PLAIN)

    def _show(self) -> None:
        if self._chosen in {None, self._desk_screen()}:
            places = self._places()
            self._chosen = self._wanted if self._wanted in places[:-1] else places[0]
        self._on = True
        self._put()

    def _put(self) -> None:
        chosen = self._chosen or _PLAIN
        screen = self._screens.screen(chosen)
        if chosen == _PLAIN:
            self.window.show_plain(self._screens.screen(self._desk_screen()))
            self.said.emit("Presenter window: an ordinary window on this screen.")
        elif screen is None:
            self.window.hide()
            self.said.emit(f"Presenter window: waits for the screen {chosen}.")
        else:
            self.window.show_full(screen)
            self.placed.emit(chosen)
            self.said.emit(f"Presenter window: on the screen {self._screens.words(chosen)}.")

    def _went(self, name: str) -> None:
        if self._on and name == self._chosen:
            self.window.hide()
            self.said.emit(
                f"The screen {name} is gone. The presenter window is hidden until it is back; "
                f"{key_text(Command.NEXT_SCREEN)} puts it elsewhere."
            )

    def _came(self, name: str) -> None:
        if not self._on:
            return
        if name == self._chosen:
            self._put()
        elif self._chosen == _PLAIN:
            words = self._screens.words(name)
            key = key_text(Command.NEXT_SCREEN)
            self.said.emit(f"There is a screen {words}. {key} puts the presenter window on it.")

    def _closed(self) -> None:
        if self._on:
            self._on = False
            self.said.emit(f"Presenter window: closed. {key_text(Command.PRESENTER)} shows it.")
