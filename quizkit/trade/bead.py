"""Cross-sections, volumes and lengths of beads, coats, nozzles and cartridges."""

from quizkit.arith import Num, at_least, ceil, pi, sqrt
from quizkit.trade.declare import INCH, METRIC, N_, sum

_PROCEDURE = N_("The vehicle maker's repair procedure gives the size and the place of the bead.")
_WHOLE = N_("All of it would be sanded off: nothing stays.")
_MIXED = (METRIC, INCH)
_EMPTY = N_("What stays in the nozzle and the cartridge is as much as the cartridge holds: nothing comes out.")


@sum(diameter="length", gives="area", irrational=True, cautions=(_PROCEDURE,))
def round_area(diameter: Num) -> Num:
    """The cross-section of a round bead.

    Formula: π × diameter² ÷ 4

    Source: geometry, area of a circle
    """
    return pi * diameter**2 / 4


@sum(diameter="length", gives="area", irrational=True, cautions=(_PROCEDURE,))
def half_round_area(diameter: Num) -> Num:
    """The cross-section of a half-round bead, flat side down.

    Formula: π × diameter² ÷ 8

    Source: geometry, half the area of a circle
    """
    return pi * diameter**2 / 8


@sum(leg="length", gives="area", cautions=(_PROCEDURE,))
def fillet_area(leg: Num) -> Num:
    """The cross-section of a right fillet with two equal legs.

    Formula: leg² ÷ 2

    Source: geometry, half a square; the same in welding handbooks
    """
    return leg**2 / 2


@sum(width="length", depth="length", gives="area", cautions=(_PROCEDURE,))
def rect_area(width: Num, depth: Num) -> Num:
    """The cross-section of a joint that is filled square.

    Formula: width × depth

    Source: geometry, area of a rectangle
    """
    return width * depth


@sum(base="length", height="length", gives="area", cautions=(_PROCEDURE,))
def vee_area(base: Num, height: Num) -> Num:
    """The cross-section of a bead from a V-cut tip.

    Formula: base × height ÷ 2

    Source: geometry, area of a triangle
    """
    return base * height / 2


@sum(area="area", length="length", gives="volume", cautions=(_PROCEDURE,), works=_MIXED, into=("mL", "in³"))
def bead_volume(area: Num, length: Num) -> Num:
    """The material in a bead.

    Formula: area × length

    Source: geometry, volume of a prism
    """
    return area * length


@sum(volume="volume", area="area", gives="length", cautions=(_PROCEDURE,), works=_MIXED, into=("m", "ft"))
def bead_length(volume: Num, area: Num) -> Num:
    """How long a bead an amount of material gives.

    Formula: volume ÷ area

    Source: geometry, volume of a prism
    """
    return volume / area


@sum(
    area="area",
    thickness="length",
    sanded="share",
    gives="volume",
    subtracts=True,
    works=_MIXED,
    into=("mL", "in³"),
    refuses=((lambda area, thickness, sanded: at_least(sanded, 1), _WHOLE),),
)
def coat_volume(area: Num, thickness: Num, sanded: Num) -> Num:
    """What to put on so that a thickness stays when a share of it is sanded off.

    Formula: area × thickness ÷ (1 − sanded)

    Source: geometry; what stays is the rest of the whole
    """
    return area * thickness / (1 - sanded)


@sum(width="length", gap="length", squeeze="share", gives="length", irrational=True, cautions=(_PROCEDURE,))
def joint_bead(width: Num, gap: Num, squeeze: Num) -> Num:
    """The round bead that fills a bond line and leaves a squeeze-out, a share of what the joint holds.

    Formula: √(4 × width × gap × (1 + squeeze) ÷ π)

    Source: geometry, circle and rectangle of one area
    """
    return sqrt(4 * width * gap * (1 + squeeze) / pi)


@sum(
    laid="volume",
    joint="volume",
    gives="share",
    subtracts=True,
    senses=(
        (
            lambda laid, joint: 1 - at_least(laid, joint),
            N_("The joint holds more than was laid: starved. Stop and ask."),
        ),
    ),
)
def squeeze_share(laid: Num, joint: Num) -> Num:
    """The share of what was laid that came out of the joint.

    Formula: (laid − joint) ÷ laid

    Source: what is not in the joint came out; common practice
    """
    return (laid - joint) / laid


@sum(
    need="volume",
    cartridge="volume",
    left="volume",
    nozzle="volume",
    gives="number",
    stepped=1,
    refuses=((lambda need, cartridge, left, nozzle: at_least(left + nozzle, cartridge), _EMPTY),),
)
def cartridges_needed(need: Num, cartridge: Num, left: Num, nozzle: Num) -> Num:
    """Whole cartridges for a job, when some stays in each cartridge and each takes a new nozzle.

    Formula: need ÷ (cartridge − left − nozzle), rounded up

    Source: common practice
    """
    return ceil(need / (cartridge - left - nozzle))


@sum(
    left="volume",
    nozzle="volume",
    area="area",
    gives="length",
    subtracts=True,
    cautions=(_PROCEDURE,),
    senses=(
        (lambda left, nozzle, area: at_least(nozzle, left), N_("What is left does not fill the nozzle: take another.")),
    ),
    works=_MIXED,
    into=("m", "ft"),
)
def reach(left: Num, nozzle: Num, area: Num) -> Num:
    """How far what is left in a cartridge goes, when a nozzle must first be filled from it.

    Formula: (left − nozzle) ÷ area

    Source: geometry, volume of a prism
    """
    return (left - nozzle) / area


@sum(
    bore="length",
    length="length",
    free="share",
    gives="volume",
    irrational=True,
    senses=(
        (lambda bore, length, free: 1 - at_least(1, free), N_("At most 100 % of a nozzle is free: look it up again.")),
    ),
    works=_MIXED,
    into=("mL", "in³"),
)
def nozzle_volume(bore: Num, length: Num, free: Num) -> Num:
    """What a mixing nozzle holds, when its elements leave a share of it free.

    Formula: π × bore² ÷ 4 × length × free

    Source: geometry, volume of a cylinder
    """
    return pi * bore**2 / 4 * length * free


@sum(bore="length", travel="length", gives="volume", irrational=True, works=_MIXED, into=("mL", "in³"))
def plunger_volume(bore: Num, travel: Num) -> Num:
    """What a plunger pushes out over a travel, or what a difference in level amounts to.

    Formula: π × bore² ÷ 4 × travel

    Source: geometry, volume of a cylinder
    """
    return pi * bore**2 / 4 * travel
