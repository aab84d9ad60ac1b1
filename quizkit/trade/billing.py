"""From two readings of a cartridge's scale to a line on the ticket; tax to the cent; stock against what was billed."""

from fractions import Fraction

from quizkit.arith import Num, at_least, max, nearest
from quizkit.trade.declare import INCH, METRIC, N_, sum

CENT = Fraction(1, 100)

_AS_USED = N_("Bill as used, not as planned. What the paint-hour rate already pays is not billed again.")
_TAX = N_("States differ on whether and on whose sale materials are taxed: the shop's setting decides.")


def _backwards(start: Num, end: Num, *_full: Num) -> Num:
    return 1 - at_least(end, start)


def _overfull(_start: Num, end: Num, full: Num, *_price: Num) -> Num:
    return 1 - at_least(full, end)


_READINGS = (
    (_backwards, N_("The end lies below the start, counted from full: read the scale again.")),
    (_overfull, N_("More has gone out than a full cartridge holds: read the scale again.")),
)


@sum(start="amount", end="amount", full="amount", gives="share", subtracts=True, cautions=(_AS_USED,), senses=_READINGS)
def used_share(start: Num, end: Num, full: Num) -> Num:
    """The share of a cartridge that was used, from two readings of what has gone out of it.

    Formula: (end − start) ÷ full

    Source: common practice
    """
    return (end - start) / full


@sum(
    start="amount",
    end="amount",
    full="amount",
    price="money",
    gives="money",
    subtracts=True,
    cautions=(_AS_USED,),
    senses=_READINGS,
)
def used_cost(start: Num, end: Num, full: Num, price: Num) -> Num:
    """What the used part of a cartridge cost.

    Formula: (end − start) ÷ full × price

    Source: common practice
    """
    return (end - start) * price / full


@sum(cost="money", markup="share", gives="money")
def with_markup(cost: Num, markup: Num) -> Num:
    """The charge with a markup on the cost.

    Formula: cost × (1 + markup)

    Source: markup is a share of the cost; common practice
    """
    return cost * (1 + markup)


@sum(
    cost="money",
    margin="share",
    gives="money",
    subtracts=True,
    refuses=(
        (lambda cost, margin: at_least(margin, 1), N_("A margin of the whole charge leaves nothing for the cost.")),
    ),
)
def at_margin(cost: Num, margin: Num) -> Num:
    """The charge that leaves a margin: a share of the charge, not of the cost.

    Formula: cost ÷ (1 − margin)

    Source: margin is a share of the charge; common practice
    """
    return cost / (1 - margin)


@sum(count="number", price="money", gives="money", cautions=(_AS_USED,))
def nozzle_cost(count: Num, price: Num) -> Num:
    """What the nozzles or tips cost, each counted once.

    Formula: count × price

    Source: common practice
    """
    return count * price


@sum(charge="money", least_charge="money", gives="money")
def least(charge: Num, least_charge: Num) -> Num:
    """The charge, but not under the shop's least charge.

    Formula: max(charge, least_charge)

    Source: common practice
    """
    return max(charge, least_charge)


@sum(amount="money", rate="share", gives="money", stepped=CENT, cautions=(_TAX,))
def tax(amount: Num, rate: Num) -> Num:
    """The tax on an amount, to the cent.

    Formula: amount × rate, to the cent, halves up

    Source: Streamlined Sales and Use Tax Agreement, sec. 324
    """
    return nearest(amount * rate, CENT)


@sum(rate="share", amount="money", repeats=1, gives="money", stepped=CENT, cautions=(_TAX,))
def taxed_by_line(rate: Num, amount: Num, *more: Num) -> Num:
    """The tax on a ticket when each line is rounded to the cent.

    Formula: Σ(amount × rate), each to the cent

    Source: Streamlined Sales and Use Tax Agreement, sec. 324
    """
    total = nearest(amount * rate, CENT)
    for line in more:
        total = total + nearest(line * rate, CENT)
    return total


@sum(rate="share", amount="money", repeats=1, gives="money", stepped=CENT, cautions=(_TAX,))
def taxed_by_ticket(rate: Num, amount: Num, *more: Num) -> Num:
    """The tax on a ticket when the total is rounded once.

    Formula: Σ(amount) × rate, to the cent

    Source: Streamlined Sales and Use Tax Agreement, sec. 324
    """
    total = amount
    for line in more:
        total = total + line
    return nearest(total * rate, CENT)


@sum(
    start="same",
    received="same",
    end="same",
    scrapped="same",
    gives="same",
    subtracts=True,
    says=((lambda used: 1 - at_least(used, 0), N_("Less than nothing was used: count again.")),),
)
def stock_used(start: Num, received: Num, end: Num, scrapped: Num) -> Num:
    """What went into jobs in a month, from the counts; what was thrown out is not sold.

    Formula: start + received − end − scrapped

    Source: stock equation; common practice
    """
    return start + received - end - scrapped


@sum(used="same", billed="same", gives="same", subtracts=True)
def unbilled(used: Num, billed: Num) -> Num:
    """What was used and not billed.

    Formula: used − billed

    Source: common practice
    """
    return used - billed


@sum(price="money", volume="volume", area="area", gives="money per length", works=(METRIC, INCH), into=("$/m", "$/ft"))
def cost_per_length(price: Num, volume: Num, area: Num) -> Num:
    """What a length of bead costs.

    Formula: price ÷ volume × area

    Source: geometry, volume of a prism; common practice
    """
    return price * area / volume
