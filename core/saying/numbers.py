"""Numbers as words, as they are read aloud."""

from functools import cache

from unicode_rbnf import FormatPurpose, RbnfEngine


@cache
def _rules() -> RbnfEngine:
    """The spelling rules of English (Unicode CLDR): read once, when the first number is said."""
    return RbnfEngine.for_language("en")


@cache
def cardinal(number: int) -> str:
    """'twenty-three'."""
    return _rules().format_number(number).text


@cache
def ordinal(number: int) -> str:
    """'twenty-third'."""
    return _rules().format_number(number, FormatPurpose.ORDINAL).text


def capital(text: str) -> str:
    """The text with its first letter upper case."""
    return text[:1].upper() + text[1:]
