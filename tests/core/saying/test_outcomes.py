"""An outcome in the words of the plan, and the minute of a return."""

import pytest

from core.saying.model import Named
from core.saying.outcomes import outcome_named
from core.saying.returns import watching
from core.saying.situations import OutcomeNamed, Watch
from tests.core.saying.scenes import ATLANTIC, at_ms


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("after the burn", "Mission control confirms the burn."),
        ("if no burn", "Mission control confirms: no burn."),
        ("with the descent burn", "Mission control confirms the descent burn."),
        ("without the burn", "Mission control confirms: without the burn."),
        ("if it is heard", "Mission control confirms: it is heard."),
        ("orbit", "Mission control confirms: orbit."),
    ],
)
def test_an_outcome_is_told_in_its_own_words(name: str, words: str) -> None:
    told = outcome_named(OutcomeNamed("ignition", name, "flight", at_ms("17:21:39")), ATLANTIC)
    assert told is not None
    assert told.line == words
    assert told.twenty == f"{words} They said so at five twenty-one."


def test_a_return_that_is_the_only_one_left_could_be_the_moment() -> None:
    chance = Named("return", "the first chance to hear them after a full burn")
    watch = Watch(chance, at_ms("17:22:22"), at_ms("17:23:22"))
    before = watching(watch, at_ms("17:21:25"))
    assert before.twenty == "Coming up now: the first chance to hear them after a full burn."
    assert before.until_ms < at_ms("17:22:22")
    told = watching(watch, at_ms("17:22:22"))
    assert told.line == "This could be the moment."
    assert told.twenty == (
        "This could be the moment: the first chance to hear them after a full burn."
    )
