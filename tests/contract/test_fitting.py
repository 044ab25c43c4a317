"""The independent solver's cases of fitting, through plan file and command."""

import itertools
import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest

from app.cli import main
from core.times.instants import rfc3339_to_ms
from tests.contract.converting import HANDS, Hand, clock
from tests.contract.fitting import plan_text

CASES = sorted((Path(__file__).parent.parent / "core" / "air" / "cases").glob("f*.json"))


@pytest.mark.parametrize("hand", HANDS)
@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_a_case_has_its_answer(
    path: Path, hand: Hand, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    case = json.loads(path.read_text())
    plan = tmp_path / "trial.toml"
    plan.write_text(plan_text(case, hand))
    assert main(["fits", str(plan), "--now", clock(case["now"]), "--json"]) in (0, 1)
    told = json.loads(capsys.readouterr().out)
    expect = case["expect"]
    fits = {item["id"]: item for item in told["items"]}
    for name, answer in expect["items"].items():
        assert fits[name]["fits_now"] == answer["fits_now_alone"]
        assert fits[name]["fits_with_owed"] == answer["fits_now_and_rest_still_fit"]
        assert _ms(fits[name]["latest_start"]) == answer["latest_safe_start_as_next"]
    assert (told["placement"] is not None) == expect["all_fit"]
    weights = {item["id"]: item["weight"] for item in case["items"]}
    most = told["placement"] if expect["all_fit"] else told["most"]
    assert sum(weights[one["id"]] for one in most) == expect["largest_weight_that_fits"]
    if expect["all_fit"]:
        assert _order(told["placement"], case)


def _order(placement: list[Mapping[str, Any]], case: Mapping[str, Any]) -> bool:
    """Whether the placement keeps every rule of the case."""
    spans = sorted((_exact(one["start"]), _exact(one["end"])) for one in placement)
    apart = all(b[0] - a[1] >= case["spacing"] for a, b in itertools.pairwise(spans))
    clear = all(
        end <= at - guard or start >= at + stay
        for start, end in spans
        for at, guard, stay in case["live"]
    )
    return apart and clear and spans[0][0] >= case["now"] and spans[-1][1] <= case["out"]


def _ms(text: str | None) -> int | None:
    return None if text is None else _exact(text)


def _exact(text: str) -> int:
    return rfc3339_to_ms(text)
