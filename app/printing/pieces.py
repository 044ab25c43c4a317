"""What stands on a page, with its place, before it is painted: it can be looked over by a test."""

from dataclasses import dataclass, field

from app.printing.blocks import Sign
from app.printing.faces import Face, width_tw


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle, in twips from the page's top left corner."""

    left_tw: float
    top_tw: float
    width_tw: float
    height_tw: float

    @property
    def right_tw(self) -> float:
        """Its right edge."""
        return self.left_tw + self.width_tw

    @property
    def bottom_tw(self) -> float:
        """Its lower edge."""
        return self.top_tw + self.height_tw


@dataclass(frozen=True, slots=True)
class Words:
    """A line of text, from its left end on its baseline."""

    text: str
    left_tw: float
    baseline_tw: float
    face: Face

    @property
    def box(self) -> Box:
        """The room of the line."""
        top_tw = self.baseline_tw - self.face.rise_tw
        return Box(self.left_tw, top_tw, width_tw(self.face, self.text), self.face.line_tw)


@dataclass(frozen=True, slots=True)
class Rule:
    """A level line; `thick_tw` high, black or `grey`."""

    left_tw: float
    right_tw: float
    y_tw: float
    thick_tw: float
    grey: bool = False


@dataclass(frozen=True, slots=True)
class Frame:
    """The outline of a box."""

    box: Box
    thick_tw: float


@dataclass(frozen=True, slots=True)
class SignAt:
    """A contact mark."""

    sign: Sign
    box: Box


@dataclass(frozen=True, slots=True)
class PictureAt:
    """A picture."""

    svg: str
    box: Box


Piece = Words | Rule | Frame | SignAt | PictureAt


@dataclass(slots=True)
class Page:
    """One page and all that is on it."""

    pieces: list[Piece] = field(default_factory=list)

    @property
    def texts(self) -> tuple[str, ...]:
        """Every line of text, in the order of its making."""
        return tuple(piece.text for piece in self.pieces if isinstance(piece, Words))
