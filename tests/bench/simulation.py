"""How often a check passes and fails the wrong people: `python -m tests.bench simulation` (a minute or two).

The model. 2,000 forms of each module are drawn by the code that draws them in the shop, from the questions of the real
content, and 2,000 trainees of each ability (.41, .43 … .99: the middles of even steps from .4 to 1) take one each. The
ability is the chance, in the long run, of earning a mark. Parts of one question hang together: for each trainee and
question a chance is drawn from the beta distribution whose mean is the ability and whose spread makes two parts of a
question correlate by `TOGETHER`; given it, the parts are independent (beta-binomial; Keats and Lord, Psychometrika 27
(1962)). A strong testlet effect has a variance of 1 on the logit scale (Wang, Bradlow and Wainer, Applied Psychological
Measurement 26 (2002)), beside the logistic's 3.29 a correlation of .23; both from memory. Questions do not differ in
difficulty. The cut is `pass_mark` of the marks, rounded up, and no critical answer wrong.

A critical answer is asked about twice. 'As any other' gives it the trainee's ability, as if what injures somebody were
known no better than the rest: the price of the rule at its highest. By `rules` such a fail is no wrong one, whatever
the score: it stands in a column of its own, and 'wrongly failed' is by the score. 'Wrongly passed' is by both.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

import numpy as np

from quizkit.arith import ceil
from quizkit.authoring.content import compile_folder
from quizkit.pack.model import Module, Question
from quizkit.quiz.form import Candidate, FormError, draw
from quizkit.quiz.walk import keyed

TRAINEES = 2_000
TOGETHER = 0.3
ABILITIES = tuple(round(0.41 + 0.02 * step, 2) for step in range(30))
LOW, HIGH = (0.40, 0.70), (0.90, 1.00)
STEPS = (-0.40, -0.30, -0.20, -0.15, -0.10, -0.05, 0.0, 0.05, 0.10, 0.15)
CONTENT = Path(__file__).parents[2] / "content"
AIM = 0.02


@dataclass(frozen=True)
class Forms:
    """Drawn forms as arrays, a form a row, a question a column: its parts, and how many of them are critical."""

    parts: np.ndarray
    critical: np.ndarray
    pass_mark: Fraction

    @property
    def marks(self) -> np.ndarray:
        """The marks of each form."""
        return self.parts.sum(axis=1)

    @property
    def cut(self) -> np.ndarray:
        """The marks to pass of each form."""
        return np.array([int(ceil(self.pass_mark * int(marks))) for marks in self.marks])


@dataclass(frozen=True)
class Outcome:
    """Shares at one ability: the score reached, and of those a critical answer wrong as any other may be."""

    ability: float
    reached: float
    stopped: float

    @property
    def passed(self) -> float:
        """The share that passes."""
        return self.reached - self.stopped


def critical_parts(question: Question) -> int:
    """How many parts of a question fail the check on their own."""
    return sum(question.critical or part.critical for part in question.parts)


def drawn(module: Module, topics: Mapping[str, int]) -> Forms:
    """Forms of a module as different people get them. Raises FormError where a topic has too few questions."""
    asked = {one.id: one for one in module.questions if one.use != "practice"}
    pool = [Candidate(one.id, one.topic, critical_parts(one) > 0, len(one.parts)) for one in asked.values()]
    forms = [draw(pool, topics, keyed("simulation", module.id, trainee)) for trainee in range(TRAINEES)]
    parts = np.array([[len(asked[name].parts) for name in form] for form in forms])
    critical = np.array([[critical_parts(asked[name]) for name in form] for form in forms])
    return Forms(parts, critical, module.scheme.check.pass_mark)


def taken(forms: Forms, ability: float, together: float, chance: np.random.Generator) -> Outcome:
    """What becomes of 2,000 trainees of one ability."""
    known = _known(forms.parts.shape, ability, together, chance)
    sure = chance.binomial(forms.critical, known)
    rest = chance.binomial(forms.parts - forms.critical, known)
    reached = (sure + rest).sum(axis=1) >= forms.cut
    missed = (sure < forms.critical).any(axis=1)
    return Outcome(ability, float(reached.mean()), float((reached & missed).mean()))


def _known(shape: tuple[int, ...], ability: float, together: float, chance: np.random.Generator) -> np.ndarray:
    """The chance of each trainee at each question."""
    if together == 0 or ability in (0.0, 1.0):
        return np.full(shape, ability)
    if together == 1:
        return (chance.random(shape) < ability).astype(float)
    spread = 1 / together - 1
    return chance.beta(ability * spread, (1 - ability) * spread, shape)


def curve(forms: Forms, together: float = TOGETHER, abilities: Sequence[float] = ABILITIES) -> tuple[Outcome, ...]:
    """The outcome at each ability."""
    chance = np.random.default_rng(20261125)
    return tuple(taken(forms, ability, together, chance) for ability in abilities)


@dataclass(frozen=True)
class Errors:
    """Means over abilities spread evenly: wrongly passed, wrongly failed by the score, stopped by a critical answer."""

    passed: float
    failed: float
    stopped: float


def errors(outcomes: Sequence[Outcome]) -> Errors:
    """The means over the abilities that should fail and those that should pass."""
    low = [one for one in outcomes if LOW[0] <= one.ability <= LOW[1]]
    high = [one for one in outcomes if HIGH[0] <= one.ability <= HIGH[1]]
    return Errors(
        float(np.mean([one.passed for one in low])),
        float(np.mean([1 - one.reached for one in high])),
        float(np.mean([one.stopped for one in high])),
    )


def lengths(module: Module) -> Iterator[tuple[int, Forms]]:
    """The module's check with fewer and more questions of its longest topic, as far as the content has them."""
    topics = dict(module.scheme.check.topics)
    longest = max(topics, key=lambda name: topics[name])
    for count in range(6, 13):
        try:
            yield count, drawn(module, topics | {longest: count})
        except FormError:
            return


def plain() -> Errors:
    """24 questions of one mark, none critical, 20 to pass: the binomial gives 1.8 % and 1.9 %."""
    shape = (TRAINEES, 24)
    return errors(curve(Forms(np.ones(shape, int), np.zeros(shape, int), Fraction(20, 24))))


def _line(name: str, forms: Forms, found: Errors) -> str:
    marks, asked = sorted({int(one) for one in forms.marks}), (forms.critical > 0).sum(axis=1).mean()
    cuts = sorted({int(one) for one in forms.cut})
    span = f"{cuts[0]} of {marks[0]}" if len(marks) == 1 else f"{cuts[0]} of {marks[0]} to {cuts[-1]} of {marks[-1]}"
    kept = "met" if max(found.passed, found.failed) < AIM else "NOT met"
    return (
        f"{name:22} {forms.parts.shape[1]:3} {span:>20} {asked:6.1f} "
        f"{found.passed:10.2%} {found.failed:10.2%} {found.stopped:10.1%}   {kept}"
    )


def _by_distance(every: Mapping[str, Forms]) -> None:
    """A row a distance of the ability from the cut, a column a module."""
    print(f"{'':9}" + "".join(f"{name[:12]:>14}" for name in every))
    cuts = {name: float((forms.cut / forms.marks).mean()) for name, forms in every.items()}
    rows = {name: curve(forms, abilities=[cuts[name] + step for step in STEPS]) for name, forms in every.items()}
    for place, step in enumerate(STEPS):
        cells = [rows[name][place] for name in every]
        told = [f"{one.passed:.1%}" if step < 0 else f"{1 - one.reached:.1%} + {one.stopped:.0%}" for one in cells]
        print(f"{step:+9.2f}" + "".join(f"{text:>14}" for text in told))


def main() -> None:
    """Print a line a module, how the assumption matters, the errors by distance from the cut, and other lengths."""
    compiled = compile_folder(CONTENT)
    assert compiled.pack is not None, compiled.problems
    modules = compiled.pack.modules
    every = {module.id: drawn(module, dict(module.scheme.check.topics)) for module in modules}
    print(f"{TRAINEES} trainees of each ability; parts of a question correlate by {TOGETHER}; aim: both < {AIM:.0%}")
    heads = (
        f"{'module':22} {'qs':>3} {'to pass':>20} {'crit.':>6} {'w. passed':>10} {'w. failed':>10} {'crit. wrong':>10}"
    )
    print(heads)
    bare = plain()
    print(f"{'(24 plain marks)':22}  24             20 of 24    0.0 {bare.passed:10.2%} {bare.failed:10.2%}")
    for name, forms in every.items():
        print(_line(name, forms, errors(curve(forms))))
    print("\nwrongly passed and wrongly failed where the parts of a question correlate by 0, .15, .5 and 1")
    for name, forms in every.items():
        told = [errors(curve(forms, together)) for together in (0.0, 0.15, 0.5, 1.0)]
        print(f"{name:22} " + "   ".join(f"{one.passed:6.2%} {one.failed:6.2%}" for one in told))
    print("\nby distance from the cut: below it wrongly passed; from it on wrongly failed + a critical answer wrong")
    _by_distance(every)
    print("\nother lengths: questions of the longest topic")
    for module in modules:
        for count, forms in lengths(module):
            print(_line(f"{module.id} {count}"[:22], forms, errors(curve(forms))))


if __name__ == "__main__":
    main()
