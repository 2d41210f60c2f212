"""The colours of a worn garment: the stripes under each pixel, blended by its size and shaded by the cloth's slope."""

from dataclasses import dataclass

import numpy as np
from PySide6.QtGui import QColor

from app.stripe_colours import PLAIN, Pixels, colour_of_kind, colours_round
from core.geometry.polyline import Floats
from core.model.cloth import Cloth
from core.model.project import Project
from core.seams.stripes import kinds_at
from core.worn.places import Places, Stripes
from core.worn.sight import Floats32, Frame, Pixels32, Sight

PLACES, LEVELS, SHADES = 1024, 4, 32
"""Places round a repeat, sizes of a pixel on slanting cloth (each twice the one before), and degrees of shade."""
_DARKEST, _INSIDE = 0.52, 0.66
_SEAM_PX, _SEAM_INK = 0.8, 0.62


@dataclass(frozen=True, eq=False)
class SeenColours:
    """A sight with what its colours need that stays when the body turns.

    `base` is where a pixel's level and shade begin in the table of one cloth; `fine` the pixels to a mm along a row.
    """

    sight: Sight
    base: Pixels32
    fine: Floats32

    @classmethod
    def of(cls, sight: Sight, frame: Frame) -> "SeenColours":
        """For the sight of a frame."""
        square = np.clip(np.abs(sight.facing), 0.06, 1.0)
        level = np.clip(np.rint(np.log2(1 / square)), 0, LEVELS - 1).astype(np.int32)
        light = (_DARKEST + (1 - _DARKEST) * square) * np.where(sight.facing < 0, _INSIDE, 1.0)
        shade = np.clip((light * (SHADES - 1) + _grain(sight.pixel, frame.wide)), 0, SHADES - 1).astype(np.int32)
        turned = np.clip(np.abs(np.cos(sight.angle)), 0.15, 1.0)
        return cls(sight, (level * SHADES + shade) * PLACES, np.asarray(turned * frame.scale, dtype=np.float32))


def _grain(pixel: Pixels32, wide: int) -> Floats:
    """What makes neighbouring degrees of shade run into each other, 0 to 1."""
    pattern = np.array([0, 8, 2, 10, 12, 4, 14, 6, 3, 11, 1, 9, 15, 7, 13, 5]) / 16
    return np.asarray(pattern[(pixel // wide % 4) * 4 + pixel % wide % 4])


@dataclass(frozen=True, eq=False)
class Palette:
    """The colours of a body's panels at one scale."""

    table: Pixels
    start: Pixels32
    per_mm: Floats32
    origin: Floats32
    bars: "Bars | None"

    @classmethod
    def of(cls, project: Project, panels: tuple[str, ...], pixel_mm: float) -> "Palette":
        """For panels of a project, seen with so many mm to the pixel."""
        cloths = list(dict.fromkeys(project.cloth_of(name) for name in panels))
        table = np.concatenate([_cloth_table(cloth, pixel_mm) for cloth in cloths])
        mine = [project.cloth_of(name) for name in panels]
        start = np.array([cloths.index(cloth) * LEVELS * SHADES * PLACES for cloth in mine], np.int32)
        repeats = [cloth.repeat for cloth in mine]
        per_mm = np.array([PLACES / repeat.width if repeat else 0.0 for repeat in repeats], np.float32)
        origin = np.array([repeat.origin if repeat else 0.0 for repeat in repeats], np.float32)
        return cls(table, start, per_mm, origin, Bars.of(mine, pixel_mm))

    def colours(self, seen: SeenColours, places: Places) -> Pixels:
        """Colours as 0xffRRGGBB, 0 where there is no panel; seams are thin lines."""
        panel: Pixels32 | int = np.maximum(places.panel, 0) if self.start.any() else 0
        place = ((places.w - self.origin[panel]) * self.per_mm[panel]).astype(np.int32)
        place &= PLACES - 1
        place += seen.base
        place += self.start[panel]
        found = self.table[place]
        if self.bars and places.z is not None:
            self.bars.draw_over(found, seen, places.panel, places.z)
        _draw_seams(found, places.to_seam * seen.fine)
        if places.panel.min(initial=0) < 0:
            found[places.panel < 0] = 0
        return found


@dataclass(frozen=True, eq=False)
class Bars:
    """What lies over the stripes of some cloths: bars, whose ground lets the stripes be seen.

    `colours` are red, green and blue times the share that is covered, and that share; (cloths * LEVELS * PLACES, 4).
    """

    colours: Floats32
    start: Pixels32
    per_mm: Floats32
    origin: Floats32

    @classmethod
    def of(cls, mine: list[Cloth], pixel_mm: float) -> "Bars | None":
        """Of the cloths of the panels, in their order; None where none of them has bars."""
        cloths = list(dict.fromkeys(mine))
        if not any(cloth.crosswise for cloth in cloths):
            return None
        table = [_bar_colours(cloth, pixel_mm * 2**level) for cloth in cloths for level in range(LEVELS)]
        start = np.array([cloths.index(cloth) * LEVELS * PLACES for cloth in mine], np.int32)
        bars = [cloth.crosswise for cloth in mine]
        per_mm = np.array([PLACES / bar.width if bar else 0.0 for bar in bars], np.float32)
        origin = np.array([bar.origin if bar else 0.0 for bar in bars], np.float32)
        return cls(np.concatenate(table).astype(np.float32), start, per_mm, origin)

    def draw_over(self, colours: Pixels, seen: SeenColours, panel: Pixels32, z: Floats32) -> None:
        """Draw the bars over the colours of the stripes."""
        panel = np.maximum(panel, 0)
        place = ((z - self.origin[panel]) * self.per_mm[panel]).astype(np.int32) & (PLACES - 1)
        found = place + self.start[panel] + seen.base // (SHADES * PLACES) * PLACES
        over = np.flatnonzero(self.colours[:, 3][found])
        bar, light = self.colours[found[over]], (seen.base[over] // PLACES % SHADES) / (SHADES - 1)
        under = np.stack([(colours[over] >> shift) & 255 for shift in (16, 8, 0)], axis=1)
        mixed = under * (1 - bar[:, 3:]) + bar[:, :3] * light[:, None]
        red, green, blue = np.rint(mixed).astype(np.uint32).T
        colours[over] = np.uint32(0xFF000000) | red << 16 | green << 8 | blue


def _bar_colours(cloth: Cloth, pixel_mm: float) -> Floats:
    """Colours of a cloth's bars round their repeat times the share covered, and that share; (PLACES, 4)."""
    bars = cloth.crosswise
    if bars is None:
        return np.zeros((PLACES, 4))
    kinds = kinds_at(bars, bars.origin + (np.arange(PLACES) + 0.5) * bars.width / PLACES)
    hues = [colour_of_kind(bars, kind).getRgb()[:3] for kind in range(len(bars.kinds))]
    table = np.array([(0, 0, 0, 0), *((*hue, 1) for hue in hues)], dtype=float)[kinds + 1]
    reach = min(round(pixel_mm * PLACES / bars.width), PLACES) // 2
    around = np.take(table, np.arange(-reach - 1, PLACES + reach), axis=0, mode="wrap")
    sums = np.cumsum(around, axis=0)
    return np.asarray((sums[2 * reach + 1 :] - sums[: -2 * reach - 1]) / (2 * reach + 1))


def _draw_seams(colours: Pixels, away_px: Floats32) -> None:
    """Darken what lies within a line of some px, its border softened."""
    near = np.flatnonzero(away_px < _SEAM_PX)
    ink = 1 - _SEAM_INK * np.clip(_SEAM_PX - away_px[near], 0, 1)
    channels = [((colours[near] >> shift) & 255) * ink for shift in (16, 8, 0)]
    red, green, blue = (channel.astype(np.uint32) for channel in channels)
    colours[near] = np.uint32(0xFF000000) | red << 16 | green << 8 | blue


def _cloth_table(cloth: Cloth, pixel_mm: float) -> Pixels:
    """Colours of a cloth by level, shade and place, one after the other."""
    light = np.linspace(0.0, 1.0, SHADES)[None, :, None, None]
    levels = np.stack([_channels(cloth, pixel_mm * 2**level) for level in range(LEVELS)])[:, None]
    red, green, blue = np.moveaxis(np.rint(levels * light).astype(np.uint32), -1, 0)
    return np.asarray(np.uint32(0xFF000000) | red << 16 | green << 8 | blue, dtype=np.uint32).ravel()


def _channels(cloth: Cloth, pixel_mm: float) -> Floats:
    if cloth.repeat is None:
        plain = QColor(cloth.crosswise.ground if cloth.crosswise else PLAIN)
        return np.tile([float(plain.red()), float(plain.green()), float(plain.blue())], (PLACES, 1))
    colours = colours_round(cloth.repeat, pixel_mm, PLACES)
    return np.stack([(colours >> shift) & 255 for shift in (16, 8, 0)], axis=-1).astype(float)


def drawn(palette: Palette, stripes: Stripes, layers: tuple[SeenColours, ...], frame: Frame, turn: float) -> Pixels:
    """The picture of a body turned by `turn` radians to the left; shape (high * wide,), 0 where there is nothing."""
    picture = np.zeros(frame.wide * frame.high, np.uint32)
    for seen in layers:
        found = palette.colours(seen, stripes.seen(seen.sight, turn))
        there = found != 0
        picture[seen.sight.pixel[there]] = found[there]
    return picture
