from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtWidgets import QWidget

from app.document import Document
from app.edits import Edits
from app.filing import Filing
from app.messages import MessageBar
from app.safekeeping.keeper import Keeper
from app.safekeeping.rescued_bar import RescuedBar
from app.start.recent import Recent
from core.files.project_file import read_project, write_project
from windows import empty_profile, whole_window


@pytest.fixture
def window(qtbot, tmp_path, monkeypatch) -> Iterator["Window"]:  # noqa: F821
    """A whole window on an empty profile; nothing of it may be left when the test is over."""
    with whole_window(qtbot, tmp_path, monkeypatch, 1200, 800) as window:
        yield window


@pytest.fixture
def own_copy(tmp_path, harbour_skirt) -> Path:
    path = tmp_path / "my skirt.stripewright"
    write_project(path, read_project(harbour_skirt))
    return path


class Desk(QWidget):
    """What keeps the work safe, without the rest of the window."""

    def __init__(self) -> None:
        super().__init__()
        self.document = Document(self)
        self.edits = Edits(self.document)
        self.messages = MessageBar(self)
        self.filing = Filing(self.document, Recent(self), self.messages, self)
        self.keeper = Keeper(self.document, self.filing.disk, self)
        self.rescued = RescuedBar(self.document, self.filing, self.keeper, self.messages, list, self)

    @property
    def unsaved(self) -> bool:
        return not self.document.undo.isClean()


@pytest.fixture
def desk(qtbot, tmp_path, monkeypatch) -> Iterator[Desk]:
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    empty_profile(tmp_path)
    desk = Desk()
    qtbot.addWidget(desk)
    yield desk
    desk.keeper.close()
    desk.rescued.let_go()


@pytest.fixture
def changed(desk, own_copy) -> Desk:
    """A project of its own file, changed by one step and not saved."""
    assert desk.filing.open_path(own_copy)
    desk.edits.spread_new()
    return desk
