"""Surprises typed on the spot, word for word or in the words of the file."""

import pytest

from core.entries.model import Way
from core.errors import EntryProblem
from core.plan.model import Change
from core.rehearsal.adding import surprise_of
from core.rehearsal.choosing import KINDS, completed, next_words
from core.rehearsal.model import (
    CalledOff,
    CameraOn,
    Closes,
    Edges,
    LineFails,
    Moves,
    NetworkTakes,
    Steps,
    Surprise,
    Turns,
    What,
    When,
    Words,
)
from tests.core.board.boards import at_ms
from tests.core.rehearsal.days import small

NOW_MS = at_ms("16:41:30")


def taken(line: str) -> Surprise:
    return surprise_of(line, small(), NOW_MS, 3)


@pytest.mark.parametrize(
    ("line", "what"),
    [
        ("report ignition late 3m", Moves("ignition", 180_000)),
        ("report ign early 1m 30s", Moves("ignition", -90_000)),
        ("signal voice lost early 20s", Edges("voice", Change.LOST, -20_000)),
        ("signal voice back never", Edges("voice", Change.BACK, never=True)),
        ("signal picture lost for 3m", Edges("picture", Change.LOST, for_ms=180_000)),
        ("outcome no-burn", Turns("no-burn", ("ignition", "cutoff"))),
        ("outcome burned", Turns("burned")),
        ("off ignition", CalledOff("ignition", Way.WITH)),
        ("line hall", LineFails("hall")),
        ("closed voice 7m", Closes("voice", 420_000)),
        ("network 11m", NetworkTakes(660_000)),
        ("camera 90s", CameraOn(90_000)),
        ("clock -40s", Steps(-40_000)),
        ("words: Stand by.", Words()),
    ],
)
def test_each_kind_can_be_chosen_word_for_word(line: str, what: What) -> None:
    found = taken(line)
    assert found.what == what
    assert found.when == When(at_ms=NOW_MS)
    assert found.id == "added-3"


def test_who_says_it_and_what_is_heard_may_follow() -> None:
    found = taken("report ignition late 3m per flight: Ignition: three minutes late.")
    assert (found.source, found.text) == ("flight", "Ignition: three minutes late.")
    assert taken("report cutoff late 9s quiet").quiet


def test_the_words_of_a_surprises_file_are_taken_too() -> None:
    found = taken(
        'kind = "report", event = "ignition", late = "3m", desk = "ign +3m", again = "40s"'
    )
    assert found.what == Moves("ignition", 180_000)
    assert (found.desk, found.again_ms, found.when.at_ms) == (("ign +3m",), 40_000, NOW_MS)
    later = taken('id = "x", kind = "words", before = "ignition", by = "2m", text = "Soon."')
    assert later.when == When(event="ignition", by_ms=-120_000)
    assert later.id == "x"


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("", "no kind of surprise"),
        ("teatime", "no kind of surprise"),
        ("report", "which event"),
        ("report ignition", "late or early"),
        ("report ignition late", "how long"),
        ("report nothing late 3m", "'nothing'"),
        ("report c late 3m", "may be c"),
        ("report ignition late soon", "soon"),
        ("report ignition late 3m 4m too", "too"),
        ("signal voice back for 3m", "a return lasts until the next loss"),
        ("closed voice 7m per nobody", "no source of the plan"),
        ("words", "what is heard"),
        ('kind = "report", event = "ignition"', "by how much"),
        ("kind = report", "not as a surprises file has it"),
        ('kind = "words" }] [[x]] #', "not as a surprises file has it"),
        ("=" * 300, "not as a surprises file has it"),
        ("a = " + "[" * 5_000, "not as a surprises file has it"),
    ],
)
def test_what_cannot_be_taken_says_why(line: str, words: str) -> None:
    with pytest.raises(EntryProblem, match=words):
        taken(line)


def test_the_words_to_choose_from_follow_one_another() -> None:
    line, picked = "", ["report", "ignition", "late"]
    for word in picked:
        options = dict(next_words(line, small()).options)
        assert word in options
        line = completed(line + word[:2], word)
    assert line == "report ignition late "
    assert next_words(line, small()) == next_words(f"{line}x", small())
    assert next_words(line, small()).asks.startswith("How long")
    assert next_words(f"{line}3m", small()).asks.startswith("Enter lets it come now")
    assert taken(f"{line}3m").what == Moves("ignition", 180_000)


def test_a_word_begun_narrows_the_choice() -> None:
    assert dict(next_words("", small()).options) == KINDS
    assert [word for word, _ in next_words("c", small()).options] == ["closed", "camera", "clock"]
    assert next_words("report ign", small()).options == (("ignition", "Burn, ignition"),)
    assert [w for w, _ in next_words("network 3m per ", small()).options] == list(small().sources)
    assert next_words("xyz ", small()).options == ()
    assert next_words("signal voice back never ", small()).asks.startswith("Enter")


@pytest.mark.parametrize("kind", KINDS)
def test_whatever_is_chosen_along_the_way_can_be_taken(kind: str) -> None:
    line = f"{kind} "
    for _ in range(4):
        found = next_words(line, small())
        if found.asks.startswith("Enter"):
            break
        line = completed(line, found.options[0][0] if found.options else "2m")
    assert taken(line + (": Stand by." if kind == "words" else "")).id == "added-3"
