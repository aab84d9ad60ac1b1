"""The cheapest set of actions that gives every goal as many candidates as it asks for: exact, by branch and bound.

A goal counts a candidate once all actions of the candidate's bundle are done. Bundles of one candidate may share
actions; an action is paid once. Weighing one bundle against the others is what makes this hard, so choices are tried
with a bound that never says too much (`bounds.py`). A branch whose bound reaches the best choice found cannot better it
and is left; when nothing is left to try, the best choice is the cheapest.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from quizkit.standing.bounds import Action, Open, Prices, bound

Bundles = Mapping[str, Mapping[str, frozenset[Action]]]
"""By goal and candidate, the actions after which the candidate counts for the goal."""

LIMIT = 20_000
FIRST_ROUNDS, LATER_ROUNDS = 200, 15
"""How often prices are mended for the first bound and for each one after it."""


@dataclass(frozen=True, slots=True)
class Choice:
    """The actions chosen and their cost; `exact` is False where the search was cut short at its limit."""

    actions: frozenset[Action]
    cost: int
    exact: bool


@dataclass(frozen=True, slots=True)
class _Node:
    """A partial choice: actions done, actions that are not to be done, and the prices its bound began with."""

    done: frozenset[Action]
    out: frozenset[Action]
    prices: Prices


@dataclass(frozen=True, slots=True)
class _Task:
    bundles: Bundles
    demand: Mapping[str, int]
    cost: Mapping[Action, int]
    likeness: Mapping[str, frozenset[tuple[str, frozenset[tuple[str, int]]]]]


def cheapest(bundles: Bundles, demand: Mapping[str, int], cost: Mapping[Action, int], limit: int = LIMIT) -> Choice:
    """The cheapest actions after which each goal counts at least `demand` candidates.

    Costs are whole numbers above 0; each goal has at least as many candidates as it asks for. Goals that share no
    action are solved apart. `limit` bounds the branches tried in each such part.
    """
    parts = [_solve(_task(part, demand, cost), limit) for part in _apart(bundles)]
    actions = frozenset().union(*(part.actions for part in parts))
    return Choice(actions, sum(cost[action] for action in actions), all(part.exact for part in parts))


def _apart(bundles: Bundles) -> list[Bundles]:
    """The goals in groups that have no action in common."""
    groups: list[tuple[set[str], set[Action]]] = []
    for goal, candidates in bundles.items():
        names, actions = {goal}, set().union(*candidates.values())
        for group in [one for one in groups if not one[1].isdisjoint(actions)]:
            groups.remove(group)
            names |= group[0]
            actions |= group[1]
        groups.append((names, actions))
    return [{goal: bundles[goal] for goal in bundles if goal in names} for names, _actions in groups]


def _task(bundles: Bundles, demand: Mapping[str, int], cost: Mapping[Action, int]) -> _Task:
    like: dict[str, set[tuple[str, frozenset[tuple[str, int]]]]] = {}
    for goal, candidates in bundles.items():
        for candidate, bundle in candidates.items():
            own = frozenset((what, cost[candidate, what]) for _who, what in bundle)
            like.setdefault(candidate, set()).add((goal, own))
    return _Task(bundles, demand, cost, {candidate: frozenset(own) for candidate, own in like.items()})


def _solve(task: _Task, limit: int) -> Choice:
    best = _greedy(task)
    todo = [_Node(frozenset(), frozenset(), {})]
    tried = 0
    while todo and tried < limit:
        node = todo.pop()
        left = _left(task, node.done, node.out)
        if left is None:
            continue
        paid = sum(task.cost[action] for action in node.done)
        if not left:
            best = min(best, _trimmed(task, node.done), key=lambda one: one.cost)
            continue
        found = bound(left, task.cost, node.prices, best.cost - paid, LATER_ROUNDS if tried else FIRST_ROUNDS)
        if paid + found.least < best.cost:
            todo += _branches(task, node, found.doubtful, found.prices)
        tried += 1
    return Choice(best.actions, best.cost, not todo)


def _left(task: _Task, done: frozenset[Action], out: frozenset[Action]) -> list[Open] | None:
    """The goals still open with what each candidate would still have to do; None where one has too few candidates."""
    found: list[Open] = []
    for goal, candidates in task.bundles.items():
        rest = {candidate: bundle - done for candidate, bundle in candidates.items()}
        need = task.demand[goal] - sum(not bundle for bundle in rest.values())
        if need > 0:
            fits = {who: bundle for who, bundle in rest.items() if bundle and out.isdisjoint(bundle)}
            if len(fits) < need:
                return None
            found.append(Open(goal, need, fits))
    return found


def _greedy(task: _Task) -> Choice:
    """A fair choice to begin with: again and again the candidate with the least left to pay for, then trimmed."""
    done: frozenset[Action] = frozenset()
    while left := _left(task, done, frozenset()):
        _cost, who, goal = min(
            (sum(task.cost[action] for action in bundle), who, one.goal)
            for one in left
            for who, bundle in one.fits.items()
        )
        done |= task.bundles[goal][who]
    return _trimmed(task, done)


def _trimmed(task: _Task, actions: frozenset[Action]) -> Choice:
    """A choice without the actions that it can do without, dearest first."""
    for action in sorted(actions, key=lambda one: (-task.cost[one], one)):
        if _left(task, actions - {action}, frozenset()) == []:
            actions -= {action}
    return Choice(actions, sum(task.cost[action] for action in actions), False)


def _branches(task: _Task, node: _Node, action: Action, prices: Prices) -> list[_Node]:
    """Without and with an action; the last is tried first.

    Without it means without that of all candidates who are just like this one so far: a choice with one of theirs could
    be turned into one with this.
    """
    candidate, what = action
    touched = {who for who, _what in node.done | node.out}
    alike = {action}
    if candidate not in touched:
        mark = task.likeness[candidate]
        alike |= {(who, what) for who, own in task.likeness.items() if own == mark and who not in touched}
    return [
        _Node(node.done, node.out | alike, prices),
        _Node(node.done | {action}, node.out, prices),
    ]
