"""The wheel holds one package, with the program, its font and its sample plans inside."""

import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from app import __version__

ROOT = Path(__file__).resolve().parents[2]
FIND = """
import sys
import limbwatch
sys.argv = ["limbwatch", "--version"]
try:
    limbwatch.main()
except SystemExit:
    pass
from app import resources
print(resources.asset("fonts/IBMPlexSans.ttf"))
print(*(path.name for path in resources.sample_plans()))
"""


@pytest.fixture(scope="module")
def unpacked(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel of this checkout, unpacked as an installer would."""
    folder = tmp_path_factory.mktemp("wheel")
    build = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder)]
    subprocess.run(build, cwd=ROOT, check=True, capture_output=True)
    (wheel,) = folder.glob("*.whl")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(folder / "site")
    return folder / "site"


def test_nothing_but_limbwatch_is_laid_among_other_packages(unpacked: Path) -> None:
    names = {path.name for path in unpacked.iterdir()}
    assert names == {"limbwatch", f"limbwatch-{__version__}.dist-info"}


def test_every_file_of_the_checkout_that_ships_is_inside(unpacked: Path) -> None:
    for folder in ("app", "core", "assets", "sample_plans"):
        there = {path for path in (ROOT / folder).rglob("*") if path.is_file()}
        shipped = {path for path in there if path.suffix != ".pyc" and path.name != "launch.py"}
        for path in shipped:
            assert (unpacked / "limbwatch" / path.relative_to(ROOT)).is_file()


def test_the_installed_command_runs_anywhere_and_finds_what_it_ships_with(
    unpacked: Path, tmp_path: Path
) -> None:
    env = {**os.environ, "PYTHONPATH": str(unpacked)}
    run = [sys.executable, "-P", "-c", FIND]
    ran = subprocess.run(run, cwd=tmp_path, env=env, capture_output=True, text=True, check=True)
    version, font, plans = ran.stdout.splitlines()
    assert version == f"Limbwatch {__version__}"
    assert Path(font) == unpacked / "limbwatch" / "assets" / "fonts" / "IBMPlexSans.ttf"
    assert "petrel-arrival.toml" in plans.split()
