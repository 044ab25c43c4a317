"""The key that opens the plan in the builder."""

from pathlib import Path

from pytestqt.qtbot import QtBot

from app.building import Building
from app.desk.keys import Command


def test_the_key_opens_the_builder_on_the_plans_file(qtbot: QtBot, tmp_path: Path) -> None:
    del qtbot
    path = tmp_path / "plan.toml"
    path.touch()
    started: list[tuple[str, Path]] = []
    said: list[str] = []
    building = Building(path, lambda command, file: started.append((command, file)))
    building.said.connect(said.append)
    building.commands()[Command.BUILD]()
    assert started == [("build", path)]
    assert "offered here" in said[0]
    path.unlink()
    building.commands()[Command.BUILD]()
    assert len(started) == 1
    assert "not there any more" in said[1]
