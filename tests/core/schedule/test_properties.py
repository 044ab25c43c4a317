"""What holds for any plan and any day: the steps equal a build from scratch, and leave no trace."""

from itertools import pairwise

from hypothesis import HealthCheck, given, settings

from core.entries.model import Entry, Happened, Revise
from core.errors import EntryRefused
from core.plan.model import Plan
from core.schedule.alone import PlanAlone
from core.schedule.giving import Voice
from core.schedule.model import Effect, Line
from core.schedule.schedule import Schedule
from core.schedule.works import Works
from tests.core.schedule.strategies import EDGES, MINUTE, days

SOME = settings(
    max_examples=60, derandomize=True, deadline=None, suppress_health_check=[HealthCheck.too_slow]
)

Day = tuple[Plan, list[Entry]]


def _lines(board: Schedule) -> list[Line]:
    return [board.line(name) for name in board.events]


def _take(board: Schedule, entry: Entry) -> Effect | None:
    try:
        return board.take(entry, entry.at_ms)
    except EntryRefused:
        return None


@SOME
@given(days())
def test_steps_equal_works_built_anew_from_what_stands(day: Day) -> None:
    plan, entries = day
    board = Schedule(plan, EDGES, 0)
    for entry in entries:
        _take(board, entry)
        works = board._works
        voice = Voice(entry.number)
        anew = Works(works.standing, works.lookups.edges, works.now_ms, voice)
        assert anew.standing.figures == works.standing.figures
        assert dict(zip(anew.net.ids, anew.solver.time, strict=True)) == dict(
            zip(works.net.ids, works.solver.time, strict=True)
        )
        assert anew.solver.latest == works.solver.latest
        assert anew.given.members() == works.given.members()
        assert anew.early() == works.early()


@SOME
@given(days())
def test_a_schedule_built_from_the_entries_equals_the_one_that_took_them(day: Day) -> None:
    plan, entries = day
    board = Schedule(plan, EDGES, 0)
    taken = []
    for entry in entries:
        effect = _take(board, entry)
        if effect is not None and effect.clash is None and not effect.asks:
            taken.append(entry)
    now_ms = entries[-1].at_ms + 90_000
    board.tick(now_ms)
    built = Schedule(plan, EDGES, now_ms, taken)
    assert _lines(built) == _lines(board)
    assert built.spent == board.spent
    assert built.broken == board.broken


@SOME
@given(days())
def test_taking_back_equals_a_day_that_never_had_it(day: Day) -> None:
    plan, entries = day
    alone = PlanAlone(plan, EDGES)
    board = Schedule(plan, EDGES, 0, alone=alone)
    taken = []
    for entry in entries:
        effect = _take(board, entry)
        if effect is not None and effect.clash is None and not effect.asks:
            taken.append(entry)
    now_ms = entries[-1].at_ms + 90_000
    for place in reversed(range(len(taken))):
        left = taken[:place] + taken[place + 1 :]
        recalled = Schedule(plan, EDGES, now_ms, left, alone=alone)
        anew = Schedule(plan, EDGES, now_ms, left)
        assert _lines(recalled) == _lines(anew)
        assert recalled.spent == anew.spent
        assert recalled.broken == anew.broken


@SOME
@given(days())
def test_a_preview_leaves_no_trace_and_says_what_taking_does(day: Day) -> None:
    plan, entries = day
    board = Schedule(plan, EDGES, 0)
    for entry in entries:
        board.tick(entry.at_ms)
        before, revision = _lines(board), board.revision
        latest = list(board._works.solver.latest)
        try:
            shown = board.preview(entry, entry.at_ms)
        except EntryRefused:
            shown = None
        assert _lines(board) == before
        assert board._works.solver.latest == latest
        assert board.revision == revision
        done = _take(board, entry)
        if shown is None or done is None:
            assert shown is done
            continue
        assert tuple(shown.moves) == tuple(done.moves)
        assert tuple(shown.stays) == tuple(done.stays)
        assert shown.squeezed == done.squeezed
        assert (shown.clash, shown.yielded, shown.broken) == (
            done.clash,
            done.yielded,
            done.broken,
        )


@SOME
@given(days())
def test_a_chain_of_causes_goes_back_to_what_was_typed_and_adds_up(day: Day) -> None:
    plan, entries = day
    board = Schedule(plan, EDGES, 0)
    for entry in entries:
        clean = not board.clashes and not board.chasing
        effect = _take(board, entry)
        if effect is None or effect.chains is None:
            continue
        if not clean or board.clashes or board.chasing:
            continue
        appeared = {move.event for move in effect.moves if move.old_ms is None}
        for move in effect.moves:
            if move.old_ms is None or move.new_ms is None:
                continue
            chain = effect.chains.chain(move.event)
            assert chain[-1].event == move.event
            assert chain[-1].moved_ms == move.new_ms - move.old_ms
            for first, then in pairwise(chain):
                assert then.cause.of == first.event
                assert first.moved_ms != 0
            if not effect.yielded and move.kind != "typed" and _is_revision(entry):
                # Or to one that has a time only now, and moves what had one.
                assert chain[0].event == _about(entry) or chain[0].cause.of in appeared


def _about(entry: Entry) -> str:
    assert isinstance(entry.action, Revise | Happened)
    return entry.action.event


def _is_revision(entry: Entry) -> bool:
    return isinstance(entry.action, Revise | Happened)


@SOME
@given(days(kinds="figures"))
def test_there_and_back_restores_the_schedule(day: Day) -> None:
    plan, entries = day
    board = Schedule(plan, EDGES, 0)
    for entry in entries:
        before = _lines(board)
        taken = list(board._works.standing.entries)
        if _take(board, entry) is not None:
            again = Schedule(plan, EDGES, entry.at_ms, taken)
            assert _lines(again) == before


@SOME
@given(days(kinds="figures"))
def test_a_revision_moves_nothing_the_other_way_and_nothing_by_more(day: Day) -> None:
    plan, entries = day
    board = Schedule(plan, EDGES, 0)
    for entry in entries:
        before = {name: board.expected_ms(name) for name in board.events}
        chasing = board.chasing
        pushes = [name for name in board.events if board.line(name).cause is not None]
        effect = _take(board, entry)
        if effect is None or effect.clash is not None or effect.yielded or effect.broken:
            return
        if not isinstance(entry.action, Revise) or board.broken or chasing or board.chasing:
            continue
        name = _about(entry)
        old_ms, new_ms = before[name], board.expected_ms(name)
        if old_ms is None or new_ms is None or name not in pushes:
            continue
        by_ms = new_ms - old_ms
        for move in effect.moves:
            if move.old_ms is not None and move.new_ms is not None:
                moved_ms = move.new_ms - move.old_ms
                assert moved_ms * by_ms >= 0
                assert abs(moved_ms) <= abs(by_ms)


@SOME
@given(days())
def test_no_number_of_minutes_breaks_a_time(day: Day) -> None:
    plan, entries = day
    board = Schedule(plan, EDGES, 0)
    for entry in entries:
        _take(board, entry)
        for name in board.events:
            line = board.line(name)
            for value in (line.expected_ms, line.earliest_ms, line.latest_ms, line.slack_ms):
                assert value is None or isinstance(value, int)
                assert value is None or abs(value) < 10_000 * MINUTE
