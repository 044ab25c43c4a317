from core.entries.airing import Count
from core.entries.counting_line import counting_line
from core.plan.model import CheckOff

CHECKOFFS = (
    CheckOff(id="engines", name="Engines lit", of="liftoff", count=31, enough=26, spaced=False),
    CheckOff(id="clamps", name="Clamps released", of="separation", count=8, enough=4, spaced=True),
    CheckOff(id="seals", name="Seals shut", of="separation", count=2, enough=2, spaced=False),
)


def test_one_more_is_counted_on_the_events_own_check_off() -> None:
    assert counting_line(CHECKOFFS, {}, "liftoff") == "engines +1"
    assert counting_line(CHECKOFFS, {"clamps": Count("clamps", 3)}, "separation") == "clamps +1"


def test_when_one_is_full_the_next_of_the_event_is_counted() -> None:
    counts = {"clamps": Count("clamps", 8)}
    assert counting_line(CHECKOFFS, counts, "separation") == "seals +1"
    counts["seals"] = Count("seals", 2)
    assert counting_line(CHECKOFFS, counts, "separation") == ""


def test_an_event_without_a_check_off_has_no_such_line() -> None:
    assert counting_line(CHECKOFFS, {}, "splashdown") == ""
    assert counting_line(CHECKOFFS, {}, "") == ""
