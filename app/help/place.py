"""Which page of the help belongs to what has the keys."""

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QWidget

if TYPE_CHECKING:
    from app.help.window import HelpWindow

PAGES = {
    "CloseUp": "step",
    "SeamTable": "drift",
    "Inspector": "turn",
    "GarmentPicture": "lean",
    "SewingPage": "easing",
    "ClothPage": "even",
    "SwatchPage": "even",
    "CutList": "cautions",
}
"""By the kind of widget; the innermost that is named here counts."""
FIRST = "steps"


def topic_for(widget: QWidget | None) -> str:
    """The id of the topic for a widget, or what lies round it."""
    while widget is not None:
        if page := PAGES.get(type(widget).__name__):
            return page
        widget = widget.parentWidget()
    return FIRST


class HelpDesk:
    """Opens the help for a window, at the page for what has the keys there."""

    def __init__(self, window: QWidget) -> None:
        self._window = window
        self.page: HelpWindow | None = None

    def show(self) -> None:
        """Show the help."""
        from app.help.window import HelpWindow

        topic = topic_for(self._window.focusWidget())
        if self.page is None:
            self.page = HelpWindow(self._window)
        self.page.show_topic(topic)
        self.page.show()
        self.page.activateWindow()

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        if self.page:
            self.page.show_theme()

    def close(self) -> None:
        """The window closes."""
        if self.page:
            self.page.close()
