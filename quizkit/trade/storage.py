"""Dates of stock, times against temperature, and how much of it to keep. A heat sum only ever shortens."""

import calendar
import datetime
from fractions import Fraction

from quizkit.arith import ArithError, Num, at_least, max, power, settle
from quizkit.trade.declare import N_, sum
from quizkit.words import _

_RULE = N_("'Doubles per 10 °C' is a rule of thumb with limits: the data sheet's own value decides.")
_COLD = N_("A heat sum never lengthens a time. Colder than the sheet's value: no sum, warm it or ask.")
_HOT = N_("Above the label's storage limit there is no number: set it apart, mark it, and ask.")


@sum(date="date", months="months", gives="date", dated=True)
def months_after(date: datetime.date, months: Num) -> datetime.date:
    """The day a number of whole months later; where the month is too short, its last day.

    Formula: date + months

    Source: the calendar; common practice for use-by dates
    """
    count = settle(months)
    if count.denominator != 1:
        raise ArithError(_("months are whole numbers"))
    years, month = divmod(date.year * 12 + date.month - 1 + int(count), 12)
    if not datetime.MINYEAR <= years <= datetime.MAXYEAR:
        raise ArithError(_("this date lies outside the calendar"))
    day = calendar.monthrange(years, month + 1)[1]
    return datetime.date(years, month + 1, day if date.day > day else date.day)


@sum(date="date", gives="date", dated=True)
def month_end(date: datetime.date) -> datetime.date:
    """The last day of a month: what a printed month without a day means.

    Formula: the last day of the month of date

    Source: common practice
    """
    return date.replace(day=calendar.monthrange(date.year, date.month)[1])


@sum(start="date", end="date", gives="number", dated=True)
def days_between(start: datetime.date, end: datetime.date) -> Fraction:
    """The days from one date to another; below 0 if it is past.

    Formula: end − start

    Source: the calendar
    """
    return Fraction((end - start).days)


def _colder(time: Num, temperature: Num, reference: Num, *limit: Num) -> Num:
    return 1 - at_least(temperature, reference)


def _too_hot(life: Num, temperature: Num, reference: Num, limit: Num) -> Num:
    return 1 - at_least(limit, temperature)


@sum(
    time="time",
    temperature="temperature",
    reference="temperature",
    gives="time",
    irrational=True,
    works=(("°C",),),
    cautions=(_RULE,),
    refuses=((_colder, _COLD),),
)
def warm_time(time: Num, temperature: Num, reference: Num) -> Num:
    """The open time in a bay warmer than the data sheet's temperature.

    Formula: time ÷ 2^((temperature − reference) ÷ 10)

    Source: Q10 = 2, the default of ASTM F1980; a rule of thumb
    """
    return time / power(2, (temperature - reference) / 10)


@sum(
    life="time",
    temperature="temperature",
    reference="temperature",
    limit="temperature",
    gives="time",
    irrational=True,
    works=(("°C",),),
    cautions=(_RULE,),
    refuses=((_too_hot, _HOT), (_colder, _COLD)),
)
def store_life(life: Num, temperature: Num, reference: Num, limit: Num) -> Num:
    """The shelf life in a store warmer than the label's temperature, up to the label's limit.

    Formula: life ÷ 2^((temperature − reference) ÷ 10), up to the label's limit

    Source: Q10 = 2, the default of ASTM F1980; a rule of thumb
    """
    return life / power(2, (temperature - reference) / 10)


@sum(stock="number", per_month="number", months="months", gives="number", subtracts=True)
def surplus(stock: Num, per_month: Num, months: Num) -> Num:
    """The part of a stock that will not be used in time.

    Formula: max(stock − per_month × months, 0)

    Source: common practice
    """
    return max(stock - per_month * months, 0)


@sum(per_week="number", delivery="time", reserve="number", gives="number", works=(("week",),))
def reorder_at(per_week: Num, delivery: Num, reserve: Num) -> Num:
    """The stock at which to order: what goes out during the delivery, and a reserve.

    Formula: per_week × delivery ÷ 1 week + reserve

    Source: common practice
    """
    return per_week * delivery / 604800 + reserve
