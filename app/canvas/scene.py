"""The scene: one cloth with the panels that are cut from it, kept in step with the document."""

import math

from PySide6.QtCore import QPointF, QRectF, QTimer, Signal
from PySide6.QtGui import QPolygonF, QTransform
from PySide6.QtWidgets import QGraphicsScene

from app.canvas.clash import ClashItem
from app.canvas.cloth import ClothItem
from app.canvas.crowding import thin_out
from app.canvas.edges import SewnEdge, StepBadge, stretches_of
from app.canvas.handles import TurnHandle
from app.canvas.item import CanvasItem
from app.canvas.panels import PanelItem
from app.commands import turn_in_mm
from app.document import Document
from app.edits import panel_title
from app.readings.grades import Grades
from core.lay.lying import Lying
from core.model.cloth import Cloth
from core.model.pattern import PanelName

FAR_MM = 100_000.0
"""The scene reaches this far round the cloth, so that the view may rest anywhere."""
SPARE_MM = 150.0
OVERLAPS_EVERY_MS = 33
"""What overlaps, and how long the lay is, follows a drag no faster than this; outlines and readings every move."""
SHORTEST_MM = 1000.0


class ClothScene(QGraphicsScene):
    """Shows one cloth of the document; every change reaches it through the document's signals."""

    lying_changed = Signal()
    """What overlaps, and how long the lay is, was looked at anew."""

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.grades = Grades()
        self.setItemIndexMethod(QGraphicsScene.ItemIndexMethod.NoIndex)
        self._scale_px = 1.0
        self._unlooked: frozenset[PanelName] = frozenset()
        self._looked = QTimer(self, singleShot=True, interval=OVERLAPS_EVERY_MS, timeout=self._look)
        self.cloth: Cloth = document.project.cloths[0]
        document.project_changed.connect(self.rebuild)
        document.placements_changed.connect(self._follow)
        document.undo.indexChanged.connect(self._settle)
        document.selection_changed.connect(self._show_selection)
        document.seam_changed.connect(self._show_seam)
        self.rebuild()

    # --- building

    def show_cloth(self, cloth_id: str) -> None:
        """Show another cloth of the project."""
        if cloth_id != self.cloth.id:
            self.cloth = self.document.project.cloth(cloth_id)
            self.rebuild()

    def rebuild(self) -> None:
        """Draw everything afresh."""
        project = self.document.cut
        known = {cloth.id: cloth for cloth in project.cloths}
        used = [piece.cloth for piece in project.pieces]
        self.cloth = known.get(self.cloth.id) or known[used[0] if used else project.cloths[0].id]
        self.clear()
        self.panels = {name: self._panel(name) for name in project.panel_names if self._is_here(name)}
        self.edges: list[tuple[SewnEdge, ...]] = []
        for index, line in enumerate(self.document.garment.seams):
            ends = (("a", line.panels[0]), ("b", line.panels[1]))
            made = [SewnEdge(index, side, line, self.panels[name]) for side, name in ends if name in self.panels]
            for edge in made:
                self.addItem(edge.badge)
            self.edges.append(tuple(made))
        self.ground = ClothItem(self.cloth, self._cloth_end())
        self.addItem(self.ground)
        self.handle = TurnHandle()
        self.addItem(self.handle)
        self._looked.stop()
        self._unlooked = frozenset()
        self.lying = Lying.of(project, self.cloth)
        self.clash = ClashItem()
        self.addItem(self.clash)
        self._show_clashes()
        self.setSceneRect(self.cloth_rect().adjusted(-FAR_MM, -FAR_MM, FAR_MM, FAR_MM))
        self._take_scale()
        self._read(frozenset(self.panels))
        self._show_selection()
        self._show_seam()

    def _is_here(self, name: PanelName) -> bool:
        return self.document.panels[name].piece.cloth == self.cloth.id

    def _panel(self, name: PanelName) -> PanelItem:
        at, title = self.document.project.placement(name), panel_title(self.document, name)
        item = PanelItem(self.document.panels[name], at, title, quiet=name not in self.document.garment.panels)
        self.addItem(item)
        return item

    def _cloth_end(self) -> float:
        """Where the cloth is drawn to: its length, or a little further than its last panel."""
        if self.cloth.end is not None:
            return self.cloth.end
        ends = [item.outline().boundingRect().bottom() for item in self.panels.values()]
        return max(SHORTEST_MM, math.ceil((max(ends, default=0.0) + SPARE_MM) / 100) * 100)

    # --- following the document

    def _follow(self, moved: frozenset[PanelName]) -> None:
        for name in moved & self.panels.keys():
            self.panels[name].lie(self.document.project.placement(name))
        self._unlooked |= moved
        if self.document.trying and self._looked.isActive():
            self.clash.follow(moved, self._outline)
        else:
            self._look()
        self._read(moved)
        if not self.document.trying:
            self._thin_out()
        if self.document.current in moved:
            self._place_handle()

    def _look(self) -> None:
        """Look at how the panels lie that have moved since this was done last."""
        if not self._unlooked:
            return
        moved, self._unlooked = self._unlooked, frozenset()
        self.lying = self.lying.after(self.document.cut, moved)
        self._show_clashes()
        if self.lying.length_mm > self.ground.shown_mm:
            self._fit_cloth()
        self._looked.start() if self.document.trying else self._looked.stop()
        self.lying_changed.emit()

    def _read(self, moved: frozenset[PanelName]) -> None:
        """Show the readings of all seams of the panels that moved, of stripes or of bars: which are worse."""
        for edges, line, reading in zip(
            self.edges, self.document.garment.seams, self.document.measurement.worse, strict=True
        ):
            if edges and moved & set(line.panels):
                stretches = stretches_of(line, reading, self.grades)
                for edge in edges:
                    edge.show_reading(reading, stretches)

    def _thin_out(self) -> None:
        """Leave out what would cover something else; what is left out stays so while a hand drags."""
        badges = [edge.badge for edges in self.edges for edge in edges]
        names = [item.name for item in self.panels.values() if item.name.isVisible()]
        thin_out(badges, names, self._scale_px)

    def _show_clashes(self) -> None:
        self.clash.show_clashes(self.lying, self._outline)

    def _outline(self, name: PanelName) -> QPolygonF:
        return self.panels[name].outline()

    def _settle(self) -> None:
        """What waits until a hand lets go."""
        self._fit_cloth()
        self._thin_out()

    def _fit_cloth(self) -> None:
        end = self._cloth_end()
        if end != self.ground.shown_mm:
            self.ground.prepareGeometryChange()
            self.ground.shown_mm = end

    def _show_selection(self) -> None:
        for name, item in self.panels.items():
            item.choose(name in self.document.selection)
        self._place_handle()

    def _show_seam(self) -> None:
        for index, edges in enumerate(self.edges):
            for edge in edges:
                edge.pick(index == self.document.seam)
        self._thin_out()

    def _place_handle(self) -> None:
        name = self.document.current
        alone = len(self.document.selection) == 1 and name in self.panels
        if not alone or self.document.project.placement(name).hold:
            self.handle.hide()
            return
        box = self.panels[name].outline().boundingRect()
        at = self.document.project.placement(name)
        per_deg_mm = turn_in_mm(self.document.panels[name], 1.0)
        top = QPointF(box.center().x(), box.top())
        self.handle.attach(top, at.turn_deg, self.cloth.grain_tolerance_deg, per_deg_mm)

    def set_scale(self, scale_px: float) -> None:
        """Follow the view's scale, px per mm."""
        self._scale_px = scale_px
        self._take_scale()
        self._thin_out()

    def _take_scale(self) -> None:
        for item in self.panels.values():
            item.name.set_scale(self._scale_px)
        for edges in self.edges:
            for edge in edges:
                edge.set_reach(self._scale_px)

    def show_unit(self) -> None:
        """Follow a change of the unit of lengths."""
        self._read(frozenset(self.panels))
        self._thin_out()
        self._place_handle()

    # --- asking

    def moving_with(self, panels: frozenset[PanelName]) -> set[CanvasItem]:
        """What is to be drawn anew when some panels move: they, all edges of their seams, and the handle."""
        items: set[CanvasItem] = {self.handle, self.clash}
        for name in panels & self.panels.keys():
            items |= {self.panels[name], self.panels[name].name}
        for edges, line in zip(self.edges, self.document.garment.seams, strict=True):
            if panels & set(line.panels):
                items |= {*edges, *(edge.badge for edge in edges)}
        return items

    def cloth_rect(self) -> QRectF:
        """The cloth as drawn, mm."""
        return self.ground.boundingRect()

    def laid_rect(self) -> QRectF:
        """Cloth and panels, mm."""
        rect = self.cloth_rect()
        for item in self.panels.values():
            rect |= item.outline().boundingRect()
        return rect

    def rect_of(self, names: tuple[PanelName, ...]) -> QRectF:
        """The box round some panels, mm; empty if there are none here."""
        rect = QRectF()
        for name in names:
            if name in self.panels:
                rect |= self.panels[name].outline().boundingRect()
        return rect

    def panel_at(self, at: QPointF) -> PanelName | None:
        """The panel on top at a place on the cloth, mm."""
        here = [name for name, item in self.panels.items() if item.covers(at)]
        chosen = [name for name in here if name in self.document.selection]
        return (chosen or here or [None])[-1]

    def panels_touching(self, frame: QPolygonF) -> tuple[PanelName, ...]:
        """The panels that an area on the cloth touches."""
        return tuple(name for name, item in self.panels.items() if item.outline().intersects(frame))

    def seam_at(self, at: QPointF, view_transform: QTransform) -> int | None:
        """The seam whose badge lies at a place; None if there is none."""
        item = self.itemAt(at, view_transform)
        return item.index if isinstance(item, StepBadge) else None
