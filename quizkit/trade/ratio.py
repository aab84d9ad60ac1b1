"""Shares, weight ratios and how far off a pair of shots is. A ratio always says by volume or by weight."""

from quizkit.arith import Num, at_least, max, min
from quizkit.trade.declare import N_, sum

_SHEET = N_("The product's data sheet gives the ratio and says whether it is by volume or by weight.")
_OFF = N_("Out of the sheet's band: stop, level both sides again, repeat. Never mend a ratio by adding to the bead.")


def _empty_cup(gross_a: Num, tare_a: Num, gross_b: Num, tare_b: Num) -> Num:
    return max(at_least(tare_a, gross_a), at_least(tare_b, gross_b))


@sum(base="amount of ratio", ratio="ratio", gives="amount of ratio", cautions=(_SHEET,))
def hardener_for(base: Num, ratio: Num) -> Num:
    """The hardener that goes with a base.

    Formula: base × ratio.b ÷ ratio.a

    Source: meaning of a ratio a:b, base named first; common practice
    """
    return base * ratio.b / ratio.a


@sum(hardener="amount of ratio", ratio="ratio", gives="amount of ratio", cautions=(_SHEET,))
def base_for(hardener: Num, ratio: Num) -> Num:
    """The base that goes with a hardener.

    Formula: hardener × ratio.a ÷ ratio.b

    Source: meaning of a ratio a:b, base named first; common practice
    """
    return hardener * ratio.a / ratio.b


@sum(total="amount of ratio", ratio="ratio", gives="amount of ratio", cautions=(_SHEET,))
def share_a(total: Num, ratio: Num) -> Num:
    """The base in a mixed total.

    Formula: total × ratio.a ÷ (ratio.a + ratio.b)

    Source: meaning of a ratio a:b, base named first; common practice
    """
    return total * ratio.a / (ratio.a + ratio.b)


@sum(total="amount of ratio", ratio="ratio", gives="amount of ratio", cautions=(_SHEET,))
def share_b(total: Num, ratio: Num) -> Num:
    """The hardener in a mixed total.

    Formula: total × ratio.b ÷ (ratio.a + ratio.b)

    Source: meaning of a ratio a:b, base named first; common practice
    """
    return total * ratio.b / (ratio.a + ratio.b)


@sum(ratio="ratio by volume", density_a="density", density_b="density", gives="number", cautions=(_SHEET,))
def weight_ratio(ratio: Num, density_a: Num, density_b: Num) -> Num:
    """Grams of base to one gram of hardener, from the ratio by volume and both densities.

    Formula: ratio.a ÷ ratio.b × density_a ÷ density_b

    Source: mass = density × volume, for each side
    """
    return ratio.a * density_a / (ratio.b * density_b)


@sum(
    gross_a="mass",
    tare_a="mass",
    gross_b="mass",
    tare_b="mass",
    gives="number",
    subtracts=True,
    cautions=(_OFF,),
    senses=((_empty_cup, N_("A full cup weighs more than its tare: weigh both cups again.")),),
)
def shot_ratio(gross_a: Num, tare_a: Num, gross_b: Num, tare_b: Num) -> Num:
    """The ratio by weight of a pair of weighed shots, each in its own cup.

    Formula: (gross_a − tare_a) ÷ (gross_b − tare_b)

    Source: net = gross − tare; common practice
    """
    return (gross_a - tare_a) / (gross_b - tare_b)


@sum(
    a="amount",
    b="amount",
    target="number",
    gives="share",
    subtracts=True,
    cautions=(_OFF,),
    says=(
        (lambda off: 1 - at_least(0, off), N_("Lean: too little hardener.")),
        (lambda off: 1 - at_least(off, 0), N_("Rich: too much hardener.")),
    ),
)
def off_ratio(a: Num, b: Num, target: Num) -> Num:
    """How far a pair of shots is off the target: above 0 is lean in hardener, below 0 is rich.

    Formula: a ÷ b ÷ target − 1

    Source: relative deviation from a target of the same basis; common practice
    """
    return a / (b * target) - 1


@sum(a_left="amount of ratio", b_left="amount of ratio", ratio="ratio", gives="amount of ratio", cautions=(_SHEET,))
def mixable(a_left: Num, b_left: Num, ratio: Num) -> Num:
    """How much can still be mixed from what is left on both sides: the short side decides.

    Formula: min(a_left ÷ ratio.a, b_left ÷ ratio.b) × (ratio.a + ratio.b)

    Source: meaning of a ratio a:b, base named first; common practice
    """
    return min(a_left / ratio.a, b_left / ratio.b) * (ratio.a + ratio.b)


@sum(bore_a="length", bore_b="length", gives="number")
def bore_ratio(bore_a: Num, bore_b: Num) -> Num:
    """The ratio by volume of two plungers pushed the same way, from their bores.

    Formula: (bore_a ÷ bore_b)²

    Source: area of a circle
    """
    return (bore_a / bore_b) ** 2


@sum(share_of_base="share", gives="share")
def share_of_mix(share_of_base: Num) -> Num:
    """The hardener as a share of the mix, from its share of the base.

    Formula: share_of_base ÷ (1 + share_of_base)

    Source: mix = base + hardener
    """
    return share_of_base / (1 + share_of_base)


@sum(
    share_of_mix="share",
    gives="share",
    subtracts=True,
    refuses=((lambda share: at_least(share, 1), N_("A mix that is all hardener has no base to compare with.")),),
)
def share_of_base(share_of_mix: Num) -> Num:
    """The hardener as a share of the base, from its share of the mix.

    Formula: share_of_mix ÷ (1 − share_of_mix)

    Source: base = mix − hardener
    """
    return share_of_mix / (1 - share_of_mix)


@sum(
    a="amount",
    b="amount",
    air="amount",
    gives="number",
    subtracts=True,
    cautions=(_OFF,),
    refuses=(
        (lambda a, b, air: at_least(air, b), N_("All of the hardener side was air: nothing of this shot cures.")),
    ),
)
def starved_ratio(a: Num, b: Num, air: Num) -> Num:
    """The ratio that really came out when air took some of the hardener side.

    Formula: a ÷ (b − air)

    Source: what is air is not hardener; computed
    """
    return a / (b - air)
