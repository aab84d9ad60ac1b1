"""What a picture shows is what it was given: it is read back from the numbers, marks and shapes that were drawn."""

import itertools
import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from quizkit.pictures import FIGURES, FigureError


def halves(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high, allow_nan=False)


@given(reading=halves(0, 400), limit=halves(20, 400))
def test_the_needle_of_the_gauge_points_at_its_reading(look, read_around, reading, limit):
    drawing = look(FIGURES["pressure_gauge"](reading, limit, id="g"))
    outer = first_scale(drawing.numbers())
    middle = middle_of(drawing)
    needle, wedge = drawing.corners("needle")[0], drawing.corners("limit")[0]
    tip = max(needle, key=lambda point: math.dist(point, middle))
    inward = min(wedge, key=lambda point: math.dist(point, middle))
    top = outer[-1][0]
    assert read_around(outer, middle, tip) == pytest.approx(reading, abs=top / 1000)
    assert read_around(outer, middle, inward) == pytest.approx(limit, abs=top / 1000)


@given(reading=halves(0, 160))
def test_the_inner_scale_of_the_gauge_reads_the_same_pressure_in_bar(look, read_around, reading):
    # 1 psi = 6.894757 kPa: NIST SP 811 (2008), Appendix B.8; memory, and computed from 4.4482216 N/lbf over (25.4 mm)².
    drawing = look(FIGURES["pressure_gauge"](reading, 90, id="g"))
    numbers = drawing.numbers()
    inner = numbers[len(first_scale(numbers)) :]
    middle = middle_of(drawing)
    tip = max(drawing.corners("needle")[0], key=lambda point: math.dist(point, middle))
    assert read_around(inner, middle, tip) == pytest.approx(reading * 4.4482216152605 / 0.0254**2 / 1e5, abs=0.02)


@given(now=halves(0, 10), wanted=halves(0, 10))
def test_the_hand_of_the_dial_points_at_the_turns(look, read_around, now, wanted):
    drawing = look(FIGURES["flow_dial"](now, wanted, id="d"))
    numbers, middle = drawing.numbers(), middle_of(drawing)
    tip = max(drawing.corners("hand")[0], key=lambda point: math.dist(point, middle))
    wedge = min(drawing.corners("set")[0], key=lambda point: math.dist(point, middle))
    assert read_around(numbers, middle, tip) == pytest.approx(now, abs=0.01)
    assert read_around(numbers, middle, wedge) == pytest.approx(wanted, abs=0.01)


@given(full=st.sampled_from([50, 200, 400, 825]), share=halves(0, 1))
def test_the_front_edge_of_the_plunger_stands_at_the_reading(look, read_along, full, share):
    drawing = look(FIGURES["cartridge_scale"](full * share, full, id="c"))
    front = max(x for x, _ in drawing.corners("plunger")[0])
    numbers = [(value, x) for value, (x, _) in drawing.numbers()]
    assert read_along(numbers, front) == pytest.approx(full * share, abs=full / 10000)


@given(full=st.sampled_from([50, 200, 400]), one=halves(0, 1), other=halves(0, 1))
def test_the_two_readings_stand_above_and_below(look, read_along, full, one, other):
    start, end = full * min(one, other), full * max(one, other)
    drawing = look(FIGURES["two_readings"](start, end, full, id="c"))
    before, after = sorted(drawing.corners("plunger"), key=lambda corners: corners[0][1])
    numbers = [(value, x) for value, (x, _) in first_scale(drawing.numbers())]
    assert read_along(numbers, max(x for x, _ in before)) == pytest.approx(start, abs=full / 10000)
    assert read_along(numbers, max(x for x, _ in after)) == pytest.approx(end, abs=full / 10000)


@given(level_a=halves(0, 120), gap=halves(-8, 8))
def test_the_faces_of_the_plungers_stand_at_their_levels(look, read_along, level_a, gap):
    level_b = max(0, level_a + gap)
    drawing = look(FIGURES["plungers"](level_a, level_b, id="p"))
    numbers = [(value, y) for value, (_, y) in drawing.numbers()]
    for name, level in (("plunger-a", level_a), ("plunger-b", level_b)):
        face = min(y for _, y in drawing.corners(name)[0])
        assert read_along(numbers, face) == pytest.approx(level, abs=0.01)


@given(level_a=halves(0, 120), gap=halves(-8, 8))
def test_both_rods_stand_at_the_plunger_that_is_behind(look, level_a, gap):
    drawing = look(FIGURES["plungers"](level_a, max(0, level_a + gap), id="p"))
    below = [max(y for _, y in drawing.corners(f"plunger-{side}")[0]) for side in "ab"]
    rods = [min(y for _, y in drawing.corners(f"rod-{side}")[0]) for side in "ab"]
    assert rods == [max(below), max(below)]


@given(reading=halves(-40, 100), limit=halves(-20, 60))
def test_the_column_of_the_thermometer_ends_at_the_reading(look, read_along, reading, limit):
    drawing = look(FIGURES["thermometer"](reading, limit, id="t"))
    numbers = [(value, y) for value, (_, y) in drawing.numbers()]
    wedge = max(drawing.corners("limit")[0])
    assert read_along(numbers, min(y for _, y in drawing.corners("column")[0])) == pytest.approx(reading, abs=0.02)
    assert read_along(numbers, wedge[1]) == pytest.approx(limit, abs=0.02)


@given(
    days=st.integers(2, 62),
    first=st.integers(1, 62),
    hot=st.integers(0, 31),
    over=halves(1, 15),
    limit=st.sampled_from([20, 25, 27.5, 30]),
)
def test_the_log_shows_the_hot_days_the_first_of_them_and_the_peak(look, read_along, days, first, hot, over, limit):
    assume(first + max(hot, 1) - 1 <= days)
    peak = limit + over if hot else max(limit - over, limit - 10)
    drawing = look(FIGURES["thermometer_log"](days, first, hot, peak, limit, id="l"))
    numbers = [(value, y) for value, (_, y) in drawing.numbers()]
    dots = [(float(dot.attrib["cx"]), float(dot.attrib["cy"])) for dot in drawing.of_class("reading")]
    line = float(drawing.of_class("limit")[0].attrib["y1"])
    above = [day for day, (_, y) in enumerate(sorted(dots), 1) if y < line]
    assert len(dots) == days
    assert above == list(range(first, first + hot))
    assert read_along(numbers, min(y for _, y in dots)) == pytest.approx(peak, abs=0.02)
    assert read_along(numbers, line) == pytest.approx(limit, abs=0.02)
    assert min(abs(y - line) for _, y in dots) > 5, "every point stands clear of the limit's line"


def test_each_day_of_the_log_stands_over_its_number(look):
    drawing = look(FIGURES["thermometer_log"](31, 9, 4, 31, 25, id="l"))
    dots = sorted(float(dot.attrib["cx"]) for dot in drawing.of_class("reading"))
    assert all(dots[int(day) - 1] == x for day, (x, _) in drawing.numbers("day"))


def first_scale(numbers):
    """The numbers up to where they start again: those of the first scale drawn."""
    rising = itertools.takewhile(lambda pair: pair[0][0] < pair[1][0], itertools.pairwise(numbers))
    return [numbers[0], *(pair[1] for pair in rising)]


def middle_of(drawing):
    return next(
        (float(c.attrib["cx"]), float(c.attrib["cy"])) for c in drawing.root.iter() if c.tag.endswith("}circle")
    )


REFUSED = [
    ("exposure_day", (-1, 2, 25, 3, 50)),
    ("exposure_day", (60, 2, 25, 3, 0)),
    ("exposure_day", (60, 0, 25, 3, 50)),
    ("pressure_gauge", (-1, 90)),
    ("pressure_gauge", (math.nan, 90)),
    ("pressure_gauge", (50, 1001)),
    ("flow_dial", (11, 2)),
    ("cartridge_scale", (201, 200)),
    ("cartridge_scale", (0, 0)),
    ("two_readings", (115, 30, 200)),
    ("two_readings", (30, 215, 200)),
    ("plungers", (-1, 4)),
    ("thermometer", (101, 25)),
    ("thermometer_log", (10, 8, 4, 30, 25)),
    ("thermometer_log", (10, 2.5, 4, 30, 25)),
    ("thermometer_log", (10, 2, 3, 25.5, 25)),
    ("thermometer_log", (10, 2, 0, 25, 25)),
]


@pytest.mark.parametrize(("name", "values"), REFUSED)
def test_a_number_that_cannot_be_shown_is_refused_in_words(name, values):
    with pytest.raises(FigureError, match=r" is .*\."):
        FIGURES[name](*values, id="x")
