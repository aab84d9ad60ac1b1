"""What is checked across the files of a content folder: one file a check, one plain function each."""

from collections.abc import Callable, Iterator

from quizkit.authoring.checks import families, ids, loops, marks, proofs, sheets, skills, topics
from quizkit.authoring.diagnostics import Diagnostic
from quizkit.authoring.files import ContentRead

Check = Callable[[ContentRead], Iterator[Diagnostic]]

CHECKS: tuple[tuple[str, Check], ...] = (
    ("one id a question", ids.check),
    ("skills that a module teaches", skills.check),
    ("proofs that the shop knows", proofs.check),
    ("needs without a loop", loops.check),
    ("families and ratios on the shelf", families.check),
    ("enough questions of each topic", topics.check),
    ("a check long enough to tell", marks.check),
    ("a sheet where the skill is practical", sheets.check),
)
"""Every check in the order in which they run; each looks at what was read and tells, none changes anything."""
