"""How the builder's tables and fields look: the theme's colours as a style sheet."""

from PySide6.QtGui import QColor
from PySide6.QtWidgets import QLineEdit, QWidget

from app.fonts import FAMILY
from app.theme import Text, Theme


def dress(widget: QWidget, theme: Theme) -> None:
    """Give a window and all in it the theme's colours and font."""
    widget.setFont(theme.font(Text.SMALL))
    widget.setPalette(theme.qt_palette())
    widget.setStyleSheet(_sheet(theme))
    for line in widget.findChildren(QLineEdit):
        dress_offer(line, theme)


def dress_offer(line: QLineEdit, theme: Theme) -> None:
    """The same for the list that opens below a line: it is a window of its own."""
    popup = line.completer().popup() if line.completer() is not None else None
    if popup is not None:
        popup.setFont(theme.font(Text.SMALL))
        popup.setPalette(theme.qt_palette())
        popup.setStyleSheet(_sheet(theme))


def _sheet(theme: Theme) -> str:
    ink, pad = theme.ink, theme.px(5)
    size = f"font-family: '{FAMILY}'; font-size: {theme.font(Text.SMALL).pixelSize()}px;"
    return f"""
    QWidget {{ background: {_hex(ink.ground)}; color: {_hex(ink.text)}; {size} }}
    QTableView, QListView {{
        background: {_hex(ink.field)}; gridline-color: {_hex(ink.rule)};
        border: 1px solid {_hex(ink.rule)};
        selection-background-color: {_hex(ink.live)}; selection-color: {_hex(ink.text)};
        outline: none;
    }}
    QTableView:focus, QListView:focus {{ border: 1px solid {_hex(ink.outline)}; }}
    QHeaderView::section, QTableCornerButton::section {{
        background: {_hex(ink.panel)}; color: {_hex(ink.quiet)}; border: none;
        border-right: 1px solid {_hex(ink.rule)}; border-bottom: 1px solid {_hex(ink.rule)};
        padding: {pad}px;
    }}
    QLineEdit {{
        background: {_hex(ink.field)}; border: 1px solid {_hex(ink.thread)};
        padding: {pad - 3}px {pad}px; selection-background-color: {_hex(ink.quiet)};
        selection-color: {_hex(ink.ground)};
    }}
    QLineEdit:focus {{ border: 1px solid {_hex(ink.outline)}; }}
    QTableView::indicator {{
        width: {theme.px(11)}px; height: {theme.px(11)}px; margin-left: {theme.px(3)}px;
        border: 2px solid {_hex(ink.quiet)}; background: {_hex(ink.field)};
    }}
    QTableView::indicator:checked {{
        background: {_hex(ink.text)}; border: 2px solid {_hex(ink.text)};
    }}
    QTableView QLineEdit {{ padding: 0 {pad}px; }}
    QTabBar::tab {{
        background: {_hex(ink.ground)}; color: {_hex(ink.quiet)};
        padding: {pad}px {2 * pad}px; border: none;
        border-bottom: {theme.px(3)}px solid {_hex(ink.ground)};
    }}
    QTabBar::tab:selected {{
        color: {_hex(ink.text)}; border-bottom: {theme.px(3)}px solid {_hex(ink.outline)};
    }}
    QPushButton {{
        background: {_hex(ink.panel)}; border: 1px solid {_hex(ink.thread)};
        padding: {pad}px {3 * pad}px;
    }}
    QPushButton:focus {{ border: 2px solid {_hex(ink.outline)}; }}
    QComboBox {{ background: {_hex(ink.field)}; border: 1px solid {_hex(ink.thread)};
        padding: {pad - 2}px {pad}px; }}
    QComboBox:focus {{ border: 1px solid {_hex(ink.outline)}; }}
    QComboBox QAbstractItemView {{ background: {_hex(ink.field)}; }}
    QLabel#title {{ font-size: {theme.font(Text.TITLE).pixelSize()}px; }}
    QLabel#quiet {{ color: {_hex(ink.quiet)}; }}
    QLabel#told {{ color: {_hex(ink.change)}; }}
    QSplitter::handle {{ background: {_hex(ink.rule)}; }}
    QScrollBar {{ background: {_hex(ink.ground)}; }}
    """


def _hex(colour: QColor) -> str:
    return colour.name()
