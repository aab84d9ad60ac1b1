"""Flow, hand speed, time to lay a bead, and the push behind the rods."""

from quizkit.arith import Num, at_least, pi, power
from quizkit.trade.declare import INCH, METRIC, N_, sum

_PRESSURE = N_("Never more inlet pressure than the fixed regulator gives and the label allows.")
_OPEN = N_("Open time runs from the first mix, at the temperature of the bay; the data sheet decides.")
_THICK = N_("Doubling the turns does not double the flow of every product: time a shot after each half turn.")


@sum(volume="volume", time="time", gives="flow", works=(METRIC,), into=("mL/min",))
def flow_rate(volume: Num, time: Num) -> Num:
    """The flow of a timed shot.

    Formula: volume ÷ time

    Source: meaning of a flow
    """
    return volume / time


@sum(mass="mass", density="density", time="time", gives="flow", works=(METRIC,), into=("mL/min",))
def flow_by_weight(mass: Num, density: Num, time: Num) -> Num:
    """The flow of a timed and weighed shot of mixed material.

    Formula: mass ÷ density ÷ time

    Source: mass = density × volume
    """
    return mass / (density * time)


@sum(flow="flow", area="area", gives="speed", works=(METRIC, INCH), into=("mm/s", "in/s"))
def bead_speed(flow: Num, area: Num) -> Num:
    """How fast the hand must move for a bead of a cross-section.

    Formula: flow ÷ area

    Source: geometry, volume of a prism in a time
    """
    return flow / area


@sum(length="length", speed="speed", gives="time", cautions=(_OPEN,), works=(METRIC, INCH), into=("s",))
def bead_time(length: Num, speed: Num) -> Num:
    """How long a bead takes to lay.

    Formula: length ÷ speed

    Source: meaning of a speed
    """
    return length / speed


@sum(
    open_time="time",
    length="length",
    speed="speed",
    fit_up="time",
    gives="time",
    subtracts=True,
    cautions=(_OPEN,),
    says=(
        (lambda spare: 1 - at_least(spare, 0), N_("It does not fit the open time: do not start. Ask.")),
        (lambda spare: at_least(spare, 0), N_("It fits the open time.")),
    ),
    works=(METRIC, INCH),
)
def time_to_spare(open_time: Num, length: Num, speed: Num, fit_up: Num) -> Num:
    """The time to spare after laying the bead and fitting up; below 0 the job does not fit the open time.

    Formula: open_time − length ÷ speed − fit_up

    Source: common practice
    """
    return open_time - length / speed - fit_up


@sum(
    set="turns",
    now="turns",
    gives="turns",
    subtracts=True,
    cautions=(_PRESSURE, _THICK),
    says=(
        (lambda turns: 1 - at_least(0, turns), N_("Open the screw by so much.")),
        (lambda turns: 1 - at_least(turns, 0), N_("Close the screw by so much.")),
    ),
)
def turns_to_go(set: Num, now: Num) -> Num:
    """How far the flow screw still has to be opened, counted from closed; below 0 it is to be closed.

    Formula: set − now

    Source: common practice
    """
    return set - now


@sum(old_diameter="length", new_diameter="length", gives="number")
def tip_gain(old_diameter: Num, new_diameter: Num) -> Num:
    """How many times the material a wider tip lays over the same length.

    Formula: (new_diameter ÷ old_diameter)²

    Source: geometry, area of a circle
    """
    return (new_diameter / old_diameter) ** 2


@sum(
    pressure="pressure",
    bore="length",
    gives="force",
    irrational=True,
    works=(("mm", "MPa", "N"), ("in", "psi", "lbf")),
    into=("N", "lbf"),
    cautions=(_PRESSURE, N_("Air off and bled before a hand comes near the rods.")),
)
def rod_push(pressure: Num, bore: Num) -> Num:
    """The force behind a rod.

    Formula: pressure × π × bore² ÷ 4

    Source: force = pressure × area
    """
    return pressure * pi * bore**2 / 4


@sum(
    flow="flow",
    pressure_old="pressure",
    pressure_new="pressure",
    n="number",
    gives="flow",
    irrational=True,
    cautions=(_PRESSURE, N_("Never the square-root law of thin liquids for a mixing nozzle.")),
    refuses=((lambda flow, old, new, n: at_least(0, n), N_("The flow index of the power law lies above 0.")),),
)
def thinned_flow(flow: Num, pressure_old: Num, pressure_new: Num, n: Num) -> Num:
    """The flow at another pressure of a material that thins under shear, flow index n (1 for a Newtonian one).

    Formula: flow × (pressure_new ÷ pressure_old)^(1 ÷ n)

    Source: power-law fluid in a tube
    """
    return flow * power(pressure_new / pressure_old, 1 / n)


@sum(
    viscosity="viscosity",
    length="length",
    flow="flow",
    bore="length",
    gives="pressure",
    irrational=True,
    works=(("m", "m³/s", "Pa·s", "Pa"),),
    into=("kPa", "psi"),
    cautions=(_PRESSURE,),
)
def tube_drop(viscosity: Num, length: Num, flow: Num, bore: Num) -> Num:
    """The pressure that a tube takes up from a Newtonian liquid flowing smoothly.

    Formula: 128 × viscosity × length × flow ÷ (π × bore⁴)

    Source: Hagen-Poiseuille
    """
    return 128 * viscosity * length * flow / (pi * bore**4)


@sum(
    time_in_nozzle="time",
    paused="time",
    gives="time",
    subtracts=True,
    says=((lambda left: at_least(0, left), N_("The time is up: purge, or put a new nozzle on.")),),
    cautions=(N_("The time in the nozzle is its own value of the data sheet, shorter than on the panel."),),
)
def nozzle_time_left(time_in_nozzle: Num, paused: Num) -> Num:
    """The time left before a purge or a new nozzle; below 0 it is too late.

    Formula: time_in_nozzle − paused

    Source: common practice
    """
    return time_in_nozzle - paused
