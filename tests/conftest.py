import os
from pathlib import Path

import pytest

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

SAMPLES = Path(__file__).resolve().parent.parent / "sample_projects"


@pytest.fixture
def harbour_skirt() -> Path:
    return SAMPLES / "harbour-skirt.stripewright"


@pytest.fixture
def pier_parasol() -> Path:
    return SAMPLES / "pier-parasol.stripewright"
