"""Makes pictures of the real window, on real plans, into a folder: to be looked at.

    python3 tasks.py shots FOLDER [WORD...]

WORDs choose the pictures whose names hold them all; without one all are made.
"""

import sys
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from PySide6.QtCore import QEventLoop, QKeyCombination, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from app.main import Board, application, board
from app.resources import sample_plan
from app.skies import skies_for
from app.theme import DARK, LIGHT
from core.plan.reader import read_plan
from core.session.desk import Desk
from core.times.clocks import RealClock, SimClock

MINUTE_MS = 60_000
SIZES = ((1280, 720), (1600, 1000), (3840, 2160))
ARRIVAL, CROWDED, SMALL = "petrel-arrival", "three-days", "first-steps"
LOW, LANDING = "petrel-low-orbit", "curlew-landing"
CROWDED_AIR_MIN = -4300
"""So long before that plan's moment its programme has been on the air for half an hour."""
NEXT_ITEM = QKeyCombination(Qt.KeyboardModifier.ControlModifier, Qt.Key.Key_Down)
HAND_OVER = QKeyCombination(Qt.KeyboardModifier.ShiftModifier, Qt.Key.Key_F2)
HANDED = (
    "sign in AB",
    "said",
    "promise back to the hall after the burn",
    "loss +3m per flight",
    "place",
    "break 3 off",
    "note line to the hall is noisy",
    "sign in CD",
)
LATER = QKeyCombination(Qt.KeyboardModifier.ShiftModifier, Qt.Key.Key_PageDown)
_EVENT = {
    ARRIVAL: "loss",
    CROWDED: "earthrise-thu",
    SMALL: "liftoff",
    LOW: "long-pass",
    LANDING: "entry",
}


@dataclass(frozen=True)
class Scene:
    """One picture: what is on the board, what has been entered, and what is typed and pressed."""

    name: str
    plan: str = ARRIVAL
    size: tuple[int, int] = (1600, 1000)
    light: bool = False
    simulated: bool = False
    ahead_min: float = 8
    """So long before the plan's moment."""
    entered: tuple[str, ...] = ()
    typed: str = ""
    keys: tuple[Qt.Key | QKeyCombination, ...] = ()
    later_min: float = 0
    """So much later than what was entered."""
    noticed: bool = False
    """The clock was stepped, and the plan's file has changed."""
    rate: float = 10
    stands: bool = True
    """How a simulated clock runs."""
    presenter: bool = False
    """The picture is of the presenter window."""
    mirrored: bool = False


def scenes() -> Iterator[Scene]:
    """Give all pictures."""
    for size in SIZES:
        for light in (False, True):
            for simulated in (False, True):
                for plan in (ARRIVAL, CROWDED):
                    words = (
                        f"{size[0]}x{size[1]}",
                        "light" if light else "dark",
                        "rehearsal" if simulated else "real",
                        plan,
                    )
                    yield Scene("-".join(words), plan, size, light, simulated)
    for size in ((1280, 720), (1600, 1000)):
        yield from special_scenes(size)
    for size in ((1280, 720), (1920, 1080), (3840, 2160)):
        yield from presenter_scenes(size)
    yield Scene("readme", simulated=True, ahead_min=10, rate=1, stands=False)


def special_scenes(size: tuple[int, int]) -> Iterator[Scene]:
    """Give the pictures of what happens at the desk."""
    late = ("loss +78s per flight",)
    told: dict[str, dict[str, object]] = {
        "typing": {"entered": late, "typed": "ignition +45s per flight"},
        "clash": {"typed": "school 6:30p"},
        "question": {"typed": "ignition 3:58p", "keys": (Qt.Key.Key_Return,)},
        "forced": {"typed": "school 6:30p", "keys": (Qt.Key.Key_Return,) * 2},
        "few": {"plan": SMALL, "ahead_min": -2},
        "noticed": {"noticed": True},
        "readings": {"typed": "ignition 4:58"},
        "unreadable": {"typed": "ignitoin 4:58p"},
        "changed": {"entered": late},
        "held": {"plan": SMALL, "entered": ("liftoff hold",), "later_min": 3},
        "out-of-sight": {"entered": (*late, "loss now"), "ahead_min": 0, "later_min": 16},
        "due": {"ahead_min": 0, "later_min": 4},
        "help": {"keys": (Qt.Key.Key_F1,)},
        "help-2": {"keys": (Qt.Key.Key_F1, Qt.Key.Key_F1)},
        "day": {"entered": (*late, "note line to the hall is noisy"), "keys": (Qt.Key.Key_F2,)},
        "handed-over": {"entered": HANDED, "later_min": 10},
        "handed-over-light": {"entered": HANDED, "later_min": 10, "light": True},
        "handed-over-2": {"entered": HANDED, "later_min": 10, "keys": (HAND_OVER,)},
        "signed-in": {"entered": HANDED[:2], "typed": "promise back to the hall after the burn"},
        "ahead": {"plan": CROWDED, "keys": (Qt.Key.Key_PageDown,) * 3},
        "back": {"plan": CROWDED, "ahead_min": -600, "keys": (Qt.Key.Key_PageUp,)},
        "even": {"keys": (Qt.Key.Key_F3,)},
        "selected": {"keys": (Qt.Key.Key_Down,) * 3},
        "closed": {"entered": ("voice closed",), "simulated": True},
        "burned": {"entered": ("burned per flight",)},
        "late-burn": {"typed": "ignition +2m"},
        "low-orbit": {"plan": LOW, "ahead_min": 206},
        "long-pass": {"plan": LOW, "ahead_min": -2, "typed": "call-end +4m"},
        "landing": {"plan": LANDING, "ahead_min": 10},
        "landing-unheard": {"plan": LANDING, "ahead_min": -5},
        "glow": {"plan": LANDING, "ahead_min": -12.8},
        "air-place": {"typed": "place"},
        "air-placed": {"entered": ("place",), "later_min": 1},
        "air-nudged": {"entered": ("place",), "keys": (NEXT_ITEM, NEXT_ITEM, LATER, LATER)},
        "air-even": {"entered": ("place",), "keys": (Qt.Key.Key_F3, NEXT_ITEM)},
        "air-in-a-break": {"entered": ("place", "break 3 now"), "later_min": 1},
        "air-break-broken": {
            "entered": ("place", "break 3 now"),
            "later_min": 1,
            "typed": "loss -5m per flight",
        },
        "air-clash": {"entered": ("place", "break 4 at 5:12p"), "later_min": 0.5},
        "air-away": {"entered": ("place", "air off until 5:10p"), "later_min": 1},
        "air-owed": {"entered": ("place", "said", "loss +78s per flight"), "later_min": 1},
        "air-facts": {"keys": (Qt.Key.Key_Down, Qt.Key.Key_Down, Qt.Key.Key_Down)},
        "air-ahead": {"entered": ("place",), "keys": (Qt.Key.Key_PageDown,) * 2},
        "air-grave": {"entered": ("loss now per flight", "grave"), "ahead_min": 0, "later_min": 40},
        "air-off": {"entered": ("place", "air off"), "later_min": 1},
        "air-asks": {"typed": "break 4 at 5:12p", "keys": (Qt.Key.Key_Return,)},
        "air-crowded": {"plan": CROWDED, "ahead_min": CROWDED_AIR_MIN, "entered": ("place",)},
        "air-crowded-break": {
            "plan": CROWDED,
            "ahead_min": CROWDED_AIR_MIN,
            "entered": ("place", "break 1 now"),
            "later_min": 1,
        },
    }
    for word, changes in told.items():
        scene = Scene(f"{size[0]}x{size[1]}-at-the-desk-{word}", size=size, **changes)  # type: ignore[arg-type]  # as the table has it
        yield scene
        if word in ("air-in-a-break", "air-owed", "air-grave", "air-off", "air-crowded-break"):
            yield from in_other_lights(scene)


def in_other_lights(scene: Scene) -> Iterator[Scene]:
    """Give the same in a bright studio and in a rehearsal, and both at once at the largest size."""
    yield replace(scene, name=f"{scene.name}-light", light=True)
    yield replace(scene, name=f"{scene.name}-rehearsal", simulated=True)
    largest = scene.name.replace(f"{scene.size[0]}x{scene.size[1]}", "3840x2160")
    if scene.size == (1600, 1000):
        yield replace(scene, name=largest, size=(3840, 2160))
        name = f"{largest}-light-rehearsal"
        yield replace(scene, name=name, size=(3840, 2160), light=True, simulated=True)


def presenter_scenes(size: tuple[int, int]) -> Iterator[Scene]:
    """Give the pictures of the presenter window."""
    late = ("loss +78s per flight",)
    told: dict[str, dict[str, object]] = {
        "ordinary": {"entered": late},
        "mirrored": {"entered": late, "mirrored": True},
        "rehearsal": {"entered": late, "simulated": True},
        "break": {"entered": (*late, "break-3 now"), "later_min": 1},
        "gap": {"entered": (*late, "loss now"), "ahead_min": 0, "later_min": 3},
        "returns": {"entered": (*late, "loss now"), "ahead_min": 0, "later_min": 20},
        "grave": {"entered": ("loss now per flight", "grave", ""), "ahead_min": 0,
                  "later_min": 60},
        "held": {"plan": SMALL, "entered": ("liftoff hold",), "later_min": 3},
        "days": {"plan": CROWDED, "ahead_min": 3000},
        "owed": {"entered": ("said", *late), "later_min": 1},
        "away": {"entered": ("air off",), "later_min": 1},
        "crowded": {"plan": CROWDED, "ahead_min": CROWDED_AIR_MIN},
        "crowded-break": {
            "plan": CROWDED,
            "ahead_min": CROWDED_AIR_MIN,
            "entered": ("break 1 now",),
            "later_min": 1,
        },
        "landing": {"plan": LANDING, "ahead_min": 10},
    }  # fmt: skip
    for word, changes in told.items():
        name = f"{size[0]}x{size[1]}-presenter-{word}"
        scene = Scene(name, size=size, presenter=True, **changes)  # type: ignore[arg-type]  # likewise
        yield scene
        if word in ("break", "grave", "owed", "crowded-break"):
            yield replace(scene, name=f"{name}-mirrored-rehearsal", mirrored=True, simulated=True)


def press(line: QWidget, key: Qt.Key | QKeyCombination) -> None:
    """Press a key, with what is held."""
    if isinstance(key, QKeyCombination):
        QTest.keyClick(line, key.key(), key.keyboardModifiers())
    else:
        QTest.keyClick(line, key)


def shoot(scene: Scene, folder: Path) -> Path:
    """Make one picture; gives its file."""
    made, desk, hand = _opened(scene)
    window = made.window
    line = window.bar.line
    for text in scene.entered:
        QTest.keyClicks(line, text)
        QTest.keyClick(line, Qt.Key.Key_Return)
        if line.text():  # it asks for Enter once more
            QTest.keyClick(line, Qt.Key.Key_Return)
    hand.now_ms += round(scene.later_min * MINUTE_MS)
    if isinstance(desk.clock, SimClock):
        desk.clock.jump(hand.now_ms)
    if scene.noticed:
        desk.clock_stepped(-3000, False, hand.now_ms)
        plan = read_plan(sample_plan(scene.plan))
        desk.plan_on_disk(replace(plan, events=plan.events[:-1]), hand.now_ms)
    made.ticker.again()
    QTest.keyClicks(line, scene.typed)
    for key in scene.keys:
        press(line, key)
    for _ in range(3):
        QApplication.processEvents()
    path = folder / f"{scene.name}.png"
    pictured = made.stage.window if scene.presenter else window
    if scene.presenter:
        made.stage.window.resize(*scene.size)
        made.stage.window.mirror(on=scene.mirrored)
    pictured.grab().save(str(path))
    made.ticker.stop()
    window.close()
    window.deleteLater()
    return path


@dataclass
class _Hand:
    """The time of a clock that goes on only when it is told to."""

    now_ms: int

    def now_ns(self) -> int:
        return self.now_ms * 1_000_000


def _opened(scene: Scene) -> tuple[Board, Desk, _Hand]:
    plan = read_plan(sample_plan(scene.plan))
    hand = _Hand(0)
    clock: RealClock | SimClock = RealClock(hand.now_ns, hand.now_ns, hand.now_ns)
    moment_ms = next(
        card.at_ms
        for card in Desk(plan, clock, skies_for=skies_for).view(0).cards
        if card.id == _EVENT[scene.plan] and card.at_ms is not None
    )
    hand.now_ms = moment_ms - round(scene.ahead_min * MINUTE_MS)
    clock = RealClock(hand.now_ns, hand.now_ns, hand.now_ns)
    if scene.simulated:
        clock = SimClock(hand.now_ms, rate=scene.rate, paused=scene.stands)
    desk = Desk(plan, clock, skies_for=skies_for)
    made = board(desk, clock, LIGHT if scene.light else DARK)
    made.window.setWindowFlag(Qt.WindowType.FramelessWindowHint)
    made.window.resize(*scene.size)
    loop = QEventLoop()
    made.window.strip_added.connect(loop.quit)
    made.start()
    loop.exec()
    return made, desk, hand


def main(arguments: list[str]) -> int:
    """Make the pictures that were asked for."""
    if not arguments:
        print(__doc__)
        return 2
    folder = Path(arguments[0])
    folder.mkdir(parents=True, exist_ok=True)
    application()
    for scene in scenes():
        if all(word in scene.name for word in arguments[1:]):
            print(shoot(scene, folder))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
