"""Numbers on the cloth cover neither each other nor a panel's name, and all come back when there is room."""

from itertools import combinations

import msgspec


def shown(scene):
    """The badges to be seen, and those that have a step to show."""
    badges = [edge.badge for edges in scene.edges for edge in edges]
    return [one for one in badges if one.isVisible()], [one for one in badges if one.step_mm > 0]


def covering(scene, scale):
    seen = [*shown(scene)[0], *(item.name for item in scene.panels.values() if item.name.isVisible())]
    boxes = [(one, one.boundingRect().translated(one.scenePos() * scale)) for one in seen]
    return [(a, b) for (a, at), (b, there) in combinations(boxes, 2) if at.intersects(there)]


def test_far_out_numbers_make_room_and_close_by_all_are_back(skirt):
    scene = skirt.desk.view.scene_here
    skirt.desk.view.set_scale(0.12)
    seen, due = shown(scene)
    assert 0 < len(seen) < len(due)
    assert not covering(scene, 0.12)
    assert max(one.step_mm for one in due) == max(one.step_mm for one in seen)
    skirt.desk.view.set_scale(3.0)
    seen, due = shown(scene)
    assert len(seen) == len(due)


def test_the_picked_seam_keeps_its_numbers(skirt):
    scene = skirt.desk.view.scene_here
    skirt.desk.view.set_scale(0.12)
    seen, due = shown(scene)
    away = next(one for one in due if one not in seen)
    skirt.document.pick_seam(away.index)
    assert all(edge.badge.isVisible() for edge in scene.edges[away.index])


def test_when_a_hand_lets_go_numbers_make_room_where_they_came_to_lie(skirt):
    document, scene = skirt.document, skirt.desk.view.scene_here
    skirt.desk.view.set_scale(0.12)
    spots = [(name, place) for name, place in document.project.placements.items()]
    heap = spots[0][1]
    document.try_placements({name: msgspec.structs.replace(at, u=heap.u, v=heap.v) for name, at in spots[:4]})
    document.keep_trial("Move")
    seen = [one for one in shown(scene)[0] if not one.picked]
    boxes = [one.boundingRect().translated(one.scenePos() * 0.12) for one in seen]
    assert not any(a.intersects(b) for a, b in combinations(boxes, 2))
    document.undo_step()
