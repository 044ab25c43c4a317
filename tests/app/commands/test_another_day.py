"""`fits` and `say` on a plan of another day, and how they write what the board says."""

import pytest

from tests.app.commands.plans import HEAD, Run

FAR_OFF = (
    HEAD
    + """
[air]
on = 2190-05-14T09:30:00
off = 2190-05-14T11:00:00
[[event]]
id = "turn"
name = "Turn"
at = 2190-05-14T10:00:00
live = true
[[item]]
id = "one"
kind = "break"
name = "Break 1"
length = "2m"
owed = true
latest = 2190-05-14T10:50:00
"""
)


@pytest.mark.parametrize("command", ["fits", "say"])
def test_without_now_the_first_line_says_for_which_time_they_speak(command: str, run: Run) -> None:
    first = run(command, FAR_OFF, now="").out.splitlines()[0]
    assert first.startswith("As of ")
    assert first.endswith(" UTC; the plan begins on 14 May 2190: see --now")


@pytest.mark.parametrize("command", ["fits", "say"])
def test_with_now_it_is_known_for_which_time_they_speak(command: str, run: Run) -> None:
    for now in ("2031-05-14T09:00:00", "2190-05-14T09:40:00"):
        assert "As of" not in run(command, FAR_OFF, now=now).out


def test_months_and_days_keep_their_capital_in_what_fits(run: Run) -> None:
    told = run("fits", FAR_OFF, now="2031-05-14T09:00:00").out
    assert "14 May 2190" in told
    assert " may " not in told
