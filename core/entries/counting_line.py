"""The line that counts one more on a check-off: what a key for it writes."""

from collections.abc import Iterable, Mapping

from core.entries.airing import Count
from core.plan.model import CheckOff


def counting_line(checkoffs: Iterable[CheckOff], counts: Mapping[str, Count], of: str) -> str:
    """'clamps +1' for the first check-off of the event `of` that is not full; '' for none."""
    for checkoff in checkoffs:
        heard = counts.get(checkoff.id)
        if checkoff.of == of and (heard is None or heard.count < checkoff.count):
            return f"{checkoff.id} +1"
    return ""
