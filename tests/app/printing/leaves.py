"""Reads printed pages back: their text, and how they look in greys."""

import numpy as np
import numpy.typing as npt
import pypdfium2

Greys = npt.NDArray[np.uint8]


def texts(data: bytes) -> list[str]:
    """The text of each page, its line breaks as blanks."""
    document = pypdfium2.PdfDocument(data)
    try:
        return [" ".join(page.get_textpage().get_text_bounded().split()) for page in document]
    finally:
        document.close()


def sizes_pt(data: bytes) -> list[tuple[float, float]]:
    """How wide and high each page is."""
    document = pypdfium2.PdfDocument(data)
    try:
        return [page.get_size() for page in document]
    finally:
        document.close()


def greys(data: bytes, scale: float = 1.0) -> list[Greys]:
    """Each page as a picture: 0 is black, 255 is paper; `scale` 1 has 72 dots to the inch."""
    document = pypdfium2.PdfDocument(data)
    try:
        return [page.render(scale=scale, grayscale=True).to_numpy().copy() for page in document]
    finally:
        document.close()
