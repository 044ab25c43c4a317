"""Every entry to text and back; what was kept by other versions of the program."""

import json
from dataclasses import replace
from pathlib import Path
from typing import Any, get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.entries.model import Action, Add, Entry, Note, Revise, TakePlan
from core.errors import LaterVersion, SessionProblem
from core.plan.model import Plan
from core.plan.reader import read_plan_text
from core.plan.writer import write_plan
from core.session.codec import WORDS, entry_of, entry_text
from core.session.ground import make_ready
from tests.core.board.boards import plan_of
from tests.strategies import events, plans

NOTE = Entry(3, 1_936_208_463_000, "note all quiet", Note("all quiet"), "desk")


def as_read(plan: Plan) -> Plan:
    return plan


def ready(plan: Plan) -> Plan:
    return make_ready(plan).plan


def changed(entry: Entry, **parts: Any) -> str:
    """The entry's text with those parts of the document set anew; None takes one out."""
    document = {**json.loads(entry_text(entry)), **parts}
    return json.dumps({key: value for key, value in document.items() if value is not None})


def entries(kind: type[Action]) -> st.SearchStrategy[Entry]:
    """Entries with actions of that kind, as odd as their types allow."""
    actions: st.SearchStrategy[Any] = st.builds(kind)
    if kind is Add:
        actions = st.builds(Add, events(("voice",)).map(lambda found: found[-1]))
    if kind is TakePlan:
        written = plans().map(lambda plan: read_plan_text(write_plan(plan), "p", Path("plans")))
        actions = st.builds(TakePlan, written.map(ready))
    return st.builds(Entry, action=actions, by=st.just("") | st.text(max_size=4))


def test_every_action_has_a_word_of_its_own() -> None:
    assert set(WORDS) == set(get_args(Action))
    assert len(set(WORDS.values())) == len(WORDS)


@pytest.mark.parametrize("kind", get_args(Action), ids=lambda kind: kind.__name__)
@given(data=st.data())
@settings(max_examples=20)
def test_an_entry_comes_back_as_it_was(kind: type[Action], data: st.DataObject) -> None:
    entry = data.draw(entries(kind))
    text = entry_text(entry)
    assert entry_of(text, ready) == entry
    assert text.isascii()
    assert "\n" not in text


def test_a_plan_taken_over_comes_back_with_its_automatic_edges(tmp_path: Path) -> None:
    plan = ready(plan_of(tmp_path))
    assert any(event.edge is not None and event.edge.row for event in plan.events)
    again = entry_of(entry_text(Entry(1, 0, "plan", TakePlan(plan))), ready)
    assert isinstance(again.action, TakePlan)
    assert again.action.plan == plan
    assert again.action.plan.folder == plan.folder


def test_half_a_surrogate_pair_is_kept_too() -> None:
    entry = replace(NOTE, typed="note \ud83d", action=Note("\ud83d"))
    assert entry_of(entry_text(entry), as_read) == entry


def test_what_is_not_there_has_its_default() -> None:
    text = changed(Entry(1, 5, "", Revise("loss", 9)), **{"with": {"event": "loss", "time_ms": 9}})
    assert entry_of(text, as_read).action == Revise("loss", 9)


def test_an_entry_of_nobody_by_name_is_kept_as_it_always_was() -> None:
    assert "by" not in json.loads(entry_text(NOTE))
    assert json.loads(entry_text(replace(NOTE, by="AB")))["by"] == "AB"


@given(entry=entries(Revise))
def test_an_entry_kept_before_there_were_initials_has_none(entry: Entry) -> None:
    older = {key: has for key, has in json.loads(entry_text(entry)).items() if key != "by"}
    assert entry_of(json.dumps(older), as_read) == replace(entry, by="")


def test_an_older_document_is_brought_to_the_newer_form() -> None:
    def renamed(document: dict[str, Any]) -> dict[str, Any]:
        return {**document, "with": {"text": document["with"]["words"]}}

    text = changed(NOTE, **{"with": {"words": "all quiet"}})
    assert entry_of(text, as_read, steps=(renamed,)) == NOTE
    newer = changed(NOTE, v=2)
    assert entry_of(newer, as_read, steps=(renamed,)) == NOTE


@pytest.mark.parametrize(
    ("parts", "said"),
    [
        ({"v": 2}, "of version 2; this program knows 1"),
        ({"mood": "good"}, "'mood', which only a later version knows"),
        ({"do": "sing"}, "does 'sing'"),
        ({"with": {"text": "a", "tone": "b"}}, "note has 'tone'"),
        ({"do": "scrub", "with": {"event": "loss", "way": "aside"}}, r"scrub\.way is 'aside'"),
    ],
)
def test_what_a_later_version_kept_is_refused(parts: dict[str, Any], said: str) -> None:
    with pytest.raises(LaterVersion, match=said):
        entry_of(changed(NOTE, **parts), as_read)


@pytest.mark.parametrize(
    ("parts", "said"),
    [
        ({"v": None}, "does not say its version"),
        ({"v": True}, "does not say its version"),
        ({"number": None}, "lacks 'number'"),
        ({"number": "3"}, r"entry\.number is str, not int"),
        ({"forced": 1}, r"entry\.forced is int, not bool"),
        ({"by": 7}, r"entry\.by is int, not str"),
        ({"with": {}}, "note lacks 'text'"),
        ({"with": 7}, "note is no Note"),
        ({"do": "count", "with": {"checkoff": "c", "count": 1, "positions": 2}}, "is no list"),
        ({"do": "place", "with": {"places": [["break 1"]]}}, "has 1 values, not 2"),
        ({"do": "take-plan", "with": {"texts": {"plan": "limbwatch = 9"}, "folder": "."}}, "read"),
    ],
)
def test_what_is_no_entry_is_told(parts: dict[str, Any], said: str) -> None:
    with pytest.raises(SessionProblem, match=said):
        entry_of(changed(NOTE, **parts), as_read)


@pytest.mark.parametrize("text", ["", "{", "[]", "null", "[" * 100_000])
def test_what_is_no_json_is_told(text: str) -> None:
    with pytest.raises(SessionProblem, match="no JSON"):
        entry_of(text, as_read)


def test_a_plan_that_was_never_read_is_not_kept() -> None:
    with pytest.raises(ValueError, match="not read from a text"):
        entry_text(Entry(1, 0, "plan", TakePlan(Plan("t", ("UTC",)))))
