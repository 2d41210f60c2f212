"""Made pictures of striped cloth whose truth is known: pixels by exact areas of stripes, then what spoils a picture."""

from dataclasses import dataclass, replace

import numpy as np
from scipy.ndimage import gaussian_filter

FINER = 2
"""Samples of light in one pixel, each way."""


def linear(colour: str) -> np.ndarray:
    value = np.array([int(colour[at : at + 2], 16) for at in (1, 3, 5)]) / 255
    return np.where(value <= 0.04045, value / 12.92, ((value + 0.055) / 1.055) ** 2.4)


def encoded(light: np.ndarray) -> np.ndarray:
    light = np.clip(light, 0, 1)
    value = np.where(light <= 0.0031308, 12.92 * light, 1.055 * np.maximum(light, 1e-9) ** (1 / 2.4) - 0.055)
    return np.round(value * 255).astype(np.uint8)


@dataclass(frozen=True)
class Made:
    """What a picture is to show. Stripes are (centre, width, colour) in mm within one repeat."""

    repeat_mm: float
    stripes: tuple[tuple[float, float, str], ...]
    ground: str = "#e9e1cf"
    mm_per_px: float = 0.2
    size: tuple[int, int] = (640, 400)
    angle_deg: float = 0.0
    phase_mm: float = 1.7
    noise: float = 0.0
    blur_px: float = 0.0
    falloff: float = 0.0
    weave: float = 0.0
    thread_mm: float = 0.55
    fold: float = 0.0
    seed: int = 0
    even: bool = True


def light_at(made: Made, across_mm: np.ndarray) -> np.ndarray:
    """Linear light (…, 3) where one looks at the cloth, averaged over a sample's width across the stripes."""
    out = np.broadcast_to(linear(made.ground), (*across_mm.shape, 3)).copy()
    pixel = made.mm_per_px / FINER
    for centre, width, colour in made.stripes:
        off = (across_mm - centre + made.repeat_mm / 2) % made.repeat_mm - made.repeat_mm / 2
        share = np.clip((width / 2 + pixel / 2 - np.abs(off)) / pixel, 0, min(1, width / pixel))
        out += share[..., None] * (linear(colour) - out)
    return out


def shown(made: Made, x_mm: np.ndarray, y_mm: np.ndarray) -> np.ndarray:
    """Linear light of the cloth at places of it, folds and weave included."""
    angle = np.radians(made.angle_deg)
    across = x_mm * np.cos(angle) + y_mm * np.sin(angle)
    along = -x_mm * np.sin(angle) + y_mm * np.cos(angle)
    width, height = np.ptp(x_mm), np.ptp(y_mm)
    ridge = ((x_mm - x_mm.min()) * 0.45 + (y_mm - y_mm.min()) - 0.65 * height) / (0.06 * max(width, height))
    bump = np.exp(-(ridge**2))
    seen = light_at(made, across + made.phase_mm + made.fold * bump)
    weave = _weave(made, across, along)
    shade = 1 - 0.3 * min(1.0, made.fold) * bump * np.sign(ridge) * np.minimum(1, np.abs(ridge))
    return seen * (weave * shade)[..., None]


def _weave(made: Made, across: np.ndarray, along: np.ndarray) -> np.ndarray:
    pitch = 2 * np.pi / made.thread_mm
    return 1 + made.weave * (np.sin(pitch * across) * np.sin(pitch * along) + 0.5 * np.cos(pitch * along))


def spoiled(made: Made, light: np.ndarray) -> np.ndarray:
    """sRGB pixels of a picture taken in uneven light, a little out of focus, with noise.

    The light comes four samples a pixel: a lens blurs before pixels are formed, not after.
    """
    height, width = light.shape[:2]
    y, x = np.mgrid[-1 : 1 : height * 1j, -1 : 1 : width * 1j]
    lit = 1 - made.falloff * np.clip(0.4 + 0.35 * x + 0.2 * y + 0.1 * (x * x + y * y), 0, 1)
    light = light * lit[..., None]
    if made.blur_px:
        light = gaussian_filter(light, (FINER * made.blur_px, FINER * made.blur_px, 0), mode="nearest", truncate=3.5)
    light = light.reshape(height // FINER, FINER, width // FINER, FINER, 3).mean(axis=(1, 3))
    rng = np.random.default_rng(made.seed)
    return np.clip(encoded(light) + np.round(rng.normal(0, made.noise, light.shape)), 0, 255).astype(np.uint8)


def _samples(made: Made) -> tuple[np.ndarray, np.ndarray]:
    """Places (x, y), px, at which the light is looked at."""
    width, height = made.size
    y, x = np.mgrid[: FINER * height, : FINER * width]
    return (x + 0.5) / FINER, (y + 0.5) / FINER


def picture(made: Made) -> np.ndarray:
    """The picture, square on."""
    x, y = _samples(made)
    return spoiled(made, shown(made, x * made.mm_per_px, y * made.mm_per_px))


@dataclass(frozen=True)
class Fold:
    """A fold that hides cloth: through `at`, a share of the picture's width and height, its normal turned from across.

    `soft_mm` is how gradually the cloth turns into it.
    """

    hidden_mm: float
    at: float = 0.5
    turn_deg: float = 0.0
    soft_mm: float = 0.4


def folded(made: Made, *folds: Fold) -> np.ndarray:
    """The picture of cloth with folds; beyond each all that is seen lies nearer by what it hides."""
    x, y = (place * made.mm_per_px for place in _samples(made))
    angle = np.radians(made.angle_deg)
    across, along = x * np.cos(angle) + y * np.sin(angle), y * np.cos(angle) - x * np.sin(angle)
    seen_across, seen_along, light = across.copy(), along.copy(), 1.0
    for fold in folds:
        cos, sin = np.cos(np.radians(fold.turn_deg)), np.sin(np.radians(fold.turn_deg))
        beyond = (across - across.min() - fold.at * np.ptp(across)) * cos
        beyond = beyond + (along - along.min() - fold.at * np.ptp(along)) * sin
        shift = fold.hidden_mm / (1 + np.exp(-np.clip(beyond / fold.soft_mm, -50, 50)))
        seen_across, seen_along = seen_across + cos * shift, seen_along + sin * shift
        light = light * (1 - 0.25 * np.exp(-((beyond / (2 * fold.soft_mm + 0.5)) ** 2)))
    cloth = light_at(made, seen_across + made.phase_mm) * _weave(made, seen_across, seen_along)[..., None]
    return spoiled(made, cloth * np.broadcast_to(light, across.shape)[..., None])


def mixed(one: str, other: str) -> str:
    """The colour of cloth of which half the yarns are of one colour, half of another."""
    return "#" + bytes(encoded((linear(one) + linear(other)) / 2)).hex()


def plaid(made: Made, bars: Made, skew_percent: float) -> np.ndarray:
    """The picture of yarn-dyed cloth: half of what is seen anywhere is of the stripes' yarns, half of the bars'."""
    x, y = (place * made.mm_per_px for place in _samples(made))
    angle = np.radians(made.angle_deg)
    across, along = x * np.cos(angle) + y * np.sin(angle), y * np.cos(angle) - x * np.sin(angle)
    bars = replace(bars, mm_per_px=made.mm_per_px)
    seen = light_at(made, across + made.phase_mm) + light_at(bars, along - skew_percent / 100 * across + bars.phase_mm)
    return spoiled(made, seen / 2 * _weave(made, across, along)[..., None])


def aslant(made: Made, corners: tuple[tuple[float, float], ...], width_mm: float, height_mm: float) -> np.ndarray:
    """The picture taken aslant: a rectangle of the cloth of that size shows with its corners at these pixels."""
    to_cloth = _projective(np.array(corners), np.array([[0, 0], [width_mm, 0], [width_mm, height_mm], [0, height_mm]]))
    x, y = _samples(made)
    lifted = np.stack([x, y, np.ones_like(x)], axis=-1) @ to_cloth.T
    return spoiled(made, shown(made, lifted[..., 0] / lifted[..., 2], lifted[..., 1] / lifted[..., 2]))


def _projective(source: np.ndarray, target: np.ndarray) -> np.ndarray:
    """The projective map between four points and four others, as the null vector of its equations."""
    rows = []
    for (x, y), (s, t) in zip(source, target, strict=True):
        rows += [[x, y, 1, 0, 0, 0, -s * x, -s * y, -s], [0, 0, 0, x, y, 1, -t * x, -t * y, -t]]
    return np.linalg.svd(np.array(rows, dtype=float))[2][-1].reshape(3, 3)
