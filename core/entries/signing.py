"""Entries about who is at the desk. They change nothing on the board."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class SignIn:
    """Somebody is at the desk from here on, by initials; whoever was there before is relieved."""

    who: str


@dataclass(frozen=True, slots=True)
class SignOut:
    """They leave the desk, and nobody is there by name."""

    who: str


Signing = SignIn | SignOut
