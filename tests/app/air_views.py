"""Made-up programmes for tests of widgets: an ON AIR lane, clear time, what to say, facts."""

from dataclasses import replace

from core.board.model import Said, Tone, View
from core.board.programme import (
    AirBox,
    AirLane,
    ClearPanel,
    FactLine,
    ItemRow,
    ItemState,
    LiveSpan,
    Sentence,
    ToSay,
)
from tests.app.views import MINUTE_MS, NOW_MS, SECOND_MS, arrival_view, figure

PLACED, ON_AIR, RUN = ItemState.PLACED, ItemState.ON_AIR, ItemState.RUN


def ahead_ms(minutes: float) -> int:
    """The instant so long from the made-up now."""
    return NOW_MS + round(minutes * MINUTE_MS)


def box(
    item: str, name: str, at_min: float, long_min: float, state: ItemState = PLACED, clash: str = ""
) -> AirBox:
    """An item's box, so long from now and so long."""
    from_ms, to_ms = ahead_ms(at_min), ahead_ms(at_min + long_min)
    return AirBox(item, name, item.partition("-")[0], from_ms, to_ms, state, clash)


def air_lane(*more: AirBox) -> AirLane:
    """The programme of the arrival: what was run, what is on the air, what is to come."""
    boxes = (
        box("break-2", "Break 2", -4, 2, RUN),
        box("break-3", "Break 3", 1.5, 2.2),
        box("tape-1", "Tape, how they stop", 9, 5.7),
        box("remote-1", "Remote, simulator hall", 15.5, 4),
        box("break-4", "Break 4", 63, 2.2, clash="no room before the school call"),
        box("break-5", "Break 5", 140, 2.2),
        *more,
    )
    return AirLane(
        boxes=tuple(sorted(boxes, key=lambda each: each.from_ms)),
        live=(
            LiveSpan("loss", ahead_ms(4.8), ahead_ms(8.8)),
            LiveSpan("school", ahead_ms(81.8), ahead_ms(95)),
        ),
        junctions=((ahead_ms(48), "Network joins"),),
        away=((ahead_ms(318), ahead_ms(2000)),),
    )


def item_row(item: str, name: str, length: str, words: str, tone: Tone = Tone.QUIET) -> ItemRow:
    """A row of the panel."""
    return ItemRow(item, name, length, Said(words, tone), PLACED)


def clear_panel() -> ClearPanel:
    """CLEAR UNTIL YOU MUST BE LIVE, as in the picture of the desk window, with each sort of row."""
    return ClearPanel(
        figure=figure(288_000),
        back_by="back by 4:46:00 p.m.",
        live="Loss of signal, far side",
        rows=(
            replace(item_row("break-3", "Break 3", "2 min 10", "leave by 4:43:50"), owed=True),
            replace(
                item_row("remote-1", "Remote, simulator hall", "4 min", "leave by 4:42:00"),
                tight=True,
            ),
            item_row("tape-1", "Tape, how they stop", "5 min 40", "fits after 4:50"),
            item_row("break-4", "Break 4", "2 min 10", "no place", Tone.CLASH),
        ),
        owed=(Said("Break 3 is owed by 5:00 p.m.; 4 more by 11:00 p.m."),),
        status=Said("On the air; a break is owed by 5:00 p.m."),
    )


LINE = "About five and a half minutes of pictures left, and just under eight of voice."
TWENTY = (
    "We have about five and a half minutes of pictures left, and just under eight of voice. "
    "Then Petrel slips behind the Moon. The engine is due to fire while nobody can hear it."
)
LONG = (
    f"{TWENTY} It is one engine, and it has to burn for about six minutes, or Petrel swings round "
    "the Moon and comes straight home again. The crew of four have been awake for nine hours."
)


def sentence(line: str = LINE, twenty: str = TWENTY, long: str = LONG) -> Sentence:
    """What there is to say."""
    times = (("loss", NOW_MS + 468 * SECOND_MS),)
    return Sentence(line, twenty, long, "true for 40 s", NOW_MS + 40 * SECOND_MS, times)


CORRECTION = (
    "A few minutes ago we said four fifty-seven. Mission control now gives four fifty-eight."
)


def correction() -> Sentence:
    """A correction owed to the audience."""
    return sentence(CORRECTION, CORRECTION, CORRECTION)


def to_say() -> ToSay:
    """TO SAY at the made-up moment."""
    return ToSay(sentences=(sentence(),), said="said at 4:40 p.m.")


FACTS = (
    FactLine("One engine, six minutes.", "press kit, 12 May"),
    FactLine("", held="A fact is held until this is confirmed"),
)


CHECK = Said("Clamps released: 6 of 8; 4 evenly spread are needed", Tone.CHANGE)


def programme_view() -> View:
    """The picture of the desk window, with everything on the air."""
    view = arrival_view()
    cards = tuple(
        replace(card, checks=(CHECK,), facts=FACTS) if card.id in ("loss", "ignition") else card
        for card in view.cards
    )
    return replace(view, cards=cards, air=air_lane(), clear=clear_panel(), to_say=to_say())
