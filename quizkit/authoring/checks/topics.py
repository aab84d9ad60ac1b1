"""A check can be drawn: each topic has the questions that it takes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from quizkit.authoring.diagnostics import Diagnostic, Spot
from quizkit.authoring.files import ContentRead, ModuleRead
from quizkit.authoring.keys import at
from quizkit.authoring.nearest import nearest
from quizkit.words import _, ngettext


def check(content: ContentRead) -> Iterator[Diagnostic]:
    """Tell topics with too few questions for the check, and questions of a topic that no check asks."""
    for module in content.modules:
        if module.scheme is not None and module.toml is not None:
            yield from _short(module)
            yield from _unasked(module)


def _short(module: ModuleRead) -> Iterator[Diagnostic]:
    assert module.scheme is not None and module.toml is not None
    have: Counter[str] = Counter()
    unstocked = unread = 0
    for lesson in module.lessons:
        for read in lesson.questions:
            if read.question is not None:
                have[read.question.topic] += read.question.use != "practice"
            elif any(problem.severity == "error" for problem in read.problems):
                unread += 1
            else:
                unstocked += 1
    if module.broken or unread:
        return  # what is missing may stand where an error is told already
    for topic, wanted in module.scheme.check.topics:
        if have[topic] >= wanted:
            continue
        what = ngettext(
            "the check takes {wanted} question of '{topic}', and it has {n}",
            "the check takes {wanted} questions of '{topic}', and it has {n}",
            wanted,
        ).format(wanted=wanted, topic=topic, n=have[topic])
        spot = at(module.toml, ("check", "topics", topic))
        if unstocked:
            mend = _("some are left out because the shop does not stock their material")
            yield module.toml.problem("M15", spot, what, mend)
        else:
            yield module.toml.problem("M09", spot, what, _("write more, or take fewer"))


def _unasked(module: ModuleRead) -> Iterator[Diagnostic]:
    assert module.scheme is not None
    asked = dict(module.scheme.check.topics)
    for lesson in module.lessons:
        source = module.sources[lesson.lesson.id]
        for read in lesson.questions:
            question = read.question
            if question is None or question.topic in asked or question.use == "practice":
                continue
            near = nearest(question.topic, asked)
            mend = _("did you mean '{word}'?").format(word=near) if near else _("add it to [check.topics]")
            what = _("no check asks the topic '{topic}'").format(topic=question.topic)
            yield source.problem("Q19", _topic_line(source.lines, read.line), what, mend)


def _topic_line(lines: tuple[str, ...], start: int) -> Spot:
    for number in range(start, len(lines)):
        if lines[number].startswith("Topic:"):
            return Spot(number + 1, 1, len(lines[number]))
    return Spot(start, 1, len(lines[start - 1]))
