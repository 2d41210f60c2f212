"""The real program in a process of its own, worked on until it is killed.

Run by itself it is a longer trial: `python tests/safekeeping/killing.py TIMES SEED` kills so many processes, each at a
random moment.
"""

import os
import random
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
WORKED_ON = """
import sys, time
from pathlib import Path
from PySide6.QtCore import QSettings, QTimer
from PySide6.QtWidgets import QApplication
QSettings.setDefaultFormat(QSettings.Format.IniFormat)
QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, sys.argv[2])
from app.workbench import application, run
application()
log = open(sys.argv[3], "a", buffering=1)
count = 0

def begin():
    global window, timer
    window = next(it for it in QApplication.topLevelWidgets() if hasattr(it, "keeper"))
    window.keeper.set_interval(float(sys.argv[4]))
    timer = QTimer(interval=15)
    timer.timeout.connect(work)
    timer.start()

def work():
    global count
    count += 1
    window.edits.type_place("side.R", "u", float(count))
    log.write(f"{count} {time.monotonic()}\\n")
    if count % 7 == 0:
        window.edits.type_turn("back.L", (count % 5) * 0.05)
    if count % 11 == 0:
        window.document.undo_step()
        window.document.redo_step()

QTimer.singleShot(0, begin)
run(Path(sys.argv[1]))
"""


@dataclass(frozen=True)
class Ended:
    """What was found after a process had ended: edits done with their times, the time of its end, the one kept last."""

    edits: dict[int, float]
    ended_at: float
    kept: int | None
    offered: int

    @property
    def lost_s(self) -> float:
        """How old the oldest edit was that was lost."""
        lost = [at for count, at in self.edits.items() if count > (self.kept or 0)]
        return self.ended_at - min(lost) if lost else 0.0

    @property
    def held_up_s(self) -> float:
        """The longest time in which the machine let the program do nothing."""
        times = [*sorted(at for at in self.edits.values() if at <= self.ended_at), self.ended_at]
        return max(later - earlier for earlier, later in pairwise(times))


def environment(folder: Path) -> dict[str, str]:
    return {
        **os.environ,
        "QT_QPA_PLATFORM": "offscreen",
        "PYTHONPATH": str(ROOT),
        "XDG_DATA_HOME": str(folder / "data"),
    }


def end_one(
    folder: Path, sample: Path, after_s: float, every_s: float, how: int = signal.SIGKILL, kept_first: bool = False
) -> Ended:
    """Open a copy of a sample, work on it, end the process so long after the first edit (or after it was first kept);
    see what is kept."""
    folder.mkdir(parents=True, exist_ok=True)
    path, log = folder / "skirt.stripewright", folder / "edits.txt"
    shutil.copy(sample, path)
    before = path.read_bytes()
    command = [sys.executable, "-c", WORKED_ON, path, folder / "settings", log, every_s]
    with subprocess.Popen([str(word) for word in command], env=environment(folder)) as process:
        while not _worked_on(folder, log, kept_first):
            if process.poll() is not None:
                raise RuntimeError(f"it ended by itself with {process.returncode}")
            time.sleep(0.005)
        time.sleep(after_s)
        ended_at = time.monotonic()
        process.send_signal(how)
        process.wait(20)
    assert path.read_bytes() == before
    return _found(folder, log, ended_at)


def _worked_on(folder: Path, log: Path, kept: bool) -> bool:
    edited = log.exists() and log.stat().st_size > 0
    return edited and (not kept or any(folder.glob("data/**/recovery/*.json")))


def _found(folder: Path, log: Path, ended_at: float) -> Ended:
    from app.safekeeping.recovery import find_orphans

    lines = [line.split() for line in log.read_text().splitlines() if line.count(" ") == 1]
    edits = {int(count): float(at) for count, at in lines}
    orphans = find_orphans(next(folder.glob("data/**/recovery"), folder))
    kept = [round(orphan.read().placement("side.R").u) for orphan in orphans]
    for orphan in orphans:
        orphan.let_go()
    return Ended(edits, ended_at, kept[0] if kept else None, len(orphans))


def main(times: int, seed: int) -> None:
    sys.path.insert(0, str(ROOT))
    dice, every_s = random.Random(seed), 0.5
    sample = ROOT / "sample_projects" / "harbour-skirt.stripewright"
    most = over = 0.0
    for number in range(times):
        with tempfile.TemporaryDirectory() as folder:
            ended = end_one(Path(folder), sample, dice.uniform(0.0, 2.5), every_s)
        most, over = max(most, ended.lost_s), max(over, ended.lost_s - ended.held_up_s)
        figures = f"lost {ended.lost_s:.3f} s, held up for {ended.held_up_s:.3f} s"
        print(f"{number + 1}: {len(ended.edits)} edits, kept to {ended.kept}, {figures}", flush=True)
    print(f"The most that was lost: {most:.3f} s, {over:.3f} s of it not held up, at an interval of {every_s} s.")


if __name__ == "__main__":
    main(int(sys.argv[1]), int(sys.argv[2]))
