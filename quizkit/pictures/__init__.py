"""Pictures drawn from numbers: each figure is a pure function of plain floats that gives one SVG.

Where reading a picture is the question, its words say what is drawn and never the value, and its geometry is plain
points. `SPOKEN` holds what a trainer may read out instead. Bad numbers raise `FigureError`.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from quizkit.pictures.bounds import FigureError
from quizkit.pictures.cartridge import (
    cartridge_scale,
    plungers,
    say_cartridge_scale,
    say_plungers,
    say_two_readings,
    two_readings,
)
from quizkit.pictures.dial import flow_dial, say_flow_dial
from quizkit.pictures.gauge import pressure_gauge, say_pressure_gauge
from quizkit.pictures.thermometer import say_thermometer, say_thermometer_log, thermometer, thermometer_log

__all__ = ["FIGURES", "SPOKEN", "FigureError"]

FIGURES: Mapping[str, Callable[..., str]] = MappingProxyType(
    {
        "pressure_gauge": pressure_gauge,
        "flow_dial": flow_dial,
        "cartridge_scale": cartridge_scale,
        "two_readings": two_readings,
        "plungers": plungers,
        "thermometer_log": thermometer_log,
        "thermometer": thermometer,
    }
)
"""The figures that a lesson or a question may call for, by name: each takes numbers in order and `id` by keyword."""

SPOKEN: Mapping[str, Callable[..., str]] = MappingProxyType(
    {
        "pressure_gauge": say_pressure_gauge,
        "flow_dial": say_flow_dial,
        "cartridge_scale": say_cartridge_scale,
        "two_readings": say_two_readings,
        "plungers": say_plungers,
        "thermometer_log": say_thermometer_log,
        "thermometer": say_thermometer,
    }
)
"""For each figure that is read: the words, from the same numbers, that a trainer may say to who cannot see it."""
