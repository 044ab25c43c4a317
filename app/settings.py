"""What this user has chosen for good: read at the start, written when it is chosen anew."""

import tomllib
from contextlib import suppress
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from core.plan.writer import written
from core.times.writing import Hours

_THEMES = ("dark", "light")
_NO_ZONE = "UTC"
_HEAD = "# What Limbwatch keeps of your choices. hours: 12 or 24; theme: dark or light.\n"


@dataclass(frozen=True, slots=True)
class Settings:
    """The choices. `screen` is the name of the presenter window's, '' where none was chosen."""

    hours: Hours = Hours.TWELVE
    dark: bool = True
    screen: str = ""


class _BrokenError(ValueError):
    """The file cannot be taken; the message says why."""


class SettingsFile:
    """The settings of this user in their file. `said` is what there is to be told of it.

    A file that cannot be taken is set aside, never written over.
    """

    def __init__(self, path: Path) -> None:
        self._path = path
        self.said = ""
        self.settings = Settings()
        try:
            self.settings = _taken(path.read_bytes())
        except OSError:
            return  # there is none, or it cannot be read: all is as usual
        except _BrokenError as error:
            self.said = _set_aside(path, str(error))

    def choose_theme(self, *, dark: bool) -> None:
        """Keep the theme."""
        self._keep(replace(self.settings, dark=dark))

    def choose_screen(self, name: str) -> None:
        """Keep the screen of the presenter window."""
        self._keep(replace(self.settings, screen=name))

    def _keep(self, settings: Settings) -> None:
        if settings == self.settings:
            return
        self.settings = settings
        fresh = self._path.with_name(f"{self._path.name}.new")
        with suppress(OSError):  # no room, no right: it holds until the program ends
            self._path.parent.mkdir(parents=True, exist_ok=True)
            fresh.write_text(_text(settings), encoding="utf-8")
            fresh.replace(self._path)


def _text(settings: Settings) -> str:
    values: dict[str, str | int] = {
        "hours": int(settings.hours),
        "theme": _THEMES[0] if settings.dark else _THEMES[1],
        "screen": settings.screen,
    }
    return _HEAD + "".join(f"{key} = {written(v, _NO_ZONE)}\n" for key, v in values.items())


def _taken(data: bytes) -> Settings:
    try:
        found = tomllib.loads(data.decode("utf-8"))
    except ValueError as error:  # no TOML, or no UTF-8
        raise _BrokenError("it is no TOML") from error
    hours = _one_of(found, "hours", tuple(int(each) for each in Hours), int(Hours.TWELVE))
    theme = _one_of(found, "theme", _THEMES, _THEMES[0])
    screen = found.pop("screen", "")
    if not isinstance(screen, str):
        raise _BrokenError("screen is no text")
    if found:
        raise _BrokenError(f"'{min(found)}' is no setting")
    return Settings(Hours(hours), theme == _THEMES[0], screen)


def _one_of(found: dict[str, Any], key: str, known: tuple[Any, ...], usual: Any) -> Any:
    value = found.pop(key, usual)
    if isinstance(value, bool) or value not in known:
        raise _BrokenError(f"{key} is none of {', '.join(map(str, known))}")
    return value


def _set_aside(path: Path, why: str) -> str:
    number = 1
    while (aside := path.with_name(f"{path.stem}.broken-{number}{path.suffix}")).exists():
        number += 1
    words = f"The settings cannot be taken, {why}: all is as usual"
    try:
        path.rename(aside)
    except OSError:
        return words
    return f"{words}, the old file is {aside.name}"
