"""`check`: what a plan holds, in a screenful, and what is awkward about it."""

from pathlib import Path

import pytest

from app.cli import main
from tests.app.commands.plans import HEAD, LOST_AND_FOUND, SQUEEZED, Run

_SAMPLES = sorted((Path(__file__).parents[3] / "sample_plans").glob("*.toml"))
_AWKWARD = [
    "hold",
    "free",
    "pin",
    "note",
    "now",
    "back",
    "lost",
    "new",
    "plan",
    "in",
    "about",
    "at",
    "open",
    "over",
    "off",
]


def test_it_sums_up_a_plan(run: Run) -> None:
    answer = run("check", LOST_AND_FOUND)
    assert (answer.status, answer.err) == (0, "")
    assert answer.out.splitlines() == [
        "Petrel 4, a trial",
        "Zones: UTC",
        "Events: 3",
        "From 14 May 2031, 10:00:00 a.m., to 14 May 2031, 10:25:00 a.m.",
        "Lane voice: 3 contacts, 1 gap",
        "Lane picture: 1 contact, 2 gaps",
        "Ground stations: Tarn Hill, Kestrel Bay",
    ]


def test_it_counts_what_there_is_and_leaves_out_what_there_is_not(run: Run) -> None:
    plan = SQUEEZED + (
        "live = true\n"
        "[air]\non = 2031-05-14T09:00:00\noff = 2031-05-14T12:00:00\n"
        '[[item]]\nid = "tape-1"\nkind = "tape"\nlength = "2m"\n'
    )
    lines = run("check", plan).out.splitlines()
    assert "Events: 4, of which 1 pinned, 1 live moment" in lines
    assert "On the air: 1 item" in lines


def test_a_plan_that_contradicts_itself_gives_1(run: Run) -> None:
    answer = run("check", SQUEEZED.replace("10:30:00", "10:12:00"))
    assert answer.status == 1
    assert answer.line("Clash by 3 min: ").count("the least from") == 3


def test_what_will_be_awkward_is_told_but_is_no_fault(run: Run) -> None:
    plan = HEAD + "".join(
        f'[[event]]\nid = "{word}"\nat = 2031-05-14T10:00:00\n' for word in _AWKWARD
    )
    answer = run("check", plan)
    assert answer.status == 0
    noted = [line for line in answer.out.splitlines() if line.startswith("Take note: ")]
    assert "plan.toml:6:6: 'hold' is also a word of the entry bar" in noted[0]
    assert noted[-1] == "Take note: and 3 more like these"


@pytest.mark.parametrize("path", _SAMPLES, ids=lambda path: path.stem)
def test_the_samples_are_without_fault_and_fit_on_a_screen(
    path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["check", str(path)]) == 0
    out, err = capsys.readouterr()
    assert err == ""
    assert len(out.splitlines()) <= 24
    assert "Take note" not in out
