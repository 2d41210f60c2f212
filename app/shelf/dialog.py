"""What is on the shelf: every cloth with its stripes, its shape, its measures, its note and its picture; to take, or
take off."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QIcon, QImageReader, QPixmap
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QMessageBox,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from app.pages.cloth_card import swatch_pixmap
from app.pages.cloth_picture import WholeCloth, whole_pixmap
from app.pages.cloth_words import cloth_in_words
from app.pages.form import Note
from app.pages.page import kept_unit
from app.theme import GRID, SPACE, TARGET, WIDE, Size, current
from app.words import tr
from core.errors import BadInput
from core.files.shelf import OnShelf, off_shelf, on_shelf
from core.model.cloth import Cloth

ICON = QSize(24 * GRID, 16 * GRID)
LARGE = QSize(76 * GRID, 34 * GRID)
WHOLE_HIGH = 44 * GRID


class ShelfDialog(QDialog):
    """`take(cloth, more)` gets the cloth chosen: as one more, or in the place of the one called `instead`."""

    def __init__(
        self,
        shelf: Path,
        take: Callable[[Cloth, bool], None],
        instead: str,
        may_add: bool = True,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(tr("Shelf of cloths"))
        self.setAccessibleName(tr("Shelf of cloths"))
        self._shelf, self._give = shelf, take
        self._found: tuple[OnShelf, ...] = ()
        self.list = QListWidget(accessibleName=tr("Cloths on the shelf"), wordWrap=True)
        self.list.setIconSize(ICON)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.empty, self.faults = Note(), Note()
        self.picture, self.name, self.words = QLabel(), QLabel(wordWrap=True), Note()
        self.whole = WholeCloth()
        words = tr("Take it in the place of {cloth}").format(cloth=instead)
        self.take = QPushButton(words, clicked=lambda: self._take(False))
        self.take_more = QPushButton(tr("Take it as one more cloth"), clicked=lambda: self._take(True))
        self._may_add = may_add
        self.away = QPushButton(tr("Take it off for good…"), clicked=self._ask_away)
        self.close_button = QPushButton(tr("Close"), clicked=self.reject)
        self._lay_out()
        self.list.currentRowChanged.connect(self._show_chosen)
        self.list.itemActivated.connect(lambda _: self._take(False))
        self._fill()

    def _lay_out(self) -> None:
        self.resize(200 * GRID, 152 * GRID)
        self.picture.setFixedSize(LARGE)
        self.whole.setFixedSize(LARGE.width(), WHOLE_HIGH)
        self.whole.show_theme()
        self.picture.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.name.setFont(current().font(Size.NORMAL, bold=True))
        detail = QVBoxLayout(spacing=SPACE)
        for part in (self.picture, self.whole, self.name, self.words):
            detail.addWidget(part)
        detail.addStretch(1)
        for button in (self.take, self.take_more, self.away):
            detail.addWidget(button)
        across = QHBoxLayout(spacing=WIDE)
        across.addWidget(self.list, 1)
        across.addWidget(self.empty, 1)
        across.addLayout(detail)
        foot = QHBoxLayout(spacing=SPACE)
        foot.addWidget(self.faults, 1)
        foot.addWidget(self.close_button)
        column = QVBoxLayout(self)
        column.setContentsMargins(WIDE, WIDE, WIDE, WIDE)
        column.setSpacing(WIDE)
        column.addLayout(across, 1)
        column.addLayout(foot)
        for button in (self.take, self.take_more, self.away, self.close_button):
            button.setMinimumHeight(TARGET + GRID)
            button.setAutoDefault(button is self.take)

    # --- showing

    def _fill(self) -> None:
        self._found, faults = on_shelf(self._shelf)
        self.list.clear()
        for one in self._found:
            self.list.addItem(self._item(one))
        self.faults.say("\n".join(faults), wrong=bool(faults))
        told = tr(
            "Nothing lies here yet. The shelf keeps cloths for other projects, each with its stripes, its flaws and "
            "its outline: put one there with Keep on the shelf… on the page of the cloth, or with Keep what is left "
            "in the Plan menu, once a lay has been cut."
        )
        self.empty.say(told)
        self.empty.setVisible(not self._found)
        self.list.setVisible(bool(self._found))
        self.list.setCurrentRow(0)
        self._show_chosen()

    def _item(self, one: OnShelf) -> QListWidgetItem:
        cloth = one.kept.cloth
        said = [cloth.title, cloth_in_words(cloth, kept_unit()), _day_and_note(one)]
        shape = whole_pixmap if cloth.remnant or cloth.flaws else swatch_pixmap
        pixmap = shape(cloth, ICON, self.devicePixelRatioF())
        return QListWidgetItem(QIcon(pixmap), "\n".join(said))

    @property
    def chosen(self) -> OnShelf | None:
        """The cloth that is looked at."""
        row = self.list.currentRow()
        return self._found[row] if 0 <= row < len(self._found) else None

    def _show_chosen(self) -> None:
        one = self.chosen
        for part in (self.picture, self.whole, self.name, self.words, self.take, self.away):
            part.setVisible(one is not None)
        self.take_more.setVisible(one is not None and self._may_add)
        if one is None:
            return
        self.picture.setPixmap(self._large(one))
        self.picture.setAccessibleName(tr("Picture of {cloth}").format(cloth=one.kept.cloth.title))
        self.whole.show_cloth(one.kept.cloth)
        self.name.setText(one.kept.cloth.title)
        self.words.say(f"{cloth_in_words(one.kept.cloth, kept_unit())}\n{_day_and_note(one)}")

    def _large(self, one: OnShelf) -> QPixmap:
        """The picture that was kept with the cloth, or its stripes."""
        photo = _photo(one.picture, LARGE * self.devicePixelRatioF()) if one.picture else QPixmap()
        if photo.isNull():
            return swatch_pixmap(one.kept.cloth, LARGE, self.devicePixelRatioF())
        photo.setDevicePixelRatio(self.devicePixelRatioF())
        return photo

    # --- doing

    def _take(self, more: bool) -> None:
        if one := self.chosen:
            self.accept()
            self._give(one.kept.cloth, more)

    def _ask_away(self) -> None:
        one = self.chosen
        if one is None:
            return
        question = tr("Take {cloth} off the shelf for good? What projects hold of it stays as it is.")
        kinds = QMessageBox.StandardButton
        title = one.kept.cloth.title
        answer = QMessageBox.question(
            self, tr("Take it off for good"), question.format(cloth=title), kinds.Yes | kinds.Cancel, kinds.Cancel
        )
        if answer == kinds.Yes:
            try:
                off_shelf(self._shelf, one.name)
            except BadInput as error:
                self.faults.say(str(error), wrong=True)
                return
            self._fill()


def _day_and_note(one: OnShelf) -> str:
    kept = tr("kept {day}").format(day=one.kept.kept)
    return f"{kept}: {one.kept.note}" if one.kept.note else kept


def _photo(path: Path, room: QSize) -> QPixmap:
    """A picture made as small as the room; null where it can't be read."""
    reader = QImageReader(str(path))
    reader.setAutoTransform(True)
    if reader.size().isValid():
        reader.setScaledSize(reader.size().scaled(room, Qt.AspectRatioMode.KeepAspectRatio))
    return QPixmap.fromImage(reader.read())
