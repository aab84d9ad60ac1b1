"""Digits, dimensions, shares and charts show the numbers that they were given."""

import math
from fractions import Fraction
from itertools import groupby

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from quizkit.pictures import FIGURES, FigureError, cover_chart, shares_chart, shelf_label, solid_scale

LIT = {
    "1110111": "0",
    "0010010": "1",
    "1011101": "2",
    "1011011": "3",
    "0111010": "4",
    "1101011": "5",
    "1101111": "6",
    "1010010": "7",
    "1111111": "8",
    "1111011": "9",
    "0001000": "-",
}
"""Segments top, upper left, upper right, middle, lower left, lower right, bottom: the common seven-segment digits."""


def shown_on(drawing):
    """The display read as eyes do: digits from left to right, each by which of its seven places are dark."""
    centres = [
        (sum(x for x, _ in corners) / len(corners), sum(y for _, y in corners) / len(corners))
        for corners in drawing.corners("segment")
    ]
    right, pitch, wide, top, tall = 350, 40, 26, 148, 48
    cells: dict[int, set[int]] = {}
    places = [(wide / 2, 0), (0, tall / 4), (wide, tall / 4), (wide / 2, tall / 2)]
    places += [(0, 3 * tall / 4), (wide, 3 * tall / 4), (wide / 2, tall)]
    for x, y in centres:
        cell = math.floor((x + 2 - right) / pitch)
        near = [math.dist((x - right - cell * pitch, y - top), place) < 1 for place in places]
        assert sum(near) == 1
        cells.setdefault(cell, set()).add(near.index(True))
    signs = {cell: LIT["".join("1" if place in lit else "0" for place in range(7))] for cell, lit in cells.items()}
    assert sorted(signs) == list(range(min(signs), 0)), "no gap between the digits"
    points = [min(x for x, _ in corners) for corners in drawing.corners("point")]
    text = ""
    for cell in sorted(signs):
        if any(0 < right + cell * pitch - x <= 12 for x in points):
            text += "."
        text += signs[cell]
    return text


@given(count=st.integers(-99_999, 999_999), step=st.sampled_from(["0.001", "0.01", "0.1", "0.5", "1", "2", "5"]))
@example(count=0, step="0.01")
@example(count=-1, step="0.1")
def test_the_display_of_the_scale_shows_the_grams(look, count, step):
    grams = count * Fraction(step)
    if abs(grams) > 10_000 or len(f"{int(grams)}") > 4:
        grams = grams % 1000
    drawing = look(FIGURES["scale_reading"](float(grams), float(step), id="s"))
    shown = shown_on(drawing)
    assert Fraction(shown) == grams
    assert len(shown.partition(".")[2]) == len(step.partition(".")[2])


@pytest.mark.parametrize(
    ("grams", "step", "shown"),
    [
        (27.44, 0.1, "27.4"),
        (27.45, 0.1, "27.5"),
        (-0.04, 0.1, "0.0"),
        (-0.05, 0.1, "-0.1"),
        (12.3, 0.5, "12.5"),
        (13, 2, "14"),
    ],
)
def test_the_scale_rounds_to_its_step_with_halves_away_from_zero(look, grams, step, shown):
    assert shown_on(look(FIGURES["scale_reading"](grams, step, id="s"))) == shown


@pytest.mark.parametrize("values", [(1, 0), (1, 0.0001), (1, 0.0015), (10_001, 1), (-1000, 0.001), (math.inf, 1)])
def test_a_display_that_cannot_be_is_refused(values):
    with pytest.raises(FigureError):
        FIGURES["scale_reading"](*values, id="s")


DIMENSIONED = {
    "round_bead": (8,),
    "half_round_bead": (6.5,),
    "fillet_bead": (6,),
    "rect_bead": (6.35, 9.525),
    "vee_bead": (8, 14),
    "bond_line": (25, 0.5),
}


@pytest.mark.parametrize("name", DIMENSIONED)
def test_a_cross_section_bears_its_dimensions_and_tells_them(look, name):
    drawing = look(FIGURES[name](*DIMENSIONED[name], id="x"))
    for value in DIMENSIONED[name]:
        assert f"{value:g} mm" in drawing.texts
        assert f"{value:g} mm" in drawing.texts[1]


@pytest.mark.parametrize("name", DIMENSIONED)
@given(st.data())
def test_nothing_of_a_cross_section_falls_off_its_edge(look, name, data):
    low, high = (1, 20) if name == "bond_line" else (0.1, 200)
    values = [data.draw(st.floats(low, high)) for _ in DIMENSIONED[name]]
    drawing = look(FIGURES[name](*values, id="x"))
    edge, top, width, height = map(float, drawing.root.attrib["viewBox"].split())
    right, bottom = edge + width, top + height
    for element in drawing.root.iter():
        if element.tag.endswith("}text"):
            x, y, size = (float(element.attrib[key]) for key in ("x", "y", "font-size"))
            reach = 0.68 * size * len(element.text or "")
            left = {"middle": x - reach / 2, "end": x - reach}[element.attrib["text-anchor"]]
            assert edge <= left and left + reach <= right and top + size / 2 <= y <= bottom - size / 2
        if element.tag.endswith("}rect"):
            x, y, wide, tall = (float(element.attrib[key]) for key in ("x", "y", "width", "height"))
            assert x >= edge and y >= top and x + wide <= right and y + tall <= bottom


@given(a=st.floats(0.5, 20), b=st.floats(0.5, 20))
def test_the_areas_of_the_ports_stand_in_the_ratio(look, a, b):
    drawing = look(FIGURES["ports"](a, b, id="p"))
    radii = {side: {float(c.attrib["r"]) for c in drawing.of_class(f"port-{side}")} for side in "ab"}
    (of_a,), (of_b,) = radii["a"], radii["b"]
    assert max(of_a, of_b) == 36
    if min(of_a, of_b) > 6:
        assert (of_a / of_b) ** 2 == pytest.approx(a / b, rel=0.005)


def test_the_nozzle_has_its_sides_the_other_way_round(look):
    drawing = look(FIGURES["ports"](4, 1, id="p"))
    a, b = ([float(c.attrib["cx"]) for c in drawing.of_class(f"port-{side}")] for side in "ab")
    assert a[0] < b[0] < b[1] < a[1]


@given(open_time=st.floats(0.5, 60), share=st.floats(0, 3))
def test_the_strip_fills_what_is_used_and_crosses_what_is_over(look, open_time, share):
    used = open_time * share
    drawing = look(FIGURES["open_time_strip"](open_time, used, id="s"))
    wide = {kind: sum(float(r.attrib["width"]) for r in drawing.of_class(kind)) for kind in ("open", "used", "over")}
    assert wide["used"] / wide["open"] == pytest.approx(min(share, 1), abs=0.001)
    assert wide["over"] / wide["open"] == pytest.approx(max(share - 1, 0), abs=0.001)


@given(
    levels=st.tuples(st.floats(0, 400), st.floats(0, 400)),
    share=st.floats(0.05, 0.95),
    worked=st.floats(0.5, 8),
    limit=st.floats(1, 400),
)
def test_the_bars_of_a_day_are_as_high_as_the_levels_and_as_wide_as_their_hours(look, levels, share, worked, limit):
    times = worked * share, worked * (1 - share)
    drawing = look(FIGURES["exposure_day"](levels[0], times[0], levels[1], times[1], limit, id="d"))
    (_, (_, floor)), *_rest, (top, (_, ceiling)) = drawing.numbers()
    (_, (start, _y)), *_hours, (last, (end, _z)) = drawing.numbers("hour")
    at = start
    for name, level, hours in zip(("first", "later"), levels, times, strict=True):
        (bar,) = drawing.of_class(name)
        x, wide, high = (float(bar.attrib[key]) for key in ("x", "width", "height"))
        assert high / (floor - ceiling) * top == pytest.approx(level, abs=top / 2000)
        assert wide / (end - start) * last == pytest.approx(hours, abs=0.002)
        assert x == pytest.approx(at, abs=0.05)
        at += wide
    line = float(drawing.of_class("limit")[0].attrib["y1"])
    assert (floor - line) / (floor - ceiling) * top == pytest.approx(limit, abs=top / 2000)
    assert max(*levels, limit) <= top * 1.000001


def test_a_day_of_more_than_eight_hours_is_refused():
    with pytest.raises(FigureError, match="9 h together"):
        FIGURES["exposure_day"](60, 5, 25, 4, 50, id="d")


@given(st.data())
def test_the_solid_scale_shows_its_parts_in_order(look, data):
    parts = data.draw(st.integers(1, 40))
    solid = data.draw(st.integers(0, parts))
    due = data.draw(st.integers(0, parts - solid))
    drawing = look(solid_scale(parts, solid, due, id="s"))
    cells = [e.get("class") for e in drawing.root.iter() if e.get("class") in {"solid", "due", "empty"}]
    assert cells == ["solid"] * solid + ["due"] * due + ["empty"] * (parts - solid - due)


@pytest.mark.parametrize("values", [(10, 8, 3), (0, 0, 0), (10, -1, 0), (10, 1, -1), (101, 0, 0)])
def test_a_solid_scale_with_more_parts_than_it_has_is_refused(values):
    with pytest.raises(FigureError):
        solid_scale(*values, id="s")


@given(counts=st.lists(st.integers(0, 300), min_size=1, max_size=60), wanted=st.integers(0, 300))
def test_the_cover_chart_shows_the_people_and_what_is_missing(look, counts, wanted):
    drawing = look(cover_chart("Balancing", [(f"w{n}", count) for n, count in enumerate(counts)], wanted, id="c"))
    numbers = drawing.numbers()
    (_, (_, floor)), (top, (_, ceiling)) = numbers[0], numbers[-1]
    a_person = (floor - ceiling) / top
    bars = [float(bar.attrib["height"]) / a_person for bar in drawing.of_class("people")]
    missing = [float(bar.attrib["height"]) / a_person for bar in drawing.of_class("missing")]
    runs = [(people, len(list(run))) for people, run in groupby(counts)]
    assert bars == pytest.approx([people for people, _weeks in runs], abs=0.02 * max(top, 1) / 10)
    assert missing == pytest.approx([wanted - n for n, _weeks in runs if n < wanted], abs=0.02 * max(top, 1) / 10)
    wide = [float(bar.attrib["width"]) for bar in drawing.of_class("people")]
    a_week = sum(wide) / len(counts)
    assert wide == pytest.approx([weeks * a_week for _people, weeks in runs], abs=0.02)
    assert all(value == int(value) for value, _ in numbers), "nobody counts half people"


def test_the_cover_chart_tells_every_change_in_words(look):
    weeks = [("1 Mar", 3), ("8 Mar", 3), ("15 Mar", 1), ("22 Mar", 2)]
    description = look(cover_chart("Balancing", weeks, 2, id="c")).texts[1]
    assert description == (
        "People cleared in 4 weeks, 2 wanted. from 1 Mar: 3; from 15 Mar: 1; from 22 Mar: 2. Weeks with too few: 1."
    )


@pytest.mark.parametrize(("weeks", "wanted"), [([], 2), ([("a", 1)] * 61, 2), ([("a", -1)], 2), ([("a", 1)], -1)])
def test_a_cover_that_cannot_be_drawn_is_refused(weeks, wanted):
    with pytest.raises(FigureError):
        cover_chart("Balancing", weeks, wanted, id="c")


TEXT = st.text(st.characters(codec="utf-8", exclude_categories=["C", "Z"]), max_size=60)


@example(name="N" * 60, rows=[("word " * 9, "value " * 9), ("w" * 50, "v" * 80)], note="n " * 40)
@given(name=TEXT, rows=st.lists(st.tuples(TEXT, TEXT), max_size=5), note=TEXT)
def test_a_shelf_label_holds_every_text_whole_and_only_as_text(look, name, rows, note):
    drawing = look(shelf_label(name, "2:1 by volume", rows, note=note, id="l"))
    drawn = "".join((e.text or "") for e in drawing.root.iter() if e.tag.endswith("}text"))
    assert drawn.replace(" ", "") == (name + "2:1byvolume" + "".join(a + b for a, b in rows) + note).replace(" ", "")


def test_a_share_stands_where_its_scale_says_with_its_range_around_it(look):
    drawn = look(shares_chart([("ports", 0.25, 0.1, 0.5), ("shares", 1, 0.8, 1)], id="a"))
    at = {one.text: float(one.attrib["x"]) for one in drawn.root.iter() if one.text in ("0%", "100%")}

    def share(place):
        return (float(place) - at["0%"]) / (at["100%"] - at["0%"])

    dots = [share(dot.attrib["cx"]) for dot in drawn.of_class("share")]
    ranges = [(share(one.attrib["x1"]), share(one.attrib["x2"])) for one in drawn.of_class("range")]
    assert dots == pytest.approx([0.25, 1])
    assert ranges == [pytest.approx((0.1, 0.5)), pytest.approx((0.8, 1))]
    assert "ports: 25%; shares: 100%" in " ".join(drawn.texts)


@pytest.mark.parametrize("row", [("a", 0.5, 0.6, 0.7), ("a", 1.2, 0, 1), ("a", float("nan"), 0, 1)])
def test_a_share_outside_its_range_is_not_drawn(row):
    with pytest.raises(FigureError):
        shares_chart([row], id="a")
