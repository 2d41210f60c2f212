"""The bar over the close-up: the seam as it is, with easing, or with its line shifted, and what that comes to."""

from PySide6.QtCore import QSize, Signal
from PySide6.QtGui import QFontMetrics, QPalette
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QLabel, QPushButton, QToolButton, QVBoxLayout, QWidget

from app.theme import SPACE, TARGET, TIGHT, WIDE, Size, current
from app.words import tr

AS_IT_IS, EASED, SHIFTED = range(3)


class RemedyBar(QWidget):
    """Three buttons of which one is down, words under them, and a button that applies what is shown."""

    chosen = Signal(int)
    turned = Signal(bool)
    """The bars are to be seen, or the stripes again."""
    apply = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(tr("What would close the seam"))
        self._group = QButtonGroup(self)
        self._said: tuple[object, ...] = ()
        for index, (text, tip) in enumerate(_choices()):
            self._group.addButton(_choice(text, tip), index)
        self._group.button(AS_IT_IS).setChecked(True)
        about = tr("Show how the bars across the cloth meet at this seam, instead of the stripes")
        self.bars = _choice(tr("Bars"), about)
        self.bars.toggled.connect(self._turn)
        self.apply_button = QPushButton(tr("Apply to the pattern"), clicked=lambda: self.apply.emit())
        self.apply_button.setMinimumHeight(TARGET)
        self.apply_button.setToolTip(tr("Move this seam's line in the pattern, in its mirrored seam alike"))
        self.words = QLabel(wordWrap=True)
        self._lay_out()
        self._group.idClicked.connect(self._choose)
        self.say("")

    def _lay_out(self) -> None:
        row = QHBoxLayout(spacing=TIGHT)
        for button in self._group.buttons():
            row.addWidget(button)
        row.addStretch(1)
        row.addWidget(self.bars)
        outcome = QHBoxLayout(spacing=SPACE)
        outcome.addWidget(self.words, 1)
        outcome.addWidget(self.apply_button)
        column = QVBoxLayout(self)
        column.setContentsMargins(WIDE - TIGHT, SPACE, WIDE - TIGHT, 0)
        column.setSpacing(TIGHT)
        column.addLayout(row)
        column.addLayout(outcome)

    @property
    def choice(self) -> int:
        """Which button is down."""
        return self._group.checkedId()

    def offer_bars(self, there: bool) -> None:
        """Let bars be looked at as well as stripes, or not."""
        self.bars.setVisible(there)

    def _choose(self, choice: int) -> None:
        if choice != AS_IT_IS:
            self.bars.setChecked(False)
        self.chosen.emit(choice)

    def _turn(self, bars: bool) -> None:
        if bars:
            self.choose(AS_IT_IS)
        self.turned.emit(bars)

    def choose(self, choice: int) -> None:
        """Press a button for the user."""
        self._group.button(choice).setChecked(True)

    def dress_again(self) -> None:
        """Forget how the bar was dressed: the next words dress it anew, as once it has got its place in a window."""
        self._said = ()

    def say(self, words: str, can_apply: bool = False) -> None:
        """Say what the choice comes to."""
        said = words, can_apply, self.choice, self.bars.isChecked(), current()
        if said == self._said:
            return
        self._said = said
        for button in (*self._group.buttons(), self.bars):
            button.setFont(current().font(bold=button.isChecked()))
            palette = current().palette()
            if button.isChecked():
                palette.setColor(QPalette.ColorRole.Button, current().colour("selected"))
            button.setPalette(palette)
        self.words.setFont(current().font(Size.SMALL))
        self.words.setText(words)
        self.words.setAccessibleName(words)
        self.words.setVisible(bool(words))
        self.apply_button.setVisible(self.choice == SHIFTED)
        self.apply_button.setEnabled(can_apply)


def _choice(text: str, tip: str) -> QToolButton:
    """A button with room for its words in bold, which they are in while it is down."""
    button = QToolButton(text=text, toolTip=tip, checkable=True)
    button.setAccessibleName(text)
    bolder = QFontMetrics(current().font(bold=True)).horizontalAdvance(text)
    bolder -= QFontMetrics(current().font()).horizontalAdvance(text)
    button.setMinimumSize(button.sizeHint().expandedTo(QSize(0, TARGET)) + QSize(bolder, 0))
    return button


def _choices() -> tuple[tuple[str, str], ...]:
    return (
        (tr("As it is"), tr("The seam as the panels lie")),
        (tr("With easing"), tr("The seam with one edge eased onto the other as far as the cloth takes it")),
        (tr("With the line shifted"), tr("The seam with its stitching line moved, the panels where they lie")),
    )
