"""What simply happens in a rehearsal, as the desk hears of it."""

from core.plan.model import Plan
from core.rehearsal.reports import Report
from core.rehearsal.timeline import Happening
from core.times.instants import ms_to_rfc3339


def heard(what: Happening, plan: Plan) -> Report:
    """What simply happens, as the desk hears of it."""
    then = ms_to_rfc3339(what.at_ms)
    event = next((each for each in plan.events if each.id == what.event), None)
    edge = None if event is None else event.edge
    if event is not None and (edge is None or event.only_if is None):
        line = f"{event.id} happened {then}"
        return Report(event.id, what.heard_ms, f"{event.name}.", (line,), then_ms=what.at_ms)
    # Of an edge that belongs to an outcome one only hears that the signal is lost or back.
    lane, change = (edge.lane, edge.change) if edge else (what.lane, what.change)
    word = f"{lane} {change.value if change else ''}"
    words = f"{word}.".capitalize()
    return Report(word, what.heard_ms, words, (f"{word} {then}",), then_ms=what.at_ms)
