"""`print`: the plan on paper, as a PDF; what is told, and what bad places get."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication

from app.cli import main
from app.resources import sample_plan
from tests.app.printing.leaves import sizes_pt, texts

FIRST = sample_plan("first-steps")
TOLD = "For editorial use: not for navigation, range safety or flight control."


@pytest.fixture(autouse=True)
def _application(qapp: QApplication) -> None:
    assert qapp is not None


def printed(tmp_path: Path, *words: str, plan: Path = FIRST) -> tuple[int, list[str]]:
    path = tmp_path / "out.pdf"
    status = main(["print", str(plan), "--out", str(path), *words])
    return status, texts(path.read_bytes())


def test_the_first_steps_are_one_page(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status, pages = printed(tmp_path)
    assert status == 0
    assert capsys.readouterr().out == f"Printed to {tmp_path / 'out.pdf'}: 1 page\n"
    (page,) = pages
    for part in (
        "Whimbrel, first launch from Skerry Point", "The plan as it was written",
        "Saturday, 7 June 2031", "11:45:00 a.m.", "2 h 35 min after Fuelling begins",
        "11:43:00 a.m.", "EMBARGOED until this is confirmed", "page 1 of 1", TOLD,
    ):  # fmt: skip
        assert part in page
    assert "REHEARSAL" not in page


@pytest.fixture(scope="module")
def arrival(qapp: QApplication, tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """The arrival, printed once for all that look at it."""
    assert qapp is not None
    path = tmp_path_factory.mktemp("paper") / "arrival.pdf"
    assert main(["print", str(sample_plan("petrel-arrival")), "--out", str(path)]) == 0
    return path.read_bytes()


def test_a_long_plan_has_all_its_events_on_numbered_pages(arrival: bytes) -> None:
    pages = texts(arrival)
    assert len(pages) > 8
    for number, page in enumerate(pages, start=1):
        assert f"page {number} of {len(pages)}" in page
        assert TOLD in page
    assert "Day desk takes over" in " ".join(pages)


def test_three_hundred_events_are_printed(tmp_path: Path) -> None:
    status, pages = printed(tmp_path, plan=sample_plan("three-days"))
    assert status == 0
    assert len(pages) > 20
    assert "Orbit desk signs off" in " ".join(pages)


def test_a_wide_plan_lies_on_its_side(arrival: bytes) -> None:
    width_pt, height_pt = sizes_pt(arrival)[0]
    assert width_pt > height_pt


def test_a_measure_stands_in_both_systems(arrival: bytes) -> None:
    assert "115 km (" in " ".join(texts(arrival))


def test_entries_and_a_time_make_it_the_plan_as_it_stands(tmp_path: Path) -> None:
    status, pages = printed(tmp_path, "--now", "2031-06-07T11:20:00", "--enter", "liftoff +4m")
    assert status == 0
    assert "as it stood on Saturday, 7 June 2031, 11:20:00 a.m. Atlantic, after 1 entry" in pages[0]
    assert "11:49:00 a.m." in pages[0]
    assert "4 min later" in pages[0]
    assert "not confirmed" in pages[0]


def test_an_entry_that_clashes_is_not_in_it_and_is_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    now = ("--now", "2031-06-07T09:00:00")
    status, pages = printed(tmp_path, *now, "--enter", "liftoff 9:20")
    assert status == 1
    assert "11:45:00 a.m." in pages[0]
    assert "liftoff 9:20: clash by" in capsys.readouterr().out


def test_paper_and_hours_are_as_asked_for(tmp_path: Path) -> None:
    _, pages = printed(tmp_path, "--paper", "letter", "--hours", "24")
    assert len(pages) == 1
    assert sizes_pt((tmp_path / "out.pdf").read_bytes())[0] == pytest.approx((612, 792), abs=1)
    assert "11:45:00" in pages[0]
    assert ".m." not in pages[0]


def test_a_part_of_a_long_plan_has_fewer_pages(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    plan = sample_plan("petrel-arrival")
    wednesday = ("--from", "2031-05-14T15:00:00", "--to", "2031-05-14T19:00:00")
    _, pages = printed(tmp_path, *wednesday, plan=plan)
    whole = " ".join(pages)
    assert "Insertion burn, ignition" in whole
    assert "Crew to sleep, Sunday" not in whole
    assert all("events only from Wednesday, 14 May 2031, 3:00:00 p.m." in page for page in pages)
    backwards = ("--from", "2031-05-14T15:00:00", "--to", "2031-05-14T15:00:00")
    assert main(["print", str(plan), "--out", str(tmp_path / "x.pdf"), *backwards]) == 2
    assert capsys.readouterr().err == "--from is not before --to: nothing lies between them\n"
    assert not (tmp_path / "x.pdf").exists()


def test_without_a_name_it_has_that_of_the_plan(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(["print", str(FIRST)]) == 0
    assert capsys.readouterr().out == "Printed to first-steps.pdf: 1 page\n"
    assert (tmp_path / "first-steps.pdf").read_bytes().startswith(b"%PDF")


def refused(tmp_path: Path, out: Path, capsys: pytest.CaptureFixture[str]) -> str:
    before = sorted(tmp_path.rglob("*"))
    assert main(["print", str(FIRST), "--out", str(out)]) == 2
    assert sorted(tmp_path.rglob("*")) == before
    told = capsys.readouterr()
    assert told.out == ""
    (line,) = told.err.splitlines()
    return line


def test_a_folder_or_a_folder_that_is_not_there_gets_one_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "there.pdf").mkdir()
    line = refused(tmp_path, tmp_path / "there.pdf", capsys)
    assert line == f"Cannot write {tmp_path / 'there.pdf'}: it is a folder; name a file in it"
    line = refused(tmp_path, tmp_path / "none" / "x.pdf", capsys)
    assert line.endswith(f"there is no folder {tmp_path / 'none'}")


def test_the_plan_itself_is_never_written_over(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    plan = tmp_path / "plan.toml"
    plan.write_bytes(FIRST.read_bytes())
    line = refused(tmp_path, plan, capsys)
    assert line == f"--out: '{plan}' must end in .pdf"
    assert plan.read_bytes() == FIRST.read_bytes()


def test_a_broken_plan_is_told_line_by_line_and_nothing_is_printed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    plan = tmp_path / "plan.toml"
    plan.write_text('limbwatch = 1\ntitle = "X"\nzones = ["UTC"]\nnonsense = 1\n', encoding="utf-8")
    assert main(["print", str(plan), "--out", str(tmp_path / "x.pdf")]) == 2
    assert f"{plan}:4:1" in capsys.readouterr().err
    assert not (tmp_path / "x.pdf").exists()


def test_no_screen_is_needed(tmp_path: Path) -> None:
    """In a process of its own, with no display and nothing said of a platform."""
    bare = {k: v for k, v in os.environ.items() if not k.startswith(("QT_", "DISPLAY", "WAYLAND"))}
    done = subprocess.run(
        [sys.executable, "-m", "app", "print", str(FIRST), "--out", str(tmp_path / "x.pdf")],
        env=bare, capture_output=True, text=True, timeout=120, check=False,
    )  # fmt: skip
    assert (done.returncode, done.stderr) == (0, "")
    assert len(texts((tmp_path / "x.pdf").read_bytes())) == 1
