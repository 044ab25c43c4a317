"""Files cut off or changed at random: read, or told in problems; nothing else, and at once."""

import time
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.errors import PlanProblems, Problem
from core.plan.files import decode
from core.plan.orbitdata.elements import elements_of
from core.plan.orbitdata.model import MeanElements, Trajectory
from core.plan.orbitdata.telling import MOST_TOLD
from core.plan.orbitdata.trajectory import trajectory_of
from tests.core.plan.orbitdata.petrel import (
    COVARIANCE,
    OEM,
    OEM_XML,
    OMM,
    OMM_JSON,
    OMM_XML,
    SECOND,
    TWO_LINES,
)

Read = Callable[[str, str], Trajectory | MeanElements]

FILES = st.sampled_from(
    [
        (trajectory_of, (OEM + COVARIANCE + SECOND).encode()),
        (trajectory_of, OEM_XML.encode()),
        (elements_of, OMM.encode()),
        (elements_of, OMM_XML.encode()),
        (elements_of, OMM_JSON.encode()),
        (elements_of, TWO_LINES.encode()),
    ]
)


def check(read: Read, data: bytes) -> None:
    """Check that what is read is whole, or that problems are told within the file and its cap."""
    try:
        text = decode(data, "p")
        found = read(text, "p")
    except PlanProblems as error:
        check_problems(error.problems, data.count(b"\n") + 1)
        return
    if isinstance(found, Trajectory):
        for segment in found.segments:
            assert list(segment.at_s) == sorted(set(segment.at_s))
            assert len(segment.at_s) == len(segment.position_km) == len(segment.velocity_km_s) > 1
            assert segment.at_s[0] <= segment.begin_s < segment.end_s <= segment.at_s[-1]
    else:
        assert 0 <= found.eccentricity < 1


def check_problems(problems: tuple[Problem, ...], lines: int) -> None:
    """Check that problems are few, short, on one line each, and within a file of so many lines."""
    assert 0 < len(problems) <= MOST_TOLD + 1
    assert all(0 <= one.where.line <= lines for one in problems)
    assert all(len(str(one)) < 500 and str(one).isprintable() for one in problems)


@settings(max_examples=200)
@given(FILES, st.data())
def test_a_file_cut_off_anywhere_is_read_or_told(
    file: tuple[Read, bytes], data: st.DataObject
) -> None:
    read, whole = file
    check(read, whole[: data.draw(st.integers(0, len(whole)))])


@settings(max_examples=300)
@given(FILES, st.data())
def test_a_file_with_changed_bytes_is_read_or_told(
    file: tuple[Read, bytes], data: st.DataObject
) -> None:
    read, whole = file
    changed = bytearray(whole)
    likely = st.sampled_from(b"\n\r\t =<>/&\"'{}[]:,.-+eE019_") | st.integers(0, 255)
    for _ in range(data.draw(st.integers(1, 4))):
        changed[data.draw(st.integers(0, len(whole) - 1))] = data.draw(likely)
    check(read, bytes(changed))


@settings(max_examples=150)
@given(FILES, st.data())
def test_a_file_with_a_piece_twice_or_missing_is_read_or_told(
    file: tuple[Read, bytes], data: st.DataObject
) -> None:
    read, whole = file
    first, last = sorted(data.draw(st.tuples(*[st.integers(0, len(whole))] * 2)))
    if data.draw(st.booleans()):
        check(read, whole[:first] + whole[last:])
    else:
        check(read, whole[:last] + whole[first:])


@settings(max_examples=100)
@given(st.sampled_from([trajectory_of, elements_of]), st.text(max_size=200))
def test_any_text_is_read_or_told(read: Read, text: str) -> None:
    check(read, text.encode("utf-8", "surrogateescape"))


@pytest.mark.parametrize("last", range(1, 300, 7))
def test_a_trajectory_that_lost_its_end_is_never_taken_as_whole(last: int) -> None:
    # The last state alone is 66 letters long; a digit less of its last number cannot be told.
    text = OEM.rstrip()[: -last - 5]
    with pytest.raises(PlanProblems):
        trajectory_of(text, "p")


@pytest.mark.parametrize(
    "text",
    [
        OEM + "x" * 2_000_000,
        OEM + "x\n" * 300_000,
        OEM + " =" * 1_000_000,
        OEM.replace("380000.5", "9" * 1_000_000),
        OEM.replace("2031-05-14T17:00:00.000 38", "2031-05-14T17:00:00." + "0" * 900_000 + " 38"),
        "<" * 1_000_000,
        "<ndm a='" + "b" * 1_000_000,
        "<ndm>" + "&lt;" * 300_000,
        "<oem version='2.0'>" + "<a/>" * 300_000,
        '"' * 1_000_000,
    ],
)
def test_monstrous_files_are_told_within_seconds(text: str) -> None:
    begun_s = time.process_time()
    for read in (trajectory_of, elements_of):
        check(read, text.encode())
    assert time.process_time() - begun_s < 5
