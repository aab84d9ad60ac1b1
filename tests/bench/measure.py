"""What the benches share: medians of interleaved repeats, programs of their own process, and lines that read alike."""

import os
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from pathlib import Path

ROOT = Path(__file__).parents[2]
Work = Callable[[], object]


def seconds(work: Work) -> float:
    """How long one run takes by the clock."""
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def medians(repeats: int, *works: Work) -> list[float]:
    """The median time of each, all of them run in turn, so that a busy moment of the machine meets all alike."""
    times: list[list[float]] = [[] for _work in works]
    for _repeat in range(repeats):
        for place, work in enumerate(works):
            times[place].append(seconds(work))
    return [statistics.median(found) for found in times]


def program(code: str, *arguments: object) -> Work:
    """A Python program of its own process, started anew at each call, imports and all."""
    command = [sys.executable, "-c", code, *map(str, arguments)]

    def run() -> None:
        subprocess.run(command, cwd=ROOT, check=True, stdout=subprocess.DEVNULL, env={**os.environ, "PYTHONPATH": "."})

    return run


def processor_time(work: Work) -> float:
    """The time that processors spend on the programs which a run starts, all of them together."""
    before = os.times()
    work()
    after = os.times()
    return after.children_user + after.children_system - before.children_user - before.children_system


def said(code: str, *arguments: object) -> float:
    """The number that a Python program of its own process prints last."""
    command = [sys.executable, "-c", code, *map(str, arguments)]
    done = subprocess.run(
        command, cwd=ROOT, check=True, capture_output=True, text=True, env={**os.environ, "PYTHONPATH": "."}
    )
    return float(done.stdout.split()[-1])


def line(what: str, ours: float, floor: float, aim: float, of: str) -> None:
    """Print a ratio with its aim; times in the unit that reads best."""
    ratio = ours / floor
    mark = "" if ratio <= aim else "  MISSED"
    print(f"{what:46} {shown(ours):>10}  {ratio:5.2f} × {of} ({shown(floor)}), aim ≤ {aim}{mark}")


def shown(time_taken: float) -> str:
    """A time in s, ms or µs."""
    scale, unit = next(((s, u) for s, u in ((1, "s"), (1e-3, "ms")) if time_taken >= s), (1e-6, "µs"))
    return f"{time_taken / scale:.3g} {unit}"


def machine() -> str:
    """What the figures were taken on, without a name."""
    cores: Sequence[int] | set[int] = os.sched_getaffinity(0) if hasattr(os, "sched_getaffinity") else [0]
    load = os.getloadavg()[0] if hasattr(os, "getloadavg") else 0.0
    return f"Python {sys.version.split()[0]}, {len(cores)} processors, load {load:.1f}"
