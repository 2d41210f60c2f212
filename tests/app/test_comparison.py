"""What does it cost in cloth? asked in the workbench."""

import pytest

from app.comparison import Comparison
from cloths import project_of, rectangle
from core.model.project import Placement


@pytest.fixture
def squares(window):
    """Two panels that their stripes keep from lying abreast unless one is turned end for end."""
    pieces = [rectangle("a", 90, 100), rectangle("b", 90, 100)]
    project = project_of(pieces, 209.95, 60.0, one_way=True, price_per_m=20)
    window.document.open(project.placed({"a": Placement(), "b": Placement(v=100)}))
    return window


def rows_of(dialog: Comparison) -> list[list[str]]:
    table = dialog.table
    return [[table.item(row, column).text() for column in range(5)] for row in range(table.rowCount())]


def test_each_choice_is_laid_and_told_against_the_lay_as_it_is(squares, qtbot):
    kept = squares.document.kept
    with qtbot.waitSignal(squares.jobs.ended, timeout=60_000):
        squares.actions_by_id["compare"].trigger()
    (dialog,) = squares.findChildren(Comparison)
    qtbot.waitUntil(lambda: dialog.table.rowCount() == 3, timeout=60_000)
    assert rows_of(dialog) == [
        ["As it is", "200", "0", "200", "4.00"],
        ["Panels end for end, if the cloth allows it", "100", "−100", "100", "2.00"],
        ["Stripes not matched", "100", "−100", "100", "2.00"],
    ]
    assert squares.document.kept is kept
    assert not squares.document.trying
    dialog.close()


def test_closing_it_drops_the_work(squares, qtbot):
    squares.actions_by_id["compare"].trigger()
    (dialog,) = squares.findChildren(Comparison)
    assert squares.jobs.busy
    dialog.close()
    assert not squares.jobs.busy
