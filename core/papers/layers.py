"""The layers of full-size files: what can be put out of sight together."""

from core.papers.drawing import Drawing, Primitive, Role
from core.wording import later

LAYERS = (
    later("ground"),
    later("stripes"),
    later("stripe edges"),
    later("lead stripes"),
    later("cloth edges and flaws"),
    later("cutting line"),
    later("stitching line"),
    later("grain and notches"),
    later("words and check squares"),
)
"""From the lowest to the topmost."""

_LAYER_OF: dict[Role, str] = {
    "ground": "ground",
    "stripe": "stripes",
    "stripe edge": "stripe edges",
    "lead stripe": "lead stripes",
    "cloth edge": "cloth edges and flaws",
    "selvedge": "cloth edges and flaws",
    "flaw": "cloth edges and flaws",
    "cut off": "cloth edges and flaws",
    "cut line": "cutting line",
    "net line": "stitching line",
    "line before": "stitching line",
    "patch": "grain and notches",
    "grain": "grain and notches",
    "notch": "grain and notches",
    "mark": "grain and notches",
}


def layer_of(role: Role) -> str:
    """The layer that a role is drawn on; what carries no line of the pattern is on the last one."""
    return _LAYER_OF.get(role, LAYERS[-1])


def in_layers(drawing: Drawing) -> list[tuple[str, tuple[Primitive, ...]]]:
    """The primitives of every layer that has any, lowest layer first, in the order in which they are drawn."""
    found: dict[str, list[Primitive]] = {layer: [] for layer in LAYERS}
    for part in drawing.parts:
        found[layer_of(part.role)].append(part)
    return [(layer, tuple(parts)) for layer, parts in found.items() if parts]
