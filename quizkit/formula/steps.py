"""What a formula's tree alone says of its value: whether it is counted, and what it is a multiple of."""

from __future__ import annotations

import math
from fractions import Fraction

from quizkit.formula.bounds import constant
from quizkit.formula.tree import Call, Negative, Node, Numeral, Operation, inside
from quizkit.trade import SUMS


def is_counted(node: Node) -> bool:
    """Whether a value is a whole number that nobody rounds."""
    match node:
        case Numeral():
            return node.value.denominator == 1
        case Call(function="ceil" | "floor" | "at_least"):
            return True
        case Negative() | Operation(sign="+" | "-" | "*"):
            return all(map(is_counted, inside(node)))
        case _:
            return False


def step_of(node: Node) -> Fraction | None:
    """What a value is a whole multiple of, in every variant, once what made it so is decided; None where nothing is
    known. Everything is a multiple of 0 alone where it is 0.
    """
    match node:
        case Numeral():
            return node.value
        case Negative():
            return step_of(node.of)
        case Call(function="ceil" | "floor" | "at_least"):
            return Fraction(1)
        case Call(function="nearest"):
            return constant(node.arguments[1])
        case Call(function="next_up"):
            return common_step(*map(step_of, node.arguments[1:]))
        case Call(function="min" | "max" | "abs") | Operation(sign="+" | "-"):
            return common_step(*map(step_of, inside(node)))
        case Call() if node.function in SUMS:
            return SUMS[node.function].stepped
        case Operation(sign="*"):
            left, right = step_of(node.left), step_of(node.right)
            return None if left is None or right is None else left * right
        case _:
            return None


def common_step(*steps: Fraction | None) -> Fraction | None:
    """The largest step of which all these are whole multiples; None where one of them is not known."""
    found = Fraction(0)
    for step in steps:
        if step is None:
            return None
        under = math.lcm(found.denominator, step.denominator)
        found = Fraction(math.gcd(int(found * under), int(step * under)), under)
    return found
