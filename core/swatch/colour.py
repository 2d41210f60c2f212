"""Colours: sRGB, the light it stands for, CIELAB, and how far apart two colours look."""

import numpy as np
import numpy.typing as npt

from core.wording import tr

Array = npt.NDArray[np.float64]

_TO_XYZ = np.array(
    [
        [0.4123907992659595, 0.3575843393838780, 0.1804807884018343],
        [0.2126390058715104, 0.7151686787677559, 0.0721923153607337],
        [0.0193308187155918, 0.1191947797946259, 0.9505321522496606],
    ]
)
"""Linear sRGB to CIE XYZ, white D65 (IEC 61966-2-1)."""
_WHITE = _TO_XYZ.sum(axis=1)


def light_of(srgb: npt.ArrayLike) -> Array:
    """Linear light, 0 to 1, of sRGB values 0 to 1 (IEC 61966-2-1); any shape."""
    value = np.asarray(srgb, dtype=float)
    curved = ((np.maximum(value, 0.04045) + 0.055) / 1.055) ** 2.4
    return np.asarray(np.where(value <= 0.04045, value / 12.92, curved))


def srgb_of(light: npt.ArrayLike) -> Array:
    """sRGB values 0 to 1 of linear light, which is brought into 0 to 1 first; any shape."""
    value = np.clip(np.asarray(light, dtype=float), 0, 1)
    curved = 1.055 * np.maximum(value, 0.0031308) ** (1 / 2.4) - 0.055
    return np.asarray(np.where(value <= 0.0031308, 12.92 * value, curved))


def hex_of(light: npt.ArrayLike) -> str:
    """`#rrggbb` of one linear colour."""
    return "#" + "".join(f"{round(255 * float(value)):02x}" for value in srgb_of(light))


def light_of_hex(colour: str) -> Array:
    """Linear light (3,) of `#rrggbb`."""
    return light_of([int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)])


def lab_of(light: npt.ArrayLike) -> Array:
    """CIELAB (…, 3), white D65, of linear sRGB light (…, 3)."""
    ratio = np.maximum(np.asarray(light, dtype=float), 0) @ _TO_XYZ.T / _WHITE
    root = np.where(ratio > (6 / 29) ** 3, np.cbrt(ratio), ratio / (3 * (6 / 29) ** 2) + 4 / 29)
    x, y, z = root[..., 0], root[..., 1], root[..., 2]
    return np.stack([116 * y - 16, 500 * (x - y), 200 * (y - z)], axis=-1)


def difference(lab_a: npt.ArrayLike, lab_b: npt.ArrayLike) -> Array:
    """CIEDE2000 colour difference of CIELAB colours (…, 3), which are broadcast against each other.

    About 1 is just seen side by side. Formula: CIE 142-2001, as noted by Sharma, Wu and Dalal, Color Research and
    Application 30 (2005).
    """
    l_a, a_a, b_a = np.moveaxis(np.asarray(lab_a, dtype=float), -1, 0)
    l_b, a_b, b_b = np.moveaxis(np.asarray(lab_b, dtype=float), -1, 0)
    stretch = 1.5 - 0.5 * _seventh((np.hypot(a_a, b_a) + np.hypot(a_b, b_b)) / 2)
    chroma_a, chroma_b = np.hypot(stretch * a_a, b_a), np.hypot(stretch * a_b, b_b)
    hue_a, hue_b = np.arctan2(b_a, stretch * a_a), np.arctan2(b_b, stretch * a_b)
    d_hue, hue = _hues(hue_a % (2 * np.pi), hue_b % (2 * np.pi), chroma_a * chroma_b == 0)
    chroma = (chroma_a + chroma_b) / 2
    light = ((l_a + l_b) / 2 - 50) ** 2
    in_light = (l_b - l_a) / (1 + 0.015 * light / np.sqrt(20 + light))
    in_chroma = (chroma_b - chroma_a) / (1 + 0.045 * chroma)
    in_hue = 2 * np.sqrt(chroma_a * chroma_b) * np.sin(d_hue / 2) / (1 + 0.015 * chroma * _hue_weight(hue))
    turn = np.radians(60) * np.exp(-(((np.degrees(hue) - 275) / 25) ** 2))
    cross = -np.sin(turn) * 2 * _seventh(chroma) * in_chroma * in_hue
    return np.asarray(np.sqrt(np.maximum(in_light**2 + in_chroma**2 + in_hue**2 + cross, 0)))


def _seventh(chroma: Array) -> Array:
    return np.asarray(np.sqrt(chroma**7 / (chroma**7 + 25.0**7)))


def _hues(hue_a: Array, hue_b: Array, grey: npt.NDArray[np.bool_]) -> tuple[Array, Array]:
    """The signed difference and the mean of two hues, the short way round; radians."""
    d_hue = (hue_b - hue_a + np.pi) % (2 * np.pi) - np.pi
    far = np.abs(hue_a - hue_b) > np.pi
    total = hue_a + hue_b
    mean = np.where(far, np.where(total < 2 * np.pi, total + 2 * np.pi, total - 2 * np.pi), total) / 2
    return np.where(grey, 0, d_hue), np.where(grey, total, mean)


def _hue_weight(hue: Array) -> Array:
    degrees = np.pi / 180
    return np.asarray(
        1
        - 0.17 * np.cos(hue - 30 * degrees)
        + 0.24 * np.cos(2 * hue)
        + 0.32 * np.cos(3 * hue + 6 * degrees)
        - 0.20 * np.cos(4 * hue - 63 * degrees)
    )


PLAIN_NAMES = {
    "white": "#f8f6f2", "cream": "#ece2c8", "sand": "#cdb892", "brown": "#6b4a2f", "black": "#161616",
    "charcoal": "#45474a", "grey": "#8c8c8c", "silver": "#c4c4c4", "navy": "#23304d", "blue": "#2f5fae",
    "sky": "#8fb8dc", "teal": "#1f6f78", "green": "#3f7d45", "bottle green": "#1f4030", "olive": "#77743a",
    "yellow": "#e8c93a", "ochre": "#bf8a30", "orange": "#dd7a2c", "red": "#b8282e", "maroon": "#6a1f2b",
    "pink": "#e3a3ad", "purple": "#63407c", "lilac": "#b5a0cf",
}  # fmt: skip
"""Plain words for colours."""


def plain_name(light: npt.ArrayLike) -> str:
    """The plain word for the colour that looks nearest to one linear colour."""
    words = list(PLAIN_NAMES)
    known = lab_of(np.array([light_of_hex(PLAIN_NAMES[word]) for word in words]))
    return tr(words[int(np.argmin(difference(lab_of(light), known)))])
