"""What is cut besides the drawn pieces, filled in: a layer under pieces, a pocket, or strips."""

from collections.abc import Callable, Sequence

from PySide6.QtWidgets import QDialog, QDialogButtonBox, QScrollArea, QVBoxLayout, QWidget

from app.pages.entries import Choice, Length, Number, Tick, Whole, Words
from app.pages.form import Field, Form, Note
from app.pages.page import kept_unit
from app.theme import GRID, ROOMY, SPACE, TARGET
from app.words import later, spoken, tr
from core.derive.changes import fresh_id
from core.errors import BadInput
from core.geometry.paths import LARGEST_MM
from core.model.panel import panels_of
from core.model.pattern import On, Piece
from core.model.project import Layer, Pocket, Project, Strip
from core.seams.garment import Garment

WIDE_PX = 560
Keep = Callable[..., None]
"""Takes what is filled in. Raises BadInput if it can't be had."""

KINDS = (
    (later("Interlining"), "interlining"),
    (later("Hem facing"), "hem facing"),
    (later("Top lining"), "top lining"),
)
USUAL_DEPTH_MM = {"hem facing": 200.0, "top lining": 180.0}
USUAL_EDGES = {"hem facing": ("hem", "rim"), "top lining": ("waist", "top")}
GRAINS = ((later("Straight"), "straight"), (later("Bias"), "bias"))


class DerivedForm(QDialog):
    """A form that is kept if what stands in it can be had; else it says what is wrong and stays."""

    def __init__(self, title: str, keep: Keep, parent: QWidget | None) -> None:
        super().__init__(parent)
        self.setWindowTitle(title)
        self._keep = keep
        self.form = Form()
        self.section = self.form.section(title)
        self.wrong = Note()
        kinds = QDialogButtonBox.StandardButton
        self.buttons = QDialogButtonBox(kinds.Ok | kinds.Cancel, accepted=self.accept, rejected=self.reject)
        self.buttons.button(kinds.Ok).setText(tr("Keep"))
        for button in self.buttons.buttons():
            button.setMinimumHeight(TARGET)

    def lay_out(self) -> None:
        """Put the form into the dialog, once it has its fields."""
        self.form.show_unit(kept_unit())
        scroll = QScrollArea(widgetResizable=True, accessibleName=self.windowTitle())
        scroll.setFrameShape(QScrollArea.Shape.NoFrame)
        scroll.setWidget(self.form)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, ROOMY, ROOMY)
        column.setSpacing(SPACE)
        column.addWidget(scroll, 1)
        for part in (self.wrong, self.buttons):
            part.setContentsMargins(ROOMY, 0, 0, 0)
            column.addWidget(part)
        self.resize(WIDE_PX, min(self.form.layout().totalHeightForWidth(WIDE_PX - ROOMY) + 20 * GRID, 160 * GRID))

    def value(self) -> Layer | Pocket | Strip:
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
        super().__init__(tr("Layer"), keep, parent)
        self._project = project
        of = set(layer.of) if layer else {piece.id for piece in project.pieces}
        self.kind = Choice(tr("Kind"), spoken(KINDS), kind)
        self.name = Words(tr("Name"), layer.name if layer else "")
        self.cloth = Choice(tr("Cloth"), _cloths(project), layer.cloth if layer else _other_cloth(project))
        self.pieces = [(piece, Tick(piece.title, piece.id in of)) for piece in project.pieces]
        self.edge = Choice(tr("Edge"), ())
        self.depth = Length(tr("Depth"), layer.depth if layer else USUAL_DEPTH_MM.get(kind))
        self.allowance = Length(tr("Allowance"), layer.allowance if layer else None, tr("as the piece"), needed=False)
        self.inner = Length(tr("Allowance at the loose edge"), layer.inner_allowance if layer else 0.0)
        self.joined = Tick(tr("joined across seams"), bool(layer and layer.joined))
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
            Field(tr("Kind"), self.kind),
            Field(tr("Name"), self.name, tr("empty: its kind")),
            Field(tr("Cloth"), self.cloth),
        ):
            self.section.add(field)
        for number, (_, tick) in enumerate(self.pieces):
            self.section.add(Field(tr("Under") if number == 0 else "", tick))
        self.of_edge = [
            Field(tr("Along edge"), self.edge, tr("of every piece ticked")),
            Field(tr("Depth"), self.depth, tr("from that edge")),
            Field(tr("Loose edge"), self.inner, tr("allowance where the depth ends")),
            Field(tr("In one piece"), self.joined, tr("as far as the cloth is wide enough")),
        ]
        for field in (*self.of_edge, Field(tr("Allowance"), self.allowance, tr("empty: as the piece has them"))):
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
            joined=banded and self.joined.read(),
        )

    def accept(self) -> None:
        """A layer lies under at least one piece."""
        if not any(tick.read() for _, tick in self.pieces):
            self.wrong.say(tr("It lies under no piece; tick at least one."), wrong=True)
            return
        super().accept()


class StripForm(DerivedForm):
    """Strips of one size: patch, flap, placket, belt, binding; one may lie on a panel whose stripes it continues."""

    def __init__(self, project: Project, strip: Strip | None, keep: Keep, parent: QWidget | None = None) -> None:
        super().__init__(tr("Strip"), keep, parent)
        self._project, self._strip = project, strip
        self.name = Words(tr("Name"), strip.title if strip else "")
        self.length = Length(tr("Length"), strip.length if strip else None)
        self.width = Length(tr("Width"), strip.width if strip else None)
        self.number = Whole(tr("Number"), strip.number if strip else 1, (1, 10_000))
        self.cloth = Choice(tr("Cloth"), _cloths(project), strip.cloth if strip else _other_cloth(project))
        self.grain = Choice(tr("Grain"), spoken(GRAINS), strip.grain if strip else "straight")
        self.allowance = Length(tr("Allowance"), strip.allowance if strip else 0.0)
        for caption, entry, hint in (
            (tr("Name"), self.name, tr("placket, belt, patch, flap")),
            (tr("Length"), self.length, tr("stitching line")),
            (tr("Width"), self.width, tr("stitching line")),
            (tr("Number"), self.number, ""),
            (tr("Cloth"), self.cloth, ""),
            (tr("Grain"), self.grain, ""),
            (tr("Allowance"), self.allowance, tr("added all round")),
        ):
            self.section.add(Field(caption, entry, hint))
        self._lengths = [field for field in self.section.fields if isinstance(field.entry, Length)]
        self.on = OnFields(self, project, strip.on if strip else None)
        self.lay_out()

    def value(self) -> Strip:
        """The strips. Raises BadInput for a length that is none."""
        name = self.name.read() or tr("Strip")
        length, width, allowance = self.form.read(self._lengths)
        return Strip(
            id=self._strip.id if self._strip else fresh_id(self._project, name, "strip"),
            name=name,
            length=min(length, LARGEST_MM),
            width=min(width, LARGEST_MM),
            number=self.number.read(),
            cloth=self.cloth.read(),
            grain=self.grain.read(),
            allowance=allowance,
            on=self.on.value(),
        )


class OnFields:
    """On which panel a strip lies, and where: its stripes then go on from the panel's."""

    def __init__(self, form: "StripForm", project: Project, on: On | None) -> None:
        self._form = form
        names = [(name, name) for piece in project.pieces if piece.on is None for name in piece.panel_names]
        self.panel = Choice(tr("Panel it lies on"), [(tr("none"), None), *names], on.panel if on else None)
        x, y = on.at if on else (0.0, 0.0)
        self.x = Length(tr("Its middle to the right of the panel's origin"), x)
        self.y = Length(tr("Its middle below the panel's origin"), y)
        self.turn = Number(
            tr("Turned against the panel, degrees clockwise"), on.turn_deg if on else 0.0, (-360, 360), "°"
        )
        self.fields = [
            Field(tr("Middle, across"), self.x, tr("from the panel's origin, right is +")),
            Field(tr("Middle, down"), self.y, tr("from the panel's origin")),
            Field(tr("Turned, °"), self.turn, tr("clockwise, against the panel")),
        ]
        form.section.add(Field(tr("Lies on"), self.panel, tr("continues the stripes of that panel")))
        for field in self.fields:
            form.section.add(field)
        self.panel.edited.connect(lambda: self._lie_on(project))
        self._show()

    def _lie_on(self, project: Project) -> None:
        """Begin in the middle of the panel chosen, with a strip of its cloth."""
        if name := self.panel.read():
            panel = next(one for one in panels_of(project.piece_of(name)) if one.name == name)
            for entry, mm in zip((self.x, self.y), panel.middle.tolist(), strict=True):
                entry.show_value(round(mm, 1) + 0.0)
            self._form.cloth.show_value(panel.piece.cloth)
        self._show()

    def _show(self) -> None:
        for field in self.fields:
            field.set_shown(self.panel.read() is not None)

    def value(self) -> On | None:
        """Where it lies, or None. Raises BadInput for what is no length."""
        panel = self.panel.read()
        if panel is None:
            return None
        x, y, turn = self._form.form.read(self.fields)
        return On(panel=panel, at=(x, y), turn_deg=turn)


USUAL_MOUTH_MM = (60.0, 220.0)
USUAL_BAG_MM = (160.0, 130.0)


class PocketForm(DerivedForm):
    """A pocket in a seam: where its mouth is, and how large its bag."""

    def __init__(self, project: Project, pocket: Pocket | None, keep: Keep, parent: QWidget | None = None) -> None:
        super().__init__(tr("Pocket"), keep, parent)
        self._project, self._pocket = project, pocket
        self._long = {line.sewn.seam.name: line.length for line in Garment.of(project).seams}
        seams = [(seam.name, seam.name) for seam in project.seams]
        self.name = Words(tr("Name"), pocket.title if pocket else tr("Pocket"))
        self.seam = Choice(tr("Seam"), seams, pocket.seam if pocket else None)
        start, end = pocket.opening if pocket else self._usual_mouth()
        self.start, self.end = Length(tr("Mouth from"), start), Length(tr("Mouth to"), end)
        wide, deep = (pocket.width, pocket.depth) if pocket else USUAL_BAG_MM
        self.width, self.depth = Length(tr("Width of the bag"), wide), Length(tr("Depth of the bag"), deep)
        self.cloth = Choice(tr("Cloth"), _cloths(project), pocket.cloth if pocket else _other_cloth(project))
        number = pocket.number if pocket else None
        self.number = Number(tr("Number of bags"), number, (2, 1000), placeholder=tr("two for each seam"), needed=False)
        self.allowance = Length(tr("Allowance"), pocket.allowance if pocket else 10.0)
        self.seam_field = Field(tr("Seam"), self.seam, tr("the one its mouth lies in"))
        self.section.add(Field(tr("Name"), self.name))
        self.section.add(self.seam_field)
        self.lengths = [
            Field(tr("Mouth from"), self.start, tr("down the seam, from its upper end")),
            Field(tr("Mouth to"), self.end, tr("down the seam")),
            Field(tr("Width"), self.width, tr("how far the bag reaches into the panel")),
            Field(tr("Depth"), self.depth, tr("how far it hangs below the mouth's end")),
            Field(tr("Allowance"), self.allowance, tr("added all round")),
        ]
        for field in (*self.lengths, Field(tr("Cloth"), self.cloth)):
            self.section.add(field)
        self.number_field = self.section.add(Field(tr("Number"), self.number, tr("bags to cut; half of them mirrored")))
        self.seam.edited.connect(self._tell)
        self._tell()
        self.lay_out()

    def _usual_mouth(self) -> tuple[float, float]:
        """The stretch that the seam leaves open, or a usual one."""
        seam = next((seam for seam in self._project.seams if seam.name == self.seam.read()), None)
        return seam.open if seam and seam.open else USUAL_MOUTH_MM

    def _tell(self) -> None:
        long = self._long.get(self.seam.read())
        self.seam_field.say("" if long is None else tr("it is {length} long").format(length=kept_unit().told(long)))
        if self._pocket is None:
            for entry, mm in zip((self.start, self.end), self._usual_mouth(), strict=True):
                entry.show_value(mm)

    def value(self) -> Pocket:
        """The pocket. Raises BadInput for a length that is none."""
        name = self.name.read() or tr("Pocket")
        start, end, width, depth, allowance = self.form.read(self.lengths)
        number = self.form.read([self.number_field])[0]
        return Pocket(
            id=self._pocket.id if self._pocket else fresh_id(self._project, name, "pocket"),
            name=name,
            seam=self.seam.read() or "",
            opening=(start, end),
            width=width,
            depth=depth,
            cloth=self.cloth.read(),
            number=None if number is None else int(number),
            allowance=allowance,
        )


def _cloths(project: Project) -> Sequence[tuple[str, str]]:
    return [(cloth.title, cloth.id) for cloth in project.cloths]


def _other_cloth(project: Project) -> str:
    """The first plain cloth, else the first: layers and strips are seldom of the striped one."""
    return next((cloth.id for cloth in project.cloths if cloth.repeat is None), project.cloths[0].id)


def _edge_names(piece: Piece) -> list[str]:
    return [edge.name for edge in piece.edges if edge.name != piece.fold]
