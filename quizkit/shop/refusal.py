"""What a person is told when a deed cannot be done: nothing was written, and here is what to do instead."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass


class Refusal(Exception):
    """A deed that the rules do not allow, or that lacks something.

    `what` says why, `mend` what to do; both are full sentences without a final stop, in the words of the shop.
    """

    def __init__(self, what: str, mend: str = "") -> None:
        super().__init__(f"{what}: {mend}" if mend else what)
        self.what = what
        self.mend = mend


class Unknown(Refusal):
    """Something that is not there: no such person, module, question, form, sheet."""


class Forbidden(Refusal):
    """Somebody else's to do or to see."""


class WrongSecret(Refusal):
    """The PIN or passphrase that was asked for once more is not the right one."""


class WeakSecret(Refusal):
    """A new PIN or passphrase that anybody would guess, or that is none."""


class Waiting(Refusal):
    """Not yet: `until` says when (UTC)."""

    def __init__(self, what: str, mend: str, until: dt.datetime) -> None:
        super().__init__(what, mend)
        self.until = until


@dataclass(frozen=True, slots=True)
class Lack:
    """One thing that something filled in still lacks: the name of its place on the form, and the words for it."""

    place: str
    words: str


class Lacking(Refusal):
    """Something filled in lacks this and that; `lacks` has each with its place, so that a page can lead there."""

    def __init__(self, what: str, lacks: Sequence[Lack]) -> None:
        super().__init__(what, "; ".join(one.words for one in lacks))
        self.lacks = tuple(lacks)


class StoreTrouble(Refusal):
    """The file of records could not take it: full, read-only, damaged, or a clock set back."""


class OutOfPlace(StoreTrouble):
    """A file of the shop is missing or cannot be used; its words tell a path, for the log and the terminal."""
