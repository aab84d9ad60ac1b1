"""Work on all processors, where there is enough of it to be worth the start of a few processes."""

from __future__ import annotations

import multiprocessing
import os
import threading
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from typing import Any, TypeVar

R = TypeVar("R")

PART = 40
"""Pieces of work that a process takes at a time: small enough that none waits long for another at the end."""

_work: Callable[[int], Any] | None = None
"""What the processes do; they are forked off, so they have it without a copy."""


def processors() -> int:
    """How many processes may work side by side here; 1 where this process cannot be forked safely."""
    if "fork" not in multiprocessing.get_all_start_methods() or multiprocessing.current_process().daemon:
        return 1
    if threading.active_count() > 1:
        return 1
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def spread(count: int, work: Callable[[int], R], processes: int) -> list[R] | None:
    """`work(0)` to `work(count - 1)`, in order, done by so many processes; an exception in one is raised here.

    What `work` gives is pickled; what else it does stays in its own process. None where a process did not live to
    the end, for want of memory or because somebody ended it.
    """
    global _work
    _work = work
    parts = [range(start, min(start + PART, count)) for start in range(0, count, PART)]
    try:
        with ProcessPoolExecutor(processes, multiprocessing.get_context("fork")) as pool:
            return [result for results in pool.map(_part, parts) for result in results]
    except BrokenProcessPool:
        return None
    finally:
        _work = None


def _part(places: range) -> list[Any]:
    assert _work is not None
    return [_work(place) for place in places]
