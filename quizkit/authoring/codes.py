"""Every diagnostic that an author can meet: its code, its short name, and whether it stops a pack.

Codes are stable: one that is no longer given is never given to something else.
The letter says where the author looks: F files, B blocks, L labels, T text and tables, Q questions and their
formulas, G givens, A answers, C choice, order and match, P the proof, H the shelf, K lessons, J sheets, M modules,
S settings.
"""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

Severity = Literal["error", "warning", "notice"]


@dataclass(frozen=True, slots=True)
class Code:
    """One kind of problem: its code ("Q21"), its short name ("unit-mismatch") and its weight."""

    code: str
    name: str
    severity: Severity = "error"


_TABLE = (
    Code("F01", "outside-folder"),
    Code("F02", "unreadable-file"),
    Code("F03", "not-utf-8"),
    Code("F04", "control-character"),
    Code("F05", "long-line"),
    Code("F06", "big-file"),
    Code("F07", "empty-file"),
    Code("F08", "missing-file"),
    Code("B01", "unclosed-block"),
    Code("B02", "nested-block"),
    Code("B03", "stray-close"),
    Code("B04", "indented-block"),
    Code("B05", "unknown-block"),
    Code("B06", "bad-block-line"),
    Code("B07", "bad-id"),
    Code("B08", "unclosed-fence"),
    Code("L01", "unknown-label"),
    Code("L02", "misplaced-label"),
    Code("L03", "stray-backtick"),
    Code("L04", "bad-part-name"),
    Code("L05", "needless-name"),
    Code("L06", "glued-label"),
    Code("T01", "broken-table"),
    Code("T02", "swallowed-line"),
    Code("Q01", "no-topic"),
    Code("Q02", "bad-topic"),
    Code("Q03", "nothing-asked"),
    Code("Q04", "said-twice"),
    Code("Q05", "mixed-kinds"),
    Code("Q06", "no-answer-for-ask"),
    Code("Q07", "no-ask-for-answer"),
    Code("Q08", "stray-text"),
    Code("Q09", "no-answer"),
    Code("Q10", "unknown-part"),
    Code("Q11", "bad-critical"),
    Code("Q12", "bad-use"),
    Code("Q13", "no-formula"),
    Code("Q14", "answer-shown"),
    Code("Q15", "no-unit-to-show"),
    Code("Q16", "slip-is-right"),
    Code("Q17", "no-feedback"),
    Code("Q18", "same-id"),
    Code("Q19", "topic-not-asked", "warning"),
    Code("Q20", "bad-formula"),
    Code("Q21", "unit-mismatch"),
    Code("Q22", "unknown-name"),
    Code("Q23", "unknown-field"),
    Code("Q24", "wrong-count"),
    Code("Q25", "formula-too-large"),
    Code("Q26", "bad-sign"),
    Code("Q27", "bad-exponent"),
    Code("Q28", "not-a-slip"),
    Code("Q29", "unknown-function"),
    Code("G01", "bad-draw"),
    Code("G02", "bad-range"),
    Code("G04", "bad-ratio"),
    Code("G05", "bad-date"),
    Code("G06", "bad-shelf-draw"),
    Code("G07", "unknown-column"),
    Code("G08", "bad-given-table"),
    Code("G09", "bad-name"),
    Code("G10", "not-stocked", "notice"),
    Code("G11", "blank-cells", "notice"),
    Code("G12", "too-many-variants"),
    Code("G13", "given-loop"),
    Code("G14", "no-unit-for-given"),
    Code("G15", "no-step-for-given"),
    Code("G16", "unused-given", "warning"),
    Code("A01", "bad-answer"),
    Code("A02", "no-unit"),
    Code("A03", "no-tolerance"),
    Code("A04", "never-even"),
    Code("A05", "bad-tolerance"),
    Code("A06", "bad-amount"),
    Code("A07", "bad-plausible"),
    Code("C01", "bad-option"),
    Code("C02", "nothing-right"),
    Code("C03", "option-count"),
    Code("C04", "alike"),
    Code("C05", "bad-order"),
    Code("C06", "bad-pairs"),
    Code("H01", "no-shelf-table"),
    Code("H02", "bad-column"),
    Code("H03", "bad-material-name"),
    Code("H04", "odd-cell", "warning"),
    Code("K01", "bad-figure"),
    Code("K02", "unknown-figure"),
    Code("K03", "no-title"),
    Code("K04", "broken-link"),
    Code("K05", "empty-source"),
    Code("K06", "misplaced-sheet"),
    Code("K07", "empty-caution", "warning"),
    Code("J01", "bad-sheet"),
    Code("J02", "bad-measure"),
    Code("J03", "bad-judge"),
    Code("J04", "no-material"),
    Code("P01", "too-few-variants"),
    Code("P02", "mostly-left-out"),
    Code("P03", "few-variants", "warning"),
    Code("P04", "use-needed"),
    Code("P06", "slip-without-value", "warning"),
    Code("P07", "twin-slips", "warning"),
    Code("P08", "percent-of-zero"),
    Code("M01", "bad-module-name"),
    Code("M02", "stray-file", "warning"),
    Code("M03", "no-modules"),
    Code("M04", "unknown-skill"),
    Code("M05", "same-skill"),
    Code("M06", "unknown-proof"),
    Code("M07", "needs-loop"),
    Code("M08", "bad-ratings"),
    Code("M09", "short-topic"),
    Code("M10", "short-check", "warning"),
    Code("M11", "not-on-shelf", "warning"),
    Code("M12", "no-sheet"),
    Code("M13", "unused-sheet", "warning"),
    Code("M14", "no-lessons"),
    Code("M15", "short-of-stock", "warning"),
    Code("S01", "not-toml"),
    Code("S02", "unknown-setting"),
    Code("S03", "missing-setting"),
    Code("S04", "wrong-setting"),
    Code("S05", "no-zone", "warning"),
)

CODES = MappingProxyType({entry.code: entry for entry in _TABLE})
"""All codes, in the order in which the guide for authors lists them."""
