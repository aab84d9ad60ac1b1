"""One id a question within its module."""

from __future__ import annotations

from collections.abc import Iterator

from quizkit.authoring.diagnostics import Diagnostic, Spot
from quizkit.authoring.files import ContentRead
from quizkit.words import _


def check(content: ContentRead) -> Iterator[Diagnostic]:
    """Tell every question whose id stands earlier in the module already."""
    for module in content.modules:
        first: dict[str, str] = {}
        for lesson in module.lessons:
            source = module.sources[lesson.lesson.id]
            for question in lesson.questions:
                if question.id in first:
                    spot = Spot(question.line, 1, len(source.lines[question.line - 1]))
                    what = _("the id '{id}' is taken: {place}").format(
                        id=question.id.split("/")[1], place=first[question.id]
                    )
                    yield source.problem("Q18", spot, what, _("give this question an id of its own"))
                else:
                    first[question.id] = f"{source.path}:{question.line}"
