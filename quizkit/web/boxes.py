"""The boxes of the bench sums in words: what each is called, how it may be typed, what the shelf's label says of it."""

from __future__ import annotations

from quizkit.words import _

SHELF = {
    "ratio": "ratio",
    "density_a": "density_a",
    "density_b": "density_b",
    "cartridge": "cartridge",
    "full": "cartridge",
    "price": "price",
    "set": "flow_screw",
    "open_time": "open_time",
    "time_in_nozzle": "nozzle_time",
    "breakthrough": "glove_time",
    "target": "weight_ratio",
}
"""The field of the shelf's label that a box takes its value from, by the argument of the sum."""
OTHERWISE = {("store_life", "limit"): "store_limit", ("nozzle_cost", "price"): "", ("cartridges_needed", "nozzle"): ""}
"""The same where a sum means something else by the name; empty where the label does not say it."""


def shelf_field(sum_name: str, argument: str) -> str:
    """The field of the shelf that fills a box, or nothing."""
    return OTHERWISE.get((sum_name, argument), SHELF.get(argument, ""))


def label(sum_name: str, argument: str) -> str:
    """What the box of an argument is called."""
    return _special().get((sum_name, argument)) or _labels().get(argument, argument.replace("_", " ").capitalize())


def _special() -> dict[tuple[str, str], str]:
    return {
        ("vee_area", "base"): _("Width of the V at its foot"),
        ("vee_area", "height"): _("Height of the V"),
        ("rect_area", "width"): _("Width of the joint"),
        ("rect_area", "depth"): _("Depth of the joint"),
        ("joint_bead", "width"): _("Width of the flange"),
        ("coat_volume", "area"): _("Area of the patch"),
        ("taxed_by_line", "amount"): _("Amount of the line"),
        ("taxed_by_ticket", "amount"): _("Amount of the line"),
        ("stock_used", "start"): _("Counted at the start"),
        ("stock_used", "end"): _("Counted at the end"),
        ("days_between", "start"): _("From"),
        ("days_between", "end"): _("To"),
        ("glove_class", "minutes"): _("Breakthrough time"),
        ("glove_pairs", "job"): _("Length of the job"),
        ("noise_time", "level"): _("Sound level"),
        ("noise_time_niosh", "level"): _("Sound level"),
        ("noise_dose", "level"): _("Sound level"),
        ("store_life", "limit"): _("Highest temperature on the label"),
        ("warm_time", "time"): _("Open time on the data sheet"),
        ("bead_volume", "length"): _("Length of the bead"),
        ("bead_time", "length"): _("Length of the bead"),
        ("time_to_spare", "length"): _("Length of the bead"),
        ("tube_drop", "length"): _("Length of the tube"),
        ("tube_drop", "bore"): _("Bore of the tube"),
        ("nozzle_volume", "length"): _("Length of the nozzle"),
        ("nozzle_volume", "bore"): _("Bore of the nozzle"),
        ("nozzle_cost", "price"): _("Price of one"),
        ("reach", "left"): _("Left in the cartridge"),
        ("reach", "nozzle"): _("What the nozzle holds"),
        ("weight_ratio", "ratio"): _("Ratio by volume"),
    }


def _labels() -> dict[str, str]:
    return {
        "a": _("Side A (base)"),
        "a_left": _("Left on side A"),
        "air": _("Air on side B"),
        "amount": _("Amount"),
        "area": _("Cross-section of the bead"),
        "b": _("Side B (hardener)"),
        "b_left": _("Left on side B"),
        "base": _("Base (side A)"),
        "billed": _("Billed"),
        "bore": _("Bore of the cartridge"),
        "bore_a": _("Bore of side A"),
        "bore_b": _("Bore of side B"),
        "bottle": _("What the bottle holds"),
        "breakthrough": _("Breakthrough time of this material"),
        "cartridge": _("What a full cartridge holds"),
        "charge": _("Charge"),
        "cost": _("Cost"),
        "count": _("How many"),
        "date": _("Date"),
        "delivery": _("Time until a delivery comes"),
        "density": _("Density of the mix"),
        "density_a": _("Density of side A"),
        "density_b": _("Density of side B"),
        "diameter": _("Diameter"),
        "dose": _("Dose"),
        "end": _("Gone out at the end"),
        "factor": _("Protection factor"),
        "fit_up": _("Time to fit up"),
        "flow": _("Flow"),
        "free": _("Share that the elements leave free"),
        "full": _("What a full cartridge holds"),
        "gap": _("Gap"),
        "gross_a": _("Side A with its cup"),
        "gross_b": _("Side B with its cup"),
        "hardener": _("Hardener (side B)"),
        "idlh": _("IDLH, or the cap of the mask's cartridge"),
        "joint": _("What the joint holds"),
        "laid": _("What was laid"),
        "least_charge": _("The shop's least charge"),
        "left": _("What stays in each cartridge"),
        "leg": _("Leg of the fillet"),
        "length": _("Length"),
        "level": _("Level"),
        "life": _("Shelf life on the label"),
        "limit": _("Limit"),
        "margin": _("Margin"),
        "markup": _("Markup"),
        "mass": _("Weight of the shot"),
        "molar_mass": _("Molar mass"),
        "months": _("Months"),
        "n": _("Flow index n"),
        "need": _("What the job needs"),
        "new_diameter": _("Diameter of the new tip"),
        "now": _("Turns open now"),
        "nozzle": _("What a nozzle takes"),
        "old_diameter": _("Diameter of the old tip"),
        "open_time": _("Open time"),
        "paused": _("Time paused"),
        "per_month": _("Used in a month"),
        "per_week": _("Used in a week"),
        "pressure": _("Pressure"),
        "pressure_new": _("Pressure after"),
        "pressure_old": _("Pressure before"),
        "price": _("Price of a full cartridge"),
        "rate": _("Rate of tax"),
        "ratio": _("Ratio, with its basis"),
        "received": _("Received"),
        "reference": _("Temperature that the data sheet names"),
        "reserve": _("Reserve"),
        "sanded": _("Share that is sanded off"),
        "scrapped": _("Thrown out"),
        "set": _("Turns the label asks for"),
        "share_of_base": _("Hardener, as a share of the base"),
        "share_of_mix": _("Hardener, as a share of the mix"),
        "speed": _("Speed of the hand"),
        "squeeze": _("Squeeze-out, as a share of what the joint holds"),
        "start": _("Gone out at the start"),
        "stock": _("In stock"),
        "tare_a": _("Empty cup of side A"),
        "tare_b": _("Empty cup of side B"),
        "target": _("Target: A for one of B"),
        "temperature": _("Temperature now"),
        "thickness": _("Thickness that stays"),
        "time": _("Time"),
        "time_in_nozzle": _("Longest time in the nozzle"),
        "total": _("Mix in all"),
        "travel": _("Travel of the plunger"),
        "used": _("Used"),
        "viscosity": _("Viscosity"),
        "volume": _("Volume"),
        "width": _("Width"),
    }


def hint(sum_name: str, argument: str, kind: str) -> str:
    """How a value of an argument may be typed: as its kind, or in numbers that its own sum is about."""
    return _own_hints().get((sum_name, argument)) or hints().get(kind, "")


def _own_hints() -> dict[tuple[str, str], str]:
    shift = _("4 h or 30 min")
    return {
        ("twa", "time"): shift,
        ("noise_dose", "time"): shift,
        ("glove_pairs", "job"): shift,
        ("store_life", "life"): _("52 weeks or 365 days"),
        ("reorder_at", "delivery"): _("10 days or 2 weeks"),
    }


def hints() -> dict[str, str]:
    """How a value of each kind may be typed."""
    return {
        "amount": _("a volume or a mass: 60 mL or 70 g"),
        "amount of ratio": _("120 mL; where the ratio is by weight, 120 g"),
        "same": _("an amount, the same kind in every box: 12, 400 mL or $50"),
        "area": _("12 mm² or 0.5 in²"),
        "concentration": _("20 mg/m³"),
        "date": _("year-month-day: 2027-05-31"),
        "density": _("1.2 g/mL"),
        "exposure": _("20 ppm or 85 mg/m³"),
        "exposure each": _("20 ppm or 85 mg/m³"),
        "flow": _("1.5 mL/s"),
        "force": _("200 N or 45 lbf"),
        "length": _("6 mm or 1/4 in"),
        "mass": _("27.4 g"),
        "molar mass": _("104.15 g/mol"),
        "money": _("$14.50"),
        "months": _("whole months: 9"),
        "number": _("a number: 10"),
        "ppm": _("20 ppm"),
        "pressure": _("85 psi or 6 bar"),
        "ratio": _("10:1 by volume, or 2:1 by weight"),
        "ratio by volume": _("10:1 by volume"),
        "share": _("25 %"),
        "sound": _("92 dBA"),
        "speed": _("8 mm/s"),
        "temperature": _("20 °C or 68 °F"),
        "time": _("6 min or 45 s"),
        "turns": _("2 1/2 turns"),
        "viscosity": _("50 Pa·s"),
        "volume": _("60 mL or 2 fl oz"),
    }
