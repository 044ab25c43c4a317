"""The keys that may stand in a CCSDS OMM, and the keeping of them."""

from core.plan.orbitdata.telling import Telling, Word, nearest, quoted

VERSION = "CCSDS_OMM_VERS"
_SIDES = ("X", "Y", "Z", "X_DOT", "Y_DOT", "Z_DOT")
_COVARIANCE = frozenset(
    f"C{one}_{other}" for at, one in enumerate(_SIDES) for other in _SIDES[: at + 1]
)
_OF_THE_USER = "USER_DEFINED"

_NAMES = """
    CCSDS_OMM_VERS CLASSIFICATION CREATION_DATE ORIGINATOR MESSAGE_ID
    OBJECT_NAME OBJECT_ID CENTER_NAME REF_FRAME REF_FRAME_EPOCH TIME_SYSTEM MEAN_ELEMENT_THEORY
    EPOCH SEMI_MAJOR_AXIS MEAN_MOTION ECCENTRICITY INCLINATION RA_OF_ASC_NODE ARG_OF_PERICENTER
    MEAN_ANOMALY GM MASS SOLAR_RAD_AREA SOLAR_RAD_COEFF DRAG_AREA DRAG_COEFF
    EPHEMERIS_TYPE CLASSIFICATION_TYPE NORAD_CAT_ID ELEMENT_SET_NO REV_AT_EPOCH
    BSTAR BTERM MEAN_MOTION_DOT MEAN_MOTION_DDOT AGOM COV_REF_FRAME
"""
KEYS = frozenset(_NAMES.split())


def keep_key(telling: Telling, words: dict[str, Word], key: str, word: Word) -> None:
    """Put a key of an OMM into `words`, or tell that it cannot stand there."""
    if key in words:
        telling.problem(word.spot, f"{key} stands twice", "Keep one set of elements in the file")
    elif key in KEYS:
        words[key] = word
    elif key not in _COVARIANCE and not key.startswith(_OF_THE_USER):
        what = f"{quoted(key)} is no key of an OMM"
        telling.problem(word.spot, what, nearest(key, KEYS))
