"""What holds for every picture: well-formed, told in words, safe under a strict policy, in the ink of its page."""

import inspect
import itertools
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quizkit.pack.figures import FIGURES as NAMED
from quizkit.pictures import FIGURES, SPOKEN, cover_chart, shares_chart, shelf_label, solid_scale
from quizkit.trade import SUMS

VALUES = {
    "pressure_gauge": (85, 90),
    "flow_dial": (1.5, 2.5),
    "cartridge_scale": (85, 200),
    "two_readings": (30, 115, 200),
    "round_bead": (8,),
    "half_round_bead": (6,),
    "fillet_bead": (6,),
    "rect_bead": (6.35, 9.525),
    "vee_bead": (8, 14),
    "bond_line": (25, 0.5),
    "ports": (4, 1),
    "plungers": (42, 46.5),
    "thermometer_log": (31, 9, 4, 31, 25),
    "thermometer": (27, 25),
    "open_time_strip": (6, 7.5),
    "scale_reading": (27.4, 0.1),
    "exposure_day": (60, 2, 25, 3, 50),
} | {name: () for name in FIGURES if name.startswith("ghs_")}

PICTURES = {name: lambda id, name=name: FIGURES[name](*VALUES[name], id=id) for name in VALUES} | {
    "shelf_label": lambda id: shelf_label("Keel <&> adhesive", "2:1 by volume", [("Inlet", "90 psi")], note="x", id=id),
    "solid_scale": lambda id: solid_scale(10, 6, 2, id=id),
    "cover_chart": lambda id: cover_chart("Balancing & more", [("1 Mar", 3), ("8 Mar", 1)], 2, id=id),
    "shares_chart": lambda id: shares_chart([("ports & <shots>", 0.5, 0.3, 0.7), ("x" * 40, 1, 0.8, 1)], id=id),
}
SIGNS = {name for name in FIGURES if name.startswith("ghs_")}

READ_WITH = {
    "pressure_gauge": [(41, 90), (127, 90), (88.5, 90)],
    "flow_dial": [(0, 2.5), (1.5, 3), (3.25, 0)],
    "cartridge_scale": [(0, 200), (83.5, 200), (200, 200)],
    "two_readings": [(0, 200, 200), (12, 85, 200), (113, 113, 200)],
    "plungers": [(42, 46.5), (47, 41), (45, 45)],
    "thermometer_log": [(31, 9, 4, 31, 25), (31, 20, 9, 38, 25), (31, 3, 0, 22, 25)],
    "thermometer": [(0, 25), (27, 25), (43.5, 25)],
    "scale_reading": [(27.4, 0.1), (3.1, 0.1), (-0.7, 0.1)],
}
"""For each figure that is read: values that share one scale, so that any word that differs would tell the value."""


def test_the_figures_are_those_that_an_author_may_name():
    wanted = {name: [parameter for parameter, _unit in takes] for name, takes in NAMED.items()}
    found = {name: list(inspect.signature(function).parameters)[:-1] for name, function in FIGURES.items()}
    assert found == wanted
    assert all(
        inspect.signature(function).parameters["id"].kind.name == "KEYWORD_ONLY" for function in FIGURES.values()
    )


def test_no_figure_bears_the_name_of_a_sum():
    assert not FIGURES.keys() & SUMS.keys()


@pytest.mark.parametrize("name", PICTURES)
def test_it_has_a_title_and_a_description_that_a_screen_reader_finds(look, name):
    root = look(PICTURES[name]("pic-7")).root
    by_id = {element.get("id"): element for element in root.iter() if element.get("id")}
    told = root.attrib["aria-labelledby"].split()
    assert root.attrib["role"] == "img"
    assert [by_id[one].tag.rpartition("}")[2] for one in told] == ["title", "desc"]
    assert all((by_id[one].text or "").strip() for one in told)


@pytest.mark.parametrize("name", PICTURES)
def test_two_of_a_kind_on_one_page_share_no_id(look, name):
    one, other = (
        [element.get("id") for element in look(PICTURES[name](id)).root.iter() if element.get("id")]
        for id in ("a", "b")
    )
    assert len(one) == len(set(one))
    assert not set(one) & set(other)
    pointed = set(re.findall(r"url\(#([^)]+)\)", PICTURES[name]("a")))
    assert pointed <= set(one), "every pattern that is used stands in the same picture"


@pytest.mark.parametrize("name", PICTURES)
def test_a_strict_content_security_policy_lets_it_through(look, name):
    for element in look(PICTURES[name]("a")).root.iter():
        assert element.tag.rpartition("}")[2] in {
            *("svg", "title", "desc", "defs", "pattern", "text"),
            *("line", "polygon", "polyline", "circle", "rect", "path"),
        }
        assert not [key for key in element.attrib if key == "style" or key.startswith("on") or "href" in key]


@pytest.mark.parametrize("name", PICTURES)
def test_it_takes_the_ink_of_its_page(look, name):
    root = look(PICTURES[name]("a")).root
    paints = {element.attrib[key] for element in root.iter() for key in ("fill", "stroke") if key in element.attrib}
    own = {"#ffffff", "#000000", "#c8102e"} if name in SIGNS else set()
    assert root.attrib["stroke"] == "currentColor"
    assert {paint for paint in paints if not paint.startswith("url(#")} <= {"currentColor", "none"} | own


@pytest.mark.parametrize("name", PICTURES)
def test_it_stays_small_and_no_text_is_too_small_to_read(look, name):
    svg = PICTURES[name]("a")
    root = look(svg).root
    on_a_phone = min(1, 328 / float(root.attrib["width"]))
    sizes = [float(element.attrib["font-size"]) for element in root.iter() if "font-size" in element.attrib]
    assert len(svg.encode()) < 16_000
    assert not [size for size in sizes if size * on_a_phone < 10]


WIDE = [
    *(
        lambda name=name, values=values: FIGURES[name](*values, id="a")
        for name in READ_WITH
        for values in READ_WITH[name]
    ),
    *(lambda used=used: FIGURES["open_time_strip"](1440, used, id="a") for used in (0, 1440, 14_400)),
    *(lambda mm=mm: FIGURES["round_bead"](mm, id="a") for mm in (0.1, 2.345, 123.456)),
    *(lambda mm=mm: FIGURES["half_round_bead"](mm, id="a") for mm in (0.1, 2.345, 123.456)),
    *(lambda mm=mm: FIGURES["fillet_bead"](mm, id="a") for mm in (0.1, 2.345, 123.456)),
    *(lambda pair=pair: FIGURES["rect_bead"](*pair, id="a") for pair in ((0.125, 123.456), (123.456, 0.125))),
    *(lambda pair=pair: FIGURES["vee_bead"](*pair, id="a") for pair in ((0.125, 123.456), (123.456, 0.125))),
    *(lambda pair=pair: FIGURES["bond_line"](*pair, id="a") for pair in ((1, 19.125), (123.456, 0.125))),
    lambda: FIGURES["pressure_gauge"](900, 1000, id="a"),
    lambda: FIGURES["exposure_day"](9_990, 7.9, 0, 0.1, 10_000, id="a"),
    lambda: FIGURES["thermometer_log"](62, 1, 62, 99, 30, id="a"),
    lambda: cover_chart("Applicator pressure and hand speed", [("29 Nov", 20_000), ("27 Dec", 9)], 12_000, id="a"),
]
"""Pictures of long words and large numbers."""


@pytest.mark.parametrize("draw", [*(lambda draw=draw: draw("a") for draw in PICTURES.values()), *WIDE])
def test_no_text_falls_off_its_picture_nor_on_another(look, draw):
    # 0.62 of its size a sign, 0.67 in bold: the widest usual system font, DejaVu Sans, measured in chromium.
    root = look(draw()).root
    edge, top, width, height = map(float, root.attrib["viewBox"].split())
    boxes = []
    for element in (element for element in root.iter() if element.tag.endswith("}text")):
        x, y, size = (float(element.attrib[key]) for key in ("x", "y", "font-size"))
        reach = (0.67 if "font-weight" in element.attrib else 0.62) * size * len(element.text or "")
        left = {"middle": x - reach / 2, "end": x - reach, "start": x}[element.attrib["text-anchor"]]
        boxes.append((left, left + reach, y - 0.4 * size, y + 0.4 * size, element.text))
        assert edge <= left and left + reach <= edge + width, element.text
        assert top + size / 2 <= y <= top + height - size / 2, element.text
    for one, other in itertools.combinations(boxes, 2):
        apart = one[1] <= other[0] or other[1] <= one[0] or one[3] <= other[2] or other[3] <= one[2]
        assert apart, (one[4], other[4])


@pytest.mark.parametrize("name", PICTURES)
def test_the_same_numbers_give_the_same_picture(name):
    assert PICTURES[name]("a") == PICTURES[name]("a")


@pytest.mark.parametrize("name", PICTURES)
@pytest.mark.parametrize("id", ["", "1a", "a b", 'a"onload="x', "a<b", "a)"])
def test_an_id_that_could_break_out_is_refused(name, id):
    with pytest.raises(ValueError, match="not an id"):
        PICTURES[name](id)


@pytest.mark.parametrize("name", READ_WITH)
def test_where_reading_is_the_question_no_word_or_name_depends_on_the_value(look, name):
    told = set()
    for values in READ_WITH[name]:
        root = look(FIGURES[name](*values, id="a")).root
        texts = tuple(sorted(filter(None, ((element.text or "").strip() for element in root.iter()))))
        names = tuple(
            sorted({value for element in root.iter() for key, value in element.attrib.items() if key == "class"})
        )
        told.add((texts, names))
        assert not [element for element in root.iter() if "transform" in element.attrib], "an angle would be the answer"
    assert len(told) == 1


@given(share=st.floats(0.001, 0.999), full=st.sampled_from([50, 200, 400]))
def test_the_value_of_a_scale_is_in_no_text_nor_any_attribute_but_points(look, share, full):
    reading = round(full * share, 3) + 0.0007
    root = look(FIGURES["cartridge_scale"](reading, full, id="a")).root
    written = " ".join(filter(None, (element.text for element in root.iter())))
    assert f"{reading:g}" not in re.findall(r"[\d.]+", written)


@pytest.mark.parametrize("name", SPOKEN)
def test_the_spoken_form_differs_with_the_value(name):
    said = {SPOKEN[name](*values) for values in READ_WITH[name]}
    assert len(said) == len(READ_WITH[name])


def test_every_figure_that_is_read_has_a_spoken_form_of_the_same_numbers():
    assert SPOKEN.keys() == READ_WITH.keys()
    for name, say in SPOKEN.items():
        assert list(inspect.signature(say).parameters) == list(inspect.signature(FIGURES[name]).parameters)[:-1]


@pytest.mark.parametrize(
    ("reading", "said"),
    [
        (80, "right at the number 80"),
        (85, "1 small mark past the number 80"),
        (95, "3 small marks past the number 80"),
        (97.5, "3 small marks past the number 80, and 5/10 of the way to the next mark"),
        (82, "past the number 80, but only 4/10 of the way to the first small mark after it"),
        (99.9999, "right at the number 100"),
        (160, "right at the number 160"),
    ],
)
def test_the_spoken_form_counts_marks_and_leaves_the_reading_to_the_listener(reading, said):
    assert f"The needle stands {said}." in SPOKEN["pressure_gauge"](reading, 90)


def test_the_signs_name_shapes_and_never_their_meaning(look):
    meaning = re.compile(
        r"flammab|burn|oxidi|toxic|poison|corros|irrit|health|explo|environment|hazardous|pressure", re.I
    )
    for name in SIGNS:
        title, description = look(FIGURES[name](id="a")).texts
        assert title == "Hazard sign"
        assert not meaning.search(description)


def test_no_two_signs_look_alike():
    assert len({FIGURES[name](id="a").partition("</desc>")[2] for name in SIGNS}) == 9
