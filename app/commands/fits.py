"""`limbwatch fits`: clear time, what fits and until when, and a placement of all that is owed."""

from collections.abc import Iterator

from app.commands.times import clash_json
from app.commands.writing import as_json, clock_out, columns, seconds_out, time_out
from core.air.clear import Clear, Phase
from core.air.model import Placement
from core.board.onair.now import AirNow
from core.board.onair.places import Proposed
from core.board.programme import ItemState
from core.board.words import capital
from core.session.batch import Run
from core.session.desk import Desk
from core.times.writing import Style, short_duration_words

Json = dict[str, object]

_NOT_OURS = frozenset({Phase.BEFORE, Phase.AWAY, Phase.AFTER})
"""While others have the air nothing is clear."""


def fits_json(desk: Desk, run: Run, now_ms: int) -> str:
    """What fits, as JSON. `placement` is null where not all that is owed has place."""
    air, proposed = desk.on_air(now_ms), desk.proposed(now_ms)
    clear, places = air.clear, [_place(each, desk) for each in _in_order(proposed)]
    return as_json(
        {
            "clear_s": seconds_out(_clear_ms(clear, now_ms)),
            "phase": clear.phase.value,
            "back_by": time_out(clear.back_by_ms),
            "live": None if clear.moment is None else clear.moment.id,
            "items": _items(air, desk),
            "placement": None if proposed.left else places,
            "most": places,
            "proven": proposed.proven,
            "no_place": [each.items[0] for each in proposed.left],
            "broken": [_broken(air, number) for number in range(len(air.broken))],
            "clash": clash_json(run),
            "notes": list(run.notes),
        }
    )


def clashes(desk: Desk, run: Run, now_ms: int) -> bool:
    """Whether something clashes: in the schedule, on the air, or in what is owed."""
    lost = desk.on_air(now_ms).broken or desk.proposed(now_ms).left
    return bool(run.clash is not None or desk.schedule.broken or lost)


def _clear_ms(clear: Clear, now_ms: int) -> int | None:
    """How long until the presenter must be back, None where nothing calls for it."""
    if clear.phase is Phase.LIVE:
        return 0
    ends = [clear.back_by_ms, clear.until_ms if clear.phase is Phase.CLEAR else None]
    known = [at_ms for at_ms in ends if at_ms is not None]
    return max(0, min(known) - now_ms) if known else None


def _items(air: AirNow, desk: Desk) -> list[Json]:
    """Every item in the plan's order: how it stands, and how it fits if it is still to run."""
    fits = {each.item: each for each in air.fits}
    states = {row.item: row.state for row in air.panel.rows}
    told: list[Json] = []
    for item in desk.plan.items:
        fit = fits.get(item.id)
        told.append(
            {
                "id": item.id,
                "state": states.get(item.id, ItemState.RUN).value,
                "owed": item.owed,
                "fits_now": False if fit is None else fit.fits_now,
                "fits_with_owed": False if fit is None else fit.fits_with_owed,
                "latest_start": None if fit is None else time_out(fit.latest_start_ms),
                "how": "" if fit is None else fit.how,
            }
        )
    return told


def _in_order(proposed: Proposed) -> list[Placement]:
    """Everything with a place, old or new, in order of time."""
    return sorted((*proposed.places, *proposed.stays), key=lambda each: each.from_ms)


def _place(each: Placement, desk: Desk) -> Json:
    owed = next(item.owed for item in desk.plan.items if item.id == each.item)
    return {
        "id": each.item,
        "start": time_out(each.from_ms),
        "end": time_out(each.to_ms),
        "owed": owed,
    }


def _broken(air: AirNow, number: int) -> Json:
    lost = air.broken[number]
    return {
        "item": lost.item or None,
        "of": lost.of,
        "short_s": seconds_out(lost.loss.by_ms),
        "words": lost.words,
        "ways_out": list(lost.ways),
    }


def fits_text(desk: Desk, run: Run, style: Style, now_ms: int) -> str:
    """What fits, in words: the clear time, the items, a placement, and what is lost."""
    return "\n".join(_lines(desk, run, style, now_ms))


def _lines(desk: Desk, run: Run, style: Style, now_ms: int) -> Iterator[str]:
    air, proposed = desk.on_air(now_ms), desk.proposed(now_ms)
    panel, clear_ms = air.panel, _clear_ms(air.clear, now_ms)
    if panel.status is not None:
        yield panel.status.text
    live = f" for {panel.live}" if panel.live else ""
    if clear_ms is not None and air.clear.phase not in _NOT_OURS:
        yield f"Clear for {short_duration_words(clear_ms)}, {panel.back_by}{live}"
    elif panel.back_by:
        yield f"{capital(panel.back_by)}{live}"
    yield from (capital(said.text) for said in panel.owed)
    rows = [(row.name, row.length, row.words.text) for row in panel.rows]
    if rows:
        yield from ("", columns([("ITEM", "LENGTH", "NOW"), *rows]))
    places = [
        (clock_out(each.from_ms, style, now_ms), clock_out(each.to_ms, style, now_ms), name)
        for each, name in ((e, _name(desk, e.item)) for e in _in_order(proposed))
    ]
    if places:
        head = "All that is owed has place" if not proposed.left else "The most that has place"
        yield from ("", head, columns([("FROM", "TO", "ITEM"), *places]))
    yield from desk.no_place_words(now_ms)
    yield from (f"{lost.words}: {', or '.join(lost.ways)}" for lost in air.broken)
    yield from run.notes


def _name(desk: Desk, item_id: str) -> str:
    return next(item.name for item in desk.plan.items if item.id == item_id)
