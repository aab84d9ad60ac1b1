"""What is wrong with a formula, and where."""


class FormulaError(ValueError):
    """A formula that cannot stand. Nothing was computed.

    `code` is a short stable name ("unknown-name", "unit-mismatch"); `column` and `length` mark the place in the text of
    the formula, in characters from 0; `what` is wrong and how to `mend` it are words for the author.
    """

    def __init__(self, code: str, column: int, length: int, what: str, mend: str = "") -> None:
        super().__init__(what)
        self.code = code
        self.column = column
        self.length = max(length, 1)
        self.what = what
        self.mend = mend
