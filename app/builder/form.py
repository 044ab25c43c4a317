"""The page that begins a new plan: five fields, and it is a good plan at once."""

from datetime import date, datetime

from PySide6.QtCore import Qt, QTimeZone, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QFormLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from app.builder.offer import Offer
from core.errors import TimeProblem
from core.plan.drafting.clocks import read_clock
from core.plan.drafting.fresh import Beginning
from core.times.zones import find_zone, zone_names

_WORDS = (
    "A plan is a list of what happens and when. Begin with the flight; then paste the mission's "
    "timeline, or type the events. All of it can be changed later."
)


class BeginPage(QWidget):
    """Asks for flight, zone, day, liftoff and lanes."""

    begun = Signal(object)
    """A Beginning."""
    opened = Signal()
    """A plan that is there already is wanted instead."""

    def __init__(self, today: date, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        zone = bytes(QTimeZone.systemTimeZoneId().data()).decode("ascii", "replace")
        self.title = QLineEdit()
        self.zone = QLineEdit(zone or "UTC")
        self.day = QLineEdit(f"{today.day} {today:%b %Y}")
        self.liftoff = QLineEdit("12:00")
        self.lanes = QLineEdit("voice")
        self.problem = QLabel("")
        self.problem.setObjectName("told")
        self.problem.setWordWrap(True)
        self._offer_zones()
        self._lay_out()

    def _offer_zones(self) -> None:
        self.zone.setCompleter(Offer(zone_names(), "", self.zone))

    def _lay_out(self) -> None:
        form = QFormLayout()
        for words, field, like in (
            ("Flight", self.title, "Petrel 4"),
            ("The desk's time zone", self.zone, "America/Halifax"),
            ("Day of liftoff", self.day, "11 May 2031"),
            ("Liftoff, on the desk's clock", self.liftoff, "13:28:32 or 1:28 pm"),
            ("Kinds of signal", self.lanes, "voice, picture"),
        ):
            field.setPlaceholderText(like)
            field.setAccessibleName(words)
            field.setMaximumWidth(460)
            form.addRow(words, field)
        title, about = QLabel("A new plan"), QLabel(_WORDS)
        title.setObjectName("title")
        about.setWordWrap(True)
        about.setMaximumWidth(640)
        begin, other = QPushButton("Begin (Enter)"), QPushButton("Open a plan (Ctrl+O)")
        begin.clicked.connect(self.begin)
        other.clicked.connect(self.opened)
        for button in (begin, other):
            button.setMaximumWidth(280)
        column = QVBoxLayout(self)
        column.setContentsMargins(60, 40, 60, 40)
        column.addWidget(title)
        column.addWidget(about)
        column.addSpacing(16)
        column.addLayout(form)
        column.addWidget(self.problem)
        column.addWidget(begin)
        column.addWidget(other)
        column.addStretch(1)

    def begin(self) -> None:
        """Hand over what is typed, or say what is wrong with it."""
        beginning, wrong, field = self._read()
        self.problem.setText(wrong)
        if beginning is not None:
            self.begun.emit(beginning)
        elif field is not None:
            field.setFocus()

    def _read(self) -> tuple[Beginning | None, str, QLineEdit | None]:
        title, zone = self.title.text().strip(), self.zone.text().strip()
        day: datetime | None = read_clock(f"{self.day.text().strip()} 12:00", None)
        clock = None if day is None else read_clock(self.liftoff.text(), day.date())
        if not title:
            return None, "◆ Which flight is it? Type its name, like Petrel 4", self.title
        try:
            find_zone(zone)
        except TimeProblem as problem:
            return None, f"◆ {problem}. Type the name of a place, and pick one", self.zone
        if day is None:
            return None, "◆ The day is typed like 11 May 2031", self.day
        if clock is None or clock.tzinfo is not None:
            return None, "◆ The time is typed like 13:28:32 or 1:28 pm", self.liftoff
        lanes = tuple(part.strip() for part in self.lanes.text().split(",") if part.strip())
        return Beginning(title, zone, clock.date(), clock.time(), lanes), "", None

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Begin by Enter, from whichever field."""
        if event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            self.begin()
        else:
            super().keyPressEvent(event)
