"""The table of broken mean elements: OMM in three notations, and two-line elements."""

import pytest

from core.errors import PlanProblems
from core.plan.orbitdata.elements import elements_of
from tests.core.plan.orbitdata.petrel import (
    LINE_1,
    LINE_2,
    OEM,
    OEM_XML,
    OMM,
    OMM_JSON,
    OMM_XML,
    TWO_LINES,
    check_told,
)

Row = tuple[str, str, str, str]
"""What is replaced in a good file, by what (with a mark), words of the problem and the remedy."""

_LAST = "USER_DEFINED_DESK"

KVN: dict[str, Row] = {
    "another version": ("= 2.0", "= ⟦1.0", "this OMM is of version '1.0'", "2.0 and 3.0"),
    "no version": (OMM[: OMM.index("COMMENT")], "⟦", "CCSDS_OMM_VERS is missing", "begins with"),
    "another centre": ("= EARTH", "= ⟦MOON", "CENTER_NAME is 'MOON'", "for SGP4"),
    "another frame": ("= TEME", "= ⟦EME2000", "are in the frame TEME", "for SGP4"),
    "another time": ("= UTC", "= ⟦TAI", "the epoch of SGP4 is in UTC", "for SGP4"),
    "another theory": ("= SGP/SGP4", "= ⟦DSST", "is 'DSST'", "for SGP4"),
    "a theory that looks alike": ("= SGP/SGP4", "= ⟦SGP4-XP", "is 'SGP4-XP'", "for SGP4"),
    "a kind that looks alike": ("TYPE = 0", "TYPE = ⟦4", "stands for SGP4-XP", "for SGP4"),
    "an epoch that is none": ("= 2031-05-14T12", "= ⟦2031-05-14 12", "is no epoch", "Like"),
    "a day that is none": ("= 2031-05-14T12", "= ⟦2031-02-29T12", "there is no day", "month"),
    "not a number": ("= 51.6", "= ⟦fifty", "is no number", "INCLINATION is one"),
    "NaN": ("= 100.0", "= ⟦NaN", "'NaN' is no number", "RA_OF_ASC_NODE"),
    "an orbit that is open": ("= 0.0001", "= ⟦1.2", "'1.2' is out of range for ECC", "From 0"),
    "below the ground": ("= 15.5", "= ⟦20.5", "'20.5' is out of range", "18 rev/day"),
    "a mean motion of nought": ("= 15.5", "= ⟦0", "'0' is out of range", "rev/day"),
    "over the pole and back": ("= 51.6", "= ⟦181", "out of range for INCL", "180 deg"),
    "another unit": ("15.5 [rev/day]", "⟦15.5 [rev/h]", "is in 'rev/h'", "in rev/day"),
    "a unit for none": ("= 0.0001", "= ⟦0.0001 [km]", "is in 'km'", "no unit"),
    "a catalogue number that is none": ("= 312345", "= ⟦A2345", "no catalogue number", "digits"),
    "an empty value": ("= 350.0", "=⟦", "MEAN_ANOMALY is empty", "Write its value"),
    "a value missing": ("BSTAR = 0.28098E-4\n", "", "BSTAR is missing", "Add BSTAR"),
    "another drag term": ("BSTAR =", "BTERM =", "BSTAR is missing", "BTERM belongs to SGP4-XP"),
    "an axis": (
        "MEAN_MOTION = 15.5 [rev/day]",
        "SEMI_MAJOR_AXIS = 6800",
        "MEAN_MOTION is missing",
        "in place of SEMI_MAJOR_AXIS",
    ),
    "no name": ("OBJECT_NAME = HARBOUR STATION\n", "", "OBJECT_NAME is missing", "Add"),
    "no centre": ("CENTER_NAME = EARTH\n", "", "CENTER_NAME is missing", "Add"),
    "an unknown key": (
        "MEAN_ANOMALY",
        "MEAN_ANOMALY = 350.0\nMEAN_ANOMLY",
        "'MEAN_ANOMLY' is no key",
        "mean MEAN_ANOMALY?",
    ),
    "a key twice": ("BSTAR =", "EPHEMERIS_TYPE = ⟦0\nBSTAR =", "stands twice", "one set"),
    "a line without a key": ("BSTAR =", "⟦DRAG\nBSTAR =", "'DRAG' is no key with its value", "KEY"),
    "two messages": (OMM, OMM + "⟦" + OMM, "several OMM: which one?", "Keep one"),
    "an OEM": (OMM, "⟦" + OEM, "this is an OEM, and an OMM is wanted here", '"trajectory"'),
    "an OPM": (OMM, "⟦CCSDS_OPM_VERS = 2.0\n", "this is an OPM", "Ask for an OMM"),
    "nothing": (OMM, "⟦", "empty", "again"),
    "no elements": (OMM, "⟦Hello\n", "no mean elements in this file", "An OMM begins"),
}

XML: dict[str, Row] = {
    "another version": (' id="CCSDS_OMM_VERS" version="2.0"', "", "of version ''", "2.0"),
    "an OEM": (OMM_XML, OEM_XML.replace("<oem", "⟦<oem"), "this is an OEM", '"trajectory"'),
    "another frame": ("<REF_FRAME>TEME", "⟦<REF_FRAME>GCRF", "the frame TEME", "for SGP4"),
    "another unit": (
        '<MEAN_MOTION units="rev/day">',
        '⟦<MEAN_MOTION units="rad/s">',
        "'rad/s'",
        "rev/day",
    ),
    "a value missing": ("<BSTAR>0.28098E-4</BSTAR>\n", "", "BSTAR is missing", "Add BSTAR"),
    "an unknown key": ("<BSTAR>", "⟦<BSTARR>1</BSTARR><BSTAR>", "no key of an OMM", "BSTAR?"),
    "several segments": (
        "</segment>",
        "</segment>⟦<segment></segment>",
        "several segments",
        "Keep one",
    ),
    "several messages": ("</omm>", '</omm>⟦<omm version="2.0"></omm>', "several OMM", "Keep one"),
    "a document type": ("<ndm>", "<!DOCTYPE ndm⟦><ndm>", "document type", "Take it out"),
    "no message": (OMM_XML, "⟦<ndm/>", "no OMM in this file", "again"),
}

JSON: dict[str, Row] = {
    "not JSON": ('"EPOCH": ', '"EPOCH" ⟦', "not JSON", "again"),
    "cut off": (',\n  "DECAY_DATE": null\n}]\n', "⟦", "cut off here", "again"),
    "cut off in a text": (
        OMM_JSON[OMM_JSON.index('"2029') :],
        '⟦"2029',
        "cut off here",
        "again",
    ),
    "none in the list": (OMM_JSON, "⟦[]", "this list is empty", "again"),
    "several in the list": (
        OMM_JSON,
        f"⟦[{OMM_JSON[1:-2]}, {OMM_JSON[1:-2]}]",
        "2 sets",
        "Keep one",
    ),
    "a list in a list": (OMM_JSON, f"[⟦{OMM_JSON}]", "nested too deep", "plain pairs"),
    "a value of values": ('"BSTAR": 0.28098e-4', '"BSTAR": ⟦[1]', "nested too deep", "plain pairs"),
    "a table in a table": (OMM_JSON, f'{{"a": ⟦{OMM_JSON[1:-2]}}}', "nested too deep", "plain"),
    "a key twice": ('"BSTAR"', '"EPOCH": ⟦"x",\n"BSTAR"', "EPOCH stands twice", "Take one"),
    "not a number": ("0.0001", "⟦true", "'true' is no number", "ECCENTRICITY"),
    "a text where a number stands": ('"10.0"', '⟦"ten"', "'ten' is no number", "ARG_OF"),
    "another frame": ('"EPOCH"', '"REF_FRAME": ⟦"ICRF", "EPOCH"', "the frame TEME", "for SGP4"),
    "another version": ('"EPOCH"', '"CCSDS_OMM_VERS": ⟦"1.0", "EPOCH"', "version '1.0'", "2.0"),
    "a value missing": (
        OMM_JSON,
        "⟦" + OMM_JSON.replace('"BSTAR"', '"B"'),
        "BSTAR is missing",
        "Add",
    ),
    "a value of null": (
        OMM_JSON,
        "⟦" + OMM_JSON.replace("0.28098e-4", "null"),
        "BSTAR is missing",
        "Add",
    ),
}

LINES: dict[str, Row] = {
    "a digit wrong": (LINE_1, LINE_1[:-1] + "⟦8", "the checksum '8' does not fit", "copy"),
    "no digit at the end": (LINE_2, LINE_2[:-1] + "⟦x", "the checksum 'x' does not fit", "copy"),
    "a line too short": (LINE_1, "⟦" + LINE_1[:-1], "has 69 characters", "This one has 68"),
    "a line too long": (LINE_2, "⟦" + LINE_2 + "0", "has 69 characters", "This one has 70"),
    "the second line first": (
        f"{LINE_1}\n{LINE_2}",
        f"⟦{LINE_2}\n{LINE_2}",
        "line 1 of two-line",
        "copy it whole",
    ),
    "one line alone": (TWO_LINES, "⟦" + LINE_1, "no mean elements", "have two lines"),
    "two sets": (TWO_LINES, f"{TWO_LINES}⟦{TWO_LINES}", "more than one set", "Keep one"),
    "a column that is not empty": (
        LINE_1,
        LINE_1[:17] + "⟦+" + LINE_1[18:],
        "column 18 of line 1 is always empty",
        "spaces",
    ),
    "letters in the epoch": (
        LINE_1,
        LINE_1.replace("134.50000579", "⟦134.5000057x")[:-1] + "0",
        "cannot be the epoch, day",
        "Like 134.5",
    ),
    "a letter that is never used": (
        LINE_1,
        LINE_1.replace("A0005", "⟦I0005"),
        "cannot be the catalogue number",
        "A0005",
    ),
    "two objects": (
        LINE_2,
        LINE_2.replace("A0005", "⟦A0006")[:-1] + "1",
        "line 2 is of 'A0006'",
        "one object",
    ),
    "elements that look alike": (
        LINE_1,
        LINE_1[:62] + "⟦4" + LINE_1[63:-1] + "3",
        "kind of elements (columns 63 to 63)",
        "Like 0",
    ),
    "a day of nought": (
        LINE_1,
        LINE_1.replace("134.5", "⟦000.5")[:-1] + "1",
        "there is no day 000",
        "366",
    ),
    "below the ground": (
        LINE_2,
        LINE_2.replace("15.5", "⟦25.5")[:-1] + "1",
        "out of range for the mean motion",
        "18",
    ),
    "over the pole": (
        LINE_2,
        LINE_2.replace(" 51.6", "⟦181.6")[:-1] + "4",
        "out of range for the incl",
        "180",
    ),
}


def read(text: str) -> object:
    return elements_of(text, "station.omm")


@pytest.mark.parametrize("name", KVN)
def test_a_broken_omm_in_keywords_is_told_in_its_place(name: str) -> None:
    old, new, what, hint = KVN[name]
    text = OMM.replace(old, new, 1)
    if "⟦" not in text:
        # What is missing is told at the last line.
        text = text.replace(_LAST, "⟦" + _LAST)
    if name == "an unknown key":
        text = text.replace("⟦", "").replace("MEAN_ANOMLY = ", "MEAN_ANOMLY = ⟦")
    check_told(read, text, what, hint)


@pytest.mark.parametrize("name", XML)
def test_a_broken_omm_in_xml_is_told_in_its_place(name: str) -> None:
    old, new, what, hint = XML[name]
    text = OMM_XML.replace(old, new, 1)
    if "⟦" not in text:
        where = "<omm" if name == "another version" else "<segment>"
        text = text.replace(where, "⟦" + where)
    check_told(read, text, what, hint)


@pytest.mark.parametrize("name", JSON)
def test_a_broken_omm_in_json_is_told_in_its_place(name: str) -> None:
    old, new, what, hint = JSON[name]
    check_told(read, OMM_JSON.replace(old, new, 1), what, hint)


@pytest.mark.parametrize("name", LINES)
def test_broken_two_line_elements_are_told_in_their_place(name: str) -> None:
    old, new, what, hint = LINES[name]
    check_told(read, TWO_LINES.replace(old, new, 1), what, hint)


@pytest.mark.parametrize("text", ["[" * 100_000, '{"a":' * 100_000, '{"a": ' + "9" * 6_000 + "}"])
def test_monstrous_json_gets_a_clear_error(text: str) -> None:
    with pytest.raises(PlanProblems):
        read(text)


def test_everything_wrong_with_a_line_is_told_at_once() -> None:
    text = TWO_LINES.replace("134.50000579", "134.500005x9").replace(" -.000", " x.000")
    with pytest.raises(PlanProblems) as caught:
        read(text)
    places = [(one.where.line, one.where.column) for one in caught.value.problems]
    assert places == [(2, 21), (2, 34), (2, 69)]
