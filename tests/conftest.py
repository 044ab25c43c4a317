"""What holds for every test: no screen, drawn examples that repeat, and a silent log."""

import logging
import os
from collections.abc import Iterator
from itertools import count
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

# Before anything loads Qt: the same pixels on every machine, and no window on anybody's screen.
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
os.environ.setdefault("QT_SCALE_FACTOR", "1")
os.environ.setdefault("QT_FONT_DPI", "96")

# `quick` is what everybody runs; `HYPOTHESIS_PROFILE=search` looks for new examples.
settings.register_profile(
    "quick",
    derandomize=True,
    max_examples=60,
    deadline=None,  # a loaded machine is slow, not wrong
    suppress_health_check=[HealthCheck.too_slow],
    database=None,
)
settings.register_profile(
    "search", settings.get_profile("quick"), derandomize=False, max_examples=2000
)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "quick"))


@pytest.fixture(scope="session")
def _homes(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """Give a folder for each test that wants one; none is made before it is written to."""
    folder = tmp_path_factory.mktemp("homes")
    return (folder / str(number) for number in count())


@pytest.fixture(autouse=True)
def _own_folders(monkeypatch: pytest.MonkeyPatch, _homes: Iterator[Path]) -> None:
    """Keep every test away from the sessions and settings of whoever runs it."""
    home = next(_homes)
    for name in ("XDG_DATA_HOME", "XDG_CONFIG_HOME", "XDG_STATE_HOME"):
        monkeypatch.setenv(name, str(home / name.lower()))


@pytest.fixture(autouse=True)
def _silent_log(caplog: pytest.LogCaptureFixture) -> Iterator[None]:
    """Fail a test in which something logged a warning or worse.

    A test that expects one checks `caplog` and then calls `caplog.clear()`.
    """
    yield
    loud = [
        f"{record.name}: {record.getMessage()}"
        for phase in ("setup", "call")
        for record in caplog.get_records(phase)
        if record.levelno >= logging.WARNING
    ]
    assert not loud, f"logged without the test expecting it: {loud}"
