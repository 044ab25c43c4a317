"""The whole board with two screens side by side, as Qt has them when nothing is drawn."""

import json
import os
import subprocess
import sys
from pathlib import Path

_SCREENS = [
    {"name": "DESK", "x": 0, "y": 0, "width": 1600, "height": 1000, "dpr": 1, "logicalDpi": 96},
    {"name": "HALL", "x": 1600, "y": 0, "width": 1920, "height": 1080, "dpr": 1, "logicalDpi": 96},
]

_PROGRAM = """
import sys
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from app.main import application, board
from core.plan.reader import read_plan
from core.session.desk import Desk
from core.times.clocks import SimClock

app = application()
plan = read_plan(Path(sys.argv[1]))
clock = SimClock(plan.events[0].at_ms - 300_000, paused=True)
made = board(Desk(plan, clock), clock)
made.start()
window, presenter, line = made.window, made.stage.window, made.window.bar.line


def press(key, held=Qt.KeyboardModifier.NoModifier):
    QTest.keyClick(line, key, held)
    app.processEvents()


def told():
    at = presenter.geometry()
    print(presenter.isVisible(), presenter.isFullScreen(), presenter.screen().name(),
          (at.x(), at.y(), at.width(), at.height()), window.notices.accessibleName(), sep=" | ")


window.activateWindow()
app.processEvents()
told()
press(Qt.Key.Key_F12)
told()
print(any("Lift" in words.text for words in presenter.page().words), window.bar.line.hasFocus())
removed = next(screen for screen in app.screens() if screen.name() == "HALL")
app.screenRemoved.emit(removed)
told()
app.screenAdded.emit(removed)
told()
press(Qt.Key.Key_F12, Qt.KeyboardModifier.ShiftModifier)
told()
press(Qt.Key.Key_M, Qt.KeyboardModifier.ControlModifier)
print(presenter.mirrored)
window.close()
app.processEvents()
"""


def test_the_presenter_window_stands_on_the_other_screen(tmp_path: Path) -> None:
    screens = tmp_path / "screens.json"
    screens.write_text(json.dumps({"screens": _SCREENS}), encoding="utf-8")
    plan = tmp_path / "plan.toml"
    plan.write_text(
        'limbwatch = 1\ntitle = "Petrel 4"\nzones = ["America/Halifax"]\n\n'
        '[[event]]\nid = "liftoff"\nname = "Liftoff"\nat = 2031-05-14T16:00:00\n',
        encoding="utf-8",
    )
    root = Path(__file__).parents[3]
    ran = subprocess.run(
        [sys.executable, "-c", _PROGRAM, str(plan)],
        cwd=root,
        env={**os.environ, "QT_QPA_PLATFORM": f"offscreen:configfile={screens}",
             "QT_SCALE_FACTOR": "1", "PYTHONPATH": str(root)},
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )  # fmt: skip
    assert ran.returncode == 0, ran.stderr
    hidden, shown, inside, gone, back, plain, mirrored = ran.stdout.splitlines()
    assert hidden.startswith("False | ")
    hall = "(1600, 0, 1920, 1080) | Presenter window: on the screen HALL (1920 × 1080)."
    assert shown == f"True | True | HALL | {hall}"
    assert inside == "True True"
    assert gone.startswith("False | ")
    assert "The screen HALL is gone." in gone
    assert back == shown
    assert plain.startswith("True | False | DESK | ")
    assert plain.endswith("an ordinary window on this screen.")
    assert mirrored == "True"
