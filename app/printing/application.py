"""A Qt application that draws without a screen, for commands that print."""

import os
import sys

from PySide6.QtCore import QCoreApplication
from PySide6.QtGui import QFontDatabase, QGuiApplication

from app.fonts import FAMILY, FILES, load_fonts
from app.resources import asset


def drawing_application() -> QCoreApplication:
    """The application there is, or one without a screen; with our font. To be held on to."""
    running = QCoreApplication.instance()
    if running is None:
        os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
        running = QGuiApplication(sys.argv[:1])
    if FAMILY not in QFontDatabase.families():
        load_fonts(asset(name) for name in FILES)
    return running
