"""The programme of a rehearsal as it runs: items begun, ended and placed, and what they lose."""

from core.board.onair.now import AirNow
from core.board.programme import ItemState
from core.errors import EntryProblem, EntryRefused
from core.plan.model import Plan
from core.rehearsal.desk import OpenDesk
from core.rehearsal.judging import note_on_air
from core.rehearsal.keeping import Keeper
from core.rehearsal.record import Record
from core.rehearsal.typist import Typist


class Producing:
    """Keeps the programme of one desk, and notes what is on the air for the score."""

    def __init__(self, plan: Plan, desk: OpenDesk, typist: Typist, acts_ms: int) -> None:
        self._plan = plan
        self._desk = desk
        self._typist = typist
        self._keeper = Keeper(acts_ms)

    def keep(self, record: Record, now_ms: int, *, news: bool) -> AirNow:
        """Begin, end and place items until nothing is to be done at this second."""
        air = self._desk.on_air(now_ms)
        for _ in self._plan.items:
            lines = self._lines(air, record, now_ms, news=news)
            if not lines:
                break
            for line in lines:
                self._typist.enter(self._desk, line, record)
            air = self._desk.on_air(now_ms)
            news = False
        begun = note_on_air(air, self._plan, record, now_ms)
        if begun is not None:
            self._typist.begun(begun.item, begun.from_ms)
        return air

    def wakes_ms(self, air: AirNow, now_ms: int) -> list[int]:
        """When something is to be done about an item next."""
        return self._keeper.wakes_ms(self._desk, air, now_ms)

    def _lines(self, air: AirNow, record: Record, now_ms: int, *, news: bool) -> tuple[str, ...]:
        if now_ms < self._typist.busy_until_ms:
            on = [box for box in air.lane.boxes if box.state is ItemState.ON_AIR]
            cut = [item.id for item in self._plan.items if item.can_cut]
            return tuple(f"{box.item} over" for box in on if box.item in cut)
        try:
            return self._keeper.lines(self._desk, air, now_ms, news=news)
        except (EntryProblem, EntryRefused) as problem:
            record.trouble(now_ms, "the programme could not be kept", str(problem))
            return ()
