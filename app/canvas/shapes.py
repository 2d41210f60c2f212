"""Arrays of points as Qt's shapes, in the forms that are made and drawn quickest."""

import struct

import numpy as np
from PySide6.QtCore import QByteArray, QDataStream, QLineF
from PySide6.QtGui import QPolygonF

from core.geometry.paths import Points


def polygon(points: Points) -> QPolygonF:
    """Points of shape (n, 2) as Qt's polygon, handed over whole: point by point takes ten times as long."""
    shape = QPolygonF()
    QDataStream(QByteArray(struct.pack(">I", len(points)) + points.astype(">f8").tobytes())) >> shape
    return shape


def lines(points: Points) -> list[QLineF]:
    """The straight parts from each of some points, shape (n, 2), to the next. Solid pens without round caps draw
    them some four times as fast as one path through the same points; broken ones begin anew with each line."""
    return [QLineF(*ends) for ends in np.hstack([points[:-1], points[1:]]).tolist()]


def ring(points: Points) -> list[QLineF]:
    """As `lines`, and back to the first point."""
    return lines(np.vstack([points, points[:1]]))
