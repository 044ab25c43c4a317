"""`limbwatch fits` while others have the air, and of what the network's absence costs."""

from tests.app.commands.plans import Run
from tests.core.board.boards import FLIGHT
from tests.core.board.programmes import PROGRAMME

PLAN = FLIGHT + PROGRAMME


def test_nothing_is_clear_while_the_network_has_the_air(run: Run) -> None:
    assert "Clear for 7 min" in run("fits", PLAN, now="2031-05-14T16:40:00").out
    told = run("fits", PLAN, "air off 5m", now="2031-05-14T16:40:00").out
    assert "Clear for" not in told
    assert "Back by 4:47:00 p.m. for Loss of signal" in told


def test_nor_before_the_programme_begins(run: Run) -> None:
    assert "Clear for" not in run("fits", PLAN, now="2031-05-14T15:00:00").out


def test_the_moment_that_the_networks_absence_costs_is_told(run: Run) -> None:
    answer = run("fits", PLAN, "air off 8m", now="2031-05-14T16:40:00")
    lost = "The network has the air during Loss of signal: take it back by 4:47:00 p.m."
    assert lost in answer.out
    assert answer.status != 0
    told = run("fits", PLAN, "air off 8m", "--json", now="2031-05-14T16:40:00").told
    assert [(each["item"], each["of"]) for each in told["broken"]] == [(None, "loss")]
