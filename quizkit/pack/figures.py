"""The figures that an author can name, with their parameters and the unit that each is drawn in.

A figure of the same name and parameters stands in `pictures`; a test holds the two to each other.
"""

from types import MappingProxyType

Parameters = tuple[tuple[str, str], ...]

FIGURES: MappingProxyType[str, Parameters] = MappingProxyType(
    {
        "pressure_gauge": (("reading", "psi"), ("limit", "psi")),
        "flow_dial": (("now", "turn"), ("set", "turn")),
        "cartridge_scale": (("reading", "mL"), ("full", "mL")),
        "two_readings": (("start", "mL"), ("end", "mL"), ("full", "mL")),
        "round_bead": (("diameter", "mm"),),
        "half_round_bead": (("diameter", "mm"),),
        "fillet_bead": (("leg", "mm"),),
        "rect_bead": (("width", "mm"), ("depth", "mm")),
        "vee_bead": (("base", "mm"), ("height", "mm")),
        "bond_line": (("width", "mm"), ("gap", "mm")),
        "ports": (("a", ""), ("b", "")),
        "plungers": (("level_a", "mm"), ("level_b", "mm")),
        "thermometer_log": (("days", ""), ("first", ""), ("hot", ""), ("peak", "°C"), ("limit", "°C")),
        "thermometer": (("reading", "°C"), ("limit", "°C")),
        "open_time_strip": (("open_time", "min"), ("used", "min")),
        "scale_reading": (("grams", "g"), ("step", "g")),
        "exposure_day": (
            ("first", "ppm"),
            ("first_time", "h"),
            ("later", "ppm"),
            ("later_time", "h"),
            ("limit", "ppm"),
        ),
        "ghs_flame": (),
        "ghs_exclamation": (),
        "ghs_health": (),
        "ghs_corrosion": (),
        "ghs_oxidiser": (),
        "ghs_skull": (),
        "ghs_gas": (),
        "ghs_bomb": (),
        "ghs_environment": (),
    }
)
"""Name of a figure → its parameters in order, each with the symbol of its unit ("" for a plain number)."""
