"""The ON AIR lane of the strip: boxes at their instants, marks, words, and what is left out."""

from dataclasses import replace

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QImage
from pytestqt.qtbot import QtBot

from app.desk.timeline import Timeline
from app.strip.air import NO_AIR, AirColumn
from app.strip.air_paint import box_rect, carried_rects
from app.strip.columns import Columns
from app.strip.frame import Frame, across, sagitta_px, scale
from app.strip.hand import box_at
from app.strip.labels import Labels
from app.strip.widget import StripView
from app.theme import DARK, LIGHT, Palette, Text, Theme
from app.words import Words
from core.board.model import View
from core.board.programme import AirLane, ItemState
from tests.app.air_views import ON_AIR, ahead_ms, air_lane, box, programme_view
from tests.app.looking import SIZES, column_of, contrast, ink_box, near, overlaps, pixels, timeline
from tests.app.views import NOW_MS, arrival_strip, arrival_view

WINDOWS = pytest.mark.parametrize("size", SIZES, ids=str)
PALETTES = pytest.mark.parametrize("palette", [DARK, LIGHT], ids=["dark", "light"])
EVEN = pytest.mark.parametrize("even", [False, True], ids=["thinned", "even"])
pytestmark = pytest.mark.usefixtures("qapp")


def strip_of(shown: Timeline) -> StripView:
    assert shown.strip is not None
    return shown.strip


def lane_px(strip: StripView, share: float = 0.5) -> float:
    """Across the ON AIR lane."""
    assert strip.frame is not None
    assert strip.frame.across.air is not None
    left_px, width_px = strip.frame.across.air
    return left_px + width_px * share


def has_lane(strip: StripView) -> bool:
    return strip.frame is not None and strip.frame.across.air is not None


def with_air(*boxes: object) -> View:
    lane = AirLane(boxes=tuple(boxes))  # type: ignore[arg-type]  # boxes all
    return replace(arrival_view(), air=lane)


def outlined(image: QImage, x_px: float, y_px: float, colour: QColor) -> bool:
    """Whether a level line of that colour is painted about a height."""
    rows = range(round(y_px) - 3, round(y_px) + 4)
    return any(near(image.pixelColor(round(x_px), row), colour, 60) for row in rows)


def placed(
    lane: AirLane, theme: Theme, ahead_min: float = 0, *, even: bool = False
) -> tuple[Frame, tuple[Words, ...]]:
    columns, air = Columns.of(arrival_strip()), AirColumn.of(lane)
    frame = Frame(
        across=across(430 * theme.scale, len(columns.lanes), theme, air=bool(air)),
        scale=scale(800 * theme.scale, ahead_ms(ahead_min), theme, even=even),
        now_ms=NOW_MS,
        origin_words="6:00 p.m." if ahead_min else "",
    )
    return frame, Labels(frame, columns, theme, air).place()


def texts(words: tuple[Words, ...]) -> list[str]:
    return [piece.text for piece in words]


# Boxes


@WINDOWS
@PALETTES
@EVEN
def test_a_box_stands_at_its_instants_and_is_outlined_not_filled(
    qtbot: QtBot, size: tuple[int, int], palette: Palette, even: bool
) -> None:
    with timeline(qtbot, with_air(box("tape-1", "", 12, 40)), size, palette) as shown:
        strip = strip_of(shown)
        strip.set_even(even=even)
        image, x_px = pixels(strip), lane_px(strip, 0.3)
        for minutes in (12, 52):
            assert outlined(image, x_px, strip.y_of(ahead_ms(minutes)), palette.text)
        inside = column_of(image, x_px, strip.y_of(ahead_ms(12)) + 5, strip.y_of(ahead_ms(52)) - 5)
        assert inside == {palette.panel.name()}
        below = column_of(image, x_px, strip.y_of(ahead_ms(54)), strip.y_of(ahead_ms(100)))
        assert below == {palette.ground.name()}


@EVEN
def test_after_scrolling_a_box_still_stands_at_its_instants(qtbot: QtBot, even: bool) -> None:
    with timeline(qtbot, with_air(box("tape-1", "", 64, 12))) as shown:
        strip = strip_of(shown)
        strip.set_even(even=even)
        before_px = strip.y_of(ahead_ms(64))
        shown.cards.begin_with("back-burn")
        assert strip.y_of(ahead_ms(64)) < before_px - 20
        image = pixels(strip)
        for minutes in (64, 76):
            assert outlined(image, lane_px(strip, 0.3), strip.y_of(ahead_ms(minutes)), DARK.text)


def test_what_is_on_the_air_has_two_outlines_and_a_word(qtbot: QtBot) -> None:
    running = box("break-3", "Break 3", -1, 10, ON_AIR)
    with timeline(qtbot, with_air(running)) as shown:
        strip = strip_of(shown)
        bottom_px, left_px = strip.y_of(ahead_ms(9)), lane_px(strip, 0.3)
        assert strip.frame is not None
        rows = column_of(pixels(strip), left_px, bottom_px - 10, bottom_px + 2)
        assert {DARK.panel.name()} < rows
        image = pixels(strip)
        lines = [
            row
            for row in range(round(bottom_px) - 10, round(bottom_px) + 2)
            if near(image.pixelColor(round(left_px), row), DARK.text, 60)
        ]
        assert max(lines) - min(lines) >= 4
        assert "on the air" in texts(strip.words)


@PALETTES
def test_a_clash_is_rose_and_has_a_diamond_and_a_word(qtbot: QtBot, palette: Palette) -> None:
    clashing = box("break-4", "Break 4", 60, 20, clash="no room")
    with timeline(qtbot, with_air(clashing), palette=palette) as shown:
        strip = strip_of(shown)
        image = pixels(strip)
        for minutes in (60, 80):
            y_px = strip.y_of(ahead_ms(minutes))
            assert outlined(image, lane_px(strip, 0.3), y_px, palette.clash)
        middle_px = (strip.y_of(ahead_ms(60)) + strip.y_of(ahead_ms(80))) / 2
        diamond = image.pixelColor(round(lane_px(strip, 0) + 1), round(middle_px))
        assert near(diamond, palette.clash)
        assert "◆ clash" in texts(strip.words)


def test_what_has_run_sinks_behind_the_limb(qtbot: QtBot) -> None:
    with timeline(qtbot, with_air(box("break-2", "", -4, 3, ItemState.RUN))) as shown:
        strip = strip_of(shown)
        image, y_px = pixels(strip), strip.y_of(ahead_ms(-4))
        rows = range(round(y_px) - 2, round(y_px) + 3)
        column = [image.pixelColor(round(lane_px(strip, 0.3)), row) for row in rows]
        brightest = max(column, key=lambda colour: colour.lightness())
        assert DARK.ground.lightness() < brightest.lightness() < DARK.quiet.lightness() - 30


def test_what_was_dropped_has_no_box() -> None:
    dropped = box("tape-1", "Tape", 10, 5, ItemState.DROPPED)
    assert not AirColumn.of(AirLane(boxes=(dropped,)))


def test_one_far_ahead_is_still_seen(qtbot: QtBot) -> None:
    with timeline(qtbot, with_air(box("break-5", "", 300, 0.5))) as shown:
        strip = strip_of(shown)
        assert outlined(pixels(strip), lane_px(strip, 0.3), strip.y_of(ahead_ms(300)), DARK.text)


# Live stretches, junctions, hours away


def test_live_stretches_have_a_line_at_the_lanes_edge(qtbot: QtBot) -> None:
    view = replace(arrival_view(), air=replace(air_lane(), boxes=()))
    with timeline(qtbot, view) as shown:
        strip = strip_of(shown)
        image = pixels(strip)
        x_px = round(lane_px(strip, 1)) + 3
        live = column_of(image, x_px, strip.y_of(ahead_ms(84)), strip.y_of(ahead_ms(93)))
        assert live == {DARK.limb.name()}
        clear = column_of(image, x_px, strip.y_of(ahead_ms(97)), strip.y_of(ahead_ms(130)))
        assert clear == {DARK.ground.name()}
        assert "live" in texts(strip.words)


def test_a_junction_is_a_line_across_with_its_name(qtbot: QtBot) -> None:
    view = replace(arrival_view(), air=replace(air_lane(), boxes=()))
    with timeline(qtbot, view) as shown:
        strip = strip_of(shown)
        image, y_px = pixels(strip), strip.y_of(ahead_ms(48))
        for share in (0.05, 0.5, 0.95):
            assert outlined(image, lane_px(strip, share), y_px, DARK.text)
        name = next(piece for piece in strip.words if piece.text == "Network joins")
        assert abs(name.baseline_px - y_px) < 20


@pytest.mark.parametrize("starts_min", [44, 47.9, 49, 52])
@WINDOWS
def test_a_junction_keeps_its_name_clear_of_places_that_are_proposed(
    qtbot: QtBot, size: tuple[int, int], starts_min: float
) -> None:
    with timeline(qtbot, programme_view(), size=size) as shown:
        strip = strip_of(shown)
        assert strip.frame is not None
        before = [piece for piece in strip.words if "Network" in piece.text]
        shown.set_ghosts((("break-4", ahead_ms(starts_min)), ("remote-1", ahead_ms(starts_min))))
        theme = strip._theme
        held = strip._air.held
        rects = list(carried_rects(strip.frame, strip._air.column, held, theme))
        names = [piece for piece in strip.words if "Network" in piece.text]
        assert names or starts_min == 47.9  # across the junction itself there may be no room
        assert len(rects) == 2
        assert not any(rect.intersects(name.box(theme)) for rect in rects for name in names)
        shown.set_ghosts(())
        assert [piece for piece in strip.words if "Network" in piece.text] == before


def test_hours_away_are_a_band_with_its_words(qtbot: QtBot) -> None:
    lane = AirLane(away=((ahead_ms(20), ahead_ms(60)),))
    with timeline(qtbot, replace(arrival_view(), air=lane)) as shown:
        strip = strip_of(shown)
        top_px, bottom_px = strip.y_of(ahead_ms(20)), strip.y_of(ahead_ms(60))
        band = column_of(pixels(strip), lane_px(strip, 0.05), top_px + 4, bottom_px - 4)
        assert band == {DARK.rule.name()}
        assert "off the air" in texts(strip.words)


def test_a_plan_without_a_programme_has_no_such_lane(qtbot: QtBot) -> None:
    with timeline(qtbot, arrival_view()) as shown:
        strip = strip_of(shown)
        assert not has_lane(strip)
        assert "ON AIR" not in texts(strip.words)
        before_px = shown.cards.width()
        shown.set_view(programme_view())
        assert has_lane(strip)
        assert shown.cards.width() < before_px


def test_a_strip_without_lanes_shows_the_programme_alone(qtbot: QtBot) -> None:
    view = programme_view()
    bare = replace(view.strip, lanes=(), grounds=(), edges=())
    with timeline(qtbot, replace(view, strip=bare)) as shown:
        strip = strip_of(shown)
        y_px = strip.y_of(ahead_ms(9))
        assert outlined(pixels(strip), lane_px(strip, 0.3), y_px, DARK.text)


# What is marked


def test_the_selected_item_is_marked_beside_its_box(qtbot: QtBot) -> None:
    with timeline(qtbot, programme_view()) as shown:
        strip = strip_of(shown)
        before = pixels(strip)
        shown.mark_item("tape-1")
        after = pixels(strip)
        middle_px = (strip.y_of(ahead_ms(9)) + strip.y_of(ahead_ms(14.7))) / 2
        beside = round(lane_px(strip, 0)) - 7
        assert near(before.pixelColor(beside, round(middle_px)), DARK.ground)
        assert near(after.pixelColor(beside, round(middle_px)), DARK.outline)
        shown.mark_item("")
        assert pixels(strip) == before


def test_ghosts_of_items_stand_in_their_lane_and_not_across_the_signal(qtbot: QtBot) -> None:
    with timeline(qtbot, programme_view()) as shown:
        strip = strip_of(shown)
        before = pixels(strip)
        shown.set_ghosts((("tape-1", ahead_ms(24)),))
        after = pixels(strip)
        y_px = strip.y_of(ahead_ms(24))
        assert strip.frame is not None
        signal_px = round(strip.frame.across.left_px + 4)
        rows = range(round(y_px) - 3, round(y_px) + 4)
        assert all(before.pixelColor(signal_px, y) == after.pixelColor(signal_px, y) for y in rows)
        reach = range(round(lane_px(strip, 0.3)), round(lane_px(strip, 0.3)) + 20)
        assert any(near(after.pixelColor(x, y), DARK.change, 40) for x in reach for y in rows)
        shown.set_ghosts(())
        assert pixels(strip) == before


def test_an_item_over_its_length_is_drawn_anew_a_pixel_at_a_time(qtbot: QtBot) -> None:
    def running(seconds: int) -> View:
        view = with_air(box("break-3", "Break 3", -30, 30 + seconds / 60, ON_AIR))
        return replace(view, strip=signal, now_ms=NOW_MS + seconds * 1000)

    signal = arrival_strip()
    with timeline(qtbot, running(0)) as shown:
        strip = strip_of(shown)
        drawn = [strip.set_view(running(seconds)) for seconds in range(1, 31)]
        assert not drawn[0]
        assert 2 < sum(drawn) < 12


# Words


@WINDOWS
@PALETTES
@EVEN
@pytest.mark.parametrize("ahead_min", [0, 20, 120, -20])
def test_nothing_written_runs_into_anything_else_or_out_of_the_strip(
    size: tuple[int, int], palette: Palette, even: bool, ahead_min: int
) -> None:
    theme = Theme.for_window(palette, *size)
    many = [
        box(f"break-{n}", f"Break {n}", n * 7.0, 3, clash="x" * (n % 3 == 0)) for n in range(40)
    ]
    for lane in (air_lane(), air_lane(box("b", "Tape two", -1, 3, ON_AIR)), air_lane(*many)):
        frame, words = placed(lane, theme, ahead_min, even=even)
        assert overlaps(ink_box(piece, theme) for piece in words) == []
        assert all(piece.left_px + piece.width_px <= frame.across.right_px + 1 for piece in words)


@WINDOWS
@EVEN
def test_no_name_is_cut_within_a_word(size: tuple[int, int], even: bool) -> None:
    theme = Theme.for_window(DARK, *size)
    lane = air_lane(box("long", "Remote, the whole ground-control hall of Skerry Point", 22, 9))
    _, words = placed(lane, theme, even=even)
    whole = {word for each in lane.boxes for word in each.name.replace(",", "").split()}
    said = {"on", "the", "air", "◆", "clash", "live", "off"}
    in_lane = [piece for piece in words if piece.style.name == "EDGE" and piece.plate is None]
    names = [text for text in texts(tuple(in_lane)) if text[0] not in "AL0123456789"]
    for text in names:
        assert set(text.replace(",", "").split()) <= whole | said | {"Network", "joins"}, text
        assert "…" not in text


def test_a_name_is_broken_between_words_where_the_box_is_high_enough() -> None:
    _, words = placed(AirLane(boxes=(box("t", "Tape, how they stop", 9, 12),)), Theme())
    assert {"Tape, how", "they stop"} <= set(texts(words))


def test_a_lower_box_has_the_last_words_of_its_name() -> None:
    _, words = placed(AirLane(boxes=(box("t", "Tape, how they stop", 9, 3),)), Theme())
    assert "they stop" in texts(words)
    assert "Tape" not in texts(words)


def test_a_name_without_room_in_its_box_stands_beside_it() -> None:
    lane = AirLane(boxes=(box("break-5", "Break 5", 140, 2.2),))
    frame, words = placed(lane, Theme())
    name = next(piece for piece in words if piece.text == "Break 5")
    assert name.left_px == frame.across.ticks_px
    assert abs(name.baseline_px - frame.scale.y_of(ahead_ms(141))) < 25


@PALETTES
def test_everything_in_the_lane_can_be_read_on_what_is_behind_it(palette: Palette) -> None:
    # 4.5:1 for text, 3:1 for graphics: WCAG 2.2, 1.4.3 and 1.4.11.
    for ink in (palette.text, palette.quiet, palette.clash):
        assert contrast(ink, palette.panel) >= 4.5
    assert contrast(palette.text, palette.rule) >= 4.5
    for graphic in (palette.text, palette.limb, palette.clash, palette.change, palette.outline):
        assert contrast(graphic, palette.ground) >= 3.0


# What is looked up


def test_a_frame_asks_only_for_what_is_in_sight() -> None:
    boxes = [box(f"b{n}", "Break", n * 10.0, 3) for n in range(500)]
    long = box("long", "All day", 0, 6000)
    column = AirColumn.of(AirLane(boxes=(*boxes, long)))
    found = [each.item for each in column.boxes.between(ahead_ms(1001), ahead_ms(1022))]
    assert found == ["long", "b100", "b101", "b102"]
    assert not list(NO_AIR.boxes.between(0, NOW_MS * 2))


@EVEN
def test_the_box_under_the_mouse_is_the_one_that_is_drawn_there(even: bool) -> None:
    theme, air = Theme(), AirColumn.of(air_lane())
    frame, _ = placed(air_lane(), theme, even=even)
    for each in air.boxes.between(frame.from_ms, frame.to_ms):
        found = box_at(box_rect(frame, each, theme).center(), frame, air, theme)
        assert found == each
    beside = box_rect(frame, air.boxes.spans[1], theme).center()
    beside.setX(frame.across.ticks_px + 2)
    assert box_at(beside, frame, air, theme) is None


@WINDOWS
def test_a_name_that_hangs_below_its_line_does_not_touch_its_box(
    qtbot: QtBot, size: tuple[int, int]
) -> None:
    for minutes in (2, 2.5, 3, 4, 6, 9, 12):
        tape = box("tape-1", "Tape, why they stop", -2, minutes, ItemState.ON_AIR)
        with timeline(qtbot, with_air(tape), size=size) as shown:
            strip = strip_of(shown)
            assert strip.frame is not None
            theme = strip._theme
            rect = box_rect(strip.frame, tape, theme)
            left_px, width_px = strip.frame.across.air or (0.0, 0.0)
            for piece in strip.words:
                within = left_px <= piece.left_px < left_px + width_px
                if within and piece.text in ("Tape, why", "they stop", "why they", "stop"):
                    low_px = theme.metrics(Text.EDGE).descent()
                    assert piece.baseline_px + low_px <= rect.bottom() - theme.px(4)


@WINDOWS
def test_a_junction_that_passes_is_not_written_across_the_limb(
    qtbot: QtBot, size: tuple[int, int]
) -> None:
    for minutes in (-2, -1, -0.5, 0.2, 0.5, 1, 2, 3):
        lane = AirLane(junctions=((ahead_ms(minutes), "Eastern stations leave for their news"),))
        with timeline(qtbot, replace(arrival_view(), air=lane), size=size) as shown:
            strip = strip_of(shown)
            assert strip.frame is not None
            theme = strip._theme
            left_px, width_px = strip.frame.across.air or (0.0, 0.0)
            limb = QRectF(left_px, strip.frame.now_px, width_px, sagitta_px(theme))
            names = [piece for piece in strip.words if "news" in piece.text or "East" in piece.text]
            assert not any(limb.intersects(piece.box(theme)) for piece in names)
