"""The record on paper, read back from the PDF."""

from collections.abc import Iterator

import pypdfium2
import pytest

from app.record.printed import record_pdf
from core.session.record.words import EDITORIAL
from tests.core.session.record.days import long_day

pytestmark = pytest.mark.usefixtures("qapp")


def pages(data: bytes) -> Iterator[str]:
    """The text of each page, as it can be searched for."""
    document = pypdfium2.PdfDocument(data)
    try:
        for number in range(len(document)):
            page = document[number]
            text = page.get_textpage()
            yield " ".join(text.get_text_range().split())
            text.close()
            page.close()
    finally:
        document.close()


def test_each_page_has_its_number_and_what_it_is_not_for() -> None:
    found = list(pages(record_pdf(long_day().record())))
    for number, text in enumerate(found, start=1):
        assert f"page {number} of {len(found)}" in text
        assert EDITORIAL in text


def test_the_tables_are_there_with_what_happened() -> None:
    text = " ".join(pages(record_pdf(long_day().record())))
    headings = ("Planned against happened", "The day's strip", "Events", "Corrections")
    for wanted in (*headings, "17:01:16", "1 min 16 later", "agency", "the hall is noisy"):
        assert wanted in text


def test_every_line_of_a_rehearsal_s_tables_says_so() -> None:
    record = long_day(rehearsal=True).record()
    text = " ".join(pages(record_pdf(record)))
    assert text.count("REHEARSAL") > len(record.log) + len(record.events)
    assert "REHEARSAL" not in " ".join(pages(record_pdf(long_day().record())))


def test_the_pictures_are_drawn_on_the_first_pages() -> None:
    document = pypdfium2.PdfDocument(record_pdf(long_day().record()))
    dark = []
    for number in range(2):
        page = document[number]
        bitmap = page.render(scale=0.5, grayscale=True)
        pixels = bytes(bitmap.buffer)
        dark.append(sum(pixel < 200 for pixel in pixels) / len(pixels))
        bitmap.close()
        page.close()
    document.close()
    assert dark[1] > 0.02
    assert dark[0] > 0.005
