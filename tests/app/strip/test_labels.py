import re
from dataclasses import replace
from itertools import permutations

import pytest
from pytestqt.qtbot import QtBot

from app.strip.columns import Columns
from app.strip.frame import Frame, across, sagitta_px, scale
from app.strip.grounds import ground_names
from app.strip.labels import Labels
from app.theme import DARK, LIGHT, Palette, Theme
from app.words import Words
from core.board.model import EdgeLabel, GroundSpan, Strip
from core.signal.model import Fill
from tests.app.looking import SIZES, contrast, ink_box, overlaps, timeline
from tests.app.views import MINUTE_MS, NOW_MS, arrival_strip, arrival_view, lane

WINDOWS = pytest.mark.parametrize("size", SIZES, ids=str)
PALETTES = pytest.mark.parametrize("palette", [DARK, LIGHT], ids=["dark", "light"])
pytestmark = pytest.mark.usefixtures("qapp")


def placed(
    strip: Strip, theme: Theme, ahead_ms: int = 0, *, even: bool = False
) -> tuple[Frame, tuple[Words, ...]]:
    columns = Columns.of(strip)
    frame = Frame(
        across=across(400 * theme.scale, len(columns.lanes), theme),
        scale=scale(800 * theme.scale, NOW_MS + ahead_ms, theme, even=even),
        now_ms=NOW_MS,
        origin_words="6:00 p.m." if ahead_ms else "",
    )
    return frame, Labels(frame, columns, theme).place()


def texts(words: tuple[Words, ...]) -> list[str]:
    return [piece.text for piece in words]


def crowded() -> Strip:
    """A lane that comes and goes every two minutes, each edge with its time."""
    count = 200
    instants = [NOW_MS + i * 2 * MINUTE_MS + 30_000 for i in range(count)]
    fills = [(Fill.CONTACT, Fill.GAP)[i % 2] for i in range(count + 1)]
    column = lane("voice", "VOICE", instants, fills, [""] * (count + 1))
    edges = tuple(
        EdgeLabel(at_ms, "voice", f"{'AOS' if i % 2 else 'LOS'} {i}:00", i % 2 == 0)
        for i, at_ms in enumerate(instants)
    )
    return replace(arrival_strip(), lanes=(column,), edges=edges)


@WINDOWS
@PALETTES
@pytest.mark.parametrize("ahead_min", [0, 20, 600, -20, -600])
@pytest.mark.parametrize("even", [False, True])
def test_nothing_written_runs_into_anything_else(
    size: tuple[int, int], palette: Palette, ahead_min: int, even: bool
) -> None:
    theme = Theme.for_window(palette, *size)
    for strip in (arrival_strip(), crowded()):
        _, words = placed(strip, theme, ahead_min * MINUTE_MS, even=even)
        assert overlaps(ink_box(piece, theme) for piece in words) == []


@WINDOWS
def test_between_one_time_and_the_next_below_it_is_a_gap(size: tuple[int, int]) -> None:
    theme = Theme.for_window(DARK, *size)
    for ahead_min in range(0, 120, 10):
        for strip in (arrival_strip(), crowded()):
            _, words = placed(strip, theme, ahead_min * MINUTE_MS)
            for one, other in permutations([ink_box(piece, theme) for piece in words], 2):
                aside = one.right() < other.left() or other.right() < one.left()
                if not aside and one.top() < other.top():
                    assert other.top() - one.bottom() >= theme.px(3)


@PALETTES
def test_everything_written_can_be_read_on_what_is_behind_it(palette: Palette) -> None:
    theme = Theme(palette)
    for ahead_min in (0, 20, -60):
        _, words = placed(arrival_strip(), theme, ahead_min * MINUTE_MS)
        for piece in words:
            assert contrast(piece.colour, piece.plate or palette.ground) >= 4.5, piece.text


def test_times_of_loss_and_return_stand_on_the_strip() -> None:
    _, words = placed(arrival_strip(), Theme())
    assert {"LOS 4:49 p.m.", "LOS 4:47 p.m.", "AOS 5:31 p.m."} <= set(texts(words))


def test_a_time_stands_within_the_contact_at_its_edge() -> None:
    frame, words = placed(arrival_strip(), Theme())
    loss = next(piece for piece in words if piece.text == "LOS 4:49 p.m.")
    edge_px = frame.scale.y_of(NOW_MS + int(7.8 * MINUTE_MS))
    assert edge_px - 25 < loss.baseline_px < edge_px


def test_edges_too_close_are_thinned_out_and_none_is_cut() -> None:
    _, words = placed(crowded(), Theme())
    shown = [text for text in texts(words) if text.startswith(("AOS", "LOS"))]
    assert 5 < len(shown) < 60
    assert all(re.fullmatch(r"(AOS|LOS) \d+:00", text) for text in shown)


def test_either_and_closed_are_said_in_words() -> None:
    _, words = placed(arrival_strip(), Theme())
    assert "either" in texts(words)
    assert "closed" in texts(words)


def test_a_high_gap_says_its_cause() -> None:
    _, words = placed(arrival_strip(), Theme())
    assert texts(words).count("behind the Moon") == 2


def test_now_is_written_beside_the_limb() -> None:
    frame, words = placed(arrival_strip(), Theme())
    now = next(piece for piece in words if piece.text == "now")
    assert frame.now_px < now.baseline_px < frame.now_px + 3 * sagitta_px(Theme())


@pytest.mark.parametrize(("ahead_min", "arrow"), [(300, "▲ now"), (-3000, "▼ now")])
def test_when_now_is_out_of_sight_an_arrow_points_to_it(ahead_min: int, arrow: str) -> None:
    frame, words = placed(arrival_strip(), Theme(), ahead_min * MINUTE_MS)
    assert not frame.now_in_sight
    assert arrow in texts(words)
    assert "6:00 p.m." in texts(words)
    assert "+ 1 h" in texts(words)


def test_ground_stations_are_named_where_there_is_room() -> None:
    frame, _ = placed(arrival_strip(), Theme())
    names = [name for _, _, name in ground_names(frame, Columns.of(arrival_strip()), Theme())]
    assert names == ["Tarn Hill", "Kestrel Bay"]


def test_the_widget_writes_what_was_placed(qtbot: QtBot) -> None:
    with timeline(qtbot, arrival_view()) as shown:
        assert shown.strip is not None
        assert "VOICE" in texts(shown.strip.words)


# Ground stations


def _low(strip: Strip, count: int = 3, every_min: int = 60) -> Strip:
    """Stations that see a low orbit for ten minutes each."""
    spans = tuple(
        GroundSpan(
            f"Station {n}",
            NOW_MS + (n * every_min + 20) * MINUTE_MS,
            NOW_MS + (n * every_min + 30) * MINUTE_MS,
        )
        for n in range(count)
    )
    return replace(strip, grounds=spans)


@WINDOWS
def test_a_bracket_too_low_for_its_name_has_it_beside(size: tuple[int, int]) -> None:
    theme = Theme.for_window(DARK, *size)
    frame, words = placed(_low(arrival_strip()), theme)
    names = [piece for piece in words if piece.text.startswith("Station")]
    assert [piece.text for piece in names] == ["Station 0", "Station 1", "Station 2"]
    assert not list(ground_names(frame, Columns.of(_low(arrival_strip())), theme))
    for piece in names:
        assert piece.left_px > frame.across.ground_px
        assert piece.left_px + piece.width_px <= frame.across.right_px


@WINDOWS
@pytest.mark.parametrize("even", [False, True])
def test_where_brackets_crowd_some_names_give_way(size: tuple[int, int], even: bool) -> None:
    theme = Theme.for_window(DARK, *size)
    _, words = placed(_low(arrival_strip(), 60, 11), theme, even=even)
    names = [piece for piece in words if piece.text.startswith("Station")]
    assert 0 < len(names) < 60
    assert overlaps(ink_box(piece, theme) for piece in words) == []
