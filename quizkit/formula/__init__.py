"""The formula language: one text, three arithmetics (units, arrays, exact fractions), and the grid of givens.

`reader` turns a text into a `Formula`; `dimensions`, `many` and `single` are the three arithmetics; `draws` and `grid`
hold what the givens of a question are drawn from, and `grain` tells what their values are whole multiples of.
"""

from quizkit.formula.bounds import is_irrational
from quizkit.formula.cells import Many
from quizkit.formula.dimensions import kind_of
from quizkit.formula.draws import Computed, Dates, Draw, Even, Given, Listed, Ratios, Rows
from quizkit.formula.errors import FormulaError
from quizkit.formula.grid import LARGEST_GRID, Block, Grid, GridError
from quizkit.formula.many import arrays
from quizkit.formula.names import name_fault
from quizkit.formula.reader import parse
from quizkit.formula.single import NearStep, exact, holds, number
from quizkit.formula.tree import Formula
from quizkit.formula.values import RatioValue, Row

__all__ = [
    "LARGEST_GRID",
    "Block",
    "Computed",
    "Dates",
    "Draw",
    "Even",
    "Formula",
    "FormulaError",
    "Given",
    "Grid",
    "GridError",
    "Listed",
    "Many",
    "NearStep",
    "RatioValue",
    "Ratios",
    "Row",
    "Rows",
    "arrays",
    "exact",
    "holds",
    "is_irrational",
    "kind_of",
    "name_fault",
    "number",
    "parse",
]
