"""`signal --picture`: the page as it is drawn, and the command where there is no screen."""

import os
import subprocess
import sys
from itertools import pairwise
from pathlib import Path

import pytest
from PySide6.QtGui import QColor, QImage

import app
from app.cli import main
from app.commands.sheets import Note, Sheet, sheet
from app.commands.signals import Part
from app.picture.labels import LINE_PX, _spread
from app.picture.page import TooLong, drawn, layout
from app.theme import LIGHT
from core.plan.reader import read_plan_text
from core.session.desk import Desk
from core.times.clocks import SimClock
from core.times.instants import rfc3339_to_ms
from core.times.writing import Style
from tests.app.commands.plans import HEAD, LOST_AND_FOUND

NOW_MS = rfc3339_to_ms("2031-05-14T09:00:00Z")
HOUR_MS = 3_600_000


def sheet_of(lane: str | None = None, *, until: str = "2031-05-14T12:00:00Z") -> Sheet:
    plan = read_plan_text(LOST_AND_FOUND, "plan.toml", Path())
    desk = Desk(plan, SimClock(NOW_MS, paused=True))
    part = Part(lane, NOW_MS, rfc3339_to_ms(until))
    found = sheet(desk, part, (), Style("UTC"), NOW_MS)
    assert found is not None
    return found


def down_the_lane(image: QImage, asked: Sheet, clock: str) -> set[str]:
    """The colours on a short way down the left side of the first lane, at an instant."""
    plan = layout(asked.to_ms - asked.from_ms, len(asked.strip.lanes), len(asked.notes), 3)
    share = (rfc3339_to_ms(f"2031-05-14T{clock}Z") - asked.from_ms) / plan.each_ms
    at_px = round(plan.head_px + share * plan.body_px)
    return {
        QColor(image.pixel(30 + 88 + x, at_px + y)).name()
        for x in range(2, 12)
        for y in range(-8, 8)
    }


@pytest.mark.usefixtures("qapp")
def test_a_gap_is_hatched_and_a_contact_is_filled_at_its_instant() -> None:
    asked = sheet_of("voice")
    image = drawn(asked)
    gap = down_the_lane(image, asked, "10:05:00")
    assert LIGHT.voice.name() not in gap
    assert LIGHT.ground.name() in gap
    assert len(gap) > 2
    assert down_the_lane(image, asked, "10:35:00") == {LIGHT.voice.name()}
    assert down_the_lane(image, asked, "11:10:00") == {LIGHT.voice.name()}


@pytest.mark.usefixtures("qapp")
def test_entries_move_what_is_drawn() -> None:
    plan = read_plan_text(LOST_AND_FOUND, "plan.toml", Path())
    desk = Desk(plan, SimClock(NOW_MS, paused=True))
    desk.enter("ignition +30m", "", NOW_MS)
    desk.enter("ignition +30m", "", NOW_MS, again=True)
    asked = sheet(desk, Part("voice", NOW_MS, NOW_MS + 3 * HOUR_MS), (), Style("UTC"), NOW_MS)
    assert asked is not None
    assert down_the_lane(drawn(asked), asked, "10:35:00") != {LIGHT.voice.name()}


def test_the_sheet_tells_events_hand_overs_hours_and_what_it_is_not_for() -> None:
    asked = sheet_of()
    assert asked.title == "Petrel 4, a trial"
    assert Note(rfc3339_to_ms("2031-05-14T10:00:00Z"), "10:00 a.m. Ignition") in asked.notes
    assert "10:50 a.m. to Kestrel Bay (voice)" in [note.text for note in asked.notes]
    assert [note.text for note in asked.hours] == ["9:00 a.m.", "10:00 a.m.", "11:00 a.m."]
    assert [ground.name for ground in asked.strip.grounds] == ["Tarn Hill", "Kestrel Bay"]
    assert "clock times: UTC" in asked.lines[0]
    assert asked.foot.startswith("For editorial use")


def test_midnight_is_marked_with_the_day() -> None:
    asked = sheet_of(until="2031-05-15T02:00:00Z")
    assert [note.text for note in asked.days] == ["Thu 15 May"]


def test_a_longer_stretch_takes_more_columns_until_nobody_could_read_it() -> None:
    assert layout(3 * HOUR_MS, 3, 0, 3).columns == 1
    assert layout(12 * HOUR_MS, 3, 0, 3).columns == 2
    assert layout(72 * HOUR_MS, 3, 0, 3).columns > 3
    with pytest.raises(TooLong, match="ask for less with --from and --to"):
        layout(2000 * HOUR_MS, 3, 0, 3)


def test_notes_keep_their_order_and_a_line_between_them_above_the_bottom() -> None:
    heights = _spread([10.0, 12.0, 500.0, 599.0, 600.0], 600.0)
    assert heights == sorted(heights)
    assert heights[-1] == 600.0
    assert all(later - before >= LINE_PX for before, later in pairwise(heights))


def _status(folder: Path, plan: str, *words: str) -> int:
    path = folder / "plan.toml"
    path.write_text(plan, encoding="utf-8")
    return main(["signal", str(path), *words])


@pytest.mark.parametrize(
    ("name", "said"),
    [("out.jpg", "must end in .png"), ("no/such/out.png", "cannot write")],
)
@pytest.mark.usefixtures("qapp")
def test_a_place_that_cannot_be_written_is_told(
    name: str, said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert _status(tmp_path, LOST_AND_FOUND, "--picture", str(tmp_path / name)) == 2
    assert said in capsys.readouterr().err


def test_without_a_signal_nothing_is_drawn(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    plan = HEAD + '[[event]]\nid = "turn"\nat = 2031-05-14T10:00:00\n'
    assert _status(tmp_path, plan, "--picture", str(tmp_path / "out.png")) == 2
    assert "No signal is known" in capsys.readouterr().err
    assert not (tmp_path / "out.png").exists()


def test_the_command_needs_no_screen(tmp_path: Path) -> None:
    (tmp_path / "plan.toml").write_text(LOST_AND_FOUND, encoding="utf-8")
    without = ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")
    bare = {name: value for name, value in os.environ.items() if name not in without}
    bare["PYTHONPATH"] = str(Path(app.__file__).parent.parent)
    words = ["signal", "plan.toml", "--picture", "out.png"]
    code = "import sys; from app.cli import main; sys.exit(main(sys.argv[1:]))"
    done = subprocess.run(
        [sys.executable, "-c", code, *words],
        cwd=tmp_path,
        env=bare,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout == "Drawn to out.png\n"
    assert QImage(str(tmp_path / "out.png")).width() == 1000
