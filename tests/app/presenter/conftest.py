from collections.abc import Callable, Iterator

import pytest
from PySide6.QtWidgets import QApplication

from app.fonts import FILES, load_fonts
from app.presenter.window import PresenterWindow
from app.resources import asset
from app.theme import DARK, Palette
from core.board.model import RehearsalBadge
from core.board.programme import PresenterView

Shown = Callable[..., PresenterWindow]


@pytest.fixture
def shown(qapp: QApplication) -> Iterator[Shown]:
    """Opens a presenter window of a size with a view on it; all are closed afterwards."""
    load_fonts(asset(name) for name in FILES)
    made: list[PresenterWindow] = []

    def show(
        view: PresenterView,
        size: tuple[int, int] = (1280, 720),
        *,
        badge: RehearsalBadge | None = None,
        palette: Palette = DARK,
    ) -> PresenterWindow:
        window = PresenterWindow(palette)
        window.resize(*size)
        window.show_view(view, badge)
        window.show()
        qapp.processEvents()
        made.append(window)
        return window

    yield show
    for window in made:
        window.hide()
        window.deleteLater()
