"""`rehearse`: a day from a file, or a drawn one, run without a screen, and its score."""

import json
from html import escape
from pathlib import Path

import pytest

from app.cli import main
from app.resources import sample_plan

NO_BURN = sample_plan("rehearsals/petrel-no-burn")


def lines(capsys: pytest.CaptureFixture[str]) -> list[str]:
    out, err = capsys.readouterr()
    assert err == ""
    return out.splitlines()


def test_the_day_the_engine_does_not_light_is_scored_in_one_line_of_json(
    capsys: pytest.CaptureFixture[str],
) -> None:
    plan = str(sample_plan("petrel-arrival"))
    assert main(["rehearse", plan, str(NO_BURN), "--json"]) == 0
    (line,) = lines(capsys)
    score = json.loads(line)
    reports = {each["report"]: each for each in score["reports"]}
    assert score["title"] == "The engine does not light"
    assert reports["ignition-late"]["at"] == "2031-05-14T19:45:00.000Z"
    assert reports["not-lit"]["right"] is True
    assert reports["not-lit"]["after_s"] == 0.0
    assert "ignition" not in reports  # it did not happen
    assert "return" not in reports
    assert score["wrong_countdown_s"] == 0.0
    assert [each["id"] for each in score["owed_items"]] == [f"break-{n}" for n in (3, 4, 5, 6)]
    assert all(each["ran"] for each in score["owed_items"])
    assert all(each["unavoidable"] for each in score["lost"])
    assert score["corrections"]["still_owed"] == []
    assert score["troubles"] == []


def test_a_drawn_day_is_told_in_words_and_comes_again_by_its_number(
    capsys: pytest.CaptureFixture[str],
) -> None:
    call = ["rehearse", str(sample_plan("first-steps")), "--draw", "9", "--severity", "3"]
    assert main([*call, "--desk", "slow"]) == 0
    told = lines(capsys)
    assert told[0] == "Drawn day 9, severity 3: rehearsed by the scripted desk 'slow'"
    assert told[1].split() == ["HEARD", "REPORT", "ENTERED", "AFTER"]
    assert any("wrong countdown" in line for line in told)
    assert main([*call, "--desk", "slow"]) == 0
    assert lines(capsys) == told


def test_what_is_drawn_from_may_be_changed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    draws = tmp_path / "draws.toml"
    draws.write_text("limbwatch_draws = 1\n", encoding="utf-8")
    call = ["rehearse", str(sample_plan("first-steps")), "--draw", "9", "--from", str(draws)]
    assert main([*call, "--json"]) == 0
    (line,) = lines(capsys)
    assert not any(each["surprise"] for each in json.loads(line)["reports"])


def test_what_is_wrong_with_a_surprises_file_is_told_and_gives_2(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "day.toml"
    path.write_text('limbwatch_surprises = 1\ntitle = "A day"\n', encoding="utf-8")
    assert main(["rehearse", str(sample_plan("first-steps")), str(path)]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert "'begin' is missing here" in err
    assert "'end' is missing here" in err


def test_the_score_is_a_page_too_where_it_is_asked_for(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    page = tmp_path / "score.html"
    plan = str(sample_plan("petrel-arrival"))
    assert main(["rehearse", plan, str(NO_BURN), "--json", "--page", str(page)]) == 0
    (line,) = lines(capsys)
    told = page.read_text(encoding="utf-8")
    assert "The engine does not light" in told
    for each in json.loads(line)["reports"]:
        assert escape(each["text"]) in told
        assert each["seen_s"] == 0.0
    assert "rehearsed by the scripted desk &#x27;perfect&#x27;" in told


def test_a_page_that_cannot_be_written_is_told_and_gives_2(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    call = ["rehearse", str(sample_plan("first-steps")), "--draw", "9", "--desk", "slow"]
    assert main([*call, "--page", str(tmp_path / "none" / "score.html")]) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert "--page: Cannot write" in err
