import pytest

from core.errors import TimeProblem
from core.times.spoken import spoken_zone
from core.times.zones import zone_names


@pytest.mark.parametrize(
    ("zone", "spoken"),
    [
        ("America/Halifax", "Atlantic"),
        ("America/New_York", "Eastern"),
        ("America/Chicago", "Central"),
        ("America/Phoenix", "Mountain"),
        ("America/Los_Angeles", "Pacific"),
        ("Europe/Berlin", "Central European"),
        ("Asia/Tokyo", "Japan"),
        ("UTC", "UTC"),
        ("Etc/UTC", "UTC"),
    ],
)
def test_a_zone_has_the_name_it_has_on_the_air(zone: str, spoken: str) -> None:
    assert spoken_zone(zone) == spoken


@pytest.mark.parametrize(
    ("zone", "spoken"),
    [
        ("America/Havana", "Havana"),
        ("Asia/Manila", "Manila"),
        ("Europe/London", "London"),
        ("Europe/Dublin", "Dublin"),
        ("America/Argentina/Buenos_Aires", "Buenos Aires"),
    ],
)
def test_a_zone_without_one_is_called_by_its_city(zone: str, spoken: str) -> None:
    assert spoken_zone(zone) == spoken


def test_a_bare_offset_has_its_own_sign_not_that_of_its_iana_name() -> None:
    assert spoken_zone("Etc/GMT+3") == "UTC−3"
    assert spoken_zone("Etc/GMT-12") == "UTC+12"


def test_every_zone_known_here_can_be_spoken_of() -> None:
    assert all(spoken_zone(zone) for zone in zone_names())


def test_no_zone_is_no_name() -> None:
    with pytest.raises(TimeProblem):
        spoken_zone("America/Nowhere")
