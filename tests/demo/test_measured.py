"""What was measured in the demo satisfies every judge of its sheet, for every material that the sheet takes."""

import quizkit
from quizkit.demo import content_folder
from quizkit.demo.measured import measured
from quizkit.pack.sheets import judge_sheet


def test_every_sheet_of_the_content_is_satisfied() -> None:
    pack = quizkit.compile_content(content_folder())
    for module in pack.modules:
        assert module.sheet is not None
        for name in module.sheet.materials:
            row = pack.shelf.row(name)
            assert row is not None
            judged = judge_sheet(module.sheet, measured(module.scheme.skill, row), row, pack.style)
            assert judged.satisfied, (module.id, name, [one for one in judged.judges if not one.satisfied])
