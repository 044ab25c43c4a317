"""What CCSDS messages in XML are wrapped in: which one it is, how many, and its version."""

from core.plan.orbitdata.messages import check_kind, check_version
from core.plan.orbitdata.telling import Spot, Telling, quoted

_WRAPPER = "ndm"
_MESSAGES = ("acm", "aem", "apm", "cdm", "ocm", "oem", "omm", "opm", "rdm", "tdm")


class Envelope:
    """Is told of elements as they begin, and raises PlanProblems where a wrong message does."""

    def __init__(self, wanted: str, telling: Telling) -> None:
        self._wanted = wanted
        self._telling = telling
        self._inside = 0
        self._count = 0

    def opened(self, tag: str, attributes: dict[str, str], spot: Spot) -> None:
        """An element begins."""
        if tag in _MESSAGES:
            self._message(tag, attributes, spot)
        elif not self._count and tag != _WRAPPER and not self._inside:
            what = f"<{quoted(tag)[1:-1]}> is no {self._wanted}"
            hint = f"It begins with <{self._wanted.lower()}> or <{_WRAPPER}>"
            raise self._telling.stopped(spot, what, hint)
        self._inside += 1

    def _message(self, tag: str, attributes: dict[str, str], spot: Spot) -> None:
        check_kind(tag.upper(), self._wanted, self._telling, spot)
        self._count += 1
        if self._count > 1:
            what = f"this file holds several {self._wanted}: which one?"
            raise self._telling.stopped(spot, what, "Keep one of them in the file")
        check_version(attributes.get("version", ""), self._wanted, self._telling, spot)

    def check_found(self) -> None:
        """Raise PlanProblems where the file held no such message at all."""
        if not self._count:
            what = f"there is no {self._wanted} in this file"
            raise self._telling.stopped((1, 1), what, "Fetch it again")
