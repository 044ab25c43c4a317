"""Texts with their checksum: a disk that gives back something else is found out.

The database looks after its own pages, not after what stands in them. The sum stands in the text
itself, so that an entry can be told from rubbish wherever in a damaged file it is found.
"""

import re
import zlib
from collections.abc import Iterator

from core.errors import SessionProblem

_SEALED = re.compile(rb'\{"v":[\x20-\x7e]*?\}#[0-9a-f]{8}')
_SUM = 9
"""The length of '#' and eight hexadecimal digits."""


def sealed(text: str) -> str:
    """The text with its sum behind it; ValueError unless it is ASCII."""
    return f"{text}#{zlib.crc32(text.encode('ascii')):08x}"


def unsealed(text: str) -> str:
    """The text without its sum. Raises SessionProblem where the two do not agree."""
    plain = text[:-_SUM]
    if not plain.isascii() or sealed(plain) != text:
        raise SessionProblem("The disk gave back something else than was written")
    return plain


def sealed_in(data: bytes) -> Iterator[str]:
    """The sealed JSON objects of one line that lie whole in the bytes of a damaged file."""
    for found in _SEALED.finditer(data):
        text = found.group().decode("ascii")
        if sealed(text[:-_SUM]) == text:
            yield text
