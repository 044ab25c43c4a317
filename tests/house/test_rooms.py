"""Each rule of direction is seen to fail when it is broken, on a small tree of the same shape."""

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
ROOMS = (
    *("rehearsal", "session", "board", "schedule", "signal", "air", "saying"),
    *("entries", "plan", "times", "errors"),
)
APP_STANDS = "The app stands on core, never the other way"
ROOMS_LIE = "The rooms of core lie one upon the other"
NO_SCREEN = "core knows no screen"
NUMPY = "numpy stays in core.signal and app.strip"
PYQTGRAPH = "pyqtgraph stays in app.strip"
UNITS = "The units library stays in app.units"
ENGINE = "The schedule engine needs the standard library only"


def house(folder: Path) -> Path:
    """A tree with every room and nothing in them, under the real rules."""
    (folder / "pyproject.toml").write_bytes((ROOT / "pyproject.toml").read_bytes())
    packages = ["app", "app/desk", "app/strip", "core", *(f"core/{room}" for room in ROOMS)]
    for package in packages:
        (folder / package).mkdir()
        (folder / package / "__init__.py").touch()
    return folder


def write(folder: Path, module: str, line: str) -> None:
    (folder / module).write_text(f"{line}\n", encoding="utf-8")


def broken(folder: Path) -> set[str]:
    """The names of the contracts that do not hold."""
    lint = Path(sys.executable).with_name("lint-imports")
    ran = subprocess.run(
        [lint, "--no-logo", "--no-cache"],
        cwd=folder,
        env={"COLUMNS": "300"},
        capture_output=True,
        text=True,
        check=False,
    )
    lines = ran.stdout.splitlines()
    names = {line.removesuffix(" BROKEN") for line in lines if line.endswith(" BROKEN")}
    assert bool(names) == bool(ran.returncode), ran.stdout
    return names


def test_the_rules_hold_where_each_room_keeps_to_them(tmp_path: Path) -> None:
    folder = house(tmp_path)
    write(folder, "app/desk/window.py", "import PySide6.QtWidgets, app.strip.item, core.board")
    write(folder, "app/strip/item.py", "import numpy, pyqtgraph")
    write(folder, "app/units.py", "import pint, core.saying")
    write(folder, "core/signal/search.py", "import numpy, core.entries, core.times")
    write(folder, "core/schedule/network.py", "import heapq, core.entries")
    write(folder, "core/entries/line.py", "import dateutil, core.plan")
    write(folder, "core/board/view.py", "import core.schedule, core.signal, core.air, core.saying")
    assert broken(folder) == set()


@pytest.mark.parametrize(
    ("module", "line", "rule"),
    [
        ("core/board/view.py", "import app.desk", APP_STANDS),
        ("core/times/zones.py", "import core.plan", ROOMS_LIE),
        ("core/session/store.py", "import core.rehearsal", ROOMS_LIE),
        ("core/schedule/network.py", "import core.signal", ROOMS_LIE),
        ("core/signal/search.py", "import core.schedule", ROOMS_LIE),
        ("core/air/fit.py", "import core.saying", ROOMS_LIE),
        ("core/newcomer.py", "", ROOMS_LIE),
        ("core/board/view.py", "import PySide6.QtGui", NO_SCREEN),
        ("core/board/view.py", "import pyqtgraph", NO_SCREEN),
        ("core/air/fit.py", "import numpy", NUMPY),
        ("app/desk/window.py", "import numpy.linalg", NUMPY),
        ("app/desk/window.py", "import pyqtgraph", PYQTGRAPH),
        ("core/saying/units.py", "import pint", UNITS),
        ("app/desk/window.py", "import pint", UNITS),
        ("core/schedule/network.py", "import numpy", ENGINE),
        ("core/schedule/network.py", "import networkx", ENGINE),
    ],
)
def test_a_rule_that_is_broken_is_reported(
    tmp_path: Path, module: str, line: str, rule: str
) -> None:
    folder = house(tmp_path)
    write(folder, module, line)
    assert any(name.startswith(rule) for name in broken(folder))


def test_a_type_only_import_counts_as_an_import(tmp_path: Path) -> None:
    folder = house(tmp_path)
    lines = "from typing import TYPE_CHECKING\nif TYPE_CHECKING:\n    import app.desk"
    write(folder, "core/board/view.py", lines)
    assert broken(folder) == {APP_STANDS}
