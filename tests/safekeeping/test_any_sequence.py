"""Whatever is done in whatever order: undo back to the start and redo to the end give the same file, byte by byte."""

import contextlib
import os

import hypothesis.strategies as st
import msgspec
import pytest
from hypothesis import HealthCheck, settings
from hypothesis.stateful import (
    RuleBasedStateMachine,
    initialize,
    invariant,
    precondition,
    rule,
    run_state_machine_as_test,
)
from PySide6.QtWidgets import QWidget

from app.document import Document
from app.edits import Edits
from core.derive.changes import rows_of, with_cloth, with_layers
from core.draft.measures import USUAL_CLOTH
from core.errors import BadInput
from core.files.project_file import project_from_bytes, project_to_bytes, read_project
from core.matching.byhand import by_hand
from core.model import variants
from core.model.pattern import On
from core.model.project import Centre, Layer, Match, Placement, Pocket, Strip
from core.seams.joining import free_edges
from core.seams.readings import measure
from core.seams.walk import walk

PANEL = st.sampled_from(["front.R", "front.L", "side.R", "side.L", "back.R", "back.L"])
MM = st.floats(-900, 900, width=32).map(lambda mm: round(mm, 1))
NAME = st.sampled_from(["first", "second"])


class Work(RuleBasedStateMachine):
    """A pair of hands on the workbench's document."""

    window: QWidget
    project = None

    @initialize()
    def open(self) -> None:
        self.window.document.open(self.project)
        self.start = project_to_bytes(self.project)

    @property
    def document(self) -> Document:
        return self.window.document

    @property
    def edits(self) -> Edits:
        return self.window.edits

    def there(self, name: str) -> bool:
        return name in self.document.panels

    # --- on the cloth

    @rule(panels=st.lists(PANEL, max_size=3, unique=True))
    def select(self, panels) -> None:
        self.document.select(tuple(name for name in panels if self.there(name)))

    @rule(du=st.sampled_from([-10.0, -1.0, 0.1, 1.0]), dv=st.sampled_from([-1.0, 0.0, 10.0]))
    def nudge(self, du, dv) -> None:
        self.edits.nudge(du, dv)

    @rule(steps=st.integers(-8, 8))
    def turn(self, steps) -> None:
        self.edits.turn_by(steps)

    @rule(panel=PANEL, what=st.sampled_from("uv"), mm=MM)
    def type_place(self, panel, what, mm) -> None:
        self.edits.type_place(panel, what, mm)

    @rule(panel=PANEL, turn=st.floats(-2, 2, width=16))
    def type_turn(self, panel, turn) -> None:
        self.edits.type_turn(panel, turn)

    @rule()
    def hold(self) -> None:
        self.edits.switch_hold()

    @rule()
    def end_for_end(self) -> None:
        self.edits.turn_end_for_end()

    @rule()
    def spread(self) -> None:
        self.edits.spread_out()

    @rule(repeats=st.integers(-3, 3))
    def by_repeats(self, repeats) -> None:
        self.edits.nudge_by_repeats(repeats)

    @rule()
    def to_other_side(self) -> None:
        self.edits.to_other_side()

    @rule(du=MM, dv=MM, turn=st.sampled_from([-0.2, 0.0, 0.3]))
    def move_by(self, du, dv, turn) -> None:
        self.edits.move_by(du, dv, turn)

    @rule()
    def match_patches(self) -> None:
        self.edits.match_patches()

    @rule(follow=st.booleans())
    def others_follow(self, follow) -> None:
        self.edits.set_following(follow)

    @rule(panel=PANEL, places=st.lists(st.tuples(MM, MM), min_size=1, max_size=3), kept=st.booleans())
    def drag(self, panel, places, kept) -> None:
        for u, v in places:
            self.document.try_placements({panel: Placement(u=u, v=v)})
        self.document.keep_trial("Drag") if kept else self.document.cancel_trial()

    # --- the plan

    @rule()
    def match(self) -> None:
        """A result of the solver's kind, soon had: laid by hand, each panel against its neighbour."""
        self.document.change("Match stripes", by_hand(self.document.kept, self.document.garment))

    @rule(width=st.floats(700, 1800).map(round), tolerance=st.sampled_from([0.0, 0.25, 1.0]))
    def change_cloth(self, width, tolerance) -> None:
        first, *rest = self.document.kept.cloths
        changed = msgspec.structs.replace(first, width=float(width), grain_tolerance_deg=tolerance)
        self.document.change("Change cloth", msgspec.structs.replace(self.document.kept, cloths=(changed, *rest)))

    @rule(on=st.sampled_from(["free", "lead", "ground"]), mirror=st.booleans())
    def change_what_counts(self, on, mirror) -> None:
        counts = Match(mirror_pairs=mirror, centre=Centre(on=on, panel="back.R"))
        self.document.change("Change what counts", msgspec.structs.replace(self.document.kept, match=counts))

    @rule(spare=st.integers(0, 20))
    def fill_in_the_cloth(self, spare) -> None:
        self.window.ways.cloth()
        self.window.ways.page.form.spare.entry.show_value(float(spare))
        self.window.ways.page.make_it()

    @rule(more=st.booleans())
    def take_a_cloth_from_the_shelf(self, more) -> None:
        kept = self.document.kept
        self.document.change("Shelf", with_cloth(kept, USUAL_CLOTH, None if more else kept.cloths[0].id))

    # --- sewing

    @rule(data=st.data())
    def unsew(self, data) -> None:
        if names := [seam.name for seam in self.document.kept.seams]:
            self.window.desk.sewing.remove(data.draw(st.sampled_from(names)))

    @rule(data=st.data())
    def sew(self, data) -> None:
        if len(edges := free_edges(self.document.kept)) > 1:
            self.window.desk.sewing.sew(data.draw(st.sampled_from(edges)), data.draw(st.sampled_from(edges)))

    @rule()
    def sew_a_ring(self) -> None:
        self.window.desk.sewing.sew_ring()

    @rule(data=st.data(), weight=st.sampled_from([0.5, 1.0, 3.0]))
    def weigh(self, data, weight) -> None:
        if names := [seam.name for seam in self.document.kept.seams]:
            self.window.desk.sewing.change(data.draw(st.sampled_from(names)), {"weight": weight})

    @rule(data=st.data())
    def true_a_finding(self, data) -> None:
        if remedies := [
            remedy for finding in walk(self.document.kept, self.document.garment) for remedy in finding.remedies
        ]:
            self.window.desk.sewing.true_by(data.draw(st.sampled_from(remedies)))

    @rule(data=st.data())
    def pick_a_seam(self, data) -> None:
        self.document.pick_seam(data.draw(st.integers(-1, len(self.document.garment.seams) - 1)))

    # --- the cut list

    @rule(data=st.data(), cut=st.booleans())
    def tick(self, data, cut) -> None:
        row = data.draw(st.sampled_from(rows_of(self.document.kept)))
        self.window.desk.cut_list.tick(row.panels, cut)

    @rule(kind=st.sampled_from(["interlining", "top lining"]))
    def add_a_layer(self, kind) -> None:
        layer = Layer(kind=kind, of=("front",), cloth=self.document.kept.cloths[0].id)
        if kind == "top lining":
            layer = msgspec.structs.replace(layer, edge="waist", depth=60.0)
        with contextlib.suppress(BadInput):
            self.window.desk.cut_list._keep_layer(None, layer)

    @rule(length=st.integers(50, 400), number=st.integers(1, 3))
    def add_strips(self, length, number) -> None:
        taken = len(self.document.kept.strips)
        cloth = self.document.kept.cloths[0].id
        strip = Strip(id=f"strip-{taken}", name="Strip", length=float(length), width=40.0, number=number, cloth=cloth)
        self.window.desk.cut_list._keep_strip(None, strip)

    @precondition(lambda self: self.document.kept.seams)
    @rule(top=st.integers(80, 150), data=st.data())
    def add_a_pocket(self, top, data) -> None:
        kept = self.document.kept
        seam = data.draw(st.sampled_from([seam.name for seam in kept.seams]))
        size = {"opening": (float(top), top + 150.0), "width": 130.0, "depth": 240.0}
        with contextlib.suppress(BadInput):
            pocket = Pocket(id=f"pocket-{len(kept.pockets)}", seam=seam, cloth=kept.cloths[0].id, **size)
            self.window.desk.cut_list._keep_pocket(None, pocket)

    @rule(panel=PANEL)
    def add_a_placket(self, panel) -> None:
        kept = self.document.kept
        on = On(panel=panel, at=(0.0, 200.0))
        strip = Strip(
            id=f"placket-{len(kept.strips)}", length=160.0, width=40.0, number=1, cloth=kept.cloths[0].id, on=on
        )
        with contextlib.suppress(BadInput):
            self.window.desk.cut_list._keep_strip(None, strip)

    @precondition(lambda self: self.document.kept.layers)
    @rule()
    def take_a_layer_out(self) -> None:
        kept = self.document.kept
        self.window.desk.cut_list._change("Remove", lambda: with_layers(kept, kept.layers[1:]))

    # --- variants

    def vary(self, change) -> None:
        with contextlib.suppress(BadInput):
            self.document.change("Variant", change(self.document.kept))

    @rule(name=NAME)
    def keep_a_variant(self, name) -> None:
        self.vary(lambda kept: variants.keep(kept, name))

    @rule(name=NAME)
    def take_a_variant(self, name) -> None:
        self.vary(lambda kept: variants.taken(kept, name))

    @rule(name=NAME)
    def drop_a_variant(self, name) -> None:
        self.vary(lambda kept: variants.without(kept, name))

    @rule(name=NAME, new=NAME)
    def rename_a_variant(self, name, new) -> None:
        if any(variant.name == name for variant in self.document.kept.variants):
            self.window.desk.variants._rename(name, new)

    @rule(name=NAME)
    def try_what_would_help(self, name) -> None:
        kept = self.document.kept
        self.vary(lambda _: variants.tried(kept, by_hand(kept, self.document.garment), name))

    # --- history

    @rule(count=st.integers(1, 4))
    def undo(self, count) -> None:
        for _ in range(count):
            self.document.undo_step()

    @rule(count=st.integers(1, 4))
    def redo(self, count) -> None:
        for _ in range(count):
            self.document.redo_step()

    # --- what must hold

    @invariant()
    def what_is_shown_is_what_counts(self) -> None:
        if self.document.is_empty:
            return
        assert not self.document.trying
        assert set(self.document.selection) <= set(self.document.panels)
        assert -1 <= self.document.seam < len(self.document.garment.seams)

    def teardown(self) -> None:
        document = self.document
        end = project_to_bytes(document.kept)
        assert project_to_bytes(project_from_bytes(end)) == end
        while document.undo.canRedo():
            document.redo_step()
        last = project_to_bytes(document.kept)
        while document.undo.canUndo():
            document.undo_step()
        assert project_to_bytes(document.kept) == self.start
        while document.undo.canRedo():
            document.redo_step()
        assert project_to_bytes(document.kept) == last
        assert document.measurement.rms_mm == pytest.approx(measure(document.kept).rms_mm, abs=1e-9)


def test_undo_to_the_start_and_redo_to_the_end_give_the_same_bytes(window, harbour_skirt):
    class Hands(Work):
        pass

    Hands.window, Hands.project = window, read_project(harbour_skirt)
    window.desk.show_cut_list()
    if "STRIPEWRIGHT_EXAMPLES" not in os.environ:
        window.hide()  # what is not seen is not drawn, which takes most of the time
    run_state_machine_as_test(
        Hands,
        settings=settings(
            max_examples=int(os.environ.get("STRIPEWRIGHT_EXAMPLES", "2")),
            stateful_step_count=15,
            deadline=None,
            database=None,
            derandomize="STRIPEWRIGHT_EXAMPLES" not in os.environ,
            suppress_health_check=list(HealthCheck),
        ),
    )
    window.document.undo.setClean()
