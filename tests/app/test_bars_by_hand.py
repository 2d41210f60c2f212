"""What the workbench does to panels at once keeps their place in stripes and bars."""

import pytest

from app.commands import spread_out
from core.geometry.transform import placed
from core.seams.garment import Garment
from core.seams.readings import measure
from garments import repeat, ring, scattered

BARS = repeat("even", 45.0)


@pytest.mark.parametrize("keys", [{}, {"skew": 9.0, "weft_skew_percent": 2.0}, {"repeat": None}, {"bow_percent": 2.0}])
def test_panels_spread_out_keep_their_stripes_and_bars(keys):
    project = scattered(ring(5, number=6, crosswise=BARS, **keys), 5)
    garment, cloth = Garment.of(project), project.cloths[0]
    spread = project.placed(spread_out(project, garment.panels, project.panel_names))
    if cloth.repeat:
        assert measure(spread).rms_of("lengthwise") == pytest.approx(measure(project).rms_of("lengthwise"), abs=0.003)
    if not cloth.bow_per_mm:
        assert measure(spread).rms_of("crosswise") == pytest.approx(measure(project).rms_of("crosswise"), abs=0.003)
    for name, panel in garment.panels.items():
        before, after = (_z_of_middle(cloth, panel, one.placement(name)) for one in (project, spread))
        assert (after - before + 22.5) % 45.0 == pytest.approx(22.5, abs=0.003)


def _z_of_middle(cloth, panel, at):
    u, v = placed(panel.middle[None], at.u, at.v, at.turn_deg, at.turned)[0]
    from_middle = 2 * u / cloth.width - 1
    return v - cloth.weft_skew_percent / 100 * u - cloth.bow_percent / 100 * cloth.width * (1 - from_middle**2)
