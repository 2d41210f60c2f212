"""The real program in a process of its own, worked on until it is killed.

Run by itself it is a longer trial: `python tests/safekeeping/killing.py TIMES SEED` kills so many processes, each at a
random moment.
"""

import hashlib
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

import msgspec

ROOT = Path(__file__).resolve().parents[2]
WORKED_ON = """
import hashlib, random, sys, time
from pathlib import Path
import msgspec
from PySide6.QtCore import QSettings, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
QSettings.setDefaultFormat(QSettings.Format.IniFormat)
QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, sys.argv[2])
from app.safekeeping.stamp import read_stamped
from app.workbench import application, run
from core.files.project_file import project_to_bytes
application()
log = open(sys.argv[3], "a", buffering=1)
dice = random.Random(int(sys.argv[5]))
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
    if window.document.is_empty:
        return
    count += 1
    (fill_in if window.ways.page else edit)()
    parts = project_to_bytes(window.document.kept), msgspec.json.encode(window.ways.stand())
    print(count, time.monotonic(), *(hashlib.sha256(part).hexdigest() for part in parts), file=log)

def edit():
    panel = dice.choice(window.document.kept.panel_names)
    does = (
        lambda: window.edits.type_place(panel, dice.choice("uv"), dice.uniform(0, 900)),
        lambda: window.edits.type_turn(panel, dice.uniform(-0.2, 0.2)),
        lambda: window.document.select((panel,)) or window.edits.nudge(dice.choice([0.1, 1, 10]), 0),
        lambda: window.document.select((panel,)) or window.edits.switch_hold(),
        lambda: window.document.undo.index() > 1 and window.document.undo_step(),
        window.document.redo_step,
    )
    window.ways.cloth() if dice.random() < 0.04 else does[0]() if count == 1 else dice.choice(does)()

def fill_in():
    page = window.ways.page
    field = dice.choice([field for field in page.form.fields[:4]])
    QTest.keyClicks(field.entry, dice.choice("0123456789 ,"))
    if dice.random() < 0.06:
        window.ways.leave_all()

QTimer.singleShot(0, begin)
run(read_stamped(Path(sys.argv[1])))
"""


@dataclass(frozen=True)
class Ended:
    """What was found after a process had ended: its edits' times, when it ended, and which of them is kept, if any."""

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
    folder: Path,
    sample: Path,
    seed: int,
    after_s: float,
    every_s: float,
    how: int = signal.SIGKILL,
    kept_first: bool = False,
) -> Ended:
    """Open a copy of a sample, do to it what the seed says, end the process so long after the first edit (or after it
    was first kept); see what is kept."""
    folder.mkdir(parents=True, exist_ok=True)
    path, log = folder / "skirt.stripewright", folder / "edits.txt"
    shutil.copy(sample, path)
    before = path.read_bytes()
    command = [sys.executable, "-c", WORKED_ON, path, folder / "settings", log, every_s, seed]
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

    lines = [line.split() for line in log.read_text().splitlines() if line.count(" ") == 3]
    edits = {int(count): float(at) for count, at, _, _ in lines}
    orphans = find_orphans(next(folder.glob("data/**/recovery"), folder / "never kept"))
    kept = None
    for orphan in orphans:
        orphan.read()
        pages = msgspec.json.encode(orphan.origin.pages)
        kept = min(_last(lines, 2, orphan.path.read_bytes()), _last(lines, 3, pages))
        orphan.let_go()
    return Ended(edits, ended_at, kept, len(orphans))


def _last(lines: list[list[str]], column: int, content: bytes) -> int:
    """The last edit after which a part of the work had this content; every content kept is one that there was."""
    digest = hashlib.sha256(content).hexdigest()
    return max(int(line[0]) for line in lines if line[column] == digest)


def main(times: int, seed: int) -> None:
    sys.path.insert(0, str(ROOT))
    dice, every_s = random.Random(seed), 0.5
    sample = ROOT / "sample_projects" / "harbour-skirt.stripewright"
    most = over = 0.0
    for number in range(times):
        with tempfile.TemporaryDirectory() as folder:
            ended = end_one(Path(folder), sample, dice.randrange(10**6), dice.uniform(0.0, 2.5), every_s)
        most, over = max(most, ended.lost_s), max(over, ended.lost_s - ended.held_up_s)
        figures = f"lost {ended.lost_s:.3f} s, held up for {ended.held_up_s:.3f} s"
        print(f"{number + 1}: {len(ended.edits)} edits, kept to {ended.kept}, {figures}", flush=True)
    print(f"The most that was lost: {most:.3f} s, {over:.3f} s of it not held up, at an interval of {every_s} s.")


if __name__ == "__main__":
    main(int(sys.argv[1]), int(sys.argv[2]))
