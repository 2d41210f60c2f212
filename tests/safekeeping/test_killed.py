"""A process that is killed loses nothing but what was done since the work was kept last."""

import os
import random
import signal

import pytest

from safekeeping.killing import end_one

KILLS = int(os.environ.get("STRIPEWRIGHT_KILLS", "1"))
EVERY_S = 0.2
SLACK_S = 0.5
"""For a write under way and a busy machine."""


@pytest.mark.parametrize("seed", range(KILLS))
def test_a_kill_at_any_moment_loses_no_more_than_one_interval(tmp_path, harbour_skirt, seed):
    after_s = random.Random(seed).uniform(0.1, 1.5)
    ended = end_one(tmp_path, harbour_skirt, seed, after_s, EVERY_S, kept_first=True)
    assert ended.offered == 1
    assert ended.kept >= 1
    assert ended.lost_s <= EVERY_S + SLACK_S + ended.held_up_s


def test_a_polite_end_loses_nothing_and_asks_nothing(tmp_path, harbour_skirt):
    ended = end_one(tmp_path, harbour_skirt, 0, 0.1, 30.0, signal.SIGTERM)
    assert ended.offered == 1
    assert ended.kept == max(ended.edits)
