"""`signal` on a flown trajectory out of a file: as published, and moved with an event."""

import shutil
from pathlib import Path

import pytest

from tests.app.commands.plans import HEAD, Run
from tests.core.plan.orbitdata.petrel import OEM

FLOWN = Path(__file__).resolve().parents[4] / "shared" / "data" / "artemis2.oem"
"""The flown trajectory as NASA published it in 2026; not part of the project."""

NOW = "2026-04-06T20:00:00"

# Three stations far apart, of our own, and the Earth's centre on a lane by itself.
FLYBY = (
    HEAD
    + """
[[event]]
id = "closest"
name = "Closest to the Moon"
at = 2026-04-06T23:00:00
[[ground]]
id = "west"
name = "West"
latitude = 34.0
longitude = -117.0
mask = 6.0
lanes = ["voice"]
[[ground]]
id = "middle"
name = "Middle"
latitude = 41.0
longitude = -3.0
mask = 6.0
lanes = ["voice"]
[[ground]]
id = "east"
name = "East"
latitude = -34.0
longitude = 148.0
mask = 6.0
lanes = ["voice"]
[[ground]]
id = "earth"
name = "Earth"
geocentre = true
lanes = ["centre"]
[[course]]
id = "flown"
kind = "trajectory"
file = "flyby.oem"
follows = "closest"
"""
)

PETREL = (
    HEAD
    + """
[[event]]
id = "turn"
name = "Turn"
at = 2031-05-14T17:02:00
[[ground]]
id = "tarn"
name = "Tarn Hill"
geocentre = true
lanes = ["voice"]
[[course]]
id = "flown"
kind = "trajectory"
file = "petrel.oem"
follows = "turn"
"""
)


@pytest.mark.skipif(not FLOWN.exists(), reason="the flown trajectory is not part of the project")
@pytest.mark.parametrize("lane", ["voice", "centre"])
def test_artemis_ii_is_out_of_contact_for_about_40_minutes(
    run: Run, tmp_path: Path, lane: str
) -> None:
    shutil.copyfile(FLOWN, tmp_path / "flyby.oem")
    # NASA, press, 2026: signal lost for about 40 minutes
    told = run("signal", FLYBY, "--lane", lane, "--json", now=NOW).told
    behind = [edge for edge in told["edges"] if edge["cause"] == "behind the Moon"]
    assert [edge["change"] for edge in behind] == ["lost", "back"]
    totals = run(
        "signal",
        FLYBY,
        *("--lane", lane, "--from", "2026-04-06T22:10:00", "--to", "2026-04-07T06:00:00"),
        "--json",
        now=NOW,
    ).told["totals"]
    (total,) = totals[lane]
    assert total["gaps"] == 1
    assert 38 * 60 <= total["out_s"] <= 42 * 60
    assert told["notes"] == []


def test_moved_with_its_event_it_is_marked_as_shifted_and_not_recomputed(
    run: Run, tmp_path: Path
) -> None:
    (tmp_path / "petrel.oem").write_text(OEM, encoding="utf-8")
    before = run("signal", PETREL, "--json").told
    later = run("signal", PETREL, "turn +5m", "--json").told
    note = "flown: 5 min later with Turn; shifted, not recomputed"
    assert (before["notes"], later["notes"]) == ([], [note])
    (was,), (moved,) = before["contacts"], later["contacts"]
    assert was["from"][:20] == "2031-05-14T17:00:01."
    assert moved["from"] == was["from"].replace("17:00", "17:05")
    assert run("signal", PETREL, "turn +5m").line("flown:") == note
    assert "recomputed" not in run("signal", PETREL).out
