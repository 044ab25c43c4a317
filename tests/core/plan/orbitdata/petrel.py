"""Small good files of the scenario's craft, and the check that a broken one is told in its place.

The states and elements are invented.
"""

from collections.abc import Callable

import pytest

from core.errors import PlanProblems

OEM = """CCSDS_OEM_VERS = 2.0
COMMENT Petrel 4, towards the Moon
COMMENT
CREATION_DATE = 2031-05-13T09:00:00
ORIGINATOR = TARN HILL

META_START
OBJECT_NAME = PETREL 4
OBJECT_ID = 2031-031A
CENTER_NAME = EARTH
REF_FRAME = EME2000
TIME_SYSTEM = UTC
START_TIME = 2031-05-14T17:00:00.000
STOP_TIME = 2031-05-14T17:04:00.000
META_STOP
 \t
2031-05-14T17:00:00.000 380000.5 -12000.25 8000.0 -0.5 0.75 -0.25
2031-05-14T17:01:00.000 379970.5 -11955.25 7985.0 -0.5 0.75 -0.25
2031-05-14T17:02:00.000 379940.5 -11910.25 7970.0 -0.5 0.75 -0.25
COMMENT halfway
2031-05-14T17:03:00.000 379910.5 -11865.25 7955.0 -0.5 0.75 -0.25
2031-05-14T17:04:00.000 379880.5 -11820.25 7940.0 -0.5 0.75 -0.25
"""

SECOND = """
META_START
OBJECT_NAME = PETREL 4
OBJECT_ID = 2031-031A
CENTER_NAME = MOON
REF_FRAME = ICRF
TIME_SYSTEM = TDB
START_TIME = 2031-134T17:05:09.184
STOP_TIME = 2031-134T17:07:09.184
INTERPOLATION = LAGRANGE
INTERPOLATION_DEGREE = 7
META_STOP
2031-134T17:05:09.184 6235.5 -752.4 -273.8 -1.487 -0.522 -0.190 1E-5 2e-5 -3.0e-05
2031-134T17:07:09.184 6057.1 -815.0 -296.6 -1.487 -0.522 -0.190 1E-5 2e-5 -3.0e-05
"""

COVARIANCE = """COVARIANCE_START
EPOCH = 2031-05-14T17:00:00.000
COV_REF_FRAME = RTN
1.0
0.1 2.0
0.1 0.2 3.0
COMMENT the velocities
0.1 0.2 0.3 4.0E-6
0.1 0.2 0.3 0.4 5.0E-6
0.1 0.2 0.3 0.4 0.5 6.0E-6
COVARIANCE_STOP
"""

OEM_XML = """<?xml version="1.0" encoding="UTF-8"?>
<oem id="CCSDS_OEM_VERS" version="3.0">
 <header>
  <COMMENT>Petrel 4, towards the Moon</COMMENT>
  <CREATION_DATE>2031-05-13T09:00:00</CREATION_DATE>
  <ORIGINATOR>TARN HILL</ORIGINATOR>
 </header>
 <body>
  <segment>
   <metadata>
    <OBJECT_NAME>PETREL 4</OBJECT_NAME>
    <OBJECT_ID>2031-031A</OBJECT_ID>
    <CENTER_NAME>EARTH</CENTER_NAME>
    <REF_FRAME>GCRF</REF_FRAME>
    <TIME_SYSTEM>UTC</TIME_SYSTEM>
    <START_TIME>2031-05-14T17:00:00.000</START_TIME>
    <STOP_TIME>2031-05-14T17:01:00.000</STOP_TIME>
   </metadata>
   <data>
    <COMMENT/>
    <stateVector>
     <EPOCH>2031-05-14T17:00:00.000</EPOCH>
     <X units="km">380000.5</X><Y units="km">-12000.25</Y><Z units="km">8000.0</Z>
     <X_DOT units="km/s">-0.5</X_DOT><Y_DOT units="km/s">0.75</Y_DOT><Z_DOT>-0.25</Z_DOT>
    </stateVector>
    <stateVector>
     <EPOCH>2031-05-14T17:01:00.000</EPOCH>
     <X>379970.5</X><Y>-11955.25</Y><Z>7985.0</Z>
     <X_DOT>-0.5</X_DOT><Y_DOT>0.75</Y_DOT><Z_DOT>-0.25</Z_DOT>
     <X_DDOT>0</X_DDOT><Y_DDOT>0</Y_DDOT><Z_DDOT>0</Z_DDOT>
    </stateVector>
    <covarianceMatrix>
     <EPOCH>2031-05-14T17:00:00.000</EPOCH>
     <CX_X>1.0</CX_X>
    </covarianceMatrix>
   </data>
  </segment>
 </body>
</oem>
"""

OMM = """CCSDS_OMM_VERS = 2.0
COMMENT the station that Petrel 4 left
CREATION_DATE = 2031-05-13T09:00:00
ORIGINATOR = TARN HILL
OBJECT_NAME = HARBOUR STATION
OBJECT_ID = 2029-014A
CENTER_NAME = EARTH
REF_FRAME = TEME
TIME_SYSTEM = UTC
MEAN_ELEMENT_THEORY = SGP/SGP4
EPOCH = 2031-05-14T12:00:00.500
MEAN_MOTION = 15.5 [rev/day]
ECCENTRICITY = 0.0001
INCLINATION = 51.6 [deg]
RA_OF_ASC_NODE = 100.0
ARG_OF_PERICENTER = 10.0
MEAN_ANOMALY = 350.0
EPHEMERIS_TYPE = 0
CLASSIFICATION_TYPE = U
NORAD_CAT_ID = 312345
ELEMENT_SET_NO = 12
REV_AT_EPOCH = 99
BSTAR = 0.28098E-4
MEAN_MOTION_DOT = -0.00000084
MEAN_MOTION_DDOT = 1E-9
USER_DEFINED_DESK = yes
"""

_PAIRS = dict(line.split(" = ") for line in OMM.splitlines() if " = " in line)


def _elements(*keys: str) -> str:
    return "".join(f"<{key}>{_PAIRS[key].split(' ')[0]}</{key}>\n" for key in keys)


OMM_XML = f"""<?xml version="1.0" encoding="UTF-8"?>
<ndm><omm id="CCSDS_OMM_VERS" version="2.0">
<header><CREATION_DATE>2031-05-13T09:00:00</CREATION_DATE>
<ORIGINATOR>TARN HILL</ORIGINATOR></header>
<body><segment>
<metadata>
<OBJECT_NAME>HARBOUR STATION</OBJECT_NAME>
{_elements("OBJECT_ID", "CENTER_NAME", "REF_FRAME", "TIME_SYSTEM", "MEAN_ELEMENT_THEORY")}\
</metadata>
<data>
<meanElements>
{_elements("EPOCH")}<MEAN_MOTION units="rev/day">15.5</MEAN_MOTION>
{_elements("ECCENTRICITY", "INCLINATION", "RA_OF_ASC_NODE", "ARG_OF_PERICENTER", "MEAN_ANOMALY")}\
</meanElements>
<tleParameters>
{_elements("EPHEMERIS_TYPE", "CLASSIFICATION_TYPE", "NORAD_CAT_ID", "ELEMENT_SET_NO")}\
{_elements("REV_AT_EPOCH", "BSTAR", "MEAN_MOTION_DOT", "MEAN_MOTION_DDOT")}\
</tleParameters>
</data>
</segment></body></omm></ndm>
"""

OMM_JSON = """[{
  "OBJECT_NAME": "HARBOUR STATION",
  "OBJECT_ID": "2029-014A",
  "EPOCH": "2031-05-14T12:00:00.500000",
  "MEAN_MOTION": 15.5,
  "ECCENTRICITY": 0.0001,
  "INCLINATION": 51.6,
  "RA_OF_ASC_NODE": 100,
  "ARG_OF_PERICENTER": "10.0",
  "MEAN_ANOMALY": 350,
  "EPHEMERIS_TYPE": 0,
  "CLASSIFICATION_TYPE": "U",
  "NORAD_CAT_ID": 312345,
  "ELEMENT_SET_NO": 12,
  "REV_AT_EPOCH": 99,
  "BSTAR": 0.28098e-4,
  "MEAN_MOTION_DOT": -8.4e-7,
  "MEAN_MOTION_DDOT": 1e-9,
  "DECAY_DATE": null
}]
"""

LINE_1 = "1 A0005U 29014A   31134.50000579 -.00000084  00000-0  28098-4 0   129"
LINE_2 = "2 A0005  51.6000 100.0000 0001000  10.0000 350.0000 15.50000000    90"
TWO_LINES = f"HARBOUR STATION\n{LINE_1}\n{LINE_2}\n"

MARK = "⟦"


def check_told(read: Callable[[str], object], marked: str, what: str, hint: str) -> None:
    """Check that a text is told one problem, where the mark stands; none: in the file as such."""
    with pytest.raises(PlanProblems) as caught:
        read(marked.replace(MARK, ""))
    told = [str(problem) for problem in caught.value.problems]
    assert len(told) == 1, told
    (problem,) = caught.value.problems
    assert what in problem.what, told
    assert hint in problem.hint, told
    assert problem.hint, told
    assert len(told[0]) < 300
    assert (problem.where.line, problem.where.column) == place_of_mark(marked), told


def place_of_mark(marked: str) -> tuple[int, int]:
    """The line and the column of the mark in a text."""
    at = marked.index(MARK)
    return marked.count("\n", 0, at) + 1, at - marked.rfind("\n", 0, at)
