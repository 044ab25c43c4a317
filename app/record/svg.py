"""SVG as text: a few shapes and words, whose colours a page or the paper gives."""

from collections.abc import Iterable
from dataclasses import dataclass
from html import escape

from core.session.record.words import in_one_line

_WIDE = 0.53
"""How wide a letter is on average, in parts of its size; for digits a little more is measured."""
_WIDE_DIGIT = 0.6
_DOTS = "…"


@dataclass(frozen=True, slots=True)
class Ink:
    """The colours of a picture by what they are for, as SVG takes them."""

    ground: str
    text: str
    quiet: str
    rule: str
    thread: str
    hatch: str
    change: str
    voice: str
    picture: str
    data: str
    other: str
    font: str

    def lane(self, role: str) -> str:
        """The colour of a lane by its role."""
        known = {"voice": self.voice, "picture": self.picture, "data": self.data}
        return known.get(role, self.other)


def number(value: float) -> str:
    """A coordinate, to a tenth."""
    return f"{value:.1f}".removesuffix(".0")


def picture(width: float, height: float, title: str, shapes: Iterable[str], font: str) -> str:
    """The whole picture; its title is read to whoever cannot see it."""
    size = f"{number(width)} {number(height)}"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {size}" width="{number(width)}" '
        f'height="{number(height)}" role="img" font-family="{font}">'
        f"<title>{escape(title)}</title>{''.join(shapes)}</svg>"
    )


def line(x1: float, y1: float, x2: float, y2: float, colour: str, wide: float = 1) -> str:
    """A straight line."""
    ends = f'x1="{number(x1)}" y1="{number(y1)}" x2="{number(x2)}" y2="{number(y2)}"'
    return f'<line {ends} stroke="{colour}" stroke-width="{number(wide)}"/>'


def path(points: Iterable[tuple[float, float]], colour: str, wide: float = 1) -> str:
    """A line through several points."""
    told = " ".join(f"{number(x)},{number(y)}" for x, y in points)
    return (
        f'<polyline points="{told}" fill="none" stroke="{colour}" stroke-width="{number(wide)}"/>'
    )


def segments(lines: Iterable[tuple[float, float, float, float]], colour: str, wide: float) -> str:
    """Many straight lines of one colour."""
    told = "".join(
        f"M{number(x1)} {number(y1)}L{number(x2)} {number(y2)}" for x1, y1, x2, y2 in lines
    )
    return f'<path d="{told}" fill="none" stroke="{colour}" stroke-width="{number(wide)}"/>'


def box(
    x: float, y: float, width: float, height: float, fill: str, edge: str = "", wide: float = 1
) -> str:
    """A rectangle: filled, outlined, or both; `fill` may be 'none'."""
    size = f'width="{number(max(0.0, width))}" height="{number(max(0.0, height))}"'
    outline = f' stroke="{edge}" stroke-width="{number(wide)}"' if edge else ""
    return f'<rect x="{number(x)}" y="{number(y)}" {size} fill="{fill}"{outline}/>'


def dot(x: float, y: float, radius: float, fill: str, edge: str = "") -> str:
    """A disc, or with an edge and the ground's fill a ring."""
    outline = f' stroke="{edge}" stroke-width="1.6"' if edge else ""
    at = f'cx="{number(x)}" cy="{number(y)}" r="{number(radius)}"'
    return f'<circle {at} fill="{fill}"{outline}/>'


def words(
    x: float,
    y: float,
    text: str,
    colour: str,
    size: float = 13,
    anchor: str = "start",
    weight: int = 400,
) -> str:
    """A line of text on its baseline; `anchor` is start, middle or end."""
    where = f'x="{number(x)}" y="{number(y)}" font-size="{number(size)}"'
    how = f' text-anchor="{anchor}"' if anchor != "start" else ""
    how += f' font-weight="{weight}"' if weight != 400 else ""
    return f'<text {where} fill="{colour}"{how}>{escape(in_one_line(text))}</text>'


def width_of(text: str, size: float = 13) -> float:
    """About how wide a text is, in the unit of its size."""
    return sum(_WIDE_DIGIT if sign.isdigit() or sign.isupper() else _WIDE for sign in text) * size


def fitted(text: str, room: float, size: float = 13) -> str:
    """The text, shortened with dots where it has no room."""
    if width_of(text, size) <= room:
        return text
    kept = text
    while kept and width_of(kept + _DOTS, size) > room:
        kept = kept[:-1]
    return f"{kept.rstrip(' ,')}{_DOTS}" if kept else ""
