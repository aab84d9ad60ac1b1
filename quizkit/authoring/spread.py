"""Work on all processors, where there is enough of it to be worth the start of a few processes."""

from __future__ import annotations

import io
import multiprocessing
import os
import pickle
import threading
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from dataclasses import fields, is_dataclass
from functools import lru_cache
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
            return [result for results in pool.map(_part, parts) for result in pickle.loads(results)]
    except BrokenProcessPool:
        return None
    finally:
        _work = None


def _part(places: range) -> bytes:
    assert _work is not None
    stream = io.BytesIO()
    _Packer(stream, pickle.HIGHEST_PROTOCOL).dump([_work(place) for place in places])
    return stream.getvalue()


class _Packer(pickle.Pickler):
    """Sends data classes as what they are made of: as Python sends frozen ones, that takes three times as long."""

    def reducer_override(self, value: Any) -> Any:
        kind: Any = type(value)
        made_of = _made_of(kind)
        return NotImplemented if made_of is None else (kind, tuple([getattr(value, one) for one in made_of]))


@lru_cache(maxsize=128)
def _made_of(kind: Any) -> tuple[str, ...] | None:
    """The arguments of a data class, None for any other kind of value."""
    return tuple(field.name for field in fields(kind) if field.init) if is_dataclass(kind) else None
