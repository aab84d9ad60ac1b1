"""Every outside proof that a module or a kind of job asks for is one of the shop's."""

from __future__ import annotations

from collections.abc import Iterator

from quizkit.authoring.diagnostics import Diagnostic
from quizkit.authoring.files import ContentRead
from quizkit.authoring.keys import Path, at
from quizkit.authoring.nearest import did_you_mean
from quizkit.authoring.source import Source
from quizkit.words import _


def check(content: ContentRead) -> Iterator[Diagnostic]:
    """Tell each unknown outside proof."""
    if content.scheme is None:
        return
    known = [proof.id for proof in content.scheme.proofs]
    for source, path, proof in _named(content):
        if proof not in known:
            what = _("shop.toml has no outside proof '{proof}'").format(proof=proof)
            yield source.problem("M06", at(source, path), what, did_you_mean(proof, known) or _("add [proofs.…]"))


def _named(content: ContentRead) -> Iterator[tuple[Source, Path, str]]:
    for module in content.modules:
        if module.scheme is not None and module.toml is not None:
            for proof in module.scheme.proofs:
                yield module.toml, ("proofs",), proof
    if content.scheme is not None and content.shop is not None:
        for job in content.scheme.jobs:
            for proof in job.proofs:
                yield content.shop, ("jobs", job.id, "proofs"), proof
