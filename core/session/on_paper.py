"""The printed plan of a desk. Apart from the desk: a window that prints nothing never loads it."""

from core.board.paper.model import PlanSheet
from core.board.paper.sheet import AsOf, plan_sheet
from core.session.desk import Desk


def printed_plan(desk: Desk, as_of: AsOf) -> PlanSheet:
    """The plan on paper as it stands, every word of it."""
    stands = desk.session
    return plan_sheet(stands.scene, stands.standing, desk.totals, as_of, stands.both)
