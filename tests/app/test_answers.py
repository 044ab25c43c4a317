"""The file of what was computed: what was written is read again, and nothing else is taken."""

from pathlib import Path

import pytest

from app.answers import Answers, add_answers, read_answers
from core.signal.computing import Branch, Spell
from core.signal.seen import Hidden, Light, Seen, Sighting

BURNED = Branch("arrival", "burned", ("closest", "ignition"), forked=True)
TIMES = (1_936_555_240_000, None)
SEEN = Seen(
    (Sighting("tarn", 1_000, 9_000, "", "behind the Moon", 400, 500),),
    (Hidden("tarn", 9_000, 12_000, "behind the Moon"),),
)
ANSWERS = Answers(
    {"arrival": (BURNED, Branch("arrival", "no-burn", ("closest", "ignition"), steady=True))},
    {(BURNED, TIMES): Spell(SEEN, 0, 20_000), (BURNED, (None, None)): None},
    {(BURNED, TIMES): Spell(SEEN, 0, 10_000)},
    {((BURNED, TIMES), 60_000): Light(379_572.41177145904, 1266), ((BURNED, TIMES), 0): None},
)


def test_what_was_answered_is_read_again(tmp_path: Path) -> None:
    path = tmp_path / "deep" / "plan.json"
    add_answers(path, ANSWERS)
    assert read_answers(path) == ANSWERS
    assert [each.name for each in path.parent.iterdir()] == ["plan.json"]


def test_what_was_added_later_is_read_with_it(tmp_path: Path) -> None:
    path = tmp_path / "plan.json"
    later = Answers(spells={(BURNED, (1, 2)): None}, lights={((BURNED, TIMES), 0): Light(3.5, 7)})
    add_answers(path, ANSWERS)
    add_answers(path, later)
    found = read_answers(path)
    assert found.spells == {**ANSWERS.spells, **later.spells}
    assert found.lights == {**ANSWERS.lights, **later.lights}
    assert found.branches == ANSWERS.branches


def test_a_line_that_was_cut_short_leaves_those_before_it(tmp_path: Path) -> None:
    path = tmp_path / "plan.json"
    add_answers(path, ANSWERS)
    whole = path.stat().st_size
    add_answers(path, Answers(spells={(BURNED, (1, 2)): None}))
    for size in range(whole, path.stat().st_size - 1, 7):
        with path.open("r+b") as file:
            file.truncate(size)
        assert read_answers(path) == ANSWERS


@pytest.mark.parametrize(
    "text", ["", "{", "[]", "{}", '{"branches": 3, "spells": [], "nears": [], "lights": 1}']
)
def test_what_is_no_such_file_answers_nothing(tmp_path: Path, text: str) -> None:
    path = tmp_path / "plan.json"
    path.write_text(text, encoding="utf-8")
    assert not read_answers(path)


def test_where_there_is_no_file_nothing_is_answered(tmp_path: Path) -> None:
    assert not read_answers(tmp_path / "plan.json")
