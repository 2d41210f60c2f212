"""The cloth is drawn to scale, with its true stripes, wherever one looks."""

import numpy as np
import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QImage, QPainter

from app.canvas.cloth import average_colour, paint_stripes
from core.model.cloth import Cloth, Repeat, Stripe
from core.seams.stripes import kinds_at

SCALE = 8.0
REPEAT = Repeat(
    width=30.0,
    origin=7.0,
    ground="#e0d8c8",
    stripes=(
        Stripe(name="broad", at=2.0, width=12.0, colour="#203060"),
        Stripe(name="line", at=3.0, width=3.0, colour="#c04020"),
        Stripe(name="far", at=20.0, width=4.0, colour="#308040"),
    ),
)


def picture(cloth: Cloth, part: QRectF) -> QImage:
    image = QImage(round(part.width() * SCALE), round(part.height() * SCALE), QImage.Format.Format_RGB32)
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.scale(SCALE, SCALE)
    painter.translate(-part.topLeft())
    paint_stripes(painter, cloth, part, SCALE)
    painter.end()
    return image


@pytest.mark.parametrize("skew", [0.0, 40.0, -25.0])
@pytest.mark.parametrize("v", [0.0, 3000.0])
def test_what_is_drawn_is_what_core_sees(skew, v):
    cloth = Cloth(id="c", width=1500.0, repeat=REPEAT, skew_mm_per_m=skew)
    part = QRectF(400.0, v, 100.0, 40.0)
    image = picture(cloth, part)
    colours = {-1: REPEAT.ground, **{index: kind[0].colour for index, kind in enumerate(REPEAT.kinds)}}
    x, y = np.meshgrid(np.arange(3, image.width(), 7), np.arange(2, image.height(), 31))
    w = part.left() + (x + 0.5) / SCALE - cloth.skew * (part.top() + (y + 0.5) / SCALE)
    seen, beside = kinds_at(REPEAT, w), [kinds_at(REPEAT, w + d) for d in (-0.15, 0.15)]
    clear = (seen == beside[0]) & (seen == beside[1])
    assert clear.mean() > 0.8
    for i, j in zip(*np.nonzero(clear), strict=True):
        assert image.pixelColor(int(x[i, j]), int(y[i, j])) == QColor(colours[int(seen[i, j])])


def test_from_afar_the_repeat_has_its_average_colour():
    cloth = Cloth(id="c", width=1500.0, repeat=REPEAT)
    small = picture(cloth, QRectF(7.0, 0.0, 300.0, 1.0))
    mean = np.mean(
        [small.pixelColor(x, 2).getRgb()[:3] for x in range(small.width())],
        axis=0,
    )
    assert average_colour(REPEAT).getRgb()[:3] == pytest.approx(mean, abs=1.5)
