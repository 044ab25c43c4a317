"""The command line: what is asked of it wrongly, and what it is run in."""

import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from app.cli import main

_ROOT = Path(__file__).parents[2]
_FIRST_STEPS = _ROOT / "sample_plans" / "first-steps.toml"
_ARRIVAL = _ROOT / "sample_plans" / "petrel-arrival.toml"
_NOW = ("--now", "2031-06-07T09:00:00")

Shell = Callable[..., subprocess.CompletedProcess[bytes]]


@pytest.fixture
def shell(tmp_path: Path) -> Shell:
    """Runs the program itself, away from the checkout, as a terminal would."""

    def run(*arguments: object, **environment: str) -> subprocess.CompletedProcess[bytes]:
        known = {**os.environ, "PYTHONPATH": str(_ROOT), **environment}
        words = [sys.executable, "-m", "app", *map(str, arguments)]
        return subprocess.run(words, capture_output=True, cwd=tmp_path, env=known, check=False)

    return run


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["--now", "nonsense"], "--now: 'nonsense' is no date and time. Write it like 2031"),
        (["--now", ""], "--now: '' is no date and time"),
        (["--now", "2031-13-01T00:00:00"], "a day or time that does not exist"),
        (["--now", "0001-01-01T00:00:00Z"], "outside the years 1900 to 2199"),
        (["--now", "9999-12-31T23:59:59Z"], "outside the years 1900 to 2199"),
        (["--now", "2031-03-09T02:30:00"], "clocks skip it"),
        (["--enter", "liftoff soon"], "'liftoff soon': 'soon' is no time and no word"),
        (["--enter", "lifftoff +4m"], "The nearest is 'liftoff', Liftoff"),
        (["--enter", "+4m"], "No card is selected"),
        (["--enter", ""], "Nothing is typed"),
        (["--enter", "liftoff per nobody"], "Say 'per flight', 'per desk'"),
        (["--enter", "x" * 600], "A line has at most 500 characters"),
    ],
)
@pytest.mark.parametrize("command", ["times", "signal"])
def test_what_cannot_be_taken_is_said_in_a_line_and_gives_2(
    command: str, arguments: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main([command, str(_FIRST_STEPS), *_NOW, *arguments]) == 2
    out, err = capsys.readouterr()
    assert said in err
    assert out == ""
    assert err.count("\n") == 1


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["--lane", "voise"], "The plan has no lane 'voise'; it has voice"),
        (["--from", "soon"], "--from: 'soon' is no date and time"),
        (["--to", "soon"], "--to: 'soon' is no date and time"),
        (
            ["--from", "2031-06-07T12:00:00", "--to", "2031-06-07T11:00:00"],
            "--from is not before --to",
        ),
        (
            ["--from", "2031-06-07T12:00:00", "--to", "2031-06-07T12:00:00"],
            "--from is not before --to",
        ),
    ],
)
def test_a_part_of_the_signal_that_is_none_gives_2(
    arguments: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["signal", str(_FIRST_STEPS), *_NOW, *arguments]) == 2
    assert said in capsys.readouterr().err


@pytest.mark.parametrize(
    "arguments",
    [["times"], ["fly", "x.toml"], ["times", "x.toml", "--later"], ["board", "--rate", "0"]],
)
def test_a_command_line_that_cannot_be_read_gives_2(
    arguments: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as left:
        main(arguments)
    assert left.value.code == 2
    assert "limbwatch" in capsys.readouterr().err


def test_no_command_prints_what_there_is_and_gives_2(capsys: pytest.CaptureFixture[str]) -> None:
    assert main([]) == 2
    out = capsys.readouterr().out
    for command in ("board", "check", "times", "signal"):
        assert command in out
    assert "not for navigation, range safety or flight control" in " ".join(out.split())


@pytest.mark.parametrize("command", ["check", "times", "signal"])
@pytest.mark.parametrize("path", ["nowhere.toml", "nowhere/plan.toml", ".", ""])
def test_a_plan_that_is_not_there_is_said_and_gives_2(
    command: str,
    path: str,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main([command, path]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith(path or ".")


@pytest.mark.parametrize("command", ["check", "times", "signal"])
def test_every_problem_of_a_plan_is_told_with_its_place(
    command: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "bad.toml"
    path.write_text(
        'limbwatch = 1\ntitle = "t"\nzones = ["UTC"]\n'
        '[[event]]\nid = "liftoff"\nat = 2031-05-11T13:28:32\ngiv = "4s"\n'
        '[[event]]\nid = "orbit"\nafter = "liftof"\noffset = 90\n'
    )
    assert main([command, str(path)]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    lines = err.splitlines()
    assert [line.removeprefix(f"{path}:").split(": ")[0] for line in lines] == [
        "7:1",
        "10:9",
        "11:10",
    ]
    for line, said in zip(lines, ("'give'", "'liftoff'", '"90s"'), strict=True):
        assert said in line


def test_the_commands_load_no_qt_and_a_plan_may_lie_in_any_folder(tmp_path: Path) -> None:
    program = (
        "import sys\nfrom app.cli import main\n"
        f"for command in ('check', 'times', 'signal'): main([command, {str(_ARRIVAL)!r}])\n"
        "loaded = {name.partition('.')[0] for name in sys.modules}\n"
        "sys.exit(' '.join(loaded & {'PySide6', 'shiboken6', 'pyqtgraph'}) or 0)\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", program],
        capture_output=True,
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": str(_ROOT)},
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, b"")


def test_a_reader_that_goes_away_ends_it_quietly(tmp_path: Path) -> None:
    for command in ("times", "signal"):
        with subprocess.Popen(
            [sys.executable, "-m", "app", command, str(_ARRIVAL), "--json"],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            cwd=tmp_path,
            env={**os.environ, "PYTHONPATH": str(_ROOT)},
        ) as running:
            assert running.stdout is not None
            assert running.stderr is not None
            running.stdout.close()
            assert running.stderr.read() == b""
        assert running.returncode == 0


def test_a_terminal_that_lacks_a_sign_gets_another_one(shell: Shell, tmp_path: Path) -> None:
    path = tmp_path / "été.toml"
    path.write_text(
        'limbwatch = 1\ntitle = "Été → hiver"\nzones = ["UTC"]\n'
        '[[event]]\nid = "départ"\nname = "Départ ±"\nat = 2031-05-11T13:28:32\ngive = "20s"\n',
        encoding="utf-8",
    )
    for command in ("check", "times", "signal"):
        done = shell(command, path, PYTHONIOENCODING="ascii")
        assert (done.returncode, done.stderr) == (0, b"")
        assert done.stdout.isascii()
    done = shell("times", path, "--json", PYTHONIOENCODING="ascii")
    assert json.loads(done.stdout)["events"][0]["name"] == "Départ ±"
    bad = shell("times", path, "--enter", "départ soon", PYTHONIOENCODING="ascii")
    assert bad.returncode == 2
    assert b"Traceback" not in bad.stderr


def test_an_entry_of_bytes_that_are_no_text_is_no_end(shell: Shell) -> None:
    done = shell("times", _FIRST_STEPS, *_NOW, "--enter", "note caf\udce9", "--json")
    assert (done.returncode, done.stderr) == (0, b"")
    done = shell("times", _FIRST_STEPS, *_NOW, "--enter", "liftoff 01:00 per caf\udce9")
    assert done.returncode == 2
    assert b"Traceback" not in done.stderr
