"""The model sentences, word for word, out of the situations they stand for."""

from core.saying.audience import Audience
from core.saying.calling_off import calling_off
from core.saying.coming import coming
from core.saying.correcting import correcting
from core.saying.far import far_away
from core.saying.holding import holding
from core.saying.lateness import lateness
from core.saying.losing import losing
from core.saying.model import Named, Reach, Told
from core.saying.rejoining import rejoining
from core.saying.returns import two_returns
from core.saying.situations import (
    CalledOff,
    Correction,
    FarAway,
    Gap,
    Held,
    LaneLeft,
    Late,
    LossAhead,
    Moved,
    Next,
    Return,
    TwoReturns,
    WhileAway,
)
from core.saying.unseen import unseen
from tests.core.saying.scenes import ATLANTIC, BURN, at_ms

LIFTOFF = Named("liftoff", "liftoff")


def said(told: Told | None) -> str:
    assert told is not None
    return told.twenty


def test_next() -> None:
    situation = Next(BURN, at_ms("16:57:20"), 20_000, Reach.OUT)
    assert said(coming(situation, ATLANTIC, at_ms("16:49:12"))) == (
        "Next, the firing meant to put Petrel into orbit around the Moon. It is due in about eight "
        "minutes, at four fifty-seven Atlantic. We will not hear it."
    )


def test_loss_ahead() -> None:
    situation = LossAhead(
        (
            LaneLeft("picture-lost", "pictures", at_ms("16:47:00")),
            LaneLeft("loss", "voice", at_ms("16:49:00")),
        ),
        then="Petrel slips behind the Moon",
    )
    assert said(losing(situation, at_ms("16:41:12"))) == (
        "We have about five and a half minutes of pictures left, and just under eight of voice. "
        "Then Petrel slips behind the Moon."
    )


def test_gap() -> None:
    situation = Gap(
        BURN,
        "the engine is burning now",
        "behind the Moon",
        at_ms("17:12:34"),
        at_ms("17:03:34"),
        only=False,
    )
    assert said(unseen(situation, ATLANTIC, at_ms("17:00:20"))) == (
        "If all is going to plan, the engine is burning now, behind the Moon, where nobody on "
        "Earth can hear it. The first chance of any word is about twelve minutes away."
    )


def test_two_returns() -> None:
    situation = TwoReturns(
        Return(Named("return-none", ""), at_ms("17:12:30"), "with no burn"),
        Return(Named("return", ""), at_ms("17:22:50"), "after a full one"),
        quiet_hoped=True,
    )
    assert said(two_returns(situation, ATLANTIC)) == (
        "Two times to watch. With no burn, their signal is expected at about five-twelve; after a "
        "full one, about five twenty-three. So at five-twelve, quiet is what they hope for here."
    )


def test_late() -> None:
    assert said(lateness(Late("ignition", 78_000, unexplained=True), at_ms("16:40"))) == (
        "They are running a little over a minute behind the flight plan. Mission control has not "
        "said why."
    )


def test_hold() -> None:
    situation = Held(LIFTOFF, 540_000, at_ms("16:04:10"), launch=True)
    assert said(holding(situation, ATLANTIC, at_ms("16:10:20"))) == (
        "The count is holding, with nine minutes left on it. It stopped more than six minutes ago. "
        "There is no new launch time yet."
    )


def test_scrub() -> None:
    again_ms = at_ms("16:31", "2031-05-15")
    situation = CalledOff(
        LIFTOFF, at_ms("16:52:10"), "flight", launch=True, again="again", again_ms=again_ms
    )
    assert said(calling_off(situation, ATLANTIC, at_ms("16:54"))) == (
        "There will be no launch today. Mission control called it off at four fifty-two. The next "
        "attempt they have named is tomorrow, Thursday, at four thirty-one in the afternoon, "
        "Atlantic time."
    )


def test_anything_but_a_launch_is_called_off() -> None:
    situation = CalledOff(Named("walk", "the walk outside"), at_ms("16:52:10"), "flight")
    assert said(calling_off(situation, ATLANTIC, at_ms("16:54"))) == (
        "The walk outside is called off. Mission control said so at four fifty-two. There is no "
        "new time yet."
    )


def test_far_away() -> None:
    zone = "America/New_York"
    heard_ms = at_ms("15:55:10", "2031-10-21", zone)
    landing = Named("landing", "the moment it stands on Mars")
    situation = FarAway(landing, "Mars", heard_ms - 682_000, heard_ms, 682_000)
    told = far_away(situation, Audience((zone,)), at_ms("15:46", "2031-10-21", zone))
    assert said(told) == (
        "On Mars it is already over, one way or the other. The signal takes more than eleven "
        "minutes to get here. What we hear at about three fifty-five Eastern will have happened at "
        "about three forty-four."
    )


def test_correction() -> None:
    situation = Correction(BURN, at_ms("16:57:20"), at_ms("16:45"), at_ms("16:58:05"), "flight")
    told = correcting(situation, ATLANTIC, at_ms("16:50"))
    assert told.line == (
        "A few minutes ago we said four fifty-seven. Mission control now gives four fifty-eight."
    )
    assert told.twenty.startswith(told.line)


def test_while_away() -> None:
    away = WhileAway(None, (Moved(("ignition",), 45_000),))
    assert rejoining(away, ATLANTIC) == (
        "Since we left: ignition is 45 seconds later; nothing else has changed."
    )
