"""The sums of the trade: pure functions, each with its units, formula, cautions and source.

`SUMS` maps the name of a sum to its `Sum`; looking it up imports the files below once.
"""

from collections.abc import Mapping
from types import MappingProxyType

from quizkit.trade import bead, billing, exposure, flow, ratio, storage
from quizkit.trade.declare import REGISTERED, Refused, Sum

FILES = (ratio, bead, flow, exposure, storage, billing)

SUMS: Mapping[str, Sum] = MappingProxyType(REGISTERED)
"""Every sum by its name, in the order of the files."""

__all__ = ["FILES", "SUMS", "Refused", "Sum"]
