"""A rehearsal with two screens side by side: the desk does not see the trainer's."""

import json
import os
import subprocess
import sys
from pathlib import Path

from app.resources import sample_plan

_SCREENS = [
    {"name": "DESK", "x": 0, "y": 0, "width": 1600, "height": 1000, "dpr": 1, "logicalDpi": 96},
    {"name": "ROOM", "x": 1600, "y": 0, "width": 1280, "height": 720, "dpr": 1, "logicalDpi": 96},
]

_PROGRAM = """
import sys
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from app.main import application
from app.rehearsal.opening import windows
from app.settings import SettingsFile
from core.plan.reader import read_plan
from core.rehearsal.desk import OpenDesk
from core.rehearsal.live import LiveRun
from core.rehearsal.model import Surprises
from core.times.clocks import SimClock

app = application()
plan = read_plan(Path(sys.argv[1]))
begin_ms = plan.events[0].at_ms - 300_000
clock = SimClock(begin_ms, paused=True)
desk = OpenDesk(plan, clock)
run = LiveRun(plan, Surprises("A day", begin_ms, begin_ms + 600_000), desk, clock)
made = windows(run, desk, clock, SettingsFile(Path(sys.argv[2])), lambda run: "")
made.start()
app.processEvents()
QTest.keyClick(made.board.window.bar.line, Qt.Key.Key_F12)
app.processEvents()
for window in (made.board.window, made.trainer, made.board.stage.window):
    at = window.geometry()
    print(window.screen().name(), window.isVisible(), (at.x(), at.y(), at.width(), at.height()))
made.board.window.closing.end_session()
made.board.window.close()
"""


def test_the_trainers_window_is_on_another_screen_than_the_desks(tmp_path: Path) -> None:
    screens = tmp_path / "screens.json"
    screens.write_text(json.dumps({"synchronousWindowSystemEvents": True, "screens": _SCREENS}))
    environment = {
        **os.environ,
        "QT_QPA_PLATFORM": f"offscreen:configfile={screens}",
        "XDG_CONFIG_HOME": str(tmp_path),
    }
    command = [sys.executable, "-c", _PROGRAM, str(sample_plan("first-steps"))]
    ran = subprocess.run(
        [*command, str(tmp_path / "settings.toml")],
        env=environment,
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    assert ran.returncode == 0, ran.stderr
    desk, trainer, presenter = (line.split(" ", 2) for line in ran.stdout.splitlines())
    assert desk[:2] == ["DESK", "True"]
    assert trainer[:2] == ["ROOM", "True"]
    left, top, wide, high = map(int, trainer[2].strip("()").split(", "))
    assert left >= 1600
    assert left + wide <= 1600 + 1280
    assert 0 <= top <= top + high <= 720
    assert presenter[1] == "True"
