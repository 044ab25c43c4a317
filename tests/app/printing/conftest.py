"""Printing needs an application, and our font."""

import pytest
from PySide6.QtWidgets import QApplication

from app.printing.application import drawing_application


@pytest.fixture(autouse=True)
def _font(qapp: QApplication) -> None:
    assert drawing_application() is qapp
