"""The pint registry of the declared units, against which tests hold our table and our dimensions."""

from functools import lru_cache
from typing import TYPE_CHECKING, Any

from quizkit.units.declared import UNITS, Unit

if TYPE_CHECKING:
    import pint


@lru_cache(maxsize=1)
def registry() -> "pint.UnitRegistry[Any]":
    """The pint registry of the same declared units; built once, on first use. `pint_name` gives their names in it."""
    import pint

    ours: pint.UnitRegistry[Any] = pint.UnitRegistry(None, autoconvert_offset_to_baseunit=False)
    for base in ("length", "mass", "time", "kelvin", "mol", "money", "turn", "ppm", "sound"):
        ours.define(f"base_{base} = [{base}]")
    for one in UNITS:
        scale = "*".join(f"base_{base}**{power}" for base, power in one.kind.dims) or "1"
        offset = f"; offset: {float(one.offset)!r}" if one.offset else ""
        ours.define(f"{pint_name(one)} = {float(one.factor)!r} * {scale}{offset}")
    return ours


_PINT_NAMES = {"%": "percent", "$": "dollar", "¢": "cent", "µm": "um", "µg": "ug", "°C": "degC", "°F": "degF"}


def pint_name(one: Unit) -> str:
    """The name of a declared unit in `registry()`: letters, digits and underscores only."""
    name = _PINT_NAMES.get(one.symbol, one.symbol)
    return "u_" + name.replace("²", "2").replace("³", "3").replace(" ", "_")
