"""A sheet on paper: what must be seen, what is measured and with what, and room to write."""

import re
from pathlib import Path

from quizkit.pack.model import Pack
from quizkit.press.sheets import press_sheets


def test_a_module_with_a_sheet_has_a_page_to_print(pack: Pack, tmp_path: Path) -> None:
    (path,) = press_sheets(pack, tmp_path).paths
    page = path.read_text()
    assert path.name == "sheet-pairing.html"
    assert page.count('class="tickbox"') == 1 + 2 + 2
    assert page.index("Keeps each cap on its side.") < page.index("must be seen") < page.index("Names the look.")
    for words in ("Keel adhesive", "side A, net", "Instrument", "Seen on", "If not: Level again."):
        assert words in page
    assert re.search(r"[Rr]atio: <strong>(between|at most|at least) [^<]*\d[^<]*</strong>", page)
    assert (tmp_path / "paper.css").exists()
    assert "<script" not in page
