"""A kind of job asks for a family and a ratio that the shelf has, in one material."""

from __future__ import annotations

from collections.abc import Iterator

from quizkit.authoring.diagnostics import Diagnostic
from quizkit.authoring.files import ContentRead
from quizkit.authoring.keys import at
from quizkit.authoring.nearest import did_you_mean
from quizkit.words import _


def check(content: ContentRead) -> Iterator[Diagnostic]:
    """Tell each family or ratio of a job that no material has, and the two that no one material has."""
    if content.scheme is None or content.shop is None or not content.shelf.rows:
        return
    families = {str(row.field("family")) for row in content.shelf.rows}
    ratios = {str(row.field("ratio")) for row in content.shelf.rows}
    for job in content.scheme.jobs:
        if job.family and job.family not in families:
            what = _("no material on the shelf is of the family '{family}'").format(family=job.family)
            spot = at(content.shop, ("jobs", job.id, "family"))
            yield content.shop.problem("M11", spot, what, did_you_mean(job.family, families))
        if job.ratio and job.ratio not in ratios:
            what = _("no material on the shelf has the ratio {ratio}").format(ratio=job.ratio)
            spot = at(content.shop, ("jobs", job.id, "ratio"))
            yield content.shop.problem("M11", spot, what, _("the shelf has: {ratios}").format(ratios=_listed(ratios)))
        of_family = {str(row.field("ratio")) for row in content.shelf.rows if str(row.field("family")) == job.family}
        if of_family and job.ratio in ratios - of_family:
            what = _("no material of the family '{family}' has the ratio {ratio}").format(
                family=job.family, ratio=job.ratio
            )
            spot = at(content.shop, ("jobs", job.id, "ratio"))
            yield content.shop.problem(
                "M11", spot, what, _("the shelf has: {ratios}").format(ratios=_listed(of_family))
            )


def _listed(words: set[str]) -> str:
    return ", ".join(sorted(words))
