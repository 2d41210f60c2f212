"""The lists: pieces to cut with boxes to tick, notions, and what to buy; on pages and as a table."""

import csv
import io
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from core.derive.count import ClothNeed, CutPiece, CuttingList
from core.papers.drawing import Anchor, Box, Drawing, Line, Primitive, Text, segment
from core.papers.lettering import shortened
from core.papers.page import FINE_SIZE, HEAD_SIZE, TEXT_SIZE, Page, heading
from core.units import Units
from core.wording import listed, number, tr, tr_n

ROW_MM = 6.6
BOX_MM = 3.8
MOST_BOXES = 8
YARD_MM = 914.4
KEPT_WHOLE = 8
"""A list of so few rows is not parted between pages."""

COLUMNS = ("list", "item", "cloth", "number", "mirrored", "grain")


@dataclass(frozen=True)
class _Column:
    """A column of a list: its head, where it stands from the left, the room for its words, and its side."""

    head: str
    at: float
    room: float
    anchor: Anchor = "start"


@dataclass(frozen=True)
class _Table:
    title: str
    columns: tuple[_Column, ...]
    rows: tuple[tuple[str, ...], ...]
    boxes: tuple[int, ...] = ()


def list_pages(found: CuttingList, title: str, page: Page, units: Units) -> tuple[Drawing, ...]:
    """As many pages as the three lists need."""
    drawings, drawing, y = list[Drawing](), heading(page, tr("Lists"), title), page.body.top
    for table in _tables(found, units):
        rows, first = list(enumerate(table.rows)), True
        while rows or first:
            fitting = int((page.body.bottom - y - 14.0) / ROW_MM)
            if fitting < min(len(rows), 2) or (first and fitting < len(rows) <= KEPT_WHOLE):
                drawings.append(drawing)
                drawing, y = heading(page, tr("Lists, continued"), title), page.body.top
                continue
            drawing += _head(table, page.body, y)
            y += 14.0
            for index, row in rows[:fitting]:
                drawing += _row(table, index, row, page.body, y)
                y += ROW_MM
            rows, first = rows[fitting:], False
        y += 6.0
    return (*drawings, drawing)


def _tables(found: CuttingList, units: Units) -> list[_Table]:
    return [_pieces(found), _notions(found, units), _cloths(found, units)]


def _pieces(found: CuttingList) -> _Table:
    titles = {need.cloth.id: need.cloth.title for need in found.cloths}
    return _Table(
        tr_n("To cut: {count} piece", "To cut: {count} pieces", found.count),
        (
            _Column(tr("piece"), 0.0, 66.0),
            _Column(tr("cloth"), 69.0, 38.0),
            _Column(tr("number"), 121.0, 12.0, "end"),
            _Column(tr("how"), 124.0, 30.0),
        ),
        tuple((one.name, titles.get(one.cloth, one.cloth), f"{one.number}", _how(one)) for one in found.pieces),
        tuple(min(one.number, MOST_BOXES) for one in found.pieces),
    )


def _notions(found: CuttingList, units: Units) -> _Table:
    columns = (_Column(tr("what"), 0.0, 110.0), _Column(tr("length, {unit}", unit=units.name), 150.0, 30.0, "end"))
    return _Table(tr("Notions"), columns, tuple((name, units.bare(long)) for name, long in notion_rows(found)))


def _cloths(found: CuttingList, units: Units) -> _Table:
    return _Table(
        tr("To buy"),
        (
            _Column(tr("cloth"), 0.0, 56.0),
            _Column(tr("width, {unit}", unit=units.name), 82.0, 25.0, "end"),
            _Column(tr("lay, {unit}", unit=units.name), 107.0, 25.0, "end"),
            _Column(tr("buy, {unit}", unit=units.name), 132.0, 25.0, "end"),
            _Column(tr("cost"), 152.0, 20.0, "end"),
            _Column(tr("pieces, {unit}", unit=area_name(units)), 182.0, 28.0, "end"),
        ),
        tuple(_cloth_row(need, units) for need in found.cloths),
    )


def _how(piece: CutPiece) -> str:
    ways = [tr("{number} mirrored", number=piece.number // 2)] if piece.mirrored else []
    return listed([*ways, *([tr("on the bias")] if piece.grain == "bias" else [])]) or tr("as drawn")


def notion_rows(found: CuttingList) -> list[tuple[str, float]]:
    """Name and length, mm, of every notion that is needed."""
    rows = [
        (tr("Binding, both edges of all seams"), found.binding_mm),
        (tr("Braid round the hem, joined once"), found.braid_mm),
        *(
            (tr("{title}, along its edge", title=f"{title[:1].upper()}{title[1:]}"), long)
            for title, long in found.followed_mm
        ),
    ]
    return [(name, long) for name, long in rows if long > 0]


def _cloth_row(need: ClothNeed, units: Units) -> tuple[str, ...]:
    lay = tr("not laid") if need.length_mm is None else units.bare(need.length_mm)
    buy = "–" if need.buy_mm is None else units.bare(need.buy_mm)
    cost = "–" if need.cost is None else number(need.cost, 2)
    return need.cloth.title, units.bare(need.cloth.width), lay, buy, cost, number(area_of(need, units), 2)


def area_name(units: Units) -> str:
    """The unit of areas."""
    return "yd²" if units.name == "in" else "m²"


def area_of(need: ClothNeed, units: Units) -> float:
    """The area of the pieces, in the unit of areas."""
    side = YARD_MM if units.name == "in" else 1000.0
    return need.area_mm2 / side**2


def _head(table: _Table, body: Box, top: float) -> Drawing:
    texts: list[Primitive] = [Text((body.left, top + 4.0), table.title, HEAD_SIZE, bold=True)]
    texts += [
        Text((body.left + column.at, top + 10.0), column.head, FINE_SIZE, anchor=column.anchor, bold=True)
        for column in table.columns
    ]
    return Drawing((*texts, segment((body.left, top + 12.0), (body.right, top + 12.0), "rule")))


def _row(table: _Table, index: int, row: Sequence[str], body: Box, top: float) -> Drawing:
    parts: list[Primitive] = [
        Text(
            (body.left + column.at, top + 4.4),
            shortened(words, TEXT_SIZE, column.room),
            TEXT_SIZE,
            anchor=column.anchor,
        )
        for column, words in zip(table.columns, row, strict=True)
    ]
    for place in range(table.boxes[index] if table.boxes else 0):
        right = body.right - place * (BOX_MM + 1.2)
        corners = Box(right - BOX_MM, top + 1.0, right, top + 1.0 + BOX_MM).corners
        parts.append(Line(corners, "ruler", closed=True))
    return Drawing(tuple(parts))


def lists_csv(found: CuttingList, units: Units) -> bytes:
    """All three lists in one table, lengths in the units chosen."""
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    unit = units.name
    writer.writerow([*COLUMNS, f"length_{unit}", f"buy_{unit}", "cost"])
    writer.writerows(_csv_rows(found, units))
    return text.getvalue().encode("utf-8")


def _csv_rows(found: CuttingList, units: Units) -> Iterator[list[str]]:
    for piece in found.pieces:
        mirrored = f"{piece.number // 2 if piece.mirrored else 0}"
        yield ["piece", piece.name, piece.cloth, f"{piece.number}", mirrored, piece.grain, "", "", ""]
    for name, long in notion_rows(found):
        yield ["notion", name, "", "", "", "", units.decimal(long), "", ""]
    for need in found.cloths:
        length = "" if need.length_mm is None else units.decimal(need.length_mm)
        buy = "" if need.buy_mm is None else units.decimal(need.buy_mm)
        cost = "" if need.cost is None else f"{need.cost:.2f}"
        yield ["cloth", need.cloth.title, need.cloth.id, "", "", "", length, buy, cost]
