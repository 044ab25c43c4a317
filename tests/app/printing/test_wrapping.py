"""Lines broken to a width."""

from hypothesis import given, settings
from hypothesis import strategies as st

from app.printing.faces import Face, width_tw
from app.printing.wrapping import least_tw, natural_tw, wrapped

WORDS = st.text(st.sampled_from("abcdef é Ж 日 😀 -/\n"), max_size=80)


def test_text_is_broken_between_words() -> None:
    room_tw = width_tw(Face.CELL, "Insertion burn,")
    assert wrapped(Face.CELL, "Insertion burn, ignition", room_tw) == (
        "Insertion burn,",
        "ignition",
    )


def test_its_own_line_breaks_are_kept_and_blank_lines_are_not() -> None:
    assert wrapped(Face.CELL, "one\n\n two  three ", 1e6) == ("one", "two three")
    assert wrapped(Face.CELL, "", 1e6) == ()


def test_signs_beyond_the_first_plane_are_not_torn() -> None:
    text = "😀" * 40
    lines = wrapped(Face.CELL, text, width_tw(Face.CELL, "😀" * 7))
    assert len(lines) > 4
    assert "".join(lines) == text


@settings(max_examples=60, deadline=None)
@given(WORDS, st.floats(300, 4000))
def test_no_line_is_wider_than_its_room_and_nothing_is_lost(text: str, room_tw: float) -> None:
    lines = wrapped(Face.CELL, text, room_tw)
    assert "".join("".join(lines).split()) == "".join(text.split())
    assert all(width_tw(Face.CELL, line) <= room_tw + 2 for line in lines)


def test_a_text_is_as_wide_as_its_widest_line_and_needs_its_widest_word() -> None:
    text = "a long line of words\nshort"
    assert natural_tw(Face.CELL, text) == width_tw(Face.CELL, "a long line of words")
    assert least_tw(Face.CELL, text) == max(width_tw(Face.CELL, word) for word in text.split())
    assert natural_tw(Face.CELL, "") == least_tw(Face.CELL, "") == 0
