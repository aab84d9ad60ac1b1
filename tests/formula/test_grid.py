"""The grid of givens: numbers of variants, exact points and columns say the same."""

import datetime
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quizkit.arith import ArithError
from quizkit.formula import (
    Computed,
    Dates,
    Even,
    FormulaError,
    Given,
    Grid,
    GridError,
    Listed,
    Ratios,
    RatioValue,
    Row,
    Rows,
    parse,
)
from quizkit.units import DATE, DENSITY, LENGTH, MONEY, NUMBER, RATIO_BY_VOLUME, ROW, TEXT, VOLUME, unit

ML, MM, C = unit("mL"), unit("mm"), unit("°C")
FILLER = Given("filler", ML, Even(Fraction(60, 10**6), Fraction(5, 10**6), 37))
RATIO = Given("ratio", None, Ratios(((Fraction(10), Fraction(1)), (Fraction(4), Fraction(1))), "volume"))


def test_the_last_given_varies_fastest() -> None:
    grid = Grid((FILLER, RATIO))
    assert grid.size == 74
    assert [grid.values(n)["filler"] for n in (0, 1, 2)] == [
        Fraction(60, 10**6),
        Fraction(60, 10**6),
        Fraction(65, 10**6),
    ]
    assert [grid.values(n)["ratio"] for n in (0, 1)] == [RatioValue(10, 1, "volume"), RatioValue(4, 1, "volume")]


@pytest.mark.parametrize("number", [-1, 74])
def test_a_number_outside_the_grid_is_refused(number: int) -> None:
    with pytest.raises(IndexError):
        Grid((FILLER, RATIO)).values(number)


def test_a_question_without_givens_has_one_point() -> None:
    assert Grid(()).size == 1
    assert Grid(()).values(0) == {}
    (block,) = Grid(()).blocks()
    assert block.count == 1


def test_fields_of_a_row_stand_under_dotted_names() -> None:
    rows = (
        Row(
            "Abc", (("name", "Abc"), ("price", Fraction(20)), ("ratio", RatioValue(Fraction(2), Fraction(1), "volume")))
        ),
        Row(
            "Def", (("name", "Def"), ("price", Fraction(30)), ("ratio", RatioValue(Fraction(1), Fraction(1), "volume")))
        ),
    )
    grid = Grid((Given("material", None, Rows(rows)),))
    assert grid.values(1)["material.price"] == 30
    kinds = grid.kinds({"name": TEXT, "price": MONEY, "ratio": RATIO_BY_VOLUME, "density_a": DENSITY})
    assert kinds == {"material": ROW, "material.name": TEXT, "material.price": MONEY, "material.ratio": RATIO_BY_VOLUME}
    (block,) = grid.blocks()
    assert block.columns["material.ratio"].a.tolist() == [2.0, 1.0]


def test_a_ratio_field_of_both_bases_serves_by_its_sides_only() -> None:
    rows = tuple(
        Row(basis, (("ratio", RatioValue(Fraction(2), Fraction(1), basis)),)) for basis in ("volume", "weight")
    )
    kinds = Grid((Given("m", None, Rows(rows)), FILLER)).kinds({"ratio": RATIO_BY_VOLUME})
    from quizkit.formula import kind_of

    assert kind_of(parse("m.ratio.a / m.ratio.b"), kinds) == NUMBER
    with pytest.raises(FormulaError):
        kind_of(parse("hardener_for(filler, m.ratio)"), kinds)


def test_a_computed_given_is_worth_exactly_what_it_shows() -> None:
    third = Given("third", MM, Computed(parse("whole / 3"), MM, Fraction(1, 10_000)))
    grid = Grid((third, Given("whole", MM, Even(Fraction(1, 1000), Fraction(1, 1000), 20))))
    assert grid.size == 20
    assert grid.values(0)["third"] == Fraction(3, 10_000)
    assert grid.kinds({}) == {"whole": LENGTH, "third": LENGTH}


def test_a_computed_temperature_is_rounded_in_its_own_unit() -> None:
    mean = Computed(parse("cold + (hot - cold) / 2"), C, Fraction(1))
    grid = Grid(
        (
            Given("cold", C, Listed((C.to_base(Fraction(10)),))),
            Given("hot", C, Listed((C.to_base(Fraction(15)),))),
            Given("mean", C, mean),
        )
    )
    assert grid.values(0)["mean"] == C.to_base(Fraction(13))
    (block,) = grid.blocks()
    assert block.columns["mean"] == pytest.approx(286.15)
    assert np.all(block.near["mean"])


def test_computed_givens_may_stand_in_any_order_but_not_loop() -> None:
    a, b = Given("one", ML, Computed(parse("two * 2"))), Given("two", ML, Computed(parse("filler * 2")))
    assert Grid((a, b, FILLER)).values(0)["one"] == Fraction(240, 10**6)
    with pytest.raises(GridError):
        Grid((a, Given("two", ML, Computed(parse("one * 2"))), FILLER))


def test_a_computed_given_of_another_kind_than_its_unit_is_told() -> None:
    with pytest.raises(FormulaError):
        Grid((FILLER, Given("one", MM, Computed(parse("filler * 2"), MM)))).kinds({})


def test_a_computed_given_without_a_value_is_told() -> None:
    grid = Grid((FILLER, Given("one", None, Computed(parse("filler / (filler - filler)")))))
    with pytest.raises(ArithError):
        grid.values(0)


def test_dates_are_points() -> None:
    grid = Grid(
        (
            Given("opened", None, Dates(datetime.date(2026, 1, 5), 5, 3)),
            Given("made", None, Listed((datetime.date(2025, 12, 1),))),
        )
    )
    assert grid.values(2)["opened"] == datetime.date(2026, 1, 15)
    assert grid.kinds({}) == {"opened": DATE, "made": DATE}


COUNTS = st.lists(st.integers(1, 7), max_size=5)


@given(COUNTS, st.integers(1, 400))
@settings(deadline=None)
def test_blocks_of_any_size_hold_all_points_in_order(counts: list[int], most: int) -> None:
    givens = [
        Given(f"n{place}", None, Even(Fraction(place), Fraction(1, 4), count)) for place, count in enumerate(counts)
    ]
    grid = Grid(tuple(givens))
    seen = 0
    for block in grid.blocks(most):
        assert block.first == seen
        assert block.count <= most
        for name, column in block.columns.items():
            flat = np.broadcast_to(column, block.shape).ravel()
            assert flat.tolist() == [float(grid.values(seen + place)[name]) for place in range(block.count)]  # type: ignore[arg-type]
        seen += block.count
    assert seen == grid.size


def test_a_volume_keeps_its_kind() -> None:
    assert Grid((FILLER, RATIO)).kinds({}) == {"filler": VOLUME, "ratio": RATIO_BY_VOLUME}


def test_of_the_fields_of_a_row_only_those_that_are_asked_for_are_made_columns() -> None:
    rows = tuple(Row(name, (("price", Fraction(3)), ("density", Fraction(2)))) for name in ("one", "two"))
    grid = Grid((Given("m", None, Rows(rows)),))
    (block,) = grid.blocks(used={"m.price", "n.density"})
    assert set(block.columns) == {"m", "m.price"}
    (block,) = grid.blocks()
    assert set(block.columns) == {"m", "m.price", "m.density"}
