"""Starts the workbench: application, theme, window, and the border that no exception passes unseen."""

import logging
import sys
from pathlib import Path
from types import TracebackType

from PySide6.QtCore import QSettings, Qt
from PySide6.QtWidgets import QApplication

from app.icons import icon
from app.jobs import one_line
from app.theme import apply_theme
from app.window import Window

_log = logging.getLogger(__name__)


def run(path: Path | str | None = None) -> int:
    """Open the workbench, with a project if a path is given; returns the exit code when it is closed."""
    app = application()
    window = Window()
    window.setWindowIcon(icon("app"))
    guard(window)
    window.show()
    if path is not None:
        window.filing.open_path(Path(path))
    return app.exec()


def application() -> QApplication:
    """The application, dressed as it was left or as the desktop is."""
    app = QApplication.instance() or QApplication(sys.argv[:1])
    app.setApplicationName("Stripewright")
    app.setOrganizationName("Stripewright")
    app.setDesktopFileName("stripewright")
    desktop_dark = app.styleHints().colorScheme() == Qt.ColorScheme.Dark
    apply_theme(app, QSettings().value("dark", desktop_dark, type=bool))
    return app


def guard(window: Window) -> None:
    """The window border: show an unexpected exception as one line and carry on; the project stays as it is."""

    def show(kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
        if issubclass(kind, KeyboardInterrupt):
            window.close()
            return
        _log.debug("unexpected", exc_info=(kind, error, trace))
        window.document.cancel_trial()
        window.messages.warn(
            f"Something went wrong inside the program ({kind.__name__}: {one_line(error)}). Your work is still here.",
            "Save",
            window.filing.save,
        )

    sys.excepthook = show
