"""Opening and saving: dialogs, and the question before work would be lost."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QFileDialog, QMessageBox, QWidget

from app.document import Document
from app.messages import MessageBar
from app.safekeeping.stamp import DiskCopy, FileRead, read_stamped, stamp_of
from app.start.recent import Recent
from app.window_state import last_folder
from app.words import later, tr
from core.errors import StripewrightError
from core.files.suffixes import SUFFIX

DRAWINGS = later("Drawn patterns (*.svg *.dxf *.pdf);;All files (*)")


class Filing(QObject):
    """Moves projects between files and the document. What goes wrong is one line in the message bar."""

    def __init__(self, document: Document, recent: Recent, messages: MessageBar, window: QWidget) -> None:
        super().__init__(window)
        self._document, self._recent, self._messages, self._window = document, recent, messages, window
        self.disk = DiskCopy()
        self.may_leave_page: Callable[[], bool] = lambda: True
        """Asks what becomes of a page half filled in; whether it may be left."""

    # --- opening

    def ask_open(self) -> None:
        """Ask for a project and open it."""
        path, _ = QFileDialog.getOpenFileName(self._window, tr("Open a project"), str(self.folder()), _filter())
        if path:
            self.open_path(Path(path))

    def open_path(self, path: Path) -> bool:
        """Open a project file; returns whether it is open now."""
        return self._open(path, path)

    def open_sample(self, path: Path) -> bool:
        """Open a sample as a copy, which has no file until it is saved."""
        return self._open(path, None)

    def _open(self, source: Path, path: Path | None) -> bool:
        try:
            read = read_stamped(source)
        except StripewrightError as error:
            self._messages.warn(tr("This can't be opened: {error}").format(error=error))
            self._recent.changed.emit()  # it may be one of those, and gone
            return False
        taken = self.take(read, path)
        if taken and path:
            self._recent.remember(path)
        return taken

    def take(self, read: FileRead, path: Path | None) -> bool:
        """Open what was read, as the project of a file or as one that has none yet; returns whether it is open now."""
        if not self.may_leave():
            return False
        self._messages.hide()
        self._document.open(read.project, path)
        self.disk.note(path, read.stamp)
        return True

    # --- saving

    def save(self) -> bool:
        """Save to the project's file, or ask for one; returns whether it is saved. Asks before it saves over a file
        that something else has changed meanwhile."""
        path = self._document.path
        if path is None:
            return self.save_as()
        if self.disk.path == path and self.disk.changed() and not self._may_save_over(path):
            text = tr("Not saved: {file} on disk is another one.").format(file=path.name)
            self._messages.warn(text, tr("Save as…"), self.save_as)
            return False
        return self._write(path)

    def _may_save_over(self, path: Path) -> bool:
        text = tr("{file} was changed by something else since it was read. Save over it?")
        return self._is_to_save(text.format(file=path.name))

    def _is_to_save(self, question: str) -> bool:
        buttons = QMessageBox.StandardButton
        ask = buttons.Save | buttons.Cancel
        return QMessageBox.question(self._window, "Stripewright", question, ask, buttons.Cancel) == buttons.Save

    def save_as(self) -> bool:
        """Ask for a file and save to it; returns whether it is saved. A name without an ending may stand for a file
        that is there already, which the dialog couldn't know."""
        start = self._document.path or self.folder() / (self._document.title.replace("/", "-") + SUFFIX)
        named, _ = QFileDialog.getSaveFileName(self._window, tr("Save the project"), str(start), _filter())
        return bool(named) and self._save_to(Path(named))

    def _save_to(self, named: Path) -> bool:
        path = _with_ending(named)
        if path != named and path.exists() and not self._may_replace(path):
            return False
        return self._write(path)

    def _may_replace(self, path: Path) -> bool:
        return self._is_to_save(tr("{file} is there already. Save over it?").format(file=path.name))

    def _write(self, path: Path) -> bool:
        try:
            self._document.save(path)
        except StripewrightError as error:
            text = tr("This could not be saved: {error}").format(error=error)
            self._messages.warn(text, tr("Save elsewhere…"), self.save_as)
            return False
        if self._messages.wrong:
            self._messages.hide()
        self.disk.note(path, stamp_of(path))
        self._recent.remember(path)
        return True

    # --- the file on disk

    def look_at_disk(self) -> None:
        """Say once if something else has changed the project's file; it is read again only if that is asked for."""
        if self.disk.path is not None and self.disk.path == self._document.path and self.disk.news():
            text = tr("{file} was changed by something else. What is open here stays as it is.")
            self._messages.warn(text.format(file=self.disk.path.name), tr("Read it again"), self.read_again)

    def read_again(self) -> bool:
        """Take the project's file as it is now, as one undo step; returns whether it could be read."""
        path = self._document.path
        if path is None:
            return False
        try:
            read = read_stamped(path)
        except StripewrightError as error:
            self._messages.warn(tr("This can't be read again: {error}").format(error=error))
            return False
        self._document.change(tr("Read {file} again").format(file=path.name), read.project)
        self._document.undo.setClean()
        self.disk.note(path, read.stamp)
        return True

    def may_leave(self) -> bool:
        """Ask what becomes of a page half filled in, and of unsaved changes; returns whether both may be left."""
        return self.may_leave_page() and self.may_leave_project()

    def may_leave_project(self) -> bool:
        """Ask what becomes of unsaved changes; returns whether the project may be left."""
        if self._document.undo.isClean():
            return True
        buttons = QMessageBox.StandardButton
        answer = QMessageBox.question(
            self._window,
            "Stripewright",
            tr("Save the changes to {title}?").format(title=self._document.title),
            buttons.Save | buttons.Discard | buttons.Cancel,
            buttons.Save,
        )
        return self.save() if answer == buttons.Save else answer == buttons.Discard

    def folder(self) -> Path:
        """Where to look for files first: where the last one was."""
        return last_folder()


def _with_ending(path: Path) -> Path:
    """The path of a project file that was named with or without its ending."""
    return path if path.suffix.lower() == SUFFIX else path.with_name(path.name + SUFFIX)


def _filter() -> str:
    return f"{tr('Stripewright projects')} (*{SUFFIX})"
