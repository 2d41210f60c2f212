"""What is cut besides the drawn pieces, filled in: a layer under pieces, or strips."""

from collections.abc import Callable, Sequence

from PySide6.QtCore import QSize
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QScrollArea, QVBoxLayout, QWidget

from app.pages.entries import Choice, Length, Tick, Whole, Words
from app.pages.form import Field, Form, Note
from app.pages.page import kept_unit
from app.theme import ROOMY, SPACE
from core.derive.changes import fresh_strip_id
from core.errors import BadInput
from core.geometry.paths import LARGEST_MM
from core.model.pattern import Piece
from core.model.project import Layer, Project, Strip

Keep = Callable[..., None]
"""Takes the layer or strip as filled in. Raises BadInput if it can't be had."""

KINDS = (("Interlining", "interlining"), ("Hem facing", "hem facing"), ("Top lining", "top lining"))
USUAL_DEPTH_MM = {"hem facing": 200.0, "top lining": 180.0}
USUAL_EDGES = {"hem facing": ("hem", "rim"), "top lining": ("waist", "top")}
GRAINS = (("Straight", "straight"), ("Bias", "bias"))


class DerivedForm(QDialog):
    """A form that is kept with OK if what stands in it can be had; else it says what is wrong and stays."""

    def __init__(self, title: str, keep: Keep, parent: QWidget | None) -> None:
        super().__init__(parent)
        self.setWindowTitle(title)
        self._keep = keep
        self.form = Form()
        self.section = self.form.section(title)
        self.wrong = Note()
        self.buttons = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel,
            accepted=self.accept,
            rejected=self.reject,
        )

    def lay_out(self) -> None:
        """Put the form into the dialog, once it has its fields."""
        self.form.show_unit(kept_unit())
        scroll = QScrollArea(widgetResizable=True)
        scroll.setFrameShape(QScrollArea.Shape.NoFrame)
        scroll.setWidget(self.form)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, ROOMY, ROOMY)
        column.setSpacing(SPACE)
        column.addWidget(scroll, 1)
        for part in (self.wrong, self.buttons):
            part.setContentsMargins(ROOMY, 0, 0, 0)
            column.addWidget(part)
        self.resize(QSize(560, min(self.form.sizeHint().height() + 110, 720)))

    def value(self) -> Layer | Strip:
        """What is filled in. Raises BadInput."""
        raise NotImplementedError

    def accept(self) -> None:
        """Keep it, if it can be had."""
        try:
            self._keep(self.value())
        except BadInput as error:
            self.wrong.say(str(error), wrong=True)
            return
        super().accept()


class LayerForm(DerivedForm):
    """Interlining, hem facing or top lining: under which pieces, of which cloth, how deep."""

    def __init__(
        self, project: Project, layer: Layer | None, kind: str, keep: Keep, parent: QWidget | None = None
    ) -> None:
        kind = layer.kind if layer else kind
        super().__init__("Layer", keep, parent)
        self._project = project
        of = set(layer.of) if layer else {piece.id for piece in project.pieces}
        self.kind = Choice("Kind", KINDS, kind)
        self.name = Words("Name", layer.name if layer else "")
        self.cloth = Choice("Cloth", _cloths(project), layer.cloth if layer else _other_cloth(project))
        self.pieces = [(piece, Tick(piece.title, piece.id in of)) for piece in project.pieces]
        self.edge = Choice("Edge", ())
        self.depth = Length("Depth", layer.depth if layer else USUAL_DEPTH_MM.get(kind))
        self.allowance = Length("Allowance", layer.allowance if layer else None, "as the piece", needed=False)
        self.inner = Length("Allowance at the loose edge", layer.inner_allowance if layer else 0.0)
        self._add_fields()
        self._offer_edges()
        usual = USUAL_EDGES.get(kind, ())
        self.edge.show_value(
            layer.edge if layer and layer.edge else next((e for e in usual if e in self._edges()), None)
        )
        self._show_kind()
        self.kind.edited.connect(self._change_kind)
        for _, tick in self.pieces:
            tick.edited.connect(self._offer_edges)
        self.lay_out()

    def _add_fields(self) -> None:
        for field in (
            Field("Kind", self.kind),
            Field("Name", self.name, "empty: its kind"),
            Field("Cloth", self.cloth),
        ):
            self.section.add(field)
        for number, (_, tick) in enumerate(self.pieces):
            self.section.add(Field("Under" if number == 0 else "", tick))
        self.of_edge = [
            Field("Along edge", self.edge, "of every piece ticked"),
            Field("Depth", self.depth, "from that edge"),
            Field("Loose edge", self.inner, "allowance where the depth ends"),
        ]
        for field in (*self.of_edge, Field("Allowance", self.allowance, "empty: as the piece has them")):
            self.section.add(field)

    def _change_kind(self) -> None:
        kind = self.kind.read()
        if kind in USUAL_DEPTH_MM:
            self.depth.show_value(USUAL_DEPTH_MM[kind] / kept_unit().mm)
            self.edge.show_value(next((edge for edge in USUAL_EDGES[kind] if edge in self._edges()), None))
        self._show_kind()

    def _show_kind(self) -> None:
        for field in self.of_edge:
            field.set_shown(self.kind.read() != "interlining")

    def _edges(self) -> list[str]:
        """Edges that every ticked piece has, the fold left out."""
        ticked = [piece for piece, tick in self.pieces if tick.read()]
        common = [set(_edge_names(piece)) for piece in ticked]
        return [name for name in _edge_names(ticked[0]) if all(name in names for names in common)] if ticked else []

    def _offer_edges(self) -> None:
        self.edge.offer([(name, name) for name in self._edges()])

    def value(self) -> Layer:
        """The layer. Raises BadInput for a length that is none."""
        banded = self.kind.read() != "interlining"
        return Layer(
            kind=self.kind.read(),
            of=tuple(piece.id for piece, tick in self.pieces if tick.read()),
            cloth=self.cloth.read(),
            edge=self.edge.read() if banded else None,
            depth=self.depth.read() if banded else None,
            name=self.name.read(),
            allowance=self.allowance.read(),
            inner_allowance=(self.inner.read() or 0.0) if banded else 0.0,
        )

    def accept(self) -> None:
        """A layer lies under at least one piece."""
        if not any(tick.read() for _, tick in self.pieces):
            self.wrong.say("It lies under no piece; tick at least one.", wrong=True)
            return
        super().accept()


class StripForm(DerivedForm):
    """Strips of one size: pocket bags, placket, belt, binding."""

    def __init__(self, project: Project, strip: Strip | None, keep: Keep, parent: QWidget | None = None) -> None:
        super().__init__("Strip", keep, parent)
        self._project, self._strip = project, strip
        self.name = Words("Name", strip.title if strip else "")
        self.length = Length("Length", strip.length if strip else None)
        self.width = Length("Width", strip.width if strip else None)
        self.number = Whole("Number", strip.number if strip else 1, (1, 10_000))
        self.cloth = Choice("Cloth", _cloths(project), strip.cloth if strip else _other_cloth(project))
        self.grain = Choice("Grain", GRAINS, strip.grain if strip else "straight")
        self.allowance = Length("Allowance", strip.allowance if strip else 0.0)
        for caption, entry, hint in (
            ("Name", self.name, "placket, belt, pocket bag"),
            ("Length", self.length, "stitching line"),
            ("Width", self.width, "stitching line"),
            ("Number", self.number, ""),
            ("Cloth", self.cloth, ""),
            ("Grain", self.grain, ""),
            ("Allowance", self.allowance, "added all round"),
        ):
            self.section.add(Field(caption, entry, hint))
        self.lay_out()

    def value(self) -> Strip:
        """The strips. Raises BadInput for a length that is none."""
        name = self.name.read() or "Strip"
        length, width, allowance = self.form.read([field for field in self.section.fields if _is_length(field)])
        return Strip(
            id=self._strip.id if self._strip else fresh_strip_id(self._project, name),
            name=name,
            length=min(length, LARGEST_MM),
            width=min(width, LARGEST_MM),
            number=self.number.read(),
            cloth=self.cloth.read(),
            grain=self.grain.read(),
            allowance=allowance,
        )


def _is_length(field: Field) -> bool:
    return isinstance(field.entry, Length)


def _cloths(project: Project) -> Sequence[tuple[str, str]]:
    return [(cloth.title, cloth.id) for cloth in project.cloths]


def _other_cloth(project: Project) -> str:
    """The first plain cloth, else the first: layers and strips are seldom of the striped one."""
    return next((cloth.id for cloth in project.cloths if cloth.repeat is None), project.cloths[0].id)


def _edge_names(piece: Piece) -> list[str]:
    return [edge.name for edge in piece.edges if edge.name != piece.fold]
