"""Ids that are words of the entry bar are warned of when the plan is read."""

from pathlib import Path

import pytest

from core.errors import Problem
from core.plan.reader import read_plan_with_warnings

PLAN = """
limbwatch = 1
title = "Whimbrel 6"
zones = ["America/Halifax"]

[[event]]
id = "{event}"
name = "Supper"
at = 2031-05-14T19:00:00
"""


def warnings(folder: Path, event: str) -> tuple[Problem, ...]:
    path = folder / "plan.toml"
    path.write_text(PLAN.format(event=event), encoding="utf-8")
    _, warned = read_plan_with_warnings(path)
    return tuple(warned)


@pytest.mark.parametrize("word", ["sign", "Sign", "promise", "kept", "delay"])
def test_an_id_that_is_a_word_of_the_desk_is_warned_of(tmp_path: Path, word: str) -> None:
    (warned,) = warnings(tmp_path, word)
    assert f"'{word}' is also a word of the entry bar" in str(warned)


@pytest.mark.parametrize("word", ["signal", "promised", "keep", "delays"])
def test_an_id_that_only_looks_like_one_is_not(tmp_path: Path, word: str) -> None:
    assert warnings(tmp_path, word) == ()
