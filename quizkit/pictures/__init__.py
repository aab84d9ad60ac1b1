"""Pictures drawn from numbers: each figure is a pure function of plain floats that gives one SVG.

Where reading a picture is the question, its words say what is drawn and never the value, and its geometry is plain
points. `SPOKEN` holds what a trainer may read out instead. Bad numbers raise `FigureError`.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from quizkit.pictures.bead import bond_line, fillet_bead, half_round_bead, rect_bead, round_bead, vee_bead
from quizkit.pictures.bounds import FigureError
from quizkit.pictures.cartridge import (
    cartridge_scale,
    plungers,
    say_cartridge_scale,
    say_plungers,
    say_two_readings,
    two_readings,
)
from quizkit.pictures.cover import cover_chart
from quizkit.pictures.day import exposure_day
from quizkit.pictures.dial import flow_dial, say_flow_dial
from quizkit.pictures.digital import say_scale_reading, scale_reading
from quizkit.pictures.gauge import pressure_gauge, say_pressure_gauge
from quizkit.pictures.label import shelf_label
from quizkit.pictures.ports import ports
from quizkit.pictures.shares import shares_chart
from quizkit.pictures.signs import (
    ghs_bomb,
    ghs_corrosion,
    ghs_environment,
    ghs_exclamation,
    ghs_flame,
    ghs_gas,
    ghs_health,
    ghs_oxidiser,
    ghs_skull,
)
from quizkit.pictures.strip import open_time_strip, solid_scale
from quizkit.pictures.thermometer import say_thermometer, say_thermometer_log, thermometer, thermometer_log

__all__ = ["FIGURES", "SPOKEN", "FigureError", "cover_chart", "shares_chart", "shelf_label", "solid_scale"]

FIGURES: Mapping[str, Callable[..., str]] = MappingProxyType(
    {
        "pressure_gauge": pressure_gauge,
        "flow_dial": flow_dial,
        "cartridge_scale": cartridge_scale,
        "two_readings": two_readings,
        "round_bead": round_bead,
        "half_round_bead": half_round_bead,
        "fillet_bead": fillet_bead,
        "rect_bead": rect_bead,
        "vee_bead": vee_bead,
        "bond_line": bond_line,
        "ports": ports,
        "plungers": plungers,
        "thermometer_log": thermometer_log,
        "thermometer": thermometer,
        "open_time_strip": open_time_strip,
        "scale_reading": scale_reading,
        "exposure_day": exposure_day,
        "ghs_flame": ghs_flame,
        "ghs_exclamation": ghs_exclamation,
        "ghs_health": ghs_health,
        "ghs_corrosion": ghs_corrosion,
        "ghs_oxidiser": ghs_oxidiser,
        "ghs_skull": ghs_skull,
        "ghs_gas": ghs_gas,
        "ghs_bomb": ghs_bomb,
        "ghs_environment": ghs_environment,
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
        "scale_reading": say_scale_reading,
    }
)
"""For each figure that is read: the words, from the same numbers, that a trainer may say to who cannot see it."""
