"""Starts the workbench: application, theme, window, and the border that no exception passes unseen."""

import sys
from typing import TYPE_CHECKING

from PySide6.QtCore import QSettings, Qt
from PySide6.QtWidgets import QApplication

from app.icons import icon
from app.safekeeping.border import Ending, end_tracing, guard, guard_session, trace_crashes
from app.safekeeping.folders import state_folder
from app.theme import apply_theme
from app.window import Window
from app.words import speak, wanted

if TYPE_CHECKING:
    from app.safekeeping.stamp import FileRead


def run(read: "FileRead | None" = None) -> int:
    """Open the workbench, with a project if one was read; returns the exit code when it is closed."""
    app = application()
    trace = trace_crashes(state_folder())
    window = Window(awaits=read is not None)
    window.setWindowIcon(icon("app"))
    guard(window)
    guard_session(app, window)
    ending = Ending(window)
    window.show()
    if read is not None:
        window.idle.add(window.opening(read), pause_ms=0)
    window.idle.add(window.rest())
    code = app.exec()
    ending.close()
    end_tracing(trace)
    return code


def application() -> QApplication:
    """The application, dressed as it was left or as the desktop is."""
    app = QApplication.instance() or QApplication(sys.argv[:1])
    app.setApplicationName("Stripewright")
    app.setOrganizationName("Stripewright")
    app.setDesktopFileName("stripewright")
    speak(app, wanted())
    desktop_dark = app.styleHints().colorScheme() == Qt.ColorScheme.Dark
    apply_theme(app, QSettings().value("dark", desktop_dark, type=bool))
    return app
