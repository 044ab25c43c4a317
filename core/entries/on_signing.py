"""The forms about who is at the desk: signing in and out by initials."""

import re

from core.entries.context import Context
from core.entries.forms import form_of
from core.entries.readings import Reading
from core.entries.signing import SignIn, SignOut
from core.entries.words import shown
from core.errors import EntryProblem

_INITIALS = re.compile(r"(?:[^\W\d_]\.?){1,4}")


def read_sign(tail: str, context: Context) -> Reading:
    """The reading of what follows 'sign'; EntryProblem where there is none."""
    way, _, who = tail.partition(" ")
    match way.casefold():
        case "in":
            return _in(who.strip(), context)
        case "out":
            return _out(who.strip(), context)
        case _:
            what = f"'{shown(tail)}' is no way to sign" if tail else "Sign in or out?"
            raise EntryProblem(what, tail, form_of("sign"))


def _in(who: str, context: Context) -> Reading:
    if not who:
        raise EntryProblem("Whose initials?", "", form_of("sign"))
    if _INITIALS.fullmatch(who) is None:
        raise EntryProblem(f"'{shown(who)}' is no initials", who, "One to four letters, as AB")
    initials = who.replace(".", "").upper()
    there = context.aired.desk
    if initials == there:
        raise EntryProblem(f"{there} is signed in already", who)
    how = f"{initials} takes the desk from {there}" if there else f"{initials} is at the desk"
    return Reading(SignIn(initials), how)


def _out(tail: str, context: Context) -> Reading:
    there = context.aired.desk
    if tail and tail.replace(".", "").upper() != there:
        raise EntryProblem(f"'{shown(tail)}' is not who is signed in", tail, "Write sign out")
    if not there:
        raise EntryProblem("Nobody is signed in", "", form_of("sign"))
    return Reading(SignOut(there), f"{there} leaves the desk")
