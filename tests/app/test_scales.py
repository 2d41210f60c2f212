"""Every place on a screen that is enlarged by a half and twofold: the same window, nothing cut off."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from windows import ON_X_SERVER

ROOT = Path(__file__).resolve().parents[2]
WALKS = ("tests/app/test_every_place.py", "tests/words/test_whole_window.py")

pytestmark = ON_X_SERVER


@pytest.mark.parametrize("scale", ["1.5", "2"])
def test_enlarged_nothing_is_cut_off(scale):
    env = {**os.environ, "QT_SCALE_FACTOR": scale, "QT_QPA_PLATFORM": "offscreen"}
    command = [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", *WALKS]
    done = subprocess.run(command, env=env, cwd=ROOT, capture_output=True, text=True, timeout=600)
    assert done.returncode == 0, done.stdout[-4000:]
