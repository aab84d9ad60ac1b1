"""How large a formula may grow, told from its tree before anything is computed."""

from fractions import Fraction

from quizkit.formula.errors import FormulaError
from quizkit.formula.tree import Call, Negative, Node, Numeral, Operation, inside
from quizkit.trade import SUMS
from quizkit.words import _

LARGEST_POWER = 100
"""An exponent may be this large, written out or computed; a formula on a bench has no use for more."""

LARGEST_SIZE = 1000
"""How many values a formula may come to multiply with each other, powers written out."""


def check_size(tree: Node) -> None:
    """Refuse powers of powers and towers. Raises FormulaError at the power that makes it too large."""
    _size(tree)


def _size(node: Node) -> int:
    below = sum(_size(child) for child in inside(node))
    if not (isinstance(node, Operation) and node.sign == "**"):
        return max(below, 1)
    exponent = constant(node.right)
    if any(isinstance(part, Operation) and part.sign == "**" for part in _spine(node.right)):
        raise _too_large(node, _("a power stands in an exponent"))
    if exponent is not None and abs(exponent) > LARGEST_POWER:
        raise _too_large(node, _("this power is too large"))
    size = _size(node.left) * (LARGEST_POWER if exponent is None else int(abs(exponent)) + 1)
    if size > LARGEST_SIZE:
        raise _too_large(node, _("these powers together are too large"))
    return size


def _spine(node: Node) -> list[Node]:
    return [node, *(part for child in inside(node) for part in _spine(child))]


def _too_large(node: Operation, what: str) -> FormulaError:
    mend = _("exponents up to {n}, and not one power of another").format(n=LARGEST_POWER)
    return FormulaError("power-too-large", node.place.column, node.place.length, what, mend)


def constant(node: Node) -> Fraction | None:
    """The value of a part that is made of numerals and + - * / alone; None where it has names, calls or powers."""
    match node:
        case Numeral():
            return node.value
        case Negative():
            inner = constant(node.of)
            return None if inner is None else -inner
        case Operation() if node.sign != "**":
            left, right = constant(node.left), constant(node.right)
            return None if left is None or right is None else _worked(node.sign, left, right)
        case _:
            return None


def _worked(sign: str, left: Fraction, right: Fraction) -> Fraction | None:
    match sign:
        case "+":
            return left + right
        case "-":
            return left - right
        case "*":
            return left * right
        case _:
            return left / right if right else None


def is_irrational(node: Node) -> bool:
    """Whether the value falls back to a float (π, a root, a broken power, such a sum): then a tolerance is required.

    A step, a class or a comparison of a float is exact again.
    """
    match node:
        case Call(function="pi" | "sqrt"):
            return True
        case Call(function="ceil" | "floor" | "at_least"):
            return False
        case Call(function="nearest"):
            return is_irrational(node.arguments[1])
        case Call(function="next_up"):
            return any(is_irrational(step) for step in node.arguments[1:])
        case Call() if node.function in SUMS and SUMS[node.function].irrational:
            return True
        case Operation(sign="**"):
            exponent = constant(node.right)
            return exponent is None or exponent.denominator != 1 or is_irrational(node.left)
        case _:
            return any(is_irrational(child) for child in inside(node))
