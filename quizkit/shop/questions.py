"""What a trainer reads about the questions of a check: how they were answered, and what pulled people wrong."""

from __future__ import annotations

import datetime as dt
import re
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from html import escape
from textwrap import shorten

from quizkit.arith import ceil
from quizkit.pack.html import render
from quizkit.pack.model import Choice, Module, Nodes, Numeric, Pack, Part, Question
from quizkit.pack.nodes import Element
from quizkit.quiz.questions import Answered, CheckFigures, QuestionFigures, Watched, report
from quizkit.shop.asking import is_critical, words_of
from quizkit.shop.handle import Shop, Stored
from quizkit.shop.packs import current_pack, module_named, pack_of, settings
from quizkit.shop.people import trainer
from quizkit.words import _

SHORT = 90
"""Characters of a question's or an option's words that a line shows."""


@dataclass(frozen=True, slots=True)
class QuestionLine:
    """A question with its figures. `title` is the beginning of its words; `earlier` counts the answers that were given
    to it before it was changed, which the figures leave out.
    """

    question: str
    title: str
    topic: str
    critical: bool
    figures: QuestionFigures
    earlier: int


@dataclass(frozen=True, slots=True)
class StatisticsView:
    """The questions of a skill's full checks. Below `least` people (`few`) they hold words and no coefficients.

    `practice_only` are those that no check asks; `titles` are the beginnings of the words of all that have no line.
    """

    skill: str
    title: str
    people: int
    forms: int
    least: int
    few: bool
    out_of: int
    pass_mark: int
    lines: tuple[QuestionLine, ...]
    check: CheckFigures | None
    not_asked: tuple[str, ...]
    practice_only: tuple[str, ...]
    titles: Mapping[str, str]

    @property
    def shares(self) -> tuple[tuple[str, float, float, float], ...]:
        """For the chart: each question with its share right and the interval around it, hardest first."""
        rows = [
            (line.question.rpartition("/")[2], line.figures.share, *line.figures.interval)
            for line in self.lines
            if line.figures.share is not None and line.figures.interval is not None
        ]
        return tuple(sorted(rows, key=lambda row: row[1]))


def question_statistics(shop: Shop, viewer: int, skill: str, *, now: dt.datetime) -> StatisticsView:
    """How the questions of a skill's full checks were answered, for a trainer or a manager. Struck checks are left out.

    Raises Unknown for a skill that the shop does not teach.
    """
    trainer(shop, viewer)
    pack = current_pack(shop)
    module = module_named(pack, skill)
    forms = _forms(shop, module.scheme.skill)
    answers, earlier = _answers(shop, pack, module, forms)
    out_of = Counter(int(result["out_of"]) for _f, result in forms).most_common(1)
    marks = out_of[0][0] if out_of else 0
    cut = int(ceil(module.scheme.check.pass_mark * marks))
    told = report(answers, [_watched(one) for one in asked(module)], settings(shop).few, marks, cut)
    met = {one.question for one in told.lines}
    return StatisticsView(
        skill=module.scheme.skill,
        title=module.scheme.title,
        people=told.people,
        forms=told.forms,
        least=settings(shop).few,
        few=told.few,
        out_of=marks,
        pass_mark=cut,
        lines=tuple(_line(pack, one, earlier) for one in told.lines),
        check=told.check,
        not_asked=tuple(one.id for one in asked(module) if one.id not in met),
        practice_only=tuple(one.id for one in module.questions if one.use == "practice"),
        titles={one.id: title_of(one) for one in module.questions if one.id not in met},
    )


def asked(module: Module) -> tuple[Question, ...]:
    """The questions that a check of a module may ask."""
    return tuple(one for one in module.questions if one.use != "practice")


def title_of(question: Question) -> str:
    """The beginning of a question's words, its numbers by their names."""
    return _short(named(question.prompt))


def named(nodes: Nodes) -> str:
    """A text in plain words, with the name of each value in place of its number."""
    return words_of(render(nodes, _named))


def _named(element: Element) -> str:
    name = re.sub(r"[_.]", " ", element.get("formula"))
    return f"[{escape(name)}]" if element.tag == "value" else ""


def _short(text: str) -> str:
    """The beginning of a text, with no name of a value cut in two."""
    cut = shorten(text.removesuffix("."), SHORT, placeholder=" …")
    return re.sub(r" ?\[[^\]]*…$", " …", cut)


def _line(pack: Pack, found: QuestionFigures, earlier: Mapping[str, int]) -> QuestionLine:
    question = pack.question(found.question)
    return QuestionLine(
        question.id, title_of(question), question.topic, is_critical(question), found, earlier.get(question.id, 0)
    )


def _watched(question: Question) -> Watched:
    wrong = [(part, name) for part in question.parts for name in _wrong(question, part)]
    return Watched(
        question.id,
        tuple(name for part, name in wrong if isinstance(part, Choice)),
        tuple(name for part, name in wrong if isinstance(part, Numeric)),
    )


def _forms(shop: Shop, skill: str) -> list[tuple[Stored, Stored]]:
    """The full checks handed in, each with its person (on paper too) and its result; those struck since are gone."""
    forms = {row["id"]: row for row in shop.rows("form", skill=skill, kind="full")}
    struck = {row["of_row"] for row in shop.rows("strike", of_table="result")}
    results = shop.rows("result", skill=skill, kind="full")
    return [({**forms[row["form"]], "person": row["person"]}, row) for row in results if row["id"] not in struck]


def _answers(
    shop: Shop, pack: Pack, module: Module, forms: list[tuple[Stored, Stored]]
) -> tuple[list[Answered], Counter[str]]:
    """Each question of each form as it was answered; one changed since stands under another name and is counted."""
    numbers = [form["id"] for form, _result in forms]
    latest, seconds = _latest(shop, {form["id"]: form for form, _result in forms}, numbers)
    known = {one.id: one for one in module.questions}
    same: dict[tuple[str, str], bool] = {}
    earlier: Counter[str] = Counter()
    found = []
    by_form = {form["id"]: form for form, _result in forms}
    for item in shop.rows("form_item", form=numbers):
        form = by_form[item["form"]]
        then = pack_of(shop, form["pack"]).question(item["question"])
        key = (form["pack"], then.id)
        if key not in same:
            same[key] = _same(then, known.get(then.id))
        if not same[key]:
            earlier[then.id] += 1
        answer = latest.get((form["id"], item["item"]))
        found.append(
            Answered(
                person=str(form["person"]),
                form=str(form["id"]),
                question=then.id if same[key] else f"{then.id} {form['pack']}",
                marks=float(Fraction(answer["marks"])) if answer else 0.0,
                out_of=float(len(then.parts)),
                picks=tuple(_picks(then, item, answer)) if answer else (),
                seconds=seconds.get((form["id"], item["item"])),
            )
        )
    return found, earlier


def _same(then: Question, today: Question | None) -> bool:
    """Whether a question still says and asks what it did; the shelf it draws on may have changed."""
    return today is not None and (then.prompt, then.parts) == (today.prompt, today.parts)


def _latest(
    shop: Shop, forms: Mapping[int, Stored], numbers: list[int]
) -> tuple[dict[tuple[int, int], Stored], dict[tuple[int, int], float]]:
    """The latest answer of each item, and the seconds spent on it: from the answer before, or the start, to each of its
    own. Of paper no time is known.
    """
    latest: dict[tuple[int, int], Stored] = {}
    seconds: dict[tuple[int, int], float] = {}
    before: dict[int, dt.datetime] = {}
    for row in shop.rows("answer", form=numbers):
        form, key = forms[row["form"]], (row["form"], row["item"])
        latest[key] = row
        if not form["paper"]:
            spent = row["recorded_at"] - before.get(row["form"], form["recorded_at"])
            seconds[key] = seconds.get(key, 0.0) + spent.total_seconds()
            before[row["form"]] = row["recorded_at"]
    return latest, seconds


def _wrong(question: Question, part: Part) -> Iterator[str]:
    """The wrong options and the slips of a part by names that a trainer reads."""
    several = f"{part.name}, " if len(question.parts) > 1 else ""
    match part:
        case Numeric():
            for at, slip in enumerate(part.slips, 1):
                words = _short(named(slip.feedback) or slip.formula)
                yield _("{part}slip {number}: {words}").format(part=several, number=at, words=words)
        case Choice():
            for at, option in enumerate(part.options, 1):
                if not option.right and not option.when:
                    words = _short(named(option.text))
                    yield _("{part}option {number}: {words}").format(part=several, number=at, words=words)


def _picks(question: Question, item: Stored, answer: Stored) -> Iterator[str]:
    """What an answer chose wrong, by the same names."""
    for part in question.parts:
        told = answer["verdict"].get(part.name, {})
        if isinstance(part, Numeric):
            names = list(_wrong(question, part))
            yield from (names[at] for at in told.get("slips", ()) if told["outcome"] == "slip")
        elif isinstance(part, Choice) and told.get("outcome") == "wrong":
            yield from _chosen(question, part, item, answer["typed"].get(part.name, ""))


def _chosen(question: Question, part: Choice, item: Stored, typed: str) -> Iterator[str]:
    places = [at for at, option in enumerate(part.options) if not option.right and not option.when]
    names = dict(zip(places, _wrong(question, part), strict=True))
    shown = item["ordering"].get(part.name, range(len(part.options)))
    for text in typed.replace(",", " ").split():
        if text.isdecimal() and 1 <= int(text) <= len(shown) and shown[int(text) - 1] in names:
            yield names[shown[int(text) - 1]]
