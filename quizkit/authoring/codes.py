"""Every diagnostic that an author can meet: its code, its short name, and whether it stops a pack.

Codes are stable: one that is no longer given is never given to something else.
The letter says where the author looks: F files, B blocks, L labels, T tables and text, S settings.
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
    Code("S01", "not-toml"),
    Code("S02", "unknown-setting"),
    Code("S03", "missing-setting"),
    Code("S04", "wrong-setting"),
    Code("S05", "no-zone", "warning"),
)

CODES = MappingProxyType({entry.code: entry for entry in _TABLE})
"""All codes, in the order in which the guide for authors lists them."""
