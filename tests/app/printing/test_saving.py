"""Files that are there whole or not at all."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from app.printing.saving import CannotWrite, save


def test_a_file_is_written_and_nothing_is_left_beside_it(tmp_path: Path) -> None:
    save(tmp_path / "plan.pdf", b"one")
    save(tmp_path / "plan.pdf", b"two")
    assert [(each.name, each.read_bytes()) for each in tmp_path.iterdir()] == [("plan.pdf", b"two")]


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    (tmp_path / "real.pdf").write_bytes(b"old")
    (tmp_path / "plan.pdf").symlink_to("real.pdf")
    save(tmp_path / "plan.pdf", b"new")
    assert (tmp_path / "plan.pdf").is_symlink()
    assert (tmp_path / "real.pdf").read_bytes() == b"new"


def test_a_folder_is_not_written_over(tmp_path: Path) -> None:
    with pytest.raises(CannotWrite, match="it is a folder; name a file in it"):
        save(tmp_path, b"data")


def test_a_folder_that_is_not_there_is_named(tmp_path: Path) -> None:
    with pytest.raises(CannotWrite, match=f"there is no folder {tmp_path / 'none'}$"):
        save(tmp_path / "none" / "plan.pdf", b"data")


def test_links_that_lead_in_a_circle_are_told(tmp_path: Path) -> None:
    (tmp_path / "a").symlink_to("b")
    (tmp_path / "b").symlink_to("a")
    with pytest.raises(CannotWrite, match=r"Cannot write .*a: "):
        save(tmp_path / "a", b"data")


@pytest.mark.skipif(os.geteuid() == 0, reason="nothing is closed to this user")
def test_a_closed_folder_is_told(tmp_path: Path) -> None:
    tmp_path.chmod(0o500)
    try:
        with pytest.raises(CannotWrite, match="Permission denied"):
            save(tmp_path / "plan.pdf", b"data")
    finally:
        tmp_path.chmod(0o700)


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no such device")
def test_a_device_is_written_to_and_its_trouble_told() -> None:
    save(Path(os.devnull), b"data")
    assert not Path(os.devnull).is_file()
    with pytest.raises(CannotWrite, match="No space left on device"):
        save(Path("/dev/full"), b"data")


TOO_LARGE = """
import resource, sys
from pathlib import Path
from app.printing.saving import CannotWrite, save
resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000))
try:
    save(Path(sys.argv[1]), b"x" * 5000)
except CannotWrite as problem:
    print(problem)
"""


def test_when_there_is_no_room_the_old_file_stays_and_no_half_of_the_new(tmp_path: Path) -> None:
    """A limit on the size of files stands for the full disk: the writing stops in the middle."""
    (tmp_path / "plan.pdf").write_bytes(b"old")
    told = subprocess.run(
        [sys.executable, "-c", TOO_LARGE, str(tmp_path / "plan.pdf")],
        capture_output=True, text=True, check=True, timeout=60,
    )  # fmt: skip
    assert told.stdout.startswith(f"Cannot write {tmp_path / 'plan.pdf'}: ")
    assert [(each.name, each.read_bytes()) for each in tmp_path.iterdir()] == [("plan.pdf", b"old")]
