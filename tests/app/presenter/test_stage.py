"""On which screen it stands: chosen by key, kept while the program runs, through unplugging."""

from collections.abc import Iterator
from dataclasses import dataclass, field

import pytest
from PySide6.QtGui import QGuiApplication, QScreen
from PySide6.QtWidgets import QApplication

from app.presenter.screens import Heard
from app.presenter.stage import Stage
from app.presenter.window import PresenterWindow
from tests.app.presenter.scenes import ORDINARY


@dataclass
class FakeScreens:
    """Screens by name that are plugged and unplugged by a test; all are really the first one."""

    plugged: list[str]
    came: list[Heard] = field(default_factory=list)
    went: list[Heard] = field(default_factory=list)

    def names(self) -> tuple[str, ...]:
        return tuple(self.plugged)

    def screen(self, name: str) -> QScreen | None:
        return QGuiApplication.primaryScreen() if name in self.plugged else None

    def words(self, name: str) -> str:
        return f"{name} (1920 × 1080)"

    def listen(self, came: Heard, went: Heard) -> None:
        self.came.append(came)
        self.went.append(went)

    def plug(self, name: str) -> None:
        self.plugged.append(name)
        for heard in self.came:
            heard(name)

    def unplug(self, name: str) -> None:
        self.plugged.remove(name)
        for heard in self.went:
            heard(name)


@dataclass
class Place:
    """A stage with its screens, and what it said."""

    stage: Stage
    screens: FakeScreens
    said: list[str]

    @property
    def window(self) -> PresenterWindow:
        return self.stage.window


@pytest.fixture
def place(qapp: QApplication) -> Iterator[Place]:
    del qapp
    screens = FakeScreens(["DESK", "HALL", "GLASS"])
    window = PresenterWindow()
    window.show_view(ORDINARY, None)
    stage = Stage(screens, lambda: "DESK", window)
    said: list[str] = []
    stage.said.connect(said.append)
    yield Place(stage, screens, said)
    stage.end()


def test_shown_it_covers_the_first_other_screen_and_says_which(place: Place) -> None:
    place.stage.turn_shown()
    assert place.window.isFullScreen()
    assert place.said == ["Presenter window: on the screen HALL (1920 × 1080)."]
    place.stage.turn_shown()
    assert not place.window.isVisible()


def test_it_goes_from_screen_to_screen_and_then_into_a_window(place: Place) -> None:
    place.stage.turn_shown()
    for _ in range(3):
        place.stage.next_screen()
    assert [said.removeprefix("Presenter window: ") for said in place.said] == [
        "on the screen HALL (1920 × 1080).",
        "on the screen GLASS (1920 × 1080).",
        "an ordinary window on this screen.",
        "on the screen HALL (1920 × 1080).",
    ]


def test_in_an_ordinary_window_it_can_be_resized(place: Place) -> None:
    place.stage.turn_shown()
    place.stage.next_screen()
    place.stage.next_screen()
    assert place.window.isVisible()
    assert not place.window.isFullScreen()
    assert place.window.minimumSize() != place.window.maximumSize()


def test_hidden_and_shown_again_it_is_on_the_screen_it_was_on(place: Place) -> None:
    place.stage.turn_shown()
    place.stage.next_screen()
    place.stage.turn_shown()
    place.stage.turn_shown()
    assert place.said[-1] == "Presenter window: on the screen GLASS (1920 × 1080)."


@pytest.mark.parametrize(
    ("wanted", "there"), [("GLASS", "GLASS"), ("ELSEWHERE", "HALL"), ("DESK", "HALL"), ("", "HALL")]
)
@pytest.mark.usefixtures("qapp")
def test_the_screen_of_earlier_days_is_the_first_choice_if_it_is_there(
    wanted: str, there: str
) -> None:
    window = PresenterWindow()
    window.show_view(ORDINARY, None)
    stage = Stage(FakeScreens(["DESK", "HALL", "GLASS"]), lambda: "DESK", window, wanted)
    placed: list[str] = []
    stage.placed.connect(placed.append)
    stage.turn_shown()
    stage.next_screen()
    stage.end()
    assert placed[0] == there


def test_the_first_key_for_the_next_screen_shows_it(place: Place) -> None:
    place.stage.next_screen()
    assert place.window.isFullScreen()
    assert "HALL" in place.said[-1]


def test_unplugged_it_hides_and_says_so_and_never_covers_the_desk(place: Place) -> None:
    place.stage.turn_shown()
    place.screens.unplug("HALL")
    assert not place.window.isVisible()
    assert place.said[-1] == (
        "The screen HALL is gone. The presenter window is hidden until it is back; "
        "Shift+F12 puts it elsewhere."
    )


def test_it_comes_back_full_screen_with_its_screen(place: Place) -> None:
    place.stage.turn_shown()
    place.screens.unplug("HALL")
    place.screens.plug("OTHER")
    assert not place.window.isVisible()
    place.screens.plug("HALL")
    assert place.window.isFullScreen()
    assert place.said[-1] == "Presenter window: on the screen HALL (1920 × 1080)."


def test_another_screen_that_goes_changes_nothing(place: Place) -> None:
    place.stage.turn_shown()
    place.screens.unplug("GLASS")
    assert place.window.isVisible()
    assert len(place.said) == 1


def test_while_its_screen_is_gone_it_can_be_put_elsewhere(place: Place) -> None:
    place.stage.turn_shown()
    place.screens.unplug("HALL")
    place.stage.next_screen()
    assert place.window.isFullScreen()
    assert "GLASS" in place.said[-1]
    place.screens.plug("HALL")
    assert len(place.said) == 3


def test_hidden_by_key_it_does_not_come_back_by_itself(place: Place) -> None:
    place.stage.turn_shown()
    place.screens.unplug("HALL")
    place.stage.turn_shown()
    place.screens.plug("HALL")
    assert not place.window.isVisible()
    assert place.said[-1] == "Presenter window: hidden."


def test_shown_while_its_screen_is_gone_it_waits(place: Place) -> None:
    place.stage.turn_shown()
    place.stage.turn_shown()
    place.screens.unplug("HALL")
    place.stage.turn_shown()
    assert not place.window.isVisible()
    assert place.said[-1] == "Presenter window: waits for the screen HALL."


def test_with_one_screen_it_is_an_ordinary_window_and_another_is_offered(place: Place) -> None:
    place.screens.plugged[:] = ["DESK"]
    place.stage.turn_shown()
    assert place.window.isVisible()
    assert not place.window.isFullScreen()
    place.stage.next_screen()
    assert not place.window.isFullScreen()
    place.screens.plug("HALL")
    assert not place.window.isFullScreen()
    assert place.said[-1] == (
        "There is a screen HALL (1920 × 1080). Shift+F12 puts the presenter window on it."
    )
    place.stage.next_screen()
    assert place.window.isFullScreen()


def test_mirrored_stays_while_it_goes_about(place: Place) -> None:
    place.stage.turn_mirrored()
    assert place.said == ["Presenter window: mirrored."]
    place.stage.turn_shown()
    place.stage.next_screen()
    assert place.window.mirrored
    place.stage.turn_mirrored()
    assert place.said[-1] == "Presenter window: as usual."
    assert not place.window.mirrored


def test_closed_as_windows_are_it_can_be_shown_again(place: Place) -> None:
    place.stage.turn_shown()
    place.window.close()
    assert not place.window.isVisible()
    assert place.said[-1] == "Presenter window: closed. F12 shows it."
    place.stage.turn_shown()
    assert place.window.isVisible()
