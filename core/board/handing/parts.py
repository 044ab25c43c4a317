"""The parts of the handover page, each of its own kind of thing."""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from core.air.running import Running, Stands
from core.air.spans import NEVER_MS
from core.board.facts import facts
from core.board.handing.model import HandPart, HandRow
from core.board.meaning import meaning
from core.board.onair.state import AirState
from core.board.overdue import overdue_words
from core.board.scene import Scene
from core.board.written import Said, Tone
from core.entries.airing import Drop
from core.entries.model import Entry
from core.entries.promised import open_promises, promised
from core.entries.signing import Signing
from core.saying.situations import Correction
from core.schedule.model import State
from core.times.writing import dated_clock_text

LAST = 8
"""So many of the last entries are listed."""

_OVER = frozenset({State.SCRUBBED, State.DROPPED})
_STILL = frozenset({Stands.FLOATING, Stands.PLACED, Stands.ON_AIR})


def due_part(scene: Scene, now_ms: int) -> HandPart:
    """What is due and unconfirmed, each with the time it was expected."""
    return HandPart("DUE AND UNCONFIRMED", tuple(_due(scene, now_ms)))


def _due(scene: Scene, now_ms: int) -> Iterator[HandRow]:
    for name in scene.arranged(now_ms).due:
        at_ms = scene.brief(name).expected_ms
        late = overdue_words(scene, name, now_ms)
        words = f"{scene.roll.names(name)}, overdue {late}" if late else scene.roll.names(name)
        yield HandRow("" if at_ms is None else _clock(scene, at_ms, now_ms), Said(words))


def said_part(scene: Scene, owed: Iterable[Correction], now_ms: int) -> HandPart:
    """What the audience was told that is no longer true, each with when it was said."""
    return HandPart("SAID, BUT NO LONGER TRUE", tuple(_said(scene, each, now_ms) for each in owed))


def _said(scene: Scene, owed: Correction, now_ms: int) -> HandRow:
    minute_ms = owed.said_at_ms if owed.said_minute_ms is None else owed.said_minute_ms
    told = dated_clock_text(minute_ms, scene.style, now_ms, seconds=False)
    now = f"now {_clock(scene, owed.now_at_ms, now_ms)}" if owed.now_at_ms is not None else ""
    if owed.happened:
        now = now.replace("now", "it happened", 1)
    words = f"{scene.roll.names(owed.named.event)}: said {told}, {now or owed.why or 'no time now'}"
    return HandRow(_clock(scene, owed.told_ms, now_ms), Said(words, Tone.CHANGE))


def items_part(
    scene: Scene,
    air: AirState | None,
    entries: Sequence[Entry],
    clashes: Mapping[str, str],
    now_ms: int,
) -> HandPart:
    """Breaks and other items that are owed, by when, and those that are to be made good.

    `clashes` is by item: what it loses as things stand.
    """
    items = () if air is None else air.programme.items
    owed = [one for one in items if one.item.owed]
    still = sorted((one for one in owed if one.stands in _STILL), key=lambda one: _at_ms(one, air))
    lost = [one for one in owed if one.stands is Stands.DROPPED]
    rows = [_item(scene, one, _at_ms(one, air), clashes, now_ms) for one in still]
    rows += [_lost(scene, one, entries, now_ms) for one in lost]
    return HandPart("BREAKS AND ITEMS OWED", tuple(rows))


def _at_ms(one: Running, air: AirState | None) -> int:
    """When it begins, else by when it is owed."""
    if one.stands is not Stands.FLOATING or air is None:
        return one.from_ms
    return air.day.off_ms if one.item.latest_ms is None else min(one.item.latest_ms, air.day.off_ms)


def _lost(scene: Scene, one: Running, entries: Sequence[Entry], now_ms: int) -> HandRow:
    """One that will not run, with when that was said and by whom."""
    drops = (e for e in reversed(entries) if e.action == Drop(one.item.id))
    drop = next(drops, None)
    words = Said(f"{one.item.name}: off, to be made good")
    return (
        HandRow("", words)
        if drop is None
        else HandRow(_clock(scene, drop.at_ms, now_ms), words, drop.by)
    )


def _item(
    scene: Scene, one: Running, at_ms: int, clashes: Mapping[str, str], now_ms: int
) -> HandRow:
    known = at_ms < NEVER_MS
    how = {Stands.PLACED: "placed", Stands.ON_AIR: "on the air"}.get(one.stands)
    by = ("was" if at_ms <= now_ms else "") + " owed by then"
    words = f"{one.item.name}, {how or (by.strip() if known else 'owed')}"
    clash = clashes.get(one.item.id, "")
    said = Said(f"{words}: {clash}", Tone.CLASH) if clash else Said(words)
    return HandRow(_clock(scene, at_ms, now_ms) if known else "", said)


def promises_part(scene: Scene, entries: Sequence[Entry], now_ms: int) -> HandPart:
    """What was promised to the audience and not kept yet."""
    still = open_promises(promised(entries))
    rows = (HandRow(_clock(scene, p.at_ms, now_ms), Said(p.text), p.by) for p in still)
    return HandPart("PROMISES", tuple(rows))


def held_part(scene: Scene, now_ms: int) -> HandPart:
    """Facts under embargo, by their events: until when, never what they say."""
    return HandPart("EMBARGOES", tuple(_held(scene, now_ms)))


def _held(scene: Scene, now_ms: int) -> Iterator[HandRow]:
    for name in (*scene.order, *scene.unknown):
        brief = scene.brief(name)
        if brief.state in _OVER:
            continue
        when = "" if brief.expected_ms is None else _clock(scene, brief.expected_ms, now_ms)
        for why in dict.fromkeys(fact.held for fact in facts(scene, name, now_ms) if fact.held):
            yield HandRow(when, Said(f"{scene.roll.names(name)}: {why[0].lower()}{why[1:]}"))


def last_part(scene: Scene, entries: Sequence[Entry], now_ms: int) -> HandPart:
    """The last entries, the newest first; who signed stands on top of the page."""
    return HandPart("THE LAST ENTRIES", tuple(_last(scene, entries, now_ms)))


def _last(scene: Scene, entries: Sequence[Entry], now_ms: int) -> Iterator[HandRow]:
    told = [entry for entry in entries if not isinstance(entry.action, Signing)]
    for entry in reversed(told[-LAST:]):
        words = meaning(entry.action, scene.roll.names, scene.style)
        source = f", per {entry.source}" if entry.source else ""
        yield HandRow(_clock(scene, entry.at_ms, now_ms), Said(f"{words}{source}"), entry.by)


def _clock(scene: Scene, at_ms: int, now_ms: int) -> str:
    return dated_clock_text(at_ms, scene.style, now_ms)
