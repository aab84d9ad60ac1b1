"""The cheapest choice against trying everything, and against scipy's solver for whole numbers."""

from __future__ import annotations

from itertools import chain, combinations
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import LinearConstraint, milp
from scipy.sparse import lil_array

from quizkit.standing.bounds import Action
from quizkit.standing.cheapest import Choice, cheapest

Task = tuple[dict[str, dict[str, frozenset[Action]]], dict[str, int], dict[Action, int]]


@st.composite
def tasks(draw: st.DrawFn, people: int, skills: int, most: int) -> Task:
    """People who lack some of a few skills; each skill may need others; some number of people is wanted."""
    names = [f"s{n}" for n in range(skills)]
    needs = {
        name: draw(st.sets(st.sampled_from(names[:place]), max_size=2)) if place else set()
        for place, name in enumerate(names)
    }
    closed: dict[str, set[str]] = {}
    for name in names:
        closed[name] = {name}.union(*(closed[need] for need in needs[name]))
    crowd = [f"p{n}" for n in range(people)]
    lacks = {who: draw(st.sets(st.sampled_from(names))) for who in crowd}
    cost = {(who, name): draw(st.integers(1, most)) for who in crowd for name in names}
    bundles = {
        name: {who: frozenset((who, each) for each in closed[name] & lacks[who]) for who in crowd} for name in names
    }
    demand = {name: draw(st.integers(0, people)) for name in names}
    return bundles, demand, cost


def serves(task: Task, actions: frozenset[Action]) -> bool:
    bundles, demand, _cost = task
    return all(
        sum(bundle <= actions for bundle in candidates.values()) >= demand[goal] for goal, candidates in bundles.items()
    )


@settings(max_examples=60)
@given(tasks(people=3, skills=3, most=9))
def test_no_set_of_actions_is_cheaper(task: Task) -> None:
    bundles, demand, cost = task
    found = cheapest(bundles, demand, cost)
    assert found.exact and serves(task, found.actions)
    assert found.cost == sum(cost[action] for action in found.actions)
    useful = sorted({action for candidates in bundles.values() for bundle in candidates.values() for action in bundle})
    every = chain.from_iterable(combinations(useful, size) for size in range(len(useful) + 1))
    assert found.cost == min(sum(cost[one] for one in some) for some in every if serves(task, frozenset(some)))


def by_milp(task: Task) -> int:
    """The same task as whole numbers: an action is done or not, a person counts or not."""
    bundles, demand, cost = task
    actions = {action: place for place, action in enumerate(sorted(cost))}
    counts = {
        (goal, who): len(actions) + place
        for place, (goal, who) in enumerate((goal, who) for goal in bundles for who in bundles[goal])
    }
    rows: list[tuple[dict[int, float], float]] = []
    for goal, candidates in bundles.items():
        rows.append(({counts[goal, who]: 1.0 for who in candidates}, demand[goal]))
        for who, bundle in candidates.items():
            rows += [({actions[action]: 1.0, counts[goal, who]: -1.0}, 0.0) for action in bundle]
    width = len(actions) + len(counts)
    table: Any = lil_array((len(rows), width))
    for place, (row, _least) in enumerate(rows):
        for column, value in row.items():
            table[place, column] = value
    price = np.zeros(width)
    price[: len(actions)] = [cost[action] for action in actions]
    limits = LinearConstraint(table.tocsc(), lb=[least for _row, least in rows])
    done = milp(price, constraints=limits, integrality=np.ones(width), bounds=(0, 1), options={"mip_rel_gap": 0})
    return round(done.fun)


@settings(max_examples=60)
@given(tasks(people=9, skills=6, most=60))
def test_the_cheapest_costs_what_scipy_s_milp_finds(task: Task) -> None:
    found = cheapest(*task)
    assert found.exact and serves(task, found.actions)
    assert found.cost == by_milp(task)


def test_of_many_people_who_are_all_alike_the_choice_is_found_without_trying_each() -> None:
    crowd = [f"p{n}" for n in range(60)]
    skills = [f"s{n}" for n in range(8)]
    bundles = {
        skill: {who: frozenset((who, each) for each in skills[: place + 1]) for who in crowd}
        for place, skill in enumerate(skills)
    }
    cost = {(who, skill): 10 for who in crowd for skill in skills}
    found = cheapest(bundles, dict.fromkeys(skills, 7), cost, limit=500)
    assert (found.exact, found.cost) == (True, 7 * 8 * 10)


def test_a_search_cut_short_says_so_and_still_serves() -> None:
    task = hard()
    found, true = cheapest(*task, limit=0), cheapest(*task)
    assert not found.exact and true.exact
    assert serves(task, found.actions)
    assert found.cost >= true.cost


def hard() -> Task:
    """Two skills on one need, where the cheapest for each apart is not the cheapest for both."""
    people = {"a": (10, 1, 9), "b": (10, 9, 1), "c": (12, 4, 4), "d": (11, 5, 6)}
    bundles = {skill: {who: frozenset({(who, "base"), (who, skill)}) for who in people} for skill in ("left", "right")}
    cost = {
        (who, what): minutes
        for who, each in people.items()
        for what, minutes in zip(("base", "left", "right"), each, strict=True)
    }
    return bundles, {"left": 2, "right": 2}, cost


def test_nothing_asked_is_nothing_done() -> None:
    assert cheapest({}, {}, {}) == Choice(frozenset(), 0, True)


@pytest.mark.parametrize("wanted", [0, 1, 2])
def test_whoever_already_counts_costs_nothing(wanted: int) -> None:
    bundles = {"s": {"a": frozenset(), "b": frozenset({("b", "s")})}}
    found = cheapest(bundles, {"s": wanted}, {("b", "s"): 5})
    assert found.cost == (5 if wanted == 2 else 0)
