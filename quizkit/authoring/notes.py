"""Collecting problems while a piece of a file is read."""

from __future__ import annotations

from quizkit.authoring.diagnostics import Diagnostic, Spot
from quizkit.authoring.source import Source, Stretch
from quizkit.formula import FormulaError

FORMULA_CODES = {
    "bad-formula": "Q20",
    "empty-formula": "Q20",
    "not-a-comparison": "Q20",
    "unit-mismatch": "Q21",
    "unknown-name": "Q22",
    "bad-name": "Q22",
    "unknown-field": "Q23",
    "wrong-count": "Q24",
    "formula-too-long": "Q25",
    "formula-too-deep": "Q25",
    "power-too-large": "Q25",
    "number-too-large": "Q25",
    "bad-sign": "Q26",
    "bad-word": "Q26",
    "bad-exponent": "Q27",
    "not-a-slip": "Q28",
    "unknown-function": "Q29",
}
"""What the formula language calls a fault, and the code under which an author is told."""


class Notes:
    """The problems of one piece of a file, whose lines `source` holds."""

    def __init__(self, source: Source) -> None:
        self.source = source
        self.problems: list[Diagnostic] = []

    def tell(self, code: str, place: Spot | Stretch, what: str, mend: str = "") -> None:
        """Add a problem at a place."""
        spot = place if isinstance(place, Spot) else place.spot()
        self.problems.append(self.source.problem(code, spot, what, mend))

    def tell_formula(self, stretch: Stretch, error: FormulaError) -> None:
        """Add a fault of the formula that stands in `stretch`."""
        start = min(error.column, max(len(stretch.text) - 1, 0))
        self.tell(FORMULA_CODES[error.code], stretch.spot(start, start + error.length), error.what, error.mend)

    @property
    def failed(self) -> bool:
        """Whether an error is among the problems."""
        return any(problem.severity == "error" for problem in self.problems)
