"""How cheap a choice can be at the least: a bound that never says too much, for the branch and bound of `cheapest.py`.

Each goal is charged prices for the actions of the candidates that it takes, instead of their costs. For any prices at
all, the smallest charges of every goal, less what an action's prices together exceed its cost, are at most the true
cost of any choice (Lagrange's relaxation of 'a candidate counts only when its actions are done'). Prices are then
mended where goals disagree about an action, which raises the bound: subgradient steps, as in Held, Wolfe and Crowder,
Mathematical Programming 6 (1974) (memory).
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

Action = tuple[str, str]
"""A candidate and what is done."""

Prices = Mapping[tuple[Action, str], float]
"""What an action is charged to a goal."""

PATIENCE = 8
"""Steps without a better bound after which the steps are halved."""


@dataclass(frozen=True, slots=True)
class Open:
    """A goal that needs more candidates, and by candidate what each would still have to do."""

    goal: str
    need: int
    fits: Mapping[str, frozenset[Action]]


@dataclass(frozen=True, slots=True)
class Bound:
    """No choice costs less than `least`. `doubtful` is the action that the goals disagree about most."""

    least: int
    prices: Prices
    doubtful: Action


def bound(left: list[Open], cost: Mapping[Action, int], prices: Prices, target: int, rounds: int) -> Bound:
    """The best bound that so many rounds of mending give. Without prices an action's cost is shared evenly.

    `target`: the cost that a choice has to stay below to be of use; a bound that reaches it is enough.
    """
    now = _begin(left, cost, prices)
    best, least, scale, waited = now, -math.inf, 1.0, 0
    used: dict[Action, float] = {}
    for _round in range(rounds):
        value, wrong = _charged(left, cost, now, used)
        if value > least + 1e-9:
            best, least, waited = now, value, 0
        else:
            waited += 1
        if waited > PATIENCE:
            scale, waited = scale / 2, 0
        steps = math.fsum(step * step for step in wrong.values())
        if steps == 0 or _whole(least) >= target:
            break
        stride = scale * max(target - value, 1.0) / steps
        now = {key: max(0.0, price + stride * wrong.get(key, 0)) for key, price in now.items()}
    return Bound(_whole(least), best, _doubtful(used, cost))


def _begin(left: list[Open], cost: Mapping[Action, int], prices: Prices) -> dict[tuple[Action, str], float]:
    """The prices given, or where one is missing an even share of the cost."""
    goals: dict[Action, list[str]] = {}
    for one in left:
        for bundle in one.fits.values():
            for action in bundle:
                goals.setdefault(action, []).append(one.goal)
    return {
        (action, goal): prices.get((action, goal), cost[action] / len(names))
        for action, names in goals.items()
        for goal in names
    }


def _charged(
    left: list[Open], cost: Mapping[Action, int], prices: Prices, used: dict[Action, float]
) -> tuple[float, dict[tuple[Action, str], int]]:
    """The bound at some prices, and by action and goal which way the price is wrong; counts in `used` who is taken."""
    total: dict[Action, float] = {}
    for (action, _goal), price in prices.items():
        total[action] = total.get(action, 0.0) + price
    value = math.fsum(min(0.0, cost[action] - price) for action, price in total.items())
    wrong = {key: -1 for key in prices if total[key[0]] > cost[key[0]]}
    for one in left:
        charges = sorted(
            (math.fsum(prices[action, one.goal] for action in bundle), who) for who, bundle in one.fits.items()
        )
        for charge, who in charges[: one.need]:
            value += charge
            for action in one.fits[who]:
                key = (action, one.goal)
                wrong[key] = wrong.get(key, 0) + 1
                used[action] = used.get(action, 0.0) + 1
    return value, {key: step for key, step in wrong.items() if step}


def _whole(value: float) -> int:
    """A bound on a cost in whole numbers may be rounded up, but for what floats blur."""
    return math.ceil(value - 1e-6)


def _doubtful(used: Mapping[Action, float], cost: Mapping[Action, int]) -> Action:
    """The action taken most often over the rounds, weighed by its cost."""
    return max(used, key=lambda action: (used[action] * cost[action], action))
