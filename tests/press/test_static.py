"""The static build: a page a lesson without keys, and previews with keys for the author alone."""

import os
from dataclasses import replace
from pathlib import Path

from quizkit.pack.model import Image, Match, Order, Pack
from quizkit.pack.nodes import Element
from quizkit.press.static import SPREAD, build, placed, spread


def test_every_lesson_and_question_has_its_page(pack: Pack, tmp_path: Path) -> None:
    built = build(pack, tmp_path / "made")
    assert (built.lessons, built.previews) == (1, 3)
    made = sorted(str(path.relative_to(tmp_path / "made")) for path in (tmp_path / "made").rglob("*") if path.is_file())
    assert made == [
        "index.html",
        "look.css",
        "mark.svg",
        "pairing/1-shares.html",
        "paper.css",
        "preview/pairing/pick.html",
        "preview/pairing/share.html",
        "preview/pairing/steps.html",
    ]


def test_a_lesson_shows_cautions_questions_and_pictures_and_no_key(pack: Pack, tmp_path: Path) -> None:
    build(pack, tmp_path)
    page = (tmp_path / "pairing/1-shares.html").read_text().replace("\u00a0", " ")
    assert "Shares &amp; parts" in page and "Gloves on." in page and "60 mL" in page
    assert "<svg" in page and "data-figure" not in page
    assert "the &lt;thin&gt;" in page and "<thin>" not in page
    assert "6.0 mL" not in page and "Right" not in page


def test_what_is_put_in_order_or_paired_is_shown_by_the_alphabet(pack: Pack, tmp_path: Path) -> None:
    """As written is the key: such a page shows neither an order nor pairs like that, and leaves neither out."""
    steps = replace(
        pack.question("pairing/steps"),
        parts=(
            Order("order", (("wipe",), ("level",), ("air off",))),
            Match("match", ((("filler",), ("fills",)), (("adhesive",), ("bonds",)))),
        ),
    )
    (module,) = pack.modules
    (lesson,) = module.lessons
    asked = replace(lesson, body=(Element("question", (("id", steps.id),)),))
    build(replace(pack, modules=(replace(module, lessons=(asked,), questions=(steps,)),)), tmp_path)
    page = (tmp_path / "pairing/1-shares.html").read_text()
    assert "<ol><li>air off</li><li>level</li><li>wipe</li></ol>" in page
    assert '<ol><li>filler</li><li>adhesive</li></ol><ol type="a"><li>bonds</li><li>fills</li></ol>' in page


def test_an_invented_shelf_is_said_at_the_head_of_a_lesson_until_it_is_the_shops_own(
    pack: Pack, tmp_path: Path
) -> None:
    build(pack, tmp_path)
    page = (tmp_path / "pairing/1-shares.html").read_text()
    assert 0 < page.index("invented until the shop") < page.index("Gloves on.")
    ours = replace(pack, scheme=replace(pack.scheme, shelf_is_ours=True))
    build(ours, tmp_path / "ours")
    assert "invented" not in (tmp_path / "ours/pairing/1-shares.html").read_text()


def test_a_preview_shows_keys_of_variants_from_the_first_to_the_last(pack: Pack, tmp_path: Path) -> None:
    build(pack, tmp_path)
    page = (tmp_path / "preview/pairing/share.html").read_text()
    assert page.count('<section class="ticket">') == SPREAD
    assert "6.0 mL" in page and "24.0 mL" in page and "shows keys" in page


def test_a_preview_shows_what_each_slip_comes_to_and_what_is_said_to_it(pack: Pack, tmp_path: Path) -> None:
    build(pack, tmp_path)
    (slip,) = pack.question("pairing/share").part("answer").slips
    page = (tmp_path / "preview/pairing/share.html").read_text()
    assert page.count(f"<code>{slip.formula}</code>") == SPREAD
    assert page.count(f"{slip.feedback[0]}</li>") == SPREAD
    assert '<span class="value">600.0 mL</span>' in page


def test_a_spread_is_even_and_skips_holes(pack: Pack) -> None:
    question = pack.question("pairing/share")
    assert spread(question)[0] == 0 and spread(question)[-1] == 36 and len(set(spread(question))) == SPREAD
    few = replace(question, left_out=((0, 30),))
    assert spread(few) == [30, 31, 32, 33, 34, 35, 36]


def test_a_second_build_touches_only_what_changed(pack: Pack, tmp_path: Path) -> None:
    build(pack, tmp_path)
    page = tmp_path / "pairing/1-shares.html"
    os.utime(page, (1, 1))
    build(pack, tmp_path)
    assert page.stat().st_mtime == 1
    module = pack.modules[0]
    lesson = replace(module.lessons[0], title="Another")
    build(replace(pack, modules=(replace(module, lessons=(lesson,)),)), tmp_path)
    assert "Another" in page.read_text()


def test_links_and_pictures_lead_to_files(pack: Pack, tmp_path: Path) -> None:
    assert placed('<a href="../ppe/1-air#masks">', "") == '<a href="../ppe/1-air.html#masks">'
    assert placed('<img src="image/a.png">', "../../m/") == '<img src="../../m/image/a.png">'
    for kept in ('<a href="https://x.example/a">', '<a href="#top">', '<a href="mailto:a@x.example">', '<a href="/a">'):
        assert placed(kept, "../") == kept
    module = pack.modules[0]
    drawn = replace(
        module.lessons[0],
        body=(
            Element(
                "img",
                (("src", "image/a.png"), ("alt", "A")),
            ),
        ),
    )
    shown = replace(module, lessons=(drawn,), images=(Image("a.png", "image/png", "iVBORw=="),))
    build(replace(pack, modules=(shown,)), tmp_path)
    assert (tmp_path / "pairing/image/a.png").read_bytes() == b"\x89PNG"
    assert 'src="image/a.png"' in (tmp_path / "pairing/1-shares.html").read_text()


def test_what_is_kept_for_the_check_stands_in_no_lesson(pack: Pack, tmp_path: Path) -> None:
    module = pack.modules[0]
    questions = tuple(replace(one, use="check") if one.id == "pairing/pick" else one for one in module.questions)
    build(replace(pack, modules=(replace(module, questions=questions),)), tmp_path)
    assert "the &lt;thin&gt;" not in (tmp_path / "pairing/1-shares.html").read_text()
    assert "the &lt;thin&gt;" in (tmp_path / "preview/pairing/pick.html").read_text()
