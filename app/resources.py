"""The one place that finds what ships beside the code: assets and sample plans.

In a checkout they lie beside `app` at the top; in a wheel they lie beside `app` inside the
`limbwatch` package. So one rule serves both.
"""

from pathlib import Path

_ROOT = Path(__file__).resolve().parent.parent
_PLAN_SUFFIX = ".toml"


class ResourceMissing(LookupError):
    """Something that ships with the program is not there: the installation is damaged."""


def asset(name: str) -> Path:
    """Give the path of an asset by its name below `assets`, as in `fonts/LICENSE.txt`."""
    return _existing(_ROOT / "assets" / name)


def code_folder(name: str) -> Path:
    """Give the folder of a part of the program's code, as in `core`."""
    return _existing(_ROOT / name)


def sample_plan(name: str) -> Path:
    """Give the path of a sample plan by its name without suffix, as in `petrel-arrival`."""
    return _existing(_ROOT / "sample_plans" / f"{name}{_PLAN_SUFFIX}")


def sample_plans() -> tuple[Path, ...]:
    """Give the paths of all sample plans, in order of name."""
    return tuple(sorted(_existing(_ROOT / "sample_plans").glob(f"*{_PLAN_SUFFIX}")))


def _existing(path: Path) -> Path:
    """Give the path back if there is something at it.

    Raises ResourceMissing with the path.
    """
    if path.exists():
        return path
    message = f"{path} is missing; install Limbwatch again"
    raise ResourceMissing(message)
