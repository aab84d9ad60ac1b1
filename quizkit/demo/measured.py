"""What was measured at the bench for each sheet of the demo, worked out from the shelf row that was used."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction

from quizkit.formula import Row
from quizkit.trade import SUMS
from quizkit.units import show, unit

SMALL_SIDE = 20
"""Grams of the small side in a weighed pair of shots."""


def measured(skill: str, row: Row) -> Mapping[str, str]:
    """The values of a skill's sheet that satisfy its judges with this material, as typed."""
    return _SHEETS[skill](row)


def _ppe(row: Row) -> dict[str, str]:
    return {"eyewash_way": "7", "glove_chart": _in(row, "glove_time", "min"), "glove_worn": "6"}


def _ratio_pairing(row: Row) -> dict[str, str]:
    return {"shot_a": _side_a(row), "shot_b": f"{SMALL_SIDE}.0", "scale_step": "0.1"}


def _applicator_pressure(row: Row) -> dict[str, str]:
    return {
        "inlet": _in(row, "inlet_limit", "psi", Fraction(9, 10)),
        "shot_one": "10.4",
        "shot_two": "10.1",
        "screw": _in(row, "flow_screw", "turns"),
        "width_one": "8.0",
        "width_two": "8.4",
        "width_end": "8.2",
    }


def _balancing(row: Row) -> dict[str, str]:
    tare = Fraction(31, 10)
    gross_a = gross_b = tare
    pairs: dict[str, str] = {}
    for at, off in enumerate((Fraction(0), Fraction(2, 10), Fraction(-1, 10)), 1):
        gross_a, gross_b = gross_a + Fraction(_side_a(row)) + off, gross_b + SMALL_SIDE
        pairs |= {f"gross_a{at}": _plain(gross_a), f"gross_b{at}": _plain(gross_b)}
    return {
        "tare_a": _plain(tare),
        "tare_b": _plain(tare),
        **pairs,
        "scale_step": "0.1",
        "nozzle_fill": "8",
        "purged": "20",
    }


def _bead_volume(row: Row) -> dict[str, str]:
    widths = {"wide_one": "9.0", "wide_two": "9.6", "wide_end": "9.2"}
    heights = {"high_one": "7.8", "high_two": "8.0", "high_end": "7.5"}
    return {
        "planned": "62",
        "used": "65",
        "asked": "9.0",
        **widths,
        **heights,
        "laying": _in(row, "open_time", "min", Fraction(3, 4)),
        "bay_open": _in(row, "open_time", "min", Fraction(9, 10)),
    }


def _storage(row: Row) -> dict[str, str]:
    return {"store": "19"}


def _billing(row: Row) -> dict[str, str]:
    millilitre = unit("mL").factor
    before, after = 40 * millilitre, 85 * millilitre
    cost = _cents(SUMS["used_cost"].function(before, after, row.field("cartridge"), row.field("price")))
    nozzles, lowest = Fraction(440, 100), Fraction(8)
    charge = _cents(SUMS["least"].function((cost + nozzles) * Fraction(7, 5), lowest))
    taxed = SUMS["tax"].function(charge, Fraction(7, 100))
    return {
        "before": "40",
        "after": "85",
        "billed": _plain(cost),
        "nozzles": _plain(nozzles),
        "share": "40",
        "lowest": _plain(lowest),
        "charge": _plain(charge),
        "rate": "7",
        "taxed": _plain(taxed),
        "total": _plain(charge + taxed),
    }


_SHEETS: dict[str, Callable[[Row], dict[str, str]]] = {
    "ppe": _ppe,
    "ratio-pairing": _ratio_pairing,
    "applicator-pressure": _applicator_pressure,
    "balancing": _balancing,
    "bead-volume": _bead_volume,
    "storage": _storage,
    "billing": _billing,
}


def _side_a(row: Row) -> str:
    """Grams of side A that belong to the small side, to the tenth that the scale shows."""
    weight_ratio = row.field("weight_ratio")
    assert isinstance(weight_ratio, Fraction)
    grams = SMALL_SIDE * weight_ratio
    return _plain(round(grams * 10) / Fraction(10))


def _in(row: Row, field: str, symbol: str, share: Fraction = Fraction(1)) -> str:
    """A share of a field of the label, in a unit."""
    value = row.field(field)
    assert isinstance(value, Fraction)
    return _plain(round(unit(symbol).from_base(value) * share * 10) / Fraction(10))


def _cents(value: Fraction) -> Fraction:
    return Fraction(round(value * 100), 100)


def _plain(value: Fraction) -> str:
    return show(value, unit(""))
