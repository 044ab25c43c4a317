"""The table of broken events, ties and keys: what is told, where, and what to write instead."""

from pathlib import Path

import pytest

from tests.core.plan.marked import Broken, check_told

EVENT = '[[event]]\nid = "photo"\n'
COURSE = '[[course]]\nid = "far-side"\nkind = "passes"\nuntil = 2040-01-01T00:00:00\n'
ROW = '{ lane = "voice", back = "2031-05-14T17:00:00", lost = "2031-05-14T18:00:00" }'
ITEM = '[[item]]\nid = "break-1"\nkind = "break"\n'


BROKEN: Broken = {
    # ---- keys and tables
    "unknown key": (EVENT + "at = 2031-05-14T17:00:00\n⟦ofset = 3", "'ofset'", "'offset'"),
    "unknown table": ("[[⟦evnt]]\nid = 3", "'evnt' is not a key", "'event'"),
    "unknown key in a tie": (
        EVENT + 'after = { event = "liftoff", ⟦leest = "1m" }',
        "'leest'",
        "Did you mean 'least'?",
    ),
    "one table for several": ('[⟦event2]\nid = "x"', "'event2'", "'event'"),
    "text for a table": (EVENT + 'at = 2031-05-14T17:00:00\nfacts = [⟦"x"]', "text, not", "braces"),
    "number for text": ("[[event]]\nid = ⟦3\nat = 2031-05-14T17:00:00", "a number, not text", ""),
    "text for a flag": (
        EVENT + 'at = 2031-05-14T17:00:00\nlive = ⟦"yes"',
        "text",
        "true or false",
    ),
    "text for a list": (ITEM + 'length = "2m"\nbooked = ⟦"x"', "text, not a list", "brackets"),
    "control character": (
        EVENT + 'at = 2031-05-14T17:00:00\nsay = ⟦"a\\u0007b"',
        "control character",
        "",
    ),
    "empty name": (EVENT + 'at = 2031-05-14T17:00:00\nname = ⟦" "', "needs words", ""),
    # ---- ids and names in use
    "no id": ("⟦[[event]]\nat = 2031-05-14T17:00:00", "'id' is missing", "Add id"),
    "id with two spaces": (
        '[[event]]\nid = ⟦"first  photo"\nat = 2031-05-14T17:00:00',
        "cannot be an id",
        "hyphens",
    ),
    "duplicate id": (
        '[[event]]\nid = ⟦"ignition"\nat = 2031-05-14T17:00:00',
        "'ignition' is already the id of another event",
        "another id",
    ),
    "tie to no event": (EVENT + 'after = ⟦"igniton"', "no event 'igniton'", "'ignition'"),
    "tie to no event, in a list": (
        EVENT + 'after = ["liftoff", ⟦"moonrise"]',
        "no event 'moonrise'",
        "Known: liftoff, ignition, photo",
    ),
    "unknown outcome": (
        EVENT + 'after = "liftoff"\nonly_if = ⟦"burned"',
        "no outcome 'burned'",
        "none in this plan",
    ),
    "unknown ground": (
        COURSE + f"rows = [{ROW[:-1]}, ground = ⟦'tran' }}]",
        "no ground station 'tran'",
        "'tarn'",
    ),
    "limit to no event": (
        '[[limit]]\nfrom = "liftoff"\nto = ⟦"cutoff"\nmost = "3d"',
        "no event 'cutoff'",
        "",
    ),
    # ---- times
    "skipped time": (EVENT + "at = ⟦2031-03-09T02:30:00", "clocks skip it", "offset"),
    "repeated time": (EVENT + "at = ⟦2031-11-02T01:30:00", "comes twice", "-03:00 or"),
    "date alone": (EVENT + "at = ⟦2031-05-14", "a date without a time", "Like 2031"),
    "time alone": (EVENT + "at = ⟦17:00:00", "a time without a date", ""),
    "no such year": (EVENT + "at = ⟦0001-01-01T00:00:00", "outside the years", ""),
    "far year": (EVENT + "at = ⟦9999-12-31T23:59:59", "outside the years", ""),
    "text that is no time": (EVENT + 'at = ⟦"soon"', "no date and time", "Write it like"),
    "time without seconds": (
        EVENT + 'window = [⟦"2031-05-14T17:50", "2031-05-14T18:20:00"]',
        "no date and time",
        "",
    ),
    "window ends before it begins": (
        EVENT + 'window = ⟦["2031-05-14T18:50:00", "2031-05-14T18:20:00"]',
        "ends before it begins",
        "earlier time first",
    ),
    "window of one": (EVENT + 'window = ⟦["2031-05-14T18:50:00"]', "two times", '"none"'),
    "window open at both ends": (EVENT + 'window = ⟦["none", "none"]', "open at both", ""),
    # ---- lengths
    "offset without a unit": (
        EVENT + 'after = "liftoff"\noffset = ⟦45',
        "45 has no unit",
        'Add one: "45s"',
    ),
    "offset without a unit, in marks": (
        EVENT + 'after = "liftoff"\noffset = ⟦"45"',
        "has no unit",
        "45s",
    ),
    "two parts": (EVENT + 'after = "liftoff"\noffset = ⟦"8:30"', "could be", "8m 30s"),
    "a TOML time for a length": (
        EVENT + 'after = "liftoff"\noffset = ⟦08:30:00',
        "not a length of time",
        "quotation marks",
    ),
    "negative guard": (EVENT + 'after = "liftoff"\nguard = ⟦"-60s"', "cannot be negative", ""),
    "negative give": (EVENT + 'after = "liftoff"\ngive = ⟦"-1s"', "cannot be negative", ""),
    "too long": (EVENT + 'after = "liftoff"\noffset = ⟦"99999d"', "a hundred years", ""),
    # ---- events and ties
    "event without a time": ("⟦" + EVENT, "has no time", "at, after, edge or window"),
    "pinned without a clock time": (
        EVENT + 'after = "liftoff"\npinned = ⟦true',
        "needs a clock time",
        "Add at",
    ),
    "offset without after": (
        EVENT + 'at = 2031-05-14T17:00:00\n⟦offset = "3m"',
        "belongs to a tie",
        "Add after",
    ),
    "offset beside a list": (
        EVENT + 'after = ["liftoff"]\n⟦offset = "3m"',
        "belongs to a tie",
        "inside the tie",
    ),
    "least over most": (
        EVENT + 'after = "liftoff"\nleast = ⟦"5m"\nmost = "4m"',
        "least is more than most",
        "",
    ),
    "fixed with least": (
        EVENT + 'after = "liftoff"\noffset = "5m"\n⟦least = "5m"\nfixed = true',
        "no 'least' of its own",
        "",
    ),
    "fixed without an offset": (
        EVENT + 'after = "liftoff"\n⟦fixed = true',
        "needs an offset",
        "Add offset",
    ),
    "tie without an event": (EVENT + 'after = [⟦{ offset = "5m" }]', "'event' is missing", ""),
    "after is a number": (EVENT + "after = ⟦5", "a number", "id of an event"),
    "after is empty": (EVENT + "after = ⟦[]", "is empty", ""),
    "limit of nothing": ('⟦[[limit]]\nfrom = "liftoff"\nto = "ignition"', "bounds nothing", "most"),
    "limit to itself": (
        '⟦[[limit]]\nfrom = "liftoff"\nto = "liftoff"\nmost = "1m"',
        "to itself",
        "",
    ),
    "edge of an unknown lane": (
        EVENT + 'edge = { lane = ⟦"voce", change = "back" }',
        "carries a lane 'voce'",
        "'voice'",
    ),
    "edge of an unknown change": (
        EVENT + 'edge = { lane = "voice", change = ⟦"gone" }',
        "'gone' is not known",
        "Known: back, lost",
    ),
    "edge after and before": (
        EVENT
        + 'edge = { lane = "voice", change = "lost", after = "liftoff", ⟦before = "ignition" }',
        "not both",
        "",
    ),
    "edge number nought": (
        EVENT + 'edge = { lane = "voice", change = "lost", after = "liftoff", nth = ⟦0 }',
        "out of range",
        "From 1",
    ),
    "edge offset from nothing": (
        EVENT + 'edge = { lane = "voice", change = "lost", ⟦offset = "1m" }',
        "from nothing",
        "",
    ),
    "one outcome": ('⟦[[outcome]]\nid = "burned"\nof = "ignition"', "only outcome", "other ways"),
}


@pytest.mark.parametrize("kind", BROKEN)
def test_it_is_told_once_at_its_exact_place(kind: str, tmp_path: Path) -> None:
    (tmp_path / "plan.csv").write_text("lane,back,lost\n", encoding="utf-8")
    check_told(*BROKEN[kind], tmp_path)
