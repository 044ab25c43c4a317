"""Which Qt may not be started on which Python.

PySide6 6.12.0 on Python 3.11 drops a reference to `None` in most calls that return nothing, and
the program aborts after about 46 s of painting once a second (`Fatal Python error:
none_dealloc`). Measured on Debian 12 with Python 3.11.7; 6.11.3 is clean there, and so is 6.12
on Python 3.12, where `None` is never counted. A short try-out passes either way, hence the
refusal at the start.
"""

_FIRST_LOSING_QT = (6, 12)
_FIRST_SAFE_PYTHON = (3, 12)


def refusal(python: tuple[int, int], pyside: tuple[int, int]) -> str | None:
    """Give the line that says why this Qt cannot be used on this Python, or None if it can.

    Both as (major, minor): `sys.version_info[:2]` and `PySide6.__version_info__[:2]`.
    """
    if python >= _FIRST_SAFE_PYTHON or pyside < _FIRST_LOSING_QT:
        return None
    return (
        f"PySide6 {_dotted(pyside)} aborts within a minute on Python {_dotted(python)}. "
        "Install PySide6-Essentials 6.11.3, or use Python 3.12 or later."
    )


def _dotted(version: tuple[int, int]) -> str:
    """Give a version as people write it."""
    return f"{version[0]}.{version[1]}"
