"""The table of broken OEM files: what is told, where it stands, and the remedy."""

import pytest

from core.errors import PlanProblems
from core.plan.orbitdata.trajectory import trajectory_of
from tests.core.plan.orbitdata.petrel import (
    COVARIANCE,
    LINE_1,
    OEM,
    OEM_XML,
    OMM,
    SECOND,
    check_told,
)

Row = tuple[str, str, str, str]
"""What is replaced in a good file, by what (with a mark), words of the problem and the remedy."""

LAST = "2031-05-14T17:04:00.000 379880.5 -11820.25 7940.0 -0.5 0.75 -0.25\n"
SECOND_LAST = "2031-05-14T17:03:00.000 379910.5 -11865.25 7955.0 -0.5 0.75 -0.25\n"
STATE = OEM_XML[OEM_XML.index("<stateVector>") : OEM_XML.index("</stateVector>")]
STATE_ALONE = "⟦" + STATE[: STATE.index("<X_DOT")]
META = OEM[OEM.index("META_START") : OEM.index(" \t")]

KVN: dict[str, Row] = {
    "another version": ("= 2.0", "= ⟦1.0", "version '1.0'", "2.0 and 3.0"),
    "no version": ("= 2.0", "=⟦", "version ''", "2.0 and 3.0"),
    "an OPM": ("CCSDS_OEM", "⟦CCSDS_OPM", "this is an OPM, and an OEM is wanted", ""),
    "no message at all": ("CCSDS_OEM_VERS = 2.0", "⟦hello", "no OEM", "begins with CCSDS_OEM"),
    "an unknown key of the header": ("ORIGINATOR", "⟦ORGINATOR", "no key", "mean ORIGINATOR?"),
    "an unknown key of the metadata": (
        "REF_FRAME = EME2000",
        "REF_FRAME = EME2000\n⟦INTERPOLATON = LAGRANGE",
        "'INTERPOLATON' is no key",
        "mean INTERPOLATION?",
    ),
    "a key twice": (
        "REF_FRAME = EME2000",
        "REF_FRAME = EME2000\nREF_FRAME = ⟦ICRF",
        "REF_FRAME stands twice",
        "Take one",
    ),
    "an object without a name": ("NAME = PETREL 4", "NAME =⟦", "OBJECT_NAME is empty", "Write"),
    "no identity": ("META_START", "⟦META_START", "OBJECT_ID is missing", "Add OBJECT_ID"),
    "states about the Sun": ("= EARTH", "= ⟦SUN", "about 'SUN'", "EARTH, MOON or MARS"),
    "states about a barycentre": (
        "= EARTH",
        "= ⟦EARTH BARYCENTER",
        "about 'EARTH BARYCENTER'",
        "EARTH, MOON or MARS",
    ),
    "axes that turn": ("EME2000", "⟦ITRF2014", "the frame 'ITRF2014'", "ICRF, GCRF or EME2000"),
    "axes of date": ("EME2000", "⟦TOD", "the frame 'TOD'", "ICRF"),
    "mission elapsed time": ("= UTC", "= ⟦MET", "time system 'MET'", "UTC, UT1, TAI"),
    "a start that is no epoch": (
        "START_TIME = 2031-05-14T17:00:00.000",
        "START_TIME = ⟦2031-05-14 17:00",
        "no epoch",
        "Like 2031-05-14T",
    ),
    "a stop before the start": (
        "STOP_TIME = 2031-05-14T17:04",
        "STOP_TIME = ⟦2031-05-14T16:04",
        "STOP_TIME is before START_TIME",
        "earlier one first",
    ),
    "useable before the start": (
        "STOP_TIME = ",
        "USEABLE_START_TIME = ⟦2031-05-14T16:00:00\nSTOP_TIME = ",
        "begins before START_TIME",
        "within",
    ),
    "useable after the stop": (
        "STOP_TIME = ",
        "USEABLE_STOP_TIME = ⟦2031-05-14T18:00:00\nSTOP_TIME = ",
        "ends after STOP_TIME",
        "within",
    ),
    "nothing useable": (
        META,
        "⟦"
        + META.replace(
            "STOP_TIME = ",
            "USEABLE_START_TIME = 2031-05-14T17:01:00\n"
            "USEABLE_STOP_TIME = 2031-05-14T17:01:00\nSTOP_TIME = ",
        ),
        "no states lie in the useable span",
        "Mend USEABLE",
    ),
    "no META_STOP": (
        "META_STOP\n \t\n",
        "\n⟦",
        "META_STOP is missing above this state",
        "Put it in",
    ),
    "no META_START": (
        "META_START\n",
        "⟦",
        "META_START is missing above this key",
        "Put it in",
    ),
    "META_STOP twice": (
        "META_STOP\n",
        "META_STOP\n⟦META_STOP\n",
        "META_STOP without META_START",
        "Put it in above",
    ),
    "a mark misspelt": (
        "META_STOP\n",
        "⟦META_STOPP\nMETA_STOP\n",
        "neither a key with its value nor a state",
        "mean META_STOP?",
    ),
    "a covariance that does not end": (
        LAST,
        LAST + "⟦" + COVARIANCE.replace("COVARIANCE_STOP\n", ""),
        "COVARIANCE_START without COVARIANCE_STOP",
        "Put COVARIANCE_STOP in",
    ),
    "a covariance that does not begin": (
        LAST,
        LAST + "⟦COVARIANCE_STOP\n",
        "COVARIANCE_STOP without",
        "above",
    ),
    "a covariance before all": (
        "META_START",
        "⟦" + COVARIANCE + "META_START",
        "before any segment",
        "META_START",
    ),
    "a key among states": (LAST, "⟦REF_FRAME = ICRF\n" + LAST, "among states", "new segment"),
    "no velocity": (
        "379910.5 -11865.25 7955.0 -0.5 0.75 -0.25",
        "379910.5 -11865.25 7955.0⟦",
        "no velocity",
        "with velocity",
    ),
    "half a velocity": (
        " -0.5 0.75 -0.25\n2031-05-14T17:01",
        " -0.5⟦\n2031-05-14T17:01",
        "5 parts",
        "three of",
    ),
    "not a number": ("379910.5", "⟦NaN", "'NaN' is no number", "Digits"),
    "infinite": ("-11865.25", "⟦-inf", "'-inf' is no number", "Digits"),
    "beyond all numbers": ("379910.5", "⟦1e999", "too far", "km and km/s"),
    "an underscore": ("379910.5", "⟦379_910.5", "'379_910.5' is no number", "Digits"),
    "a decimal comma": ("379910.5", "⟦379910,5", "'379910,5' is no number", "decimal point"),
    "an exponent with D": ("7955.0", "⟦0.7955D+04", "'0.7955D+04' is no number", "maybe E"),
    "two signs": ("7955.0", "⟦--7955.0", "'--7955.0' is no number", "Digits"),
    "metres": (
        " -0.5 0.75 -0.25\n2031-05-14T17:01",
        " ⟦-5000 0.75 -0.25\n2031-05-14T17:01",
        "too fast",
        "km/s",
    ),
    "the same epoch twice": (LAST, "⟦" + SECOND_LAST + LAST, "17:03:00.000 stands twice", "rise"),
    "an earlier epoch below": (
        LAST,
        "⟦2031-05-14T17:02:59.900 1 2 3 4 5 6\n" + LAST,
        "is before the one above it",
        "new segment",
    ),
    "an epoch before the start": (
        "2031-05-14T17:00:00.000 380000.5",
        "⟦2031-05-14T16:00:00.000 380000.5",
        "before START_TIME (2031-05-14T17:00:00.000)",
        "metadata",
    ),
    "an epoch after the stop": (
        LAST,
        "⟦" + LAST.replace("17:04", "17:05"),
        "after STOP_TIME (2031-05-14T17:04:00.000)",
        "metadata",
    ),
    "a month that is none": (
        "2031-05-14T17:03:00.000",
        "⟦2031-13-14T17:03:00.000",
        "no day '2031-13-14'",
        "month",
    ),
    "a day that is none": (
        "2031-05-14T17:03:00.000",
        "⟦2031-366T17:03:00.000",
        "no day '2031-366'",
        "001",
    ),
    "an hour that is none": (
        "2031-05-14T17:03:00.000",
        "⟦2031-05-14T24:03:00.000",
        "no time of day",
        "23",
    ),
    "a leap second nobody put in": (
        "2031-05-14T17:03:00.000",
        "⟦2031-05-14T23:59:60.000",
        "leap second",
        "put into UTC",
    ),
    "a year out of reach": (
        "2031-05-14T17:03:00.000",
        "⟦0031-05-14T17:03:00.000",
        "outside the years 1900 to 2199",
        "year",
    ),
    "cut off between states": (
        SECOND_LAST + LAST,
        "",
        "the states end at 2031-05-14T17:02:00.000, before STOP_TIME (2031-05-14T17:04:00.000)",
        "whole",
    ),
    "states that begin late": (
        "2031-05-14T17:00:00.000 380000.5 -12000.25 8000.0 -0.5 0.75 -0.25\n",
        "⟦",
        "the states begin at 2031-05-14T17:01:00.000, after START_TIME",
        "whole",
    ),
    "no states": (OEM[OEM.index("META_START") :], "⟦" + META, "no states", "whole"),
    "no segments": (OEM, "⟦" + OEM[: OEM.index("META_START")], "no segments", "whole"),
    "cut off in the metadata": (
        OEM[OEM.index("META_START") :],
        "⟦META_START\nOBJECT_NAME = PETREL 4\n",
        "META_START without META_STOP",
        "fetch",
    ),
    "two objects": (
        LAST,
        LAST + SECOND.replace("2031-031A", "⟦2031-032A"),
        "a second object '2031-032A' beside '2031-031A': which one?",
        "one object",
    ),
    "segments over each other": (
        LAST,
        LAST + SECOND.replace("META_START", "⟦META_START").replace("17:05:09", "17:04:09"),
        "begins before the one above it ends",
        "follow each other",
    ),
    "one state alone": (
        OEM[OEM.index("STOP_TIME = ") :],
        "STOP_TIME = 2031-05-14T17:00:00\nMETA_STOP\n⟦2031-05-14T17:00:00 1 2 3 4 5 6\n",
        "one state alone",
        "two states",
    ),
    "an OMM": (OEM, "⟦" + OMM, "this is an OMM, and an OEM is wanted here", '"elements"'),
    "two-line elements": (OEM, "⟦" + LINE_1, "two-line elements", '"elements"'),
    "JSON": (OEM, '⟦{"OBJECT_NAME": "PETREL 4"}', "JSON", "keywords or XML"),
    "nothing": (OEM, "⟦", "empty", "again"),
    "only spaces": (OEM, "⟦ \n\r\n\t\n", "empty", "again"),
}
"""In this order: the file as such, its metadata, its states, its end."""

# What a row cannot say by replacing alone: where the mark would fall into what is replaced.
_MOVED = {
    "no identity": ("OBJECT_ID = 2031-031A\n", ""),
    "cut off between states": ("2031-05-14T17:02", "⟦2031-05-14T17:02"),
}

XML: dict[str, Row] = {
    "another version": (
        '<oem id="CCSDS_OEM_VERS" version="3.0"',
        '⟦<oem version="4.0"',
        "'4.0'",
        "3.0",
    ),
    "an OMM": ("<oem", "⟦<omm", "this is an OMM", '"elements"'),
    "another document": ("<oem", "⟦<html", "<html> is no OEM", "begins with <oem>"),
    "no message": (OEM_XML, "⟦<ndm></ndm>", "no OEM in this file", "again"),
    "a wrong end": ("</ORIGINATOR>", "</⟦ORIGIN>", "not XML: mismatched tag", "ends with"),
    "a document type": (
        "<oem",
        '<!DOCTYPE oem ⟦[<!ENTITY a "b">]><oem',
        "document type",
        "Take it out",
    ),
    "an entity": ("PETREL 4", "⟦&petrel;", "not XML: undefined entity", "ends with"),
    "no velocity": (STATE, STATE_ALONE, "no velocity", "with velocity"),
    "no epoch": (
        "<stateVector>\n     <EPOCH>2031-05-14T17:00:00.000</EPOCH>",
        "⟦<stateVector>",
        "this state has no EPOCH",
        "seven parts",
    ),
    "metres": ('<X units="km">', '⟦<X units="m">', "X is in 'm'", "written in km"),
    "not a number": ("<Y>-11955.25", "⟦<Y>NaN", "'NaN' is no number", "Digits"),
    "a part that is none": ("<Z>7985.0</Z>", "<Z>7985.0</Z>⟦<T>1</T>", "'T' is no part", "out"),
    "a part twice": ("<Z>7985.0</Z>", "<Z>7985.0</Z>⟦<X>1</X>", "'X' stands twice", "out"),
    "an unknown key": ("<REF_FRAME>", "⟦<FRAME>1</FRAME><REF_FRAME>", "'FRAME' is no key", "mean"),
    "the end before all states": (
        "<STOP_TIME>2031-05-14T17:01",
        "<STOP_TIME>2031-05-14T17:09",
        "the states end at 2031-05-14T17:01:00.000",
        "whole",
    ),
    "two messages": (
        OEM_XML,
        "<ndm>\n" + OEM_XML.split("\n", 1)[1] + "⟦" + OEM_XML.split("\n", 1)[1] + "</ndm>",
        "several OEM: which one?",
        "Keep one",
    ),
    "no segment": (
        OEM_XML,
        '⟦<oem version="2.0"><header/><body></body></oem>',
        "no segments",
        "whole",
    ),
}
_MOVED_XML = {
    "the end before all states": (
        "<EPOCH>2031-05-14T17:01:00.000",
        "⟦<EPOCH>2031-05-14T17:01:00.000",
    ),
}


def _broken(good: str, row: Row, moved: dict[str, tuple[str, str]], name: str) -> str:
    old, new, *_ = row
    assert old in good
    text = good.replace(old, new, 1)
    if name in moved:
        before, after = moved[name]
        assert before in text
        text = text.replace(before, after, 1)
    return text


def read(text: str) -> object:
    return trajectory_of(text, "petrel.oem")


@pytest.mark.parametrize("name", KVN)
def test_a_broken_file_in_keywords_is_told_in_its_place(name: str) -> None:
    row = KVN[name]
    check_told(read, _broken(OEM, row, _MOVED, name), row[2], row[3])


@pytest.mark.parametrize("name", XML)
def test_a_broken_file_in_xml_is_told_in_its_place(name: str) -> None:
    row = XML[name]
    check_told(read, _broken(OEM_XML, row, _MOVED_XML, name), row[2], row[3])


@pytest.mark.parametrize(
    ("what", "nested"),
    [
        ("deeper than 50", "<ndm>" * 5_000),
        ("cut off here inside <ndm>", "<ndm>"),
        ("cut off here", "<"),
        ("document type", '<!DOCTYPE a [<!ENTITY a "aa"><!ENTITY b "&a;&a;">]><ndm>&b;</ndm>'),
        ("document type", '<!DOCTYPE a SYSTEM "file:///etc/passwd"><ndm/>'),
    ],
)
def test_xml_that_means_harm_gets_one_problem(what: str, nested: str) -> None:
    with pytest.raises(PlanProblems) as caught:
        read(nested)
    (problem,) = caught.value.problems
    assert what in problem.what


@pytest.mark.parametrize("share", range(1, 20))
def test_xml_cut_off_anywhere_is_told_at_its_end(share: int) -> None:
    text = OEM_XML[: len(OEM_XML) * share // 20].rstrip()
    with pytest.raises(PlanProblems) as caught:
        read(text)
    problem = next(one for one in caught.value.problems if "cut off" in one.what)
    assert "again" in problem.hint
    assert problem.where.line in (text.count("\n"), text.count("\n") + 1)


def test_everything_wrong_is_told_at_once_and_sorted() -> None:
    text = OEM.replace("UTC", "GMST").replace("EARTH", "SUN").replace("379910.5", "x")
    with pytest.raises(PlanProblems) as caught:
        read(text)
    told = [(one.where.line, one.where.column) for one in caught.value.problems]
    assert told == [(10, 15), (12, 15), (21, 25)]


def test_a_flood_of_problems_is_cut_off_and_counted() -> None:
    flood = "".join(f"KEY_{number} = 1\n" for number in range(1_500))
    with pytest.raises(PlanProblems) as caught:
        read(OEM.replace("META_START\n", flood + "META_START\n"))
    assert len(caught.value.problems) == 21
    assert caught.value.problems[-1].what == "and 1480 more problems"
    assert caught.value.problems[-1].where.line == 6 + 1_500


@pytest.mark.parametrize("name", KVN)
def test_a_file_with_windows_line_ends_is_told_the_same(name: str) -> None:
    row = KVN[name]
    text = _broken(OEM, row, _MOVED, name).replace("\n", "\r\n")
    check_told(read, text, row[2], row[3])
