"""How names sound: whose sound it is, and under which sentences it may stand."""

from dataclasses import replace

import pytest

from core.board.sounding import Sounding, soundings, sounds_in
from core.plan.model import Event, Plan

PETREL = Sounding("Petrel", "PET-rul")
COVE = Sounding("Lantern Cove", "LAN-tern KOHV")


def plan_with(*events: tuple[str, str, str]) -> Plan:
    return Plan(
        title="",
        zones=("UTC",),
        events=tuple(
            Event(id=f"e{number}", name=name, say=say, sounds=sounds)
            for number, (name, say, sounds) in enumerate(events)
        ),
    )


@pytest.mark.parametrize(
    ("name", "say", "sounds", "meant"),
    [
        ("Burn, ignition", "the firing meant to put Petrel into orbit", "PET-rul", "Petrel"),
        ("School call", "the school at Lantern Cove", "LAN-tern KOHV", "Lantern Cove"),
        (
            "Circularisation burn",
            "the firing that makes the orbit round",
            "sir-kew-luh-rye-ZAY-shun",
            "Circularisation",
        ),
        ("Sighting, Abulfeda's chain", "", "AH-bul-FAY-dahz", "Abulfeda's"),
        ("Okafor reads", "Lian Okafor reads from the log", "LEE-ahn oh-KAY-for", "Lian Okafor"),
        ("Crater", "the pass over Curie", "koo-REE", "Curie"),
    ],
)
def test_the_name_is_found_among_the_words_of_its_event(
    name: str, say: str, sounds: str, meant: str
) -> None:
    assert soundings(plan_with((name, say, sounds))) == (Sounding(meant, sounds),)


def test_the_craft_may_be_named_in_the_title_alone() -> None:
    plan = replace(plan_with(("Burn", "the burn round the Moon", "PET-rul")), title="Petrel 4")
    assert soundings(plan) == (PETREL,)


def test_what_sounds_like_none_of_the_words_stands_nowhere() -> None:
    assert soundings(plan_with(("Burn", "the burn round the Moon", "WIM-brul"))) == ()


def test_each_name_is_there_once() -> None:
    one = ("Petrel docks", "", "PET-rul")
    assert soundings(plan_with(one, ("Petrel lands", "", "PET-rul"), ("Wake", "", ""))) == (PETREL,)


def test_a_sentence_has_the_sounds_of_its_own_names_in_their_order() -> None:
    text = "Lantern Cove will see Petrel. Petrel's signal is due."
    assert sounds_in(text, (PETREL, COVE)) == ("LAN-tern KOHV", "PET-rul")
    assert sounds_in("Petrels fly past the cove.", (PETREL, COVE)) == ()
