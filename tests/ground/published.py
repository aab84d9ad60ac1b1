"""Published and independently computed values of the sums, each with its source and how it was obtained.

Marks: read = read in a copy of the source; copy = read on a secondary page; memory = recalled, not confirmed;
computed = worked out a second time from the source that stands beside it; common practice = no source.
"""

from dataclasses import dataclass

MARKS = {"read", "copy", "memory", "computed", "common practice"}


@dataclass(frozen=True)
class Check:
    """A sum, its values as typed, what must come out, from where, how obtained, relative tolerance (0: exact)."""

    sum: str
    given: str
    expected: str
    source: str
    mark: str
    within: float = 0

    def __str__(self) -> str:
        return f"{self.sum}({self.given})"


VOL = "meaning of a:b by volume"
OSHA_AIR = "29 CFR 1910.1000(d)"
RESP = "NIOSH Pocket Guide with 29 CFR 1910.134"
NOISE = "29 CFR 1910.95 App. A"
Q10 = "ASTM F1980, Q10 = 2"
SSUTA = "Streamlined Sales and Use Tax Agreement sec. 324"
GEOMETRY = "geometry and NIST SP 811 units"
BENCH = "worked case of the bench"

CHECKS = [
    Check("hardener_for", "120 mL, 10:1 by volume", "12 mL", VOL, "computed"),
    Check("hardener_for", "250 g, 50:1 by weight", "5 g", "50:1 on the base is 2.00 % of it", "computed"),
    Check("base_for", "12 mL, 10:1 by volume", "120 mL", VOL, "computed"),
    Check("share_a", "180 mL, 2:1 by volume", "120 mL", VOL, "computed"),
    Check("share_b", "180 mL, 2:1 by volume", "60 mL", VOL, "computed"),
    Check("weight_ratio", "2:1 by volume, 1.10 g/mL, 0.95 g/mL", "2.3158", "W = V dA/dB", "computed", 5e-05),
    Check("weight_ratio", "1:1 by volume, 1.15 g/mL, 1.05 g/mL", "1.0952", "W = V dA/dB", "computed", 5e-05),
    Check("weight_ratio", "50:1 by volume, 1.80 g/mL, 1.15 g/mL", "78.26", "W = V dA/dB", "computed", 5e-05),
    Check("weight_ratio", "4:1 by volume, 1.40 g/mL, 1.10 g/mL", "5.09", "W = V dA/dB", "computed", 0.0005),
    Check("shot_ratio", "27.4 g, 2.9 g, 13.6 g, 3.1 g", "2.33", BENCH, "computed", 0.002),
    Check("off_ratio", "46.0 g, 9.6 g, 5.09", "-5.9 %", BENCH, "computed", 0.01),
    Check("mixable", "130 mL, 58 mL, 2:1 by volume", "174 mL", BENCH, "computed"),
    Check("bore_ratio", "38 mm, 12 mm", "10.0", BENCH, "computed", 0.005),
    Check("share_of_mix", "2 %", "1.961 %", "50:1: 2.00 % of the filler is 1.961 % of the mix", "computed", 0.0003),
    Check("share_of_base", "1.961 %", "2.00 %", "50:1: 2.00 % of the filler is 1.961 % of the mix", "computed", 0.0003),
    Check("starved_ratio", "96 mL, 24 mL, 6 mL", "5.33", BENCH, "computed", 0.001),
    Check("round_area", "6 mm", "28.27 mm2", GEOMETRY, "computed", 0.0002),
    Check("half_round_area", "6 mm", "14.137 mm2", GEOMETRY, "computed", 0.0001),
    Check("fillet_area", "1/2 in", "0.125 in2", "welding handbooks: 1.5 in³ a foot", "copy"),
    Check("rect_area", "1/4 in, 3/8 in", "0.09375 in2", GEOMETRY, "computed"),
    Check("vee_area", "8 mm, 12 mm", "48 mm2", GEOMETRY, "computed"),
    Check("bead_volume", "0.125 in2, 1 ft", "1.5 in3", "welding handbooks: 1.5 in³ a foot", "copy"),
    Check("bead_volume", "28.2743339 mm2, 1 m", "28.27 mL", GEOMETRY, "computed", 0.0002),
    Check("bead_length", "1 US gal, 0.0625 in2", "308 ft", "feet a gallon; handbook 308 (memory)", "computed"),
    Check(
        "bead_length", "1 US gal, 0.09375 in2", "205.33 ft", "feet a gallon; handbook 205 (memory)", "computed", 2e-05
    ),
    Check("bead_length", "1 US gal, 0.125 in2", "154 ft", "feet a gallon; handbook 154 (memory)", "computed"),
    Check(
        "bead_length",
        "1 US gal, 0.140625 in2",
        "136.89 ft",
        "feet a gallon; handbook 136 or 137 (memory)",
        "computed",
        3e-05,
    ),
    Check("bead_length", "1 US gal, 0.25 in2", "77 ft", "feet a gallon; handbook 77 (memory)", "computed"),
    Check("bead_length", "10.1 fl oz, 0.0625 in2", "24.30 ft", "feet a 10.1 fl oz cartridge", "computed", 0.0002),
    Check("bead_length", "10.1 fl oz, 0.09375 in2", "16.20 ft", "feet a 10.1 fl oz cartridge", "computed", 0.0002),
    Check("bead_length", "10.1 fl oz, 0.125 in2", "12.15 ft", "feet a 10.1 fl oz cartridge", "computed", 0.0002),
    Check("bead_length", "10.1 fl oz, 0.140625 in2", "10.80 ft", "feet a 10.1 fl oz cartridge", "computed", 0.0002),
    Check("bead_length", "10.1 fl oz, 0.25 in2", "6.08 ft", "feet a 10.1 fl oz cartridge", "computed", 0.001),
    Check("bead_length", "1 US gal, 0.04908738521 in2", "392.2 ft", "round bead of 1/4 in", "computed", 0.0002),
    Check("bead_length", "1 US gal, 0.03125 in2", "616 ft", "right fillet, 1/4 in legs", "computed"),
    Check("coat_volume", "900 cm2, 2 mm, 40 %", "300 mL", BENCH, "computed"),
    Check("joint_bead", "25 mm, 0.5 mm, 15 %", "4.3 mm", BENCH, "computed", 0.01),
    Check("squeeze_share", "40 mL, 34 mL", "15 %", "what is not in the joint came out", "computed"),
    Check("cartridges_needed", "375 mL, 200 mL, 5 mL, 11 mL", "3", BENCH, "computed"),
    Check("reach", "140 mL, 11 mL, 50.265482 mm2", "2.57 m", BENCH, "computed", 0.002),
    Check("nozzle_volume", "10 mm, 200 mm, 70 %", "11.0 mL", BENCH, "computed", 0.005),
    Check("plunger_volume", "38 mm, 4 mm", "4.5 mL", BENCH, "computed", 0.01),
    Check("flow_rate", "45 mL, 18 s", "150 mL/min", BENCH, "computed"),
    Check("flow_by_weight", "52 g, 1.30 g/mL, 15 s", "160 mL/min", BENCH, "computed"),
    Check("bead_speed", "120 mL/min, 50.265482 mm2", "39.8 mm/s", BENCH, "computed", 0.001),
    Check("bead_time", "1200 mm, 40 mm/s", "30 s", "meaning of a speed", "computed"),
    Check("time_to_spare", "5 min, 1200 mm, 40 mm/s, 3 min", "90 s", "meaning of a speed", "computed"),
    Check("turns_to_go", "2 1/2 turns, 1 1/2 turns", "1 turn", "half a turn at a time", "common practice"),
    Check("tip_gain", "6 mm, 9 mm", "2.25", BENCH, "computed"),
    Check("rod_push", "90 psi, 2 in", "283 lbf", BENCH, "computed", 0.002),
    Check("thinned_flow", "100 mL/min, 40 psi, 80 psi, 1", "200 mL/min", "power law, n = 1", "computed", 1e-12),
    Check("thinned_flow", "100 mL/min, 40 psi, 80 psi, 0.5", "400 mL/min", "power law, n = 0.5", "computed", 1e-12),
    Check("nozzle_time_left", "4 min, 90 s", "150 s", "own value of the sheet", "common practice"),
    Check("twa", "150 ppm, 2 h, 75 ppm, 2 h, 50 ppm, 4 h", "81.25 ppm", "29 CFR 1910.1000(d)(1)(ii)", "read"),
    Check("twa", "60 ppm, 2 h, 25 ppm, 3 h, 0 ppm, 3 h", "24.375 ppm", "29 CFR 1910.1000(d)(1)", "computed"),
    Check("twa", "100 ppm, 10 h", "125 ppm", "cautious practice, not the rule; OSHA memo of 1999-11-10", "copy"),
    Check("mixture", "500 ppm, 1000 ppm, 45 ppm, 200 ppm, 40 ppm, 200 ppm", "0.925", "29 CFR 1910.1000(d)(2)", "read"),
    Check("ppm_to_mg", "1 ppm, 104.2 g/mol", "4.26 mg/m3", "NIOSH, styrene", "read", 0.025),
    Check("ppm_to_mg", "1 ppm, 92.1 g/mol", "3.77 mg/m3", "NIOSH, toluene", "read", 0.025),
    Check("ppm_to_mg", "100 ppm, 104.2 g/mol", "426.176 mg/m3", "CCOHS: molar mass / 24.45", "computed", 0.001),
    Check("mg_to_ppm", "426.176 mg/m3, 104.2 g/mol", "100 ppm", "CCOHS: molar mass / 24.45", "computed", 0.001),
    Check("max_use", "10, 50 ppm, 700 ppm", "500 ppm", "NIOSH Pocket Guide with 29 CFR 1910.134, styrene", "read"),
    Check("max_use", "25, 50 ppm, 700 ppm", "700 ppm", "NIOSH Pocket Guide with 29 CFR 1910.134, styrene", "read"),
    Check("max_use", "10, 100 ppm, 500 ppm", "500 ppm", "NIOSH Pocket Guide with 29 CFR 1910.134, toluene", "read"),
    Check(
        "max_use",
        "10, 5 mg/m3, 1500 mg/m3",
        "50 mg/m3",
        "NIOSH Pocket Guide with 29 CFR 1910.134, benzoyl peroxide (IDLH memory)",
        "read",
    ),
    Check("factor_needed", "180 ppm, 50 ppm", "10", "29 CFR 1910.134 Table 1 (read)", "computed"),
    Check("factor_needed", "501 ppm, 50 ppm", "25", "29 CFR 1910.134 Table 1 (read)", "computed"),
    Check("noise_time", "90 dBA", "8 h", NOISE, "computed"),
    Check("noise_time", "95 dBA", "4 h", NOISE, "computed"),
    Check(
        "noise_time",
        "92 dBA",
        "6.063 h",
        "29 CFR 1910.95 App. A by formula; Table G-16 rounds to 6",
        "computed",
        0.0001,
    ),
    Check("noise_dose", "90 dBA, 4 h, 95 dBA, 2 h, 100 dBA, 1 h", "150 %", NOISE, "read"),
    Check("noise_twa", "150 %", "92.92 dBA", NOISE, "read", 0.0001),
    Check("noise_twa", "50 %", "85.0 dBA", NOISE, "read", 0.0001),
    Check("noise_twa", "100 %", "90.0 dBA", NOISE, "read", 1e-12),
    Check("noise_twa", "200 %", "95.0 dBA", NOISE, "read", 0.0001),
    Check("noise_time_niosh", "88 dBA", "4 h", "NIOSH 85 dBA, 3 dB", "read"),
    Check("noise_time_niosh", "91 dBA", "2 h", "NIOSH 85 dBA, 3 dB", "read"),
    Check("noise_time_niosh", "100 dBA", "15 min", "NIOSH 85 dBA, 3 dB", "read"),
    Check("glove_class", "10 min", "0", "EN 374 permeation classes", "read"),
    Check("glove_class", "10.1 min", "1", "EN 374 permeation classes", "read"),
    Check("glove_class", "30 min", "1", "EN 374 permeation classes", "read"),
    Check("glove_class", "31 min", "2", "EN 374 permeation classes", "read"),
    Check("glove_class", "480 min", "5", "EN 374 permeation classes", "read"),
    Check("glove_class", "481 min", "6", "EN 374 permeation classes", "read"),
    Check("glove_pairs", "45 min, 20 min", "5", BENCH, "computed"),
    Check("eyewash_time", "32 fl oz, 0.4 US gal/min", "37.5 s", "ANSI Z358.1: 0.4 US gal/min", "memory"),
    Check("warm_time", "5 min, 30 °C, 20 °C", "2.5 min", Q10, "computed"),
    Check("store_life", "730 day, 55 °C, 25 °C, 60 °C", "91.25 day", Q10, "copy"),
    Check("store_life", "12.996 day, 60 °C, 23 °C, 60 °C", "1 day", Q10, "computed", 0.0001),
    Check("store_life", "4 day, 40 °C, 20 °C, 60 °C", "1 day", Q10, "computed"),
    Check("warm_time", "6 min, 27 °C, 20 °C", "3.7 min", Q10, "computed", 0.005),
    Check("surplus", "24, 5, 4", "4", BENCH, "computed"),
    Check("surplus", "10, 5, 4", "0", BENCH, "computed"),
    Check("reorder_at", "4, 7 day, 2", "6", "what goes out in a week of delivery", "computed"),
    Check("used_share", "40 mL, 125 mL, 200 mL", "42.5 %", BENCH, "computed"),
    Check("used_cost", "40 mL, 125 mL, 200 mL, $46.00", "$19.55", BENCH, "computed"),
    Check("with_markup", "$19.55, 40 %", "$27.37", BENCH, "computed"),
    Check("at_margin", "$19.55, 40 %", "$32.58", BENCH, "computed", 0.001),
    Check("nozzle_cost", "3, $1.20", "$3.60", "counted, each", "computed"),
    Check("least", "$4.10, $5", "$5", "the larger of the two", "computed"),
    Check("tax", "$2.675, 100 %", "$2.68", SSUTA, "computed"),
    Check("tax", "$0.125, 100 %", "$0.13", SSUTA, "computed"),
    Check("tax", "$1.005, 100 %", "$1.01", SSUTA, "computed"),
    Check("tax", "$12.345, 100 %", "$12.35", SSUTA, "computed"),
    Check("tax", "-$2.675, 100 %", "-$2.68", SSUTA, "computed"),
    Check("tax", "$1.49, 7 %", "$0.10", SSUTA, "computed"),
    Check("tax", "$10.10, 7 %", "$0.71", SSUTA, "computed"),
    Check("taxed_by_line", "7 %, $1.49, $1.49, $1.49", "$0.30", SSUTA, "computed"),
    Check("taxed_by_ticket", "7 %, $1.49, $1.49, $1.49", "$0.31", SSUTA, "computed"),
    Check("hardener_for", "90 mL, 3:2 by volume", "60 mL", VOL, "computed"),
    Check("base_for", "60 mL, 3:2 by volume", "90 mL", VOL, "computed"),
    Check("share_a", "150 mL, 3:2 by volume", "90 mL", VOL, "computed"),
    Check("share_b", "150 mL, 3:2 by volume", "60 mL", VOL, "computed"),
    Check("mixable", "90 mL, 80 mL, 3:2 by volume", "150 mL", VOL, "computed"),
    Check("mixable", "120 mL, 60 mL, 3:2 by volume", "150 mL", VOL, "computed"),
    Check("glove_class", "60 min", "2", "EN 374 permeation classes (read)", "computed"),
    Check("glove_class", "60.5 min", "3", "EN 374 permeation classes (read)", "computed"),
    Check("glove_class", "120 min", "3", "EN 374 permeation classes (read)", "computed"),
    Check("glove_class", "120.5 min", "4", "EN 374 permeation classes (read)", "computed"),
    Check("glove_class", "240 min", "4", "EN 374 permeation classes (read)", "computed"),
    Check("glove_class", "240.5 min", "5", "EN 374 permeation classes (read)", "computed"),
    Check("stock_used", "14, 24, 9, 2", "27", "stock equation, what was thrown out is not sold", "computed"),
    Check("stock_used", "14, 24, 9, 0", "29", BENCH, "computed"),
    Check("unbilled", "29, 22.4", "6.6", BENCH, "computed"),
    Check("cost_per_length", "$46, 200 mL, 50.265482 mm2", "$11.56/m", BENCH, "computed", 0.001),
    Check("weight_ratio", "3:1 by volume, 1.20 g/mL, 1.20 g/mL", "3", "equal densities: W = V", "computed"),
    Check(
        "max_use", "10, 100 ppm, 900 ppm", "900 ppm", "NIOSH limits of xylenes (read) with 29 CFR 1910.134", "computed"
    ),
    Check(
        "max_use",
        "10, 250 ppm, 2500 ppm",
        "2500 ppm",
        "NIOSH limits of acetone (read) with 29 CFR 1910.134",
        "computed",
    ),
    Check(
        "max_use",
        "25, 100 ppm, 1000 ppm",
        "1000 ppm",
        "NIOSH limits of methyl methacrylate (read) with 29 CFR 1910.134",
        "computed",
    ),
    Check(
        "ppm_to_mg",
        "0.02 ppm, 250.3 g/mol",
        "0.2 mg/m3",
        "29 CFR 1910.1000 Table Z-1, MDI 0.02 ppm (0.2 mg/m³); molar mass from memory",
        "read",
        0.025,
    ),
    Check("factor_needed", "500 ppm, 50 ppm", "10", "NIOSH Pocket Guide, styrene: up to 500 ppm APF 10", "read"),
    Check("factor_needed", "1251 ppm, 50 ppm", "50", "29 CFR 1910.134 Table 1 (read)", "computed"),
    Check("factor_needed", "2501 ppm, 50 ppm", "1000", "29 CFR 1910.134 Table 1 (read)", "computed"),
    Check(
        "tube_drop",
        "2 Pa·s, 0.5 m, 10 mL/min, 8 mm",
        "1.65786 kPa",
        "Hagen-Poiseuille as 8 μ L Q / (π r⁴)",
        "computed",
        1e-05,
    ),
    Check("months_after", "2005-01-31, 1", "2005-02-28", "python-dateutil", "computed"),
    Check("months_after", "2004-01-31, 1", "2004-02-29", "python-dateutil", "computed"),
    Check("months_after", "2024-02-29, 12", "2025-02-28", "python-dateutil", "computed"),
    Check("months_after", "2025-08-31, 6", "2026-02-28", "python-dateutil", "computed"),
    Check("months_after", "2025-01-31, 2 months", "2025-03-31", "python-dateutil", "computed"),
    Check("months_after", "2026-01-31, 6 months", "2026-07-31", BENCH, "computed"),
    Check("month_end", "2026-05-03", "2026-05-31", "python-dateutil, relativedelta(day=31)", "computed"),
    Check("days_between", "2025-01-31, 2025-03-31", "59", "python's datetime", "computed"),
]

REFUSALS = [
    ("warm_time", "5 min, 15 °C, 20 °C", "never lengthens"),
    ("store_life", "730 day, 31 °C, 20 °C, 30 °C", "set it apart"),
    ("store_life", "730 day, 10 °C, 20 °C, 30 °C", "never lengthens"),
    ("factor_needed", "50001 ppm, 50 ppm", "program decides"),
    ("starved_ratio", "96 mL, 24 mL, 25 mL", "air"),
    ("cartridges_needed", "375 mL, 20 mL, 9 mL, 12 mL", "nothing comes out"),
    ("coat_volume", "900 cm2, 2 mm, 120 %", "nothing stays"),
    ("at_margin", "$10, 120 %", "nothing for the cost"),
    ("share_of_base", "120 %", "no base"),
    ("noise_twa", "0 %", "no average"),
    ("thinned_flow", "100 mL/min, 40 psi, 80 psi, -1", "above 0"),
]
"""A sum, values that it must not answer for, and what the refusal says."""
