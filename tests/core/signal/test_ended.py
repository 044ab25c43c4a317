"""What begins after a course's end may be left out: the day is the same as if it were not."""

from hypothesis import given
from hypothesis import strategies as st

from core.entries.model import Choose, Happened, Observe, Revise, Shift
from core.plan.model import Bound, Change, Event, Ground, Outcome
from core.signal.automatic import automatic_events
from core.signal.tables import Tables
from tests.core.signal.days import S, at, plan, typed
from tests.core.signal.skies import ArrivalSky, EndedSky, arrival_course

COURSE = arrival_course(ends=Bound("cutoff"))
PLAN = plan(
    COURSE,
    events=[
        Event("ignition", "ignition", at_ms=1900 * S),
        Event("cutoff", "cutoff", at_ms=3000 * S),
    ],
    outcomes=[
        Outcome("burned", "ignition", "after the burn"),
        Outcome("no-burn", "ignition", "if no burn"),
    ],
    grounds=[
        Ground("tarn", "Tarn", ("voice",), latitude_deg=1.0, longitude_deg=2.0),
        Ground("kestrel", "Kestrel", ("voice",), latitude_deg=3.0, longitude_deg=4.0),
    ],
    auto_edges=("voice",),
)
BACK, LOST = "arrival.voice.burned.tarn2.back", "arrival.voice.burned.tarn2.lost"
FIRST_LOST = "arrival.voice.kestrel1.lost"

times_s = st.integers(0, 6000)
words = st.one_of(
    st.builds(
        lambda edge, time_s, shift: Observe(
            "voice", Change(edge.rsplit(".", 1)[1]), time_s * S, shift, edge
        ),
        st.sampled_from([BACK, LOST, FIRST_LOST]),
        times_s,
        st.sampled_from(Shift),
    ),
    st.builds(lambda s: Happened("cutoff", s * S, LOST), times_s),
    st.builds(lambda s: Revise("cutoff", s * S, edge=BACK), times_s),
    st.sampled_from([Choose("burned"), Choose("no-burn")]),
)


@given(ignition_s=times_s, cutoff_s=st.none() | times_s, said=st.lists(words, max_size=3))
def test_a_day_is_the_same_whatever_is_left_out_after_the_end_of_a_course(
    ignition_s: int, cutoff_s: int | None, said: list[Observe | Happened | Revise | Choose]
) -> None:
    expected = at(ignition=ignition_s, cutoff=cutoff_s)
    entries = typed(*said)
    whole = Tables(PLAN, ArrivalSky()).told(entries).signal(expected)
    ended = Tables(PLAN, EndedSky()).told(entries).signal(expected)
    assert ended == whole


def test_contacts_are_counted_as_if_the_course_went_on() -> None:
    assert automatic_events(PLAN, EndedSky()) == automatic_events(PLAN, ArrivalSky())
    assert LOST in {event.id for event in automatic_events(PLAN, EndedSky())}
