"""A surprises file is read whole: what it says, or all that is wrong with it, each placed."""

from pathlib import Path

import pytest

from core.errors import PlanProblems
from core.plan.model import Change
from core.plan.reader import read_plan
from core.rehearsal.draws import read_draws
from core.rehearsal.model import (
    CalledOff,
    CameraOn,
    Closes,
    Edges,
    LineFails,
    Misheard,
    Moves,
    NetworkTakes,
    Steps,
    Surprises,
    Turns,
    What,
    When,
    Words,
)
from core.rehearsal.reading import read_surprises, read_surprises_text
from tests.core.board.boards import at_ms
from tests.core.rehearsal.days import ROOT, small

HEAD = """limbwatch_surprises = 1
title = "A bad day"
begin = 2031-05-14T16:30:00
end = 2031-05-14T18:30:00
[[surprise]]
"""


def read(body: str, head: str = HEAD) -> Surprises:
    return read_surprises_text(head + body, "day.toml", small())


def wrong(body: str, head: str = HEAD) -> list[str]:
    with pytest.raises(PlanProblems) as raised:
        read(body, head)
    return [str(problem) for problem in raised.value.problems]


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ('kind = "report"\nevent = "go"\nlate = "3m"', Moves("go", 180_000)),
        ('kind = "report"\nevent = "go"\nearly = "40s"', Moves("go", -40_000)),
        (
            'kind = "report"\nevent = "go"\ntime = 2031-05-14T16:44:00',
            Moves("go", to_ms=at_ms("16:44")),
        ),
        (
            'kind = "signal"\nlane = "voice"\nchange = "lost"\nearly = "9s"',
            Edges("voice", Change.LOST, -9_000),
        ),
        (
            'kind = "signal"\nlane = "voice"\nchange = "lost"\nfor = "2m"',
            Edges("voice", Change.LOST, for_ms=120_000),
        ),
        (
            'kind = "signal"\nlane = "voice"\nchange = "back"\nnever = true',
            Edges("voice", Change.BACK, never=True),
        ),
        ('kind = "outcome"\noutcome = "no-burn"', Turns("no-burn")),
        (
            'kind = "outcome"\noutcome = "no-burn"\nwithout = ["cutoff"]',
            Turns("no-burn", ("cutoff",)),
        ),
        ('kind = "off"\nevent = "school"\nway = "stay"', CalledOff("school", "stay")),  # type: ignore[arg-type]
        ('kind = "line"\nitem = "hall"', LineFails("hall")),
        ('kind = "clock"\nstep = "-40s"', Steps(-40_000)),
        ('kind = "closed"\nlane = "voice"\nfor = "12m"', Closes("voice", 720_000)),
        ('kind = "network"\nfor = "11m"', NetworkTakes(660_000)),
        ('kind = "camera"\nfor = "90s"', CameraOn(90_000)),
        ('kind = "words"\ntext = "Stand by."', Words()),
    ],
)
def test_each_kind_is_read(written: str, meant: What) -> None:
    (surprise,) = read(f"at = 2031-05-14T16:40:00\n{written}\n").surprises
    assert surprise.what == meant
    assert surprise.when == When(at_ms("16:40"))


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ('elapsed = "75:10:00"', When(elapsed_ms=(75 * 60 + 10) * 60_000)),
        ('after = "go"\nby = "5m"', When(event="go", by_ms=300_000)),
        ('before = "go"\nby = "5m"', When(event="go", by_ms=-300_000)),
        ('inside = "break-4"\nby = "40s"', When(item="break-4", by_ms=40_000)),
    ],
)
def test_it_says_when(written: str, meant: When) -> None:
    (surprise,) = read(f'{written}\nkind = "camera"\nfor = "1m"\n').surprises
    assert surprise.when == meant


def test_it_may_say_what_a_good_desk_enters_and_by_when_and_what_was_misheard() -> None:
    (surprise,) = read(
        'at = 2031-05-14T16:40:00\nkind = "report"\nevent = "ignition"\nlate = "3m"\n'
        'source = "flight"\ndesk = "ign +3m per flight"\nwithin = "20s"\nagain = "40s"\n'
        'misheard = { text = "Thirteen.", desk = "ign +13m per flight", corrected = "2m" }\n'
    ).surprises
    assert surprise.desk == ("ign +3m per flight",)
    assert surprise.within_ms == 20_000
    assert surprise.again_ms == 40_000
    assert surprise.misheard == Misheard("Thirteen.", "ign +13m per flight", 120_000)


@pytest.mark.parametrize(
    ("body", "said"),
    [
        (
            'at = 2031-05-14T16:40:00\nkind = "report"\nevent = "ignitoin"\nlate = "3m"',
            "day.toml:8:9: there is no event 'ignitoin'. Did you mean 'ignition'?",
        ),
        (
            'at = 2031-05-14T16:40:00\nkind = "reprot"',
            "day.toml:7:8: 'reprot' is not known here. Did you mean 'report'?",
        ),
        (
            'kind = "network"\nfor = "11m"',
            "day.toml:5:1: this does not say when. Write one of at, elapsed, after, before, inside",
        ),
        (
            'at = 2031-05-14T16:40:00\nkind = "report"\nevent = "go"',
            (
                "day.toml:5:1: this does not say by how much. "
                'Write one of late = "3m", early = "40s", time = 2031-05-14T17:00:00'
            ),
        ),
        (
            'at = 2031-05-14T16:40:00\nkind = "closed"\nlane = "voice"\nfor = 12',
            'day.toml:9:7: 12 has no unit. Add one: "12s" for seconds, "12m" for minutes',
        ),
        (
            'at = 2031-05-14T16:40:00\nkind = "network"\nfor = "11m"\nlate = "3m"',
            "day.toml:9:1: 'late' is not a key that can stand here. Did you mean 'at'?",
        ),
        (
            'at = 2031-05-14T16:40:00\nkind = "network"\nfor = "11m"\nsource = "fligth"',
            "day.toml:9:10: 'fligth' is no source of the plan. Did you mean 'flight'?",
        ),
        (
            'inside = "break-4"\nby = "9s"\nkind = "report"\nevent = "go"\nlate = "3m"',
            (
                "day.toml:5:1: what the flight does cannot wait for an item. "
                "Write at, elapsed, after or before"
            ),
        ),
        (
            (
                'at = 2031-05-14T16:40:00\nkind = "signal"\nlane = "voice"\nchange = "lost"\n'
                "never = true"
            ),
            (
                "day.toml:5:1: a loss that never comes is no surprise yet. "
                "Write by how much it is late"
            ),
        ),
    ],
)
def test_what_is_wrong_is_told_with_its_place_and_a_remedy(body: str, said: str) -> None:
    assert said in wrong(body)


def test_everything_wrong_is_told_at_once() -> None:
    told = wrong(
        'kind = "network"\nfor = "x"\n[[surprise]]\nat = 1\nkind = "line"\nitem = "none"\n'
    )
    assert len(told) == 4


@pytest.mark.parametrize("first", ["", "limbwatch_surprises = 2\n", "limbwatch_surprises = true\n"])
def test_another_version_is_refused_and_nothing_else_judged(first: str) -> None:
    (told,) = wrong("", f'{first}title = "A day"\n')
    assert "version" in told or "does not say that it holds surprises" in told


def test_a_rehearsal_does_not_end_before_it_begins() -> None:
    head = HEAD.replace("18:30", "16:00").removesuffix("[[surprise]]\n")
    assert wrong("", head) == [
        "day.toml:4:7: the rehearsal ends before it begins. Check both times"
    ]


@pytest.mark.parametrize(
    "path", sorted((ROOT / "sample_plans" / "rehearsals").glob("*.toml")), ids=lambda p: p.stem
)
def test_the_samples_are_read(path: Path) -> None:
    plan = read_plan(ROOT / "sample_plans" / "petrel-arrival.toml")
    assert len(read_surprises(path, plan).surprises) > 5


def test_what_may_be_drawn_is_read_with_everything_wrong_told(tmp_path: Path) -> None:
    path = tmp_path / "draws.toml"
    path.write_text(
        'limbwatch_draws = 1\n[late]\nper_hour = -1\nsize = ["9s"]\nahead = ["5m", "1m"]\n[lat]\n',
        encoding="utf-8",
    )
    with pytest.raises(PlanProblems) as raised:
        read_draws(path)
    places = [(each.where.line, each.where.column) for each in raised.value.problems]
    assert places == [(3, 12), (4, 8), (5, 9), (6, 2)]
