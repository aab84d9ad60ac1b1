"""The settings of a shop and of its modules, as plain frozen values."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

PeriodUnit = Literal["hours", "days", "weeks", "months", "years"]


@dataclass(frozen=True, slots=True)
class Period:
    """A stretch of the clock or the calendar: 24 hours, 7 days, 12 months."""

    count: int
    unit: PeriodUnit


@dataclass(frozen=True, slots=True)
class Site:
    """A place of the shop: its zone (IANA name), and how many cleared people it wants by skill."""

    id: str
    title: str
    zone: str
    cover: tuple[tuple[str, int], ...] = ()


@dataclass(frozen=True, slots=True)
class OutsideProof:
    """A kind of dated paper from elsewhere.

    `valid` is None where the date on the paper counts; `detail` names the one fact that is kept, or is empty.
    """

    id: str
    title: str
    valid: Period | None = None
    detail: str = ""


@dataclass(frozen=True, slots=True)
class Job:
    """A kind of job: skills, an endorsed family and ratio (empty for any), and outside proofs."""

    id: str
    title: str
    skills: tuple[str, ...]
    family: str = ""
    ratio: str = ""
    proofs: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Certificate:
    """A set of skills that a certificate states, and the sentence that it says."""

    id: str
    title: str
    skills: tuple[str, ...]
    says: str


@dataclass(frozen=True, slots=True)
class Practice:
    """The parameters of mastery (chances from 0 to 1), and the growing gaps after which refreshers come."""

    known: Fraction = Fraction(1, 5)
    learns: Fraction = Fraction(3, 20)
    slips: Fraction = Fraction(1, 10)
    guesses: Fraction = Fraction(1, 5)
    solid: Fraction = Fraction(19, 20)
    again: tuple[Period, ...] = (Period(2, "days"), Period(7, "days"), Period(21, "days"), Period(60, "days"))


@dataclass(frozen=True, slots=True)
class Scheme:
    """Everything that `shop.toml` says. Shares are fractions of 1, money is whole currency units."""

    name: str
    currency: str = "USD"
    mark: str = "."
    dates: str = "y-m-d"
    language: str = "en"
    zone: str = "UTC"
    address: str = ""
    shelf_is_ours: bool = False
    tax: Fraction = Fraction(0)
    tax_by: str = "ticket"
    markup: Fraction = Fraction(0)
    least_charge: Fraction = Fraction(0)
    lapsing: int = 60
    pair_within: int = 90
    first: str = ""
    few: int = 20
    keep: Period = Period(10, "years")
    valid: tuple[tuple[str, Period], ...] = ()
    sites: tuple[Site, ...] = ()
    proofs: tuple[OutsideProof, ...] = ()
    jobs: tuple[Job, ...] = ()
    certificates: tuple[Certificate, ...] = ()
    practice: Practice = Practice()


@dataclass(frozen=True, slots=True)
class Check:
    """The check of a module: the pass mark (share of all marks), its times, and questions a topic."""

    pass_mark: Fraction
    wait: Period
    valid: Period
    topics: tuple[tuple[str, int], ...]
    renewal: tuple[tuple[str, int], ...]
    open_for: Period = Period(48, "hours")


@dataclass(frozen=True, slots=True)
class ModuleScheme:
    """Everything that `module.toml` says. `minutes` and `sheet_minutes` are for the plan."""

    title: str
    skill: str
    check: Check
    needs: tuple[str, ...] = ()
    proofs: tuple[str, ...] = ()
    minutes: int = 25
    sheet_minutes: int = 30
    practical: bool = False
