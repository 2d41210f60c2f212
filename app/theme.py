"""How the workbench looks: one table of colours by role, a spacing grid, one typeface in three sizes.

Quiet, warm and exact: the cloth is the only thing with a pattern. Widgets ask `current()` when they paint, so that
they follow a change between light and dark.
"""

from dataclasses import dataclass
from enum import Enum
from functools import lru_cache

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QFont, QPalette
from PySide6.QtWidgets import QApplication

from app.resources import resource

ROLES: dict[str, tuple[str, str]] = {
    # role: (light, dark)
    "window": ("#f3efe8", "#262320"),  # behind everything
    "surface": ("#fcfaf6", "#1e1c19"),  # tables, fields, pictures
    "raised": ("#fffefb", "#332f2b"),  # buttons, tool tips, what floats
    "desk": ("#e2dbcf", "#171513"),  # round the cloth
    "text": ("#2a2620", "#ede7dc"),
    "quiet": ("#625a4e", "#b5ab9b"),  # units, captions, what is second
    "disabled": ("#9a9184", "#756d62"),  # exempt from contrast, as what can't be used is
    "line": ("#d9d2c6", "#3f3a34"),  # hairlines that only divide
    "edge": ("#7d7466", "#8b8172"),  # outlines of what can be used
    "accent": ("#2e5e52", "#93c7b5"),  # what is chosen or has the focus
    "on_accent": ("#ffffff", "#14201c"),
    "selected": ("#dbe6de", "#313f39"),  # fill of a chosen row
    "good_band": ("#e3ecef", "#0f1417"),  # behind a graph, where a step is good
    "warning": ("#8a2f1d", "#f0a58f"),  # words about what is wrong
    # On the cloth, which keeps its own colours in light and dark:
    "halo": ("#fffdf8", "#fffdf8"),
    "ink": ("#1f1c17", "#1f1c17"),
    "flaw": ("#8e2f3c", "#8e2f3c"),
    "chosen": ("#1f5a4b", "#1f5a4b"),
}

GRID = 4
"""The spacing grid, px; everything is a whole number of these."""
TIGHT, SPACE, ROOMY, WIDE = GRID, 2 * GRID, 3 * GRID, 4 * GRID

TARGET = 24
"""Least height and width of anything to click, px."""


class Size(Enum):
    """The three sizes of the typeface, as shares of the desktop's own."""

    SMALL = 0.88
    NORMAL = 1.0
    LARGE = 1.3


@dataclass(frozen=True)
class Theme:
    """Light or dark."""

    dark: bool = False

    def colour(self, role: str, alpha: float = 1.0) -> QColor:
        """The colour of a role in `ROLES`, opaque unless `alpha` is below 1."""
        return QColor(_colour(ROLES[role][self.dark], alpha))

    def font(self, size: Size = Size.NORMAL, bold: bool = False) -> QFont:
        """The application's typeface in one of its sizes, with figures of equal width."""
        font = QFont(QApplication.font())
        font.setPointSizeF(font.pointSizeF() * size.value)
        font.setWeight(QFont.Weight.DemiBold if bold else QFont.Weight.Normal)
        return font

    def palette(self) -> QPalette:
        """The palette that Fusion draws with."""
        palette = QPalette()
        for role, name in _PALETTE.items():
            palette.setColor(role, self.colour(name))
        for role in (QPalette.ColorRole.WindowText, QPalette.ColorRole.Text, QPalette.ColorRole.ButtonText):
            palette.setColor(QPalette.ColorGroup.Disabled, role, self.colour("disabled"))
        palette.setColor(QPalette.ColorGroup.Disabled, QPalette.ColorRole.Highlight, self.colour("line"))
        return palette


@lru_cache(maxsize=256)
def _colour(name: str, alpha: float) -> QColor:
    colour = QColor(name)
    colour.setAlphaF(alpha)
    return colour


_PALETTE = {
    QPalette.ColorRole.Window: "window",
    QPalette.ColorRole.WindowText: "text",
    QPalette.ColorRole.Base: "surface",
    QPalette.ColorRole.AlternateBase: "window",
    QPalette.ColorRole.Text: "text",
    QPalette.ColorRole.PlaceholderText: "quiet",
    QPalette.ColorRole.Button: "raised",
    QPalette.ColorRole.ButtonText: "text",
    QPalette.ColorRole.BrightText: "warning",
    QPalette.ColorRole.ToolTipBase: "raised",
    QPalette.ColorRole.ToolTipText: "text",
    QPalette.ColorRole.Highlight: "accent",
    QPalette.ColorRole.HighlightedText: "on_accent",
    QPalette.ColorRole.Accent: "accent",
    QPalette.ColorRole.Link: "accent",
    QPalette.ColorRole.LinkVisited: "quiet",
    QPalette.ColorRole.Light: "raised",
    QPalette.ColorRole.Midlight: "line",
    QPalette.ColorRole.Mid: "line",
    QPalette.ColorRole.Dark: "edge",
    QPalette.ColorRole.Shadow: "edge",
}

_current = Theme()


def current() -> Theme:
    """The theme that was applied last; light before that."""
    return _current


def apply_theme(app: QApplication, dark: bool) -> Theme:
    """Dress the whole application in light or dark. Icons made before keep their tint: ask for them again."""
    global _current
    _current = Theme(dark)
    if not app.styleSheet():
        app.setStyle("Fusion")
        app.setFont(_with_even_figures(app.font()))
    app.styleHints().setColorScheme(Qt.ColorScheme.Dark if dark else Qt.ColorScheme.Light)
    app.setPalette(_current.palette())
    app.setStyleSheet(_style_sheet(_current))
    return _current


def _with_even_figures(font: QFont) -> QFont:
    font = QFont(font)
    font.setFeature(QFont.Tag("tnum"), 1)
    return font


def _style_sheet(theme: Theme) -> str:
    """What the palette can't say: outlines of fields and ticks that are seen in light and dark alike."""
    roles = ("edge", "raised", "text", "accent", "on_accent", "surface", "window", "line", "disabled")
    edge, raised, text, accent, on_accent, surface, window, line, disabled = (theme.colour(one).name() for one in roles)
    tick = resource("icons", "tick-dark.svg" if theme.dark else "tick.svg").as_posix()
    return f"""
        QToolTip {{ color: {text}; background: {raised}; border: 1px solid {edge}; padding: {GRID}px; }}
        QLineEdit, QAbstractSpinBox {{
            border: 1px solid {edge}; border-radius: 3px; padding: 0 {GRID}px; background: {surface};
        }}
        QLineEdit:focus, QAbstractSpinBox:focus {{ border: 2px solid {accent}; padding: 0 {GRID - 1}px; }}
        QLineEdit:disabled, QAbstractSpinBox:disabled {{ border-color: {line}; }}
        QMenuBar {{ background: {window}; border: none; border-bottom: 1px solid {line}; }}
        QMenuBar::item {{ padding: {GRID + 1}px {2 * GRID}px; background: transparent; }}
        QMenuBar::item:selected {{ background: {accent}; color: {on_accent}; }}
        QMenu::item {{ padding: {GRID}px {4 * GRID}px {GRID}px {3 * GRID}px; min-height: {4 * GRID}px; }}
        QMenu::item:selected {{ background: {accent}; color: {on_accent}; }}
        QMenu::item:disabled {{ color: {disabled}; background: transparent; }}
        QMenu::separator {{ height: 1px; background: {line}; margin: {GRID}px {2 * GRID}px; }}
        QMenu::icon {{ padding: 2px; margin-left: {GRID}px; }}
        QMenu::icon:checked {{ border: 1px solid {edge}; border-radius: 3px; background: {raised}; }}
        QMenu::indicator {{ margin-left: {2 * GRID}px; }}
        QDialogButtonBox {{ dialogbuttonbox-buttons-have-icons: 0; }}
        QAbstractSpinBox QLineEdit, QAbstractSpinBox QLineEdit:focus {{ border: none; padding: 0; }}
        QAbstractSpinBox::up-button, QAbstractSpinBox::down-button {{ width: 0; height: 0; border: none; }}
        QCheckBox::indicator, QListView::indicator {{
            width: {3 * GRID}px; height: {3 * GRID}px;
            border: 1px solid {edge}; border-radius: 3px; background: {surface};
        }}
        QCheckBox::indicator:focus {{ border: 2px solid {accent}; }}
        QCheckBox::indicator:checked, QListView::indicator:checked {{
            border-color: {accent}; background: {accent}; image: url("{tick}");
        }}
    """
