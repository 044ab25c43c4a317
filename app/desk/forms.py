"""The forms of the entry bar as the help sheet shows them: what is typed, and what it means."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Form:
    """One form: examples as typed, and how they are read."""

    typed: str
    meaning: str
    rehearsal: bool = False
    """Whether only a simulated clock takes it."""


FORMS: tuple[Form, ...] = (
    Form("ignition 4:58:05p · ign 1658", "a new time; 24 h without a or p"),
    Form("ign 15 May 4:58p", "with a date"),
    Form("ign 19:58z · ign 3:58p central", "UTC; a zone of the plan"),
    Form("ign +45s · ign -2m · ign +1:12", "later or earlier than now expected"),
    Form("ign in 4m", "from now"),
    Form("ign elapsed 3d 03:29:33", "mission elapsed time"),
    Form("ign about 4:58p · ign +-30s", "how uncertain it is"),
    Form("… per flight", "who said so, after any form"),
    Form("ign now · ign now-12s", "it has happened"),
    Form("ign happened 4:58:02p", "it has happened, then"),
    Form("liftoff hold · liftoff resume 5:10p", "the count stops; goes on"),
    Form("ign scrub with · bridge · stay", "called off; those tied go, close up, stay"),
    Form("ign pin · ign free", "hold it to its time; let it follow"),
    Form("burned · burned undecided", "the outcome a source has named"),
    Form("voice lost now · voice back 4:51:10p", "the signal as seen here"),
    Form("… alone · … shift", "only this edge; the later ones too"),
    Form("voice closed · voice open", "shut by the ground, no loss"),
    Form('new "Crew sleeps" ign +4h', "an event added, alone or tied"),
    Form("note line to the hall is noisy", "into the record"),
    Form("plan", "take over the plan as changed on disk"),
    Form("replan", "the present times become the planned ones"),
    Form("clock pause · clock go", "the simulated clock stands; runs on", rehearsal=True),
    Form("clock rate 60 · clock step 10s", "its rate; put on, or back with -", rehearsal=True),
    Form("clock 4:30p · clock next", "set; a minute before the next event", rehearsal=True),
)
