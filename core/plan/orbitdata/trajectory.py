"""Reads trajectory files: CCSDS OEM 2.0 and 3.0 (CCSDS 502.0-B), in keywords or in XML."""

from pathlib import Path

from core.plan.files import read_text
from core.plan.orbitdata.messages import Message, message_of
from core.plan.orbitdata.model import Trajectory
from core.plan.orbitdata.telling import Telling
from core.plan.orbitdata.trajectory_kvn import read_kvn
from core.plan.orbitdata.trajectory_xml import read_xml

LARGEST_BYTES = 20_000_000
"""150,000 states in keywords: read in about three seconds."""

COARSER = "Ask for coarser steps, or for the days of the flight only"
"""The remedy for a file that is too large."""


def read_trajectory(path: Path, shown: str = "") -> Trajectory:
    """The trajectory in a file; `shown` is the file's name in problems.

    Raises PlanProblems with everything wrong with it (the first twenty). A file of over 20 MB is
    refused without being read.
    """
    shown = shown or str(path)
    return trajectory_of(read_text(path, shown, LARGEST_BYTES, COARSER), shown)


def trajectory_of(text: str, shown: str) -> Trajectory:
    """The trajectory in a text; raises PlanProblems as `read_trajectory` does."""
    telling = Telling(shown)
    if message_of(text, "OEM", telling) is Message.XML:
        return read_xml(text, telling)
    return read_kvn(text, telling)
