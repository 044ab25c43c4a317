"""What the presenter window shows, made from the view of the desk: no arithmetic of its own.

Nothing typed, no notice and no error of the desk can come in here: only the cards, the signal,
the programme and what is to be said.
"""

from dataclasses import replace

from core.board.changes import change_ms
from core.board.model import Card, CardState, LaneNow, Said, Tone, View
from core.board.presenting.back_in import break_top, must_be_back
from core.board.presenting.off_air import off_air_top
from core.board.presenting.roundly import nearest_minutes, planned_words, spoken_clock
from core.board.presenting.thens import thens
from core.board.programme import FactLine, PresenterLane, PresenterView, Sentence, ToSay
from core.board.scene import Scene
from core.board.telling.returning import is_later_return
from core.board.written import Figure
from core.times.writing import apart_ms

_HELD = "on the clock, and the count is holding"
_NOTHING = Sentence("", "", "", "", 0)
_NEXT_TO = " · "
_UNTIL_BACK, _AT_LATEST = "until back", ", at the latest"


def presenter(
    view: View,
    scene: Scene,
    *,
    fact: FactLine | None = None,
) -> PresenterView:
    """What the presenter sees at the view's second.

    `fact` only where the desk asked for it; one that may not be told yet is left out all the same.
    On a grave board nothing but the clock and the desk's own lines: the last confirmed words with
    their source, and what the editor passed.
    """
    header = view.header
    if view.to_say is not None and view.to_say.grave:
        clock = f"{header.weekday}, {header.clock} {header.zone}"
        lines = tuple(sentence.twenty for sentence in view.to_say.sentences)
        return PresenterView(clock=clock, grave=True, lines=lines)
    shown = _event_top(view, scene)
    shown = off_air_top(shown, view, scene) or shown
    shown = replace(shown, figure=_short(shown.figure))
    shown = break_top(shown, view, scene) or shown
    word, back = must_be_back(view, scene)
    first = _first(view.to_say) or _NOTHING
    big = "" if view.big_index is None else view.cards[view.big_index].id
    return replace(
        shown,
        clock=header.clock,
        lanes=tuple(_lane(lane, scene, view.now_ms) for lane in view.contact.lanes),
        back_word=word,
        back=back,
        sentence=_quoted(first.twenty or first.line),
        shorter=_quoted(first.line or first.twenty),
        sounds=_NEXT_TO.join(first.sounds),
        shorter_sounds=_NEXT_TO.join(first.line_sounds),
        then=thens(scene, big, view.now_ms),
        fact=fact.text if fact is not None and not fact.held else "",
    )


def _event_top(view: View, scene: Scene) -> PresenterView:
    """The big card's event: its name, countdown, time and change."""
    if view.big_index is None:
        return PresenterView(clock="")
    card = view.cards[view.big_index]
    held = card.state is CardState.HELD
    return PresenterView(
        clock="",
        name=card.name,
        figure=card.figure,
        at=_HELD if held else _at(card, scene, view.now_ms),
        change=_change(card, scene),
    )


def _short(figure: Figure | None) -> Figure | None:
    """The figure as it can be large: days without minutes, ten hours and more without seconds."""
    if figure is None:
        return None
    count, unit = figure.parts[0]
    if unit == "d" or (unit == "h" and len(count) > 1):
        return replace(figure, parts=figure.parts[:2])
    return figure


def _shorter(figure: Figure | None) -> Figure | None:
    """The same for a lane: hours without seconds too."""
    if figure is None or figure.parts[0][1] not in {"d", "h"}:
        return figure
    return replace(figure, parts=figure.parts[:2])


def _at(card: Card, scene: Scene, now_ms: int) -> str:
    if card.at_ms is None:
        return ""
    give_ms, style = scene.brief(card.id).give_ms, scene.style
    later = is_later_return(scene, card.id)
    words = spoken_clock(card.at_ms, give_ms, style, now_ms, later=later)
    heard_ms = scene.standing(card.id, now_ms).heard_ms
    if heard_ms is None:
        late = card.state is CardState.DUE and apart_ms(now_ms, card.at_ms) > give_ms
        return f"not heard by {words}" if late else words
    heard = spoken_clock(heard_ms, give_ms, style, now_ms)
    return f"{words} out there, here {heard}"


def _change(card: Card, scene: Scene) -> Said:
    if scene.slides(card.id):
        return Said("slides with the hold", Tone.QUIET)
    by_ms = change_ms(scene, card.id)
    give_ms = scene.brief(card.id).give_ms
    words = "" if by_ms is None else planned_words(by_ms, give_ms)
    return Said(words, Tone.CHANGE) if words else Said("")


def _first(to_say: ToSay | None) -> Sentence | None:
    """What to say: a correction owed goes first."""
    told = () if to_say is None else (*to_say.owed, *to_say.sentences)
    return told[0] if told else None


def _quoted(sentence: str) -> str:
    return f"“{sentence}”" if sentence else ""


def _lane(lane: LaneNow, scene: Scene, now_ms: int) -> PresenterLane:
    """A lane by what it is now: 'picture' with what is left, 'voice back in' with the wait."""
    name, word, figure = scene.roll.small(lane.name), lane.word, _shorter(lane.figure)
    if word == "left":
        return PresenterLane(name, figure, "")
    if figure is None:
        return PresenterLane(name, None, word)
    if word.endswith(_AT_LATEST):
        ends = "lost" if word.startswith("until lost") else "back"
        return PresenterLane(f"{name} {ends} at the latest in", figure, "")
    if word.startswith(_UNTIL_BACK):
        return PresenterLane(f"{name} back in", figure, _or_later(lane.lane, scene, now_ms))
    return PresenterLane(name, None, word)


def _or_later(lane_id: str, scene: Scene, now_ms: int) -> str:
    """'or 42 min': the other times it may be back in, to the nearest minute."""
    lane = scene.sight.lane(lane_id)
    lengths_ms, sure = lane.gap_ms(now_ms) if lane is not None else ((), True)
    others = [f"or {nearest_minutes(length_ms)}" for length_ms in lengths_ms[1:]]
    return " ".join(dict.fromkeys([*others, *(() if sure else ("or later",))]))
