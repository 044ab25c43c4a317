"""The table of broken ground stations, lanes, blackouts and courses."""

from pathlib import Path

import pytest

from tests.core.plan.marked import Broken, check_told

COURSE = '[[course]]\nid = "far-side"\nkind = "passes"\nuntil = 2040-01-01T00:00:00\n'
ROW = '{ lane = "voice", back = "2031-05-14T17:00:00", lost = "2031-05-14T18:00:00" }'
ORBIT = """[[course]]
id = "low"
kind = "orbit"
about = "moon"
epoch = 2031-05-14T20:30:00Z
inclination = 168.0
node = 200.0
"""
ARRIVAL = """[[course]]
id = "in"
kind = "arrival"
about = "moon"
epoch = 2031-05-14T20:30:00Z
position_km = [6235.5, -752.4, -273.8]
velocity_km_s = [-1.487, -0.522, -0.190]
"""

LOW_POINT = """[[course]]
id = "in"
kind = "arrival"
about = "moon"
epoch = 2031-05-14T20:30:00Z
low_point_km = 1848.5
inclination = 168.0
node = 200.0
burn = { event = "ignition", duration = "374s", along_m_s = -854.0 }
"""

STATION = '[[ground]]\nid = "k"\nlanes = ["voice"]\n'
EARLY = 'rows = [{ lane = "voice", back = "2031-05-12T17:00:00", lost = "2031-05-12T18:00:00" }]'

BROKEN: Broken = {
    # ---- stations, lanes, blackouts
    "off the globe": (
        STATION + "latitude = ⟦91\nlongitude = 0",
        "91 is out of range",
        "-90 to 90",
    ),
    "off the globe, east": (
        STATION + "latitude = 1\nlongitude = ⟦247.6",
        "out of range",
        "west is negative",
    ),
    "no number": (
        STATION + "latitude = ⟦nan\nlongitude = 0",
        "no number",
        "",
    ),
    "latitude alone": (
        STATION + "⟦latitude = 1",
        "without longitude",
        "",
    ),
    "centre with a mask": (
        STATION + "geocentre = true\n⟦mask = 5",
        "no mask",
        "",
    ),
    "station without lanes": ('⟦[[ground]]\nid = "k"', "carries no lane", "Add lanes"),
    "lane twice": ('[[ground]]\nid = "k"\nlanes = ⟦["voice", "voice"]', "twice", ""),
    "open hours turned round": (
        STATION + 'open = [⟦["2031-05-14T18:50:00", "2031-05-14T18:20:00"]]',
        "ends before it begins",
        "",
    ),
    "lane nobody carries": (
        '⟦[lane.data]\nname = "DATA"',
        "no table carries a lane 'data'",
        "Known: voice, picture",
    ),
    "negative delay": ('[lane.voice]\ndelay = ⟦"-9s"', "cannot be negative", ""),
    "blackout turned round": (
        '[[blackout]]\nafter = "liftoff"\nfrom = "4m"\nto = ⟦"25s"\nlanes = ["voice"]',
        "ends before it begins",
        "",
    ),
    "blackout of no lane": (
        '⟦[[blackout]]\nafter = "liftoff"\nfrom = "4m"\nto = "5m"',
        "no lane",
        "",
    ),
    # ---- courses
    "unknown kind": ('[[course]]\nid = "x"\nkind = ⟦"orbits"', "'orbits' is not known", "'orbit'"),
    "no rows": ("⟦" + COURSE, "has no rows", "Add rows"),
    "key of another kind": (COURSE + f"rows = [{ROW}]\n⟦node = 200.0", "'node'", ""),
    "lost before back": (
        COURSE
        + 'rows = [⟦{ lane = "voice", back = "2031-05-14T18:00:00", '
        + 'lost = "2031-05-14T17:00:00" }]',
        "lost before it is back",
        "",
    ),
    "overlapping rows": (COURSE + f"rows = [{ROW}, ⟦{ROW}]", "before another ends", ""),
    "station that lacks the lane": (
        COURSE + f"rows = [⟦{ROW[:-1].replace('voice', 'data')}, ground = 'tarn' }}]",
        "'tarn' does not carry 'data'",
        "Known: voice, picture",
    ),
    "row without lost": (
        COURSE + 'rows = [⟦{ lane = "voice", back = "2031-05-14T17:00:00" }]',
        "'lost' is missing",
        "",
    ),
    "offsets from no event": (
        COURSE + 'times = ⟦"offset"\nrows = [{ lane = "voice", back = "1m", lost = "2m" }]',
        "offsets from no event",
        "Add follows",
    ),
    "clock time in offset rows": (
        COURSE
        + 'times = "offset"\nfollows = "ignition"\n'
        + 'rows = [{ lane = "voice", back = ⟦"2031-05-14T17:00:00", lost = "2m" }]',
        "no length of time",
        "",
    ),
    "file outside the folder": (
        COURSE + 'file = ⟦"../x.csv"',
        "outside the plan's folder",
        "beside the plan",
    ),
    "file by a whole path": (COURSE + 'file = ⟦"/etc/passwd"', "outside the plan's folder", ""),
    "file by a drive": (COURSE + 'file = ⟦"C:\\\\x.csv"', "outside the plan's folder", ""),
    "missing file": (COURSE + 'file = ⟦"nowhere.csv"', "no file 'nowhere.csv'", ""),
    "rows and file": (COURSE + f'⟦rows = [{ROW}]\nfile = "plan.csv"', "and in a file", ""),
    "until no event": (
        COURSE.replace("2040-01-01T00:00:00", '⟦"cutoff"') + f"rows = [{ROW}]",
        "no event 'cutoff'",
        "",
    ),
    "course that ends early": (
        "⟦" + COURSE.replace("until", "from").replace("2040", "2030") + EARLY,
        "ends before the plan does: 2031-05-12T18:00:00, and 'ignition' is at 2031-05-14T16:56:02",
        "until",
    ),
    "orbit without a height": (
        "⟦" + ORBIT,
        "'periapsis_km' or 'altitude_km' is missing",
        "",
    ),
    "orbit with two heights": (
        ORBIT + "periapsis_km = 1848.5\n⟦altitude_km = [108, 315]",
        "beside 'periapsis_km'",
        "",
    ),
    "heights turned round": (ORBIT + "altitude_km = ⟦[315, 108]", "above the high", "[low, high]"),
    "orbit about the Sun": (
        (ORBIT + "altitude_km = 108").replace('"moon"', '⟦"sun"'),
        "'sun' is not known",
        "Known: moon, mars, earth",
    ),
    "epoch of no event": (
        (ORBIT + "altitude_km = 108").replace(
            "2031-05-14T20:30:00Z", '{ event = ⟦"cutof", offset = "0s" }'
        ),
        "no event 'cutof'",
        "",
    ),
    "position of two numbers": (
        (ARRIVAL + 'burn = { event = "ignition", duration = "1s", along_m_s = 1 }').replace(
            "[6235.5, -752.4, -273.8]", "⟦[6235.5, -752.4]"
        ),
        "not such a list",
        "3 numbers",
    ),
    "burn of two kinds": (
        ARRIVAL + 'burn = ⟦{ event = "ignition", duration = "1s" }',
        "either along_m_s or",
        "",
    ),
    "arrival without a burn": ("⟦" + ARRIVAL, "'burn' is missing", ""),
    "arrival from nowhere": (
        "⟦" + LOW_POINT + "argument = 0",
        "'position_km' or 'v_infinity_km_s' is missing",
        "'arrival' needs it",
    ),
    "low point with an angle missing": (
        "⟦" + LOW_POINT + "v_infinity_km_s = 0.9",
        "'argument' is missing",
        "goes with 'v_infinity_km_s'",
    ),
    "position without a velocity": (
        "⟦"
        + ARRIVAL.replace("velocity_km_s = [-1.487, -0.522, -0.190]\n", "")
        + 'burn = { event = "ignition", duration = "1s", along_m_s = 1 }',
        "'velocity_km_s' is missing",
        "goes with 'position_km'",
    ),
    "arrival both ways": (
        ARRIVAL
        + '⟦low_point_km = 1848.5\nburn = { event = "ignition", duration = "1s", along_m_s = 1 }',
        "'low_point_km' beside 'position_km'",
        "Take one",
    ),
    "arrival that never gets there": (
        LOW_POINT + "argument = 0\nv_infinity_km_s = ⟦-0.9",
        "out of range",
        "0 to 1000",
    ),
    "two-line elements of one line": (
        '[[course]]\nid = "x"\nkind = "elements"\ntle = ⟦["1 x"]',
        "two lines",
        "",
    ),
    "trajectory without a file": (
        '⟦[[course]]\nid = "x"\nkind = "trajectory"',
        "'file' is missing",
        "",
    ),
}


@pytest.mark.parametrize("kind", BROKEN)
def test_it_is_told_once_at_its_exact_place(kind: str, tmp_path: Path) -> None:
    (tmp_path / "plan.csv").write_text("lane,back,lost\n", encoding="utf-8")
    check_told(*BROKEN[kind], tmp_path)
