"""Sessions are found by their plan, and by which was open last."""

from pathlib import Path

from core.session.shelf import Shelf
from core.times.instants import rfc3339_to_ms

NOON_MS = rfc3339_to_ms("2031-05-14T15:00:00Z")
PLAN = Path("plans") / "Petrel 4, arrival.toml"


def made(path: Path) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.touch()
    return path


def test_a_folder_that_is_not_there_has_no_session(tmp_path: Path) -> None:
    shelf = Shelf(tmp_path / "none")
    assert shelf.last() is None
    assert shelf.newest_of(PLAN) is None


def test_a_new_session_is_named_by_its_beginning_and_its_plan(tmp_path: Path) -> None:
    path = Shelf(tmp_path).new(PLAN, NOON_MS, rehearsal=False)
    assert path.name.startswith("20310514T150000Z-petrel-4-arrival-")
    assert path.suffix == ".session"
    assert not path.exists()
    assert Shelf(tmp_path).new(PLAN, NOON_MS, rehearsal=True).stem.endswith("-rehearsal")


def test_two_sessions_begun_in_one_second_have_names_of_their_own(tmp_path: Path) -> None:
    shelf = Shelf(tmp_path)
    first = made(shelf.new(PLAN, NOON_MS, rehearsal=False))
    assert shelf.new(PLAN, NOON_MS, rehearsal=False) > first


def test_the_newest_session_of_a_plan_is_found(tmp_path: Path) -> None:
    shelf = Shelf(tmp_path)
    made(shelf.new(PLAN, NOON_MS, rehearsal=False))
    newest = made(shelf.new(PLAN, NOON_MS + 60_000, rehearsal=False))
    made(shelf.new(PLAN, NOON_MS + 90_000, rehearsal=True))
    made(shelf.new(Path("other") / PLAN.name, NOON_MS + 99_000, rehearsal=False))
    made(newest.with_name(f"{newest.stem}.damaged-1{newest.suffix}"))
    assert shelf.newest_of(PLAN) == newest
    assert shelf.newest_of(PLAN.absolute()) == newest


def test_the_session_that_was_open_last_is_written_down(tmp_path: Path) -> None:
    shelf = Shelf(tmp_path / "data")
    older = shelf.new(PLAN, NOON_MS, rehearsal=True)
    shelf.mark(older)
    made(older)
    newer = made(shelf.new(PLAN, NOON_MS + 1, rehearsal=False))
    assert shelf.last() == older
    shelf.mark(newer)
    assert Shelf(tmp_path / "data").last() == newer


def test_without_that_the_newest_is_taken(tmp_path: Path) -> None:
    shelf = Shelf(tmp_path)
    made(shelf.new(PLAN, NOON_MS, rehearsal=False))
    newest = made(shelf.new(PLAN, NOON_MS + 5_000, rehearsal=False))
    made(newest.with_name(f"{newest.stem}.damaged-1{newest.suffix}"))
    for written in (b"", b"\xff\xff", b"gone.session\n", b"../../etc/passwd\n"):
        (tmp_path / "last").write_bytes(written)
        assert shelf.last() == newest


def test_a_mark_that_cannot_be_made_is_no_trouble(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    shelf = Shelf(tmp_path / "file")
    shelf.mark(shelf.new(PLAN, NOON_MS, rehearsal=False))
    assert shelf.last() is None
