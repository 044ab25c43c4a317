"""Paths one after another, seen as one."""

from core.signal.seen import Hidden, Seen, Sighting
from core.signal.sky.stitching import before, stitched

MOON = "behind the Moon"


def test_a_contact_that_only_a_seam_cuts_is_whole_again() -> None:
    first = Seen((Sighting("tarn", 0, 5000, MOON, "", 3, 0),), ())
    second = Seen((Sighting("tarn", 5001, 9000, "", MOON, 0, 7),), ())
    assert stitched([first, second]).sightings == (Sighting("tarn", 0, 9000, MOON, MOON, 3, 7),)


def test_what_has_a_cause_stays_apart() -> None:
    first = Seen((Sighting("tarn", 0, 5000, MOON, MOON),), ())
    second = Seen((Sighting("tarn", 5001, 9000, MOON, MOON),), ())
    assert len(stitched([first, second]).sightings) == 2


def test_stations_are_not_taken_for_each_other() -> None:
    first = Seen((Sighting("tarn", 0, 5000),), ())
    second = Seen((Sighting("kestrel", 5000, 9000),), ())
    assert [each.ground for each in stitched([first, second]).sightings] == ["tarn", "kestrel"]


def test_what_goes_on_at_a_cut_ends_there_without_a_cause() -> None:
    seen = Seen(
        (Sighting("tarn", 0, 5000, MOON, MOON, 3, 7), Sighting("kestrel", 6000, 7000)),
        (Hidden("tarn", 5000, 9000, MOON), Hidden("moor", 2000, 3000, MOON)),
    )
    assert before(seen, 4000).sightings == (Sighting("tarn", 0, 4000, MOON, "", 3, 0),)
    assert before(seen, 6000).hidden == (
        Hidden("tarn", 5000, 6000, MOON),
        Hidden("moor", 2000, 3000, MOON),
    )
