"""Exposure to vapor, dust and noise; protection factors, gloves and the eyewash. Each limit carries its agency."""

from quizkit.arith import Num, at_least, ceil, log10, min, next_up, power
from quizkit.trade.declare import METRIC, N_, sum

HOUR = 3600
SHIFT = 8 * HOUR
_AIR = (("ppm", "mg/m³", "g/mol"),)

_AGENCY = N_("No sum says 'safe'. Take formula, factor and limit of one agency together.")
_COMPARES = N_("The result says over or under, and of which agency's limit.")
_BARE = N_("The result is no verdict: hold it against the limit of one agency.")
_BOUND = N_("A limit is no verdict: hold what was measured against it.")
_SKIN = N_("Skin counts too. For somebody sensitized there is no safe level.")
_DECIDES = N_("The respirator program decides, ask.")
_MASK = N_("An apprentice does not pick a mask by this sum: wear the one on the program's list, or stop and ask.")
_FIT = N_("Federal OSHA: a full facepiece counts 50 only with a quantitative fit test, else 10.")
_ISOCYANATES = (N_("Are isocyanates in the material?"), _DECIDES)
_CLASS = N_("No class of mask is high enough. Stop. The respirator program decides, ask.")
_BREAKTHROUGH = N_("A breakthrough time is not a safe time. Splashed or wetted: change now.")
_LONG = N_(
    "Times of more than 8 hours over 8 are cautious practice, not the rule: federal OSHA takes the worst 8 hours."
)


def _total(*pairs: Num) -> Num:
    """The sum of the products of each pair."""
    total: Num = 0
    for left, right in zip(pairs[::2], pairs[1::2], strict=True):
        total = total + left * right
    return total


@sum(
    level="exposure", time="time", repeats=2, gives="exposure", cautions=(_BARE, _AGENCY, _SKIN, _LONG), works=(("h",),)
)
def twa(level: Num, time: Num, *more: Num) -> Num:
    """The 8-hour time-weighted average of levels, each over its time; hours without exposure count as zero.

    Formula: Σ(level × time) ÷ 8 h

    Source: 29 CFR 1910.1000(d)(1)
    """
    return _total(level, time, *more) / SHIFT


@sum(
    level="exposure each",
    limit="exposure each",
    repeats=2,
    gives="number",
    cautions=(_COMPARES, _AGENCY, _SKIN),
    says=(
        (
            lambda total: 1 - at_least(1, total),
            N_("Over 1: over the limit of the mixture, though each may be under its own."),
        ),
        (
            lambda total: at_least(1, total),
            N_("Not over 1: not over the limit of the mixture, of the agency whose limits these are."),
        ),
    ),
)
def mixture(level: Num, limit: Num, *more: Num) -> Num:
    """How much of the limit a mixture uses up; above 1 is over the limit, below 1 is no proof of safe air.

    Formula: Σ(level ÷ limit)

    Source: 29 CFR 1910.1000(d)(2)
    """
    total = level / limit
    for one, bound in zip(more[::2], more[1::2], strict=True):
        total = total + one / bound
    return total


@sum(
    level="ppm", molar_mass="molar mass", gives="concentration", cautions=(_BARE, _AGENCY), works=_AIR, into=("mg/m³",)
)
def ppm_to_mg(level: Num, molar_mass: Num) -> Num:
    """A vapor's level in mg/m³, from ppm, at 25 °C and 1 atm.

    Formula: level × molar_mass ÷ 24.45 L/mol

    Source: CCOHS; NIOSH prints 24.46
    """
    return level * molar_mass / 24450


@sum(level="concentration", molar_mass="molar mass", gives="ppm", cautions=(_BARE, _AGENCY), works=_AIR, into=("ppm",))
def mg_to_ppm(level: Num, molar_mass: Num) -> Num:
    """A vapor's level in ppm, from mg/m³, at 25 °C and 1 atm.

    Formula: level × 24.45 L/mol ÷ molar_mass

    Source: CCOHS; NIOSH prints 24.46
    """
    return level * 24450 / molar_mass


@sum(
    factor="number",
    limit="exposure",
    idlh="exposure",
    gives="exposure",
    cautions=(_BOUND, _AGENCY, _MASK, _FIT, _SKIN),
    senses=(
        (lambda factor, limit, idlh: 1 - at_least(idlh, limit), N_("This limit lies above IDLH: look both up again.")),
    ),
    asks=(_ISOCYANATES,),
)
def max_use(factor: Num, limit: Num, idlh: Num) -> Num:
    """The highest level for a mask, from its protection factor: never above IDLH or what its cartridge can do.

    Formula: min(factor × limit, idlh)

    Source: 29 CFR 1910.134(b) and (d)(3)(i)(B)
    """
    return min(factor * limit, idlh)


@sum(
    level="exposure",
    limit="exposure",
    gives="number",
    stepped=5,
    cautions=(_AGENCY, _MASK, _FIT, _SKIN),
    refuses=((lambda level, limit: 1 - at_least(1000 * limit, level), _CLASS),),
    senses=((lambda level, limit: at_least(limit, level), N_("Not over this limit. The program still decides, ask.")),),
    asks=(_ISOCYANATES,),
)
def factor_needed(level: Num, limit: Num) -> Num:
    """The smallest protection factor of federal OSHA's classes that serves.

    Formula: level ÷ limit, then the next class up of 10, 25, 50, 1000

    Source: 29 CFR 1910.134, Table 1
    """
    return next_up(level / limit, 10, 25, 50, 1000)


_EARS = N_("The hearing program counts all levels from 80 to 130 dBA. Wear the protection in any case.")


@sum(level="sound", gives="time", irrational=True, cautions=(_BOUND, _AGENCY, _EARS), works=(("h",),))
def noise_time(level: Num) -> Num:
    """The time a day that federal OSHA allows at a sound level, by formula (its Table G-16 rounds).

    Formula: 8 h ÷ 2^((level − 90) ÷ 5)

    Source: 29 CFR 1910.95, Appendix A
    """
    return SHIFT / power(2, (level - 90) / 5)


@sum(
    level="sound",
    time="time",
    repeats=2,
    gives="share",
    irrational=True,
    cautions=(_COMPARES, _AGENCY, _EARS),
    works=(("h",),),
    says=(
        (lambda dose: 1 - at_least(1, dose), N_("Over 100 %: over the limit of federal OSHA.")),
        (lambda dose: at_least(1, dose), N_("Not over 100 %: not over the limit of federal OSHA.")),
    ),
)
def noise_dose(level: Num, time: Num, *more: Num) -> Num:
    """The noise dose of a day: each time as a share of what federal OSHA allows at its level.

    Formula: Σ(time × 2^((level − 90) ÷ 5)) ÷ 8 h

    Source: 29 CFR 1910.95, Appendix A
    """
    pairs = (level, time, *more)
    weighted = [part for at in range(0, len(pairs), 2) for part in (power(2, (pairs[at] - 90) / 5), pairs[at + 1])]
    return _total(*weighted) / SHIFT


@sum(
    dose="share",
    gives="sound",
    into=("dBA",),
    irrational=True,
    cautions=(_BARE, _AGENCY, _EARS),
    refuses=((lambda dose: at_least(0, dose), N_("No dose has no average level.")),),
)
def noise_twa(dose: Num) -> Num:
    """The 8-hour average sound level that a dose amounts to.

    Formula: 16.61 × log10(dose) + 90

    Source: 29 CFR 1910.95, Appendix A
    """
    return 1661 * log10(dose) / 100 + 90


@sum(level="sound", gives="time", irrational=True, cautions=(_BOUND, _AGENCY, _EARS), works=(("h",),))
def noise_time_niosh(level: Num) -> Num:
    """The time a day that NIOSH recommends at a sound level: 8 h at 85 dBA, half for each 3 dB.

    Formula: 8 h ÷ 2^((level − 85) ÷ 3)

    Source: NIOSH, recommended exposure limit for noise
    """
    return SHIFT / power(2, (level - 85) / 3)


@sum(minutes="time", gives="number", stepped=1, cautions=(_BREAKTHROUGH,), works=(("min",),))
def glove_class(minutes: Num) -> Num:
    """The EN 374 permeation class of a breakthrough time; 0 is none.

    Formula: minutes, counted against 10, 30, 60, 120, 240 and 480 min: how many of them lie below it

    Source: EN 374 permeation classes (measured at 1.0 µg/cm²/min; ASTM F739 measures at 0.1: not interchangeable)
    """
    reached: Num = 0
    for bound in (10, 30, 60, 120, 240, 480):
        reached = reached + 1 - at_least(bound * 60, minutes)
    return reached


@sum(job="time", breakthrough="time", gives="number", stepped=1, cautions=(_BREAKTHROUGH,))
def glove_pairs(job: Num, breakthrough: Num) -> Num:
    """Pairs of gloves for a job, changed at half the breakthrough time of this material.

    Formula: job ÷ (breakthrough ÷ 2), rounded up

    Source: common practice: changed at half the breakthrough time
    """
    return ceil(job * 2 / breakthrough)


@sum(
    bottle="volume",
    flow="flow",
    gives="time",
    works=(METRIC,),
    into=("s",),
    cautions=(N_("An eye is flushed for 15 minutes: a bottle only bridges the way to the eyewash."),),
)
def eyewash_time(bottle: Num, flow: Num) -> Num:
    """How long an eyewash bottle lasts at a flow.

    Formula: bottle ÷ flow

    Source: ANSI Z358.1: 0.4 US gal/min for 15 min (memory)
    """
    return bottle / flow
