"""Plans read again from the texts they were read from, with no file left."""

import shutil
from pathlib import Path

import pytest

from app.resources import sample_plans
from core.errors import PlanProblems
from core.plan.model import Texts
from core.plan.reader import read_kept_plan, read_plan
from tests.core.plan.orbitdata.petrel import OEM

_TABLE = """
limbwatch = 1
title = "Petrel 4"
zones = ["America/Halifax"]

[[course]]
id = "printed"
kind = "passes"
file = "passes.csv"

[[course]]
id = "flown"
kind = "trajectory"
file = "petrel.oem"
"""


@pytest.mark.parametrize("path", sample_plans(), ids=lambda path: path.stem)
def test_a_sample_reads_back_the_same_without_its_folder(path: Path) -> None:
    plan = read_plan(path)
    assert plan.texts is not None
    assert read_kept_plan(plan.texts, Path("gone") / path.name) == plan


def test_the_files_beside_a_plan_are_kept_with_it(tmp_path: Path) -> None:
    folder = tmp_path / "plans"
    folder.mkdir()
    (folder / "passes.csv").write_text(
        "lane,back,lost\nvoice,2031-05-14T12:00:00,2031-05-14T12:20:00\n", encoding="utf-8"
    )
    (folder / "petrel.oem").write_text(OEM, encoding="utf-8")
    path = folder / "petrel.toml"
    path.write_text(_TABLE, encoding="utf-8")
    plan = read_plan(path)
    shutil.rmtree(folder)
    assert plan.texts is not None
    assert [name for name, _ in plan.texts.beside] == ["passes.csv", "petrel.oem"]
    again = read_kept_plan(plan.texts, path)
    assert again == plan
    assert again.folder == folder


def test_a_file_that_was_not_kept_is_told(tmp_path: Path) -> None:
    with pytest.raises(PlanProblems, match=r"no file 'passes\.csv'"):
        read_kept_plan(Texts(_TABLE), tmp_path / "petrel.toml")
