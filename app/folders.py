"""Where the program keeps what is this user's, as the conventions of the system have it."""

from pathlib import Path

from platformdirs import user_config_path, user_data_path, user_documents_path, user_state_path

_NAME = "limbwatch"


def sessions_folder() -> Path:
    """Give the folder of the sessions. It need not be there."""
    return user_data_path(_NAME, appauthor=False) / "sessions"


def settings_file() -> Path:
    """Give the file of the settings. It need not be there."""
    return user_config_path(_NAME, appauthor=False) / "settings.toml"


def drafts_folder() -> Path:
    """Give the folder of drafts of plans that are not saved yet. It need not be there."""
    return user_state_path(_NAME, appauthor=False) / "drafts"


def papers_folder() -> Path:
    """Give the folder of what is printed from the window. It need not be there."""
    return user_documents_path() / "Limbwatch"
