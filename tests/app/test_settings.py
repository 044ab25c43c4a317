"""What was chosen for good: kept, read again, and set aside where it cannot be taken."""

from pathlib import Path

import pytest

from app.settings import Settings, SettingsFile
from core.times.writing import Hours


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "config" / "settings.toml"


def written(path: Path, text: str | bytes) -> SettingsFile:
    path.parent.mkdir()
    path.write_bytes(text.encode() if isinstance(text, str) else text)
    return SettingsFile(path)


def test_without_a_file_all_is_as_usual_and_nothing_is_written(path: Path) -> None:
    file = SettingsFile(path)
    assert file.settings == Settings(Hours.TWELVE, dark=True, screen="")
    assert file.said == ""
    file.choose_theme(dark=True)
    assert not path.parent.exists()


def test_what_is_chosen_is_there_at_the_next_start(path: Path) -> None:
    file = SettingsFile(path)
    file.choose_theme(dark=False)
    file.choose_screen('HDMI-1 "left"\\')
    again = SettingsFile(path)
    assert again.settings == Settings(Hours.TWELVE, dark=False, screen='HDMI-1 "left"\\')
    assert [each.name for each in path.parent.iterdir()] == ["settings.toml"]


def test_a_file_of_a_persons_own_needs_only_what_is_to_be_otherwise(path: Path) -> None:
    file = written(path, "hours = 24\n")
    assert file.settings == Settings(Hours.TWENTY_FOUR)
    file.choose_theme(dark=False)
    assert SettingsFile(path).settings == Settings(Hours.TWENTY_FOUR, dark=False)


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("hours = ", "it is no TOML"),
        (b"\xff\xfe\x00", "it is no TOML"),
        ("hours = 13\n", "hours is none of 12, 24"),
        ("hours = true\n", "hours is none of 12, 24"),
        ('theme = "blue"\n', "theme is none of dark, light"),
        ("theme = []\n", "theme is none of dark, light"),
        ("screen = 1\n", "screen is no text"),
        ("volume = 1\n", "'volume' is no setting"),
    ],
)
def test_a_file_that_cannot_be_taken_is_set_aside_and_told(
    path: Path, text: str | bytes, why: str
) -> None:
    file = written(path, text)
    assert file.settings == Settings()
    assert file.said == (
        f"The settings cannot be taken, {why}: all is as usual, "
        "the old file is settings.broken-1.toml"
    )
    assert path.with_name("settings.broken-1.toml").exists()
    assert SettingsFile(path).said == ""


def test_a_second_broken_file_does_not_take_the_place_of_the_first(path: Path) -> None:
    written(path, "hours = 1\n")
    path.write_text("hours = 2\n", encoding="utf-8")
    assert SettingsFile(path).said.endswith("settings.broken-2.toml")
    assert path.with_name("settings.broken-1.toml").read_text(encoding="utf-8") == "hours = 1\n"


def test_a_folder_that_cannot_be_written_to_keeps_the_choice_for_now(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    file = SettingsFile(tmp_path / "file" / "settings.toml")
    file.choose_theme(dark=False)
    assert not file.settings.dark
