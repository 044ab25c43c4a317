"""The table of broken items and check-offs, and of what waits for itself."""

from pathlib import Path

import pytest

from tests.core.plan.marked import Broken, check_told

EVENT = '[[event]]\nid = "photo"\n'
COURSE = '[[course]]\nid = "far-side"\nkind = "passes"\nuntil = 2040-01-01T00:00:00\n'
ROW = '{ lane = "voice", back = "2031-05-14T17:00:00", lost = "2031-05-14T18:00:00" }'
ITEM = '[[item]]\nid = "break-1"\nkind = "break"\n'


BROKEN: Broken = {
    # ---- on the air
    "off before on": (
        "[air]\non = 2031-05-14T15:30:00\noff = ⟦2031-05-14T15:00:00",
        "ends before it begins",
        "",
    ),
    "junction without a time": ('⟦[[junction]]\nname = "x"', "'at' is missing", "Add at"),
    "item of no length": (ITEM + 'length = ⟦"0s"', "takes some time", ""),
    "item of an unknown kind": (
        ITEM.replace('"break"', '⟦"brake"') + 'length = "1m"',
        "'brake' is not known",
        "'break'",
    ),
    "item latest before earliest": (
        ITEM + 'length = "1m"\nearliest = 2031-05-14T16:30:00\nlatest = ⟦2031-05-14T16:00:00',
        "latest is before earliest",
        "",
    ),
    "item needs a lane nobody carries": (
        ITEM + 'length = "1m"\nneeds = ⟦"data"',
        "carries a lane 'data'",
        "",
    ),
    "item weighs nothing": (ITEM + 'length = "1m"\nweight = ⟦0', "out of range", ""),
    "item weighs too much": (
        ITEM + f'length = "1m"\nweight = ⟦0x{"f" * 400}',
        "a very large number is out of range",
        "",
    ),
    "enough is more than all": (
        '[[checkoff]]\nid = "c"\nof = "liftoff"\ncount = 8\nenough = ⟦9',
        "9 cannot be enough of 8",
        "At most 8",
    ),
    "enough that does not divide a ring": (
        '[[checkoff]]\nid = "c"\nof = "liftoff"\ncount = 10\nenough = ⟦4\nspaced = true',
        "no 4 of 10 are evenly spread round the ring",
        "1, 2, 5 or 10 can be; or take spaced out",
    ),
    "check-off of no event": (
        '[[checkoff]]\nid = "c"\nof = ⟦"separation"\ncount = 8',
        "no event 'separation'",
        "",
    ),
    "item ends before it can begin, in its booked hours": (
        ITEM + 'length = "1m"\nbooked = [⟦["2031-05-14T17:00:00", "2031-05-14T16:00:00"]]',
        "ends before it begins",
        "earlier time first",
    ),
    # ---- live moments that go with a lane
    "live with a lane nobody carries": (
        EVENT + 'at = 2031-05-14T17:00:00\nlive = true\nlive_with = ⟦"pictures"',
        "carries a lane 'pictures'",
        "'picture'",
    ),
    "goes with a lane, and is not live": (
        EVENT + 'at = 2031-05-14T17:00:00\n⟦live_with = "picture"',
        "only a live moment",
        "live = true",
    ),
    # ---- a grave board, and the audience's usage
    "grave line without a time": ('⟦[[grave]]\ntext = "x"', "'after' is missing", '"10m"'),
    "grave line without words": ('⟦[[grave]]\nafter = "10m"', "'text' is missing", "text ="),
    "grave line after no length": ('[[grave]]\nafter = ⟦10\ntext = "x"', "no unit", '"10m"'),
    "grave line before it begins": (
        '[[grave]]\nafter = ⟦"-10m"\ntext = "x"',
        "cannot be negative",
        "",
    ),
    "grave line of no words": ('[[grave]]\nafter = "10m"\ntext = ⟦" "', "needs words", ""),
    "one grave line without a list": (
        '[⟦grave]\nafter = "10m"\ntext = "x"',
        "several of 'grave'",
        "[[grave]]",
    ),
    # ---- circles and chases
    "a tie to itself": ("⟦" + EVENT + 'after = "photo"', "in a circle: photo → photo", ""),
    "ties in a circle": (
        "⟦" + EVENT + 'after = "checks"\n[[event]]\nid = "checks"\nafter = "photo"',
        "ties go in a circle: photo → checks → photo",
        "Take one",
    ),
    "an edge that waits for itself": (
        "⟦"
        + EVENT
        + 'edge = { lane = "voice", change = "back", after = "turn" }\n'
        + '[[event]]\nid = "turn"\nafter = "photo"',
        "circle: photo → turn → photo",
        "",
    ),
    "a course that follows its own edge": (
        "⟦"
        + EVENT
        + 'edge = { lane = "voice", change = "back" }\n'
        + COURSE
        + f'follows = "photo"\nrows = [{ROW}]',
        "what waits for what goes in a circle: photo → course far-side → photo",
        "",
    ),
    "a blackout of its own edge": (
        "⟦"
        + EVENT
        + 'edge = { lane = "voice", change = "back" }\n'
        + '[[blackout]]\nafter = "photo"\nfrom = "1m"\nto = "2m"\nlanes = ["voice"]',
        "photo → blackout after photo → photo",
        "",
    ),
    "an event under its own outcome": (
        "⟦"
        + EVENT
        + 'after = "liftoff"\nonly_if = "a"\n'
        + '[[outcome]]\nid = "a"\nof = "photo"\n[[outcome]]\nid = "b"\nof = "photo"',
        "photo → outcome a → photo",
        "",
    ),
    "an offset that chases itself": (
        '[[limit]]\nfrom = "liftoff"\nto = "ignition"\nmost = "75:20:00"',
        "most 3d 3h 20m from 'liftoff' to 'ignition'",
        "Make an offset shorter",
    ),
}


@pytest.mark.parametrize("kind", BROKEN)
def test_it_is_told_once_at_its_exact_place(kind: str, tmp_path: Path) -> None:
    (tmp_path / "plan.csv").write_text("lane,back,lost\n", encoding="utf-8")
    check_told(*BROKEN[kind], tmp_path)
