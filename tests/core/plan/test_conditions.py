"""What hangs on an outcome."""

from core.plan.conditions import conditions, ruled_out
from core.plan.model import Change, EdgeRef, Event, Outcome, Plan, Tie


def tie(event: str) -> Tie:
    return Tie(event, 1000, 0, None)


BURN = (Outcome("burned", "ignition", "after the burn"), Outcome("no-burn", "ignition", "if not"))


def plan(*events: Event, outcomes: tuple[Outcome, ...] = BURN) -> Plan:
    return Plan(
        "t", ("UTC",), events=(Event("ignition", "Ignition", 0), *events), outcomes=outcomes
    )


def test_an_event_inherits_through_ties_and_edges() -> None:
    made = plan(
        Event("back", "Back", edge=EdgeRef("voice", Change.BACK, "ignition"), only_if="burned"),
        Event("call", "Call", ties=(tie("back"),)),
        Event("lost", "Lost", edge=EdgeRef("voice", Change.LOST, "call")),
    )
    assert dict(conditions(made)) == {
        "ignition": None,
        "back": "burned",
        "call": "burned",
        "lost": "burned",
    }


def test_tied_to_both_outcomes_it_happens_either_way() -> None:
    made = plan(
        Event("a", "A", ties=(tie("ignition"),), only_if="burned"),
        Event("b", "B", ties=(tie("ignition"),), only_if="no-burn"),
        Event("c", "C", ties=(tie("a"), tie("b"))),
    )
    assert conditions(made)["c"] is None


def test_ties_in_a_circle_end() -> None:
    made = plan(Event("a", "A", ties=(tie("b"),)), Event("b", "B", ties=(tie("a"),)))
    assert conditions(made)["a"] is None


def test_naming_an_outcome_rules_out_its_siblings_and_what_hangs_on_them() -> None:
    later = (Outcome("up", "call", "up"), Outcome("down", "call", "down"))
    made = plan(
        Event("call", "Call", ties=(tie("ignition"),), only_if="burned"), outcomes=BURN + later
    )
    assert ruled_out(made, ["no-burn"]) == {"burned", "up", "down"}
    assert ruled_out(made, ["burned"]) == {"no-burn"}
    assert ruled_out(made, []) == frozenset()
