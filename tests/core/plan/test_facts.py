"""Facts, their sources and dates, and how a name sounds: what is taken, and what is told."""

from pathlib import Path

import pytest

from core.plan.model import Fact, Plan
from core.plan.reader import read_plan_text, read_plan_with_warnings
from tests.core.plan.marked import HEAD, Broken, check_told

EVENT = '[[event]]\nid = "photo"\nat = 2031-05-14T17:00:00\n'


def fact(keys: str) -> str:
    return EVENT + f'facts = [ {{ text = "Thrust 30 kN.", {keys} }} ]'


BROKEN: Broken = {
    "no text": (EVENT + 'facts = [ ⟦{ source = "flight" } ]', "'text' is missing", "Add text"),
    "source without words": (fact('source = ⟦" "'), "needs words", ""),
    "source is a number": (fact("source = ⟦3"), "a number, not text", "quotation marks"),
    "date in words": (fact('date = ⟦"last spring"'), "'last spring' is no date", "2031-05-14"),
    "no such day": (fact('date = ⟦"2031-02-30"'), "'2031-02-30' is no date", ""),
    "no such month": (fact('date = ⟦"2030-13"'), "is no date", '"2031-05"'),
    "a year without marks": (fact("date = ⟦2030"), "a number, not a date", '"2031" in quotation'),
    "a date with a time": (fact("date = ⟦2030-05-14T17:00:00"), "a date and time, not", "Write"),
    "a day after the plan's last": (
        fact("date = ⟦2031-05-15"),
        "2031-05-15 is after the last day of the plan",
        "ends on 14 May 2031",
    ),
    "a month after the plan's last": (fact('date = ⟦"2031-06"'), "2031-06 is after", "14 May"),
    "a year after the plan's last": (fact('date = ⟦"2032"'), "2032 is after", "check the year"),
    "sounds of digits": (EVENT + 'sounds = ⟦"PET-rul 4"', "more than letters", "PET-rul"),
    "sounds with a slash": (EVENT + 'sounds = ⟦"PET/rul"', "more than letters", "hyphens"),
    "sounds with a hyphen too many": (EVENT + 'sounds = ⟦"PET--rul"', "more than letters", ""),
    "sounds with mixed syllables": (EVENT + 'sounds = ⟦"Pet-rul"', "both kinds", "PET-rul"),
    "sounds without stress": (EVENT + 'sounds = ⟦"pet-rul"', "where the stress is", "capitals"),
    "sounds of nothing": (EVENT + 'sounds = ⟦""', "needs words", ""),
}


@pytest.mark.parametrize("kind", BROKEN)
def test_it_is_told_once_at_its_exact_place(kind: str, tmp_path: Path) -> None:
    check_told(*BROKEN[kind], tmp_path)


def read(lines: str, folder: Path) -> Plan:
    return read_plan_text(f"{HEAD}\n{lines}\n", "plan.toml", folder)


def test_a_fact_is_kept_with_all_that_is_known_of_it(tmp_path: Path) -> None:
    plan = read(fact('source = "the builder\'s handbook", date = 2030-11-02'), tmp_path)
    assert plan.events[-1].facts == (
        Fact("Thrust 30 kN.", source="the builder's handbook", date="2030-11-02"),
    )


@pytest.mark.parametrize("date", ["2031-05-14", '"2031-05-14"', '"2031-05"', '"2031"', '"1969-07"'])
def test_a_date_is_a_day_a_month_or_a_year_until_the_plans_last_day(
    date: str, tmp_path: Path
) -> None:
    plan = read(fact(f"date = {date}"), tmp_path)
    assert plan.events[-1].facts[0].date == date.strip('"')


def test_the_last_day_is_that_of_the_desks_zone(tmp_path: Path) -> None:
    late = EVENT.replace("17:00:00", "23:30:00")  # in Halifax; in UTC it is the 15th already
    facts = 'facts = [ { text = "x", date = ⟦2031-05-15 } ]'
    check_told(late + facts, "after the last day", "14 May 2031", tmp_path)


def test_a_last_day_may_be_reached_by_ties_alone(tmp_path: Path) -> None:
    tied = '[[event]]\nid = "photo"\nafter = "liftoff"\noffset = "3d"\n'
    plan = read(tied + 'facts = [ { text = "x", date = 2031-05-14 } ]', tmp_path)
    assert plan.events[-1].facts[0].date == "2031-05-14"


@pytest.mark.parametrize(
    "written", ["PET-rul", "LAN-tern KOHV", "sir-kew-luh-rye-ZAY-shun", "o'-BRY-un", "KOHV"]
)
def test_how_a_name_sounds_is_syllables_with_the_stress_in_capitals(
    written: str, tmp_path: Path
) -> None:
    assert read(EVENT + f'sounds = "{written}"', tmp_path).events[-1].sounds == written


def warnings(lines: str, folder: Path) -> list[str]:
    sources = HEAD.replace('elapsed_from = "liftoff"', 'sources = ["flight", "pool"]')
    path = folder / "plan.toml"
    path.write_text(f"{sources}\n{lines}\n", encoding="utf-8")
    return [str(each) for each in read_plan_with_warnings(path)[1]]


def test_a_source_that_is_nearly_one_of_the_plans_is_warned_of(tmp_path: Path) -> None:
    (warning,) = warnings(fact('source = "flihgt"'), tmp_path)
    assert ":23:46: 'flihgt' is no source of this plan. Did you mean 'flight'?" in warning


@pytest.mark.parametrize("source", ["flight", "handbook", "flihgt director's notes"])
def test_any_other_words_may_be_a_source(source: str, tmp_path: Path) -> None:
    assert warnings(fact(f'source = "{source}"'), tmp_path) == []
