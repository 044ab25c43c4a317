"""`limbwatch record`: the record of a session, as text, table, calendar, page or on paper."""

import argparse
import sys
from pathlib import Path

from app.command_line.arguments import FINE, BadArgument
from app.commands.record import Format, format_of, hours_of, is_in_the_way, is_of_session, written
from app.folders import sessions_folder
from app.printing.saving import CannotWrite, save
from app.skies import skies_for
from core.errors import LimbwatchError
from core.plan.model import Plan
from core.session.ground import make_ready
from core.session.record.making import Source, record_of
from core.session.record.reading import NoRecord, read_session
from core.session.shelf import SUFFIX, Shelf
from core.times.writing import Hours

_MOST_NAMES = 8


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add what the command takes."""
    parser.add_argument(
        "session",
        nargs="?",
        metavar="SESSION",
        help="a session's file, or its name or part of it; else the session that was open last",
    )
    parser.add_argument(
        "--format",
        choices=[str(each) for each in Format],
        help="else by the end of FILE, else text",
    )
    parser.add_argument("--out", type=Path, metavar="FILE", help="write it there")
    parser.add_argument("--hours", type=int, choices=[12, 24], help="how clock times are written")
    parser.add_argument(
        "--anyway", action="store_true", help="of a damaged session, what can be read of it"
    )
    parser.add_argument("--list", action="store_true", help="only list the sessions there are")


def run(given: argparse.Namespace) -> int:
    """Run it; gives the exit status."""
    shelf = Shelf(sessions_folder())
    if given.list:
        print("\n".join(_names(shelf)) or f"There are no sessions in {sessions_folder()}")
        return FINE
    path = _found(given.session, shelf)
    kind = _format(given.format, given.out)
    _look_at(given.out, path, kind)
    try:
        source = read_session(path, _ready, anyway=given.anyway)
        data = _made(source, kind, given.hours)
    except NoRecord as problem:
        raise BadArgument(str(problem)) from problem
    except LimbwatchError as problem:
        raise BadArgument(f"{path}: no record can be made of it: {problem}") from problem
    _give(data, kind, given.out)
    return FINE


def _made(source: Source, kind: Format, hours: int | None) -> bytes:
    style = hours_of(kind) if hours is None else Hours(hours)
    return written(record_of(source, skies_for, style), kind)


def _ready(plan: Plan) -> Plan:
    return make_ready(plan, skies_for).plan


def _names(shelf: Shelf) -> list[str]:
    return [path.stem for path in shelf.all()]


def _found(session: str | None, shelf: Shelf) -> Path:
    """The file of the session that is meant. Raises BadArgument where that is none, or several."""
    if session is None:
        last = shelf.last()
        if last is None:
            raise BadArgument(f"There are no sessions in {sessions_folder()}: give a file")
        return last
    path = Path(session)
    if path.exists() or (path.suffix == SUFFIX and len(path.parts) > 1):
        return path
    named = shelf.named(session)
    if len(named) == 1:
        return named[0]
    if named:
        raise BadArgument(f"'{session}' may be any of these: {_listed([p.stem for p in named])}")
    others = _names(shelf)
    known = f"there are {_listed(others)}" if others else "there are none yet"
    raise BadArgument(f"'{session}' is neither a file nor a session's name; {known}")


def _listed(names: list[str]) -> str:
    more = f" and {len(names) - _MOST_NAMES} more" if len(names) > _MOST_NAMES else ""
    return f"{', '.join(names[:_MOST_NAMES])}{more}"


def _format(word: str | None, out: Path | None) -> Format:
    asked = None if out is None else format_of(out)
    if word is None:
        if out is not None and asked is None:
            raise BadArgument(
                f"--out: the end of '{out}' names no format; end it in .txt, .csv, .ics, .html or "
                ".pdf, or say --format"
            )
        return asked or Format.TEXT
    kind = Format(word)
    if asked is not None and asked is not kind:
        raise BadArgument(f"--out: '{out}' is named like {asked}, and --format says {kind}")
    return kind


def _look_at(out: Path | None, session: Path, kind: Format) -> None:
    """Whether the record may go where it is to go. Raises BadArgument."""
    if out is None:
        if kind is Format.PDF and sys.stdout.isatty():
            raise BadArgument("PDF is nothing for a terminal: give --out FILE.pdf")
        return
    if is_of_session(out, session):
        raise BadArgument(f"--out: '{out}' is the session itself; name another file")
    try:
        in_the_way = is_in_the_way(out, kind)
    except OSError as problem:
        raise BadArgument(f"--out: cannot look at {out}: {problem.strerror}") from problem
    if in_the_way:
        raise BadArgument(
            f"--out: '{out}' is there already and is no record as {kind}; name another file"
        )


def _give(data: bytes, kind: Format, out: Path | None) -> None:
    if out is None:
        if kind is Format.TEXT:
            print(data.decode(), end="")
        else:
            sys.stdout.buffer.write(data)
        return
    try:
        save(out, data)
    except CannotWrite as problem:
        raise BadArgument(f"--out: {problem}") from problem
    print(f"Written to {out}")
