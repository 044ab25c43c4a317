"""What ships beside the code is found."""

from pathlib import Path

import pytest

from app import resources

ROOT = Path(__file__).resolve().parents[2]


@pytest.mark.parametrize("name", ["IBMPlexSans.ttf", "IBMPlexSans-Italic.ttf", "LICENSE.txt"])
def test_the_font_and_its_licence_are_found_in_a_checkout(name: str) -> None:
    assert resources.asset(f"fonts/{name}") == ROOT / "assets" / "fonts" / name


def test_every_sample_plan_is_found_by_its_name() -> None:
    plans = resources.sample_plans()
    assert plans
    assert [resources.sample_plan(path.stem) for path in plans] == list(plans)


def test_the_arrival_is_among_the_sample_plans() -> None:
    assert resources.sample_plan("petrel-arrival").read_text(encoding="utf-8")


def test_something_that_does_not_ship_is_named_in_the_error() -> None:
    with pytest.raises(resources.ResourceMissing, match=r"no-such-plan\.toml is missing"):
        resources.sample_plan("no-such-plan")
