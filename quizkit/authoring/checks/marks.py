"""A check with few marks passes and fails the wrong people."""

from __future__ import annotations

from collections.abc import Iterator

from quizkit.authoring.diagnostics import Diagnostic
from quizkit.authoring.files import ContentRead, ModuleRead
from quizkit.authoring.keys import at
from quizkit.words import _, ngettext

FEWEST = 24


def check(content: ContentRead) -> Iterator[Diagnostic]:
    """Warn of a check whose least draw has under 24 marks; renewals are exempt."""
    for module in content.modules:
        if module.scheme is None or module.toml is None or module.broken:
            continue
        least = _least(module)
        if least is not None and least < FEWEST:
            what = ngettext(
                "a check may have as few as {n} mark, under {wanted}",
                "a check may have as few as {n} marks, under {wanted}",
                least,
            ).format(n=least, wanted=FEWEST)
            mend = _("take more questions: with few marks the wrong people pass and fail")
            yield module.toml.problem("M10", at(module.toml, ("check", "topics")), what, mend)


def _least(module: ModuleRead) -> int | None:
    """The marks of the smallest draw; None where a topic is short of questions."""
    assert module.scheme is not None
    marks: dict[str, list[int]] = {}
    for lesson in module.lessons:
        for read in lesson.questions:
            if read.question is not None and read.question.use != "practice":
                marks.setdefault(read.question.topic, []).append(len(read.question.parts))
    total = 0
    for topic, wanted in module.scheme.check.topics:
        found = sorted(marks.get(topic, []))
        if len(found) < wanted:
            return None
        total += sum(found[:wanted])
    return total
