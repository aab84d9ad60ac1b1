"""The settings of a shop and of a module: every key, every default, every fault at its key."""

import re
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quizkit.authoring.settings import module_settings, shop_settings
from quizkit.authoring.source import Source
from quizkit.pack.scheme import Period, Scheme, Site

SHOP = Path(__file__).with_name("shop_all_keys.toml").read_text()
MODULE = Path(__file__).with_name("module_all_keys.toml").read_text()


def shop(text):
    return shop_settings(Source("shop.toml", tuple(text.split("\n"))))


def module(text):
    return module_settings(Source("m/module.toml", tuple(text.split("\n"))))


def told(problems):
    return [(p.code, p.spot.line, p.spot.column) for p in problems]


def test_a_shop_with_a_name_alone_has_every_default_and_a_warning_about_the_zone():
    scheme, problems = shop('name = "Example"')
    assert told(problems) == [("S05", 1, 1)]
    assert scheme == Scheme("Example", sites=(Site("main", "Example", "UTC"),))


def test_every_key_of_a_shop_is_read():
    scheme, problems = shop(SHOP)
    assert problems == ()
    assert scheme.tax == Fraction(33, 400)
    assert scheme.least_charge == Fraction(15, 2)
    assert scheme.sites == (Site("north", "North bay", "America/Denver", (("balancing", 1), ("ratio-pairing", 2))),)
    assert scheme.jobs[0].ratio == "2:1 by volume"
    assert scheme.valid == (("ppe", Period(12, "months")),)
    assert scheme.practice.again[-1] == Period(60, "days")


def test_every_key_of_a_module_is_read_and_a_renewal_defaults_to_half_rounded_up():
    scheme, problems = module(MODULE)
    assert problems == ()
    assert scheme.check.renewal == (("shares", 6),)
    assert scheme.check.pass_mark == Fraction(4, 5)
    without = re.sub(r"\[check.renewal\].*", "", MODULE, flags=re.S).replace("pairing = 8", "pairing = 7")
    assert module(without)[0].check.renewal == (("pairing", 4), ("shares", 6))


def _key_lines(text):
    return [row for row, line in enumerate(text.split("\n")) if re.match(r"\w+ =", line)]


@pytest.mark.parametrize("row", _key_lines(SHOP))
def test_a_misspelt_key_of_a_shop_is_told_at_its_line(row):
    lines = SHOP.split("\n")
    section = next((line for line in reversed(lines[:row]) if line.startswith("[")), "")
    lines[row] = "zqx9 =" + lines[row].split(" =", 1)[1]
    unknown = [p.spot.line for p in shop("\n".join(lines))[1] if p.code == "S02"]
    own_words = section == "[valid]" or section.endswith("cover]")
    assert unknown == ([] if own_words else [row + 1])


def test_an_unknown_key_names_the_nearest():
    _scheme, problems = shop('name = "x"\nzone = "UTC"\ncurency = "USD"')
    assert told(problems) == [("S02", 3, 1)]
    assert problems[0].mend == "did you mean 'currency'?"


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("name = 3", "S04"),
        ('zone = "Amrica/Denver"', "S04"),
        ('zone = "../../etc/passwd"', "S04"),
        ('mark = ";"', "S04"),
        ("tax = 0.08", "S04"),
        ('least_charge = "7,50"', "S04"),
        ('address = "http://example.org"', "S04"),
        ("lapsing = 0", "S04"),
        ("lapsing = true", "S04"),
        ('keep = "10 h"', "S04"),
        ('jobs = "x"', "S04"),
        ("jobs.a.skills = []", "S04"),
        ('jobs.a.skills = ["a", "a"]', "S04"),
        ('jobs.a.ratio = "2:1"', "S04"),
        ('sites."Not an id".title = "x"', "S04"),
        ("practice.known = 1.5", "S04"),
        ("practice.known = nan", "S04"),
        ("practice.known = 1e-999999999", "S04"),
        ('practice.again = ["7 days", "2 days"]', "S04"),
        ("certificates.c.skills = ['a']", "S03"),
    ],
)
def test_each_wrong_value_is_told_at_its_line(line, code):
    name = "" if line.startswith("name") else 'name = "x"'
    _scheme, problems = shop(name + "\n" + line)
    assert (code, 2) in [(p.code, p.spot.line) for p in problems]


@pytest.mark.parametrize("line", ['tax = "8 %', "x = " + "[" * 5000, "x = " + "9" * 5000, "= 3", "x = 1 y = 2"])
def test_what_is_no_toml_is_told_and_gives_no_scheme(line):
    scheme, problems = shop('name = "x"\n' + line)
    assert scheme is None
    assert [p.code for p in problems] == ["S01"]


def test_a_module_without_its_required_keys_is_told_each_of_them():
    _scheme, problems = module("[check]\n")
    assert {p.code for p in problems} == {"S03"}
    assert {word for p in problems for word in ("title", "skill", "pass_mark", "wait", "valid") if word in p.what} == {
        "title",
        "skill",
        "pass_mark",
        "wait",
        "valid",
    }
    assert len(problems) == 6


def test_a_renewal_topic_must_be_a_topic_of_the_check():
    _scheme, problems = module(MODULE.replace("[check.renewal]\nshares", "[check.renewal]\nshrs"))
    assert [p.code for p in problems] == ["S04"]


@given(st.data())
def test_a_cut_or_swapped_settings_file_never_raises(data):
    lines = SHOP.split("\n")
    a = data.draw(st.integers(0, len(lines) - 1))
    b = data.draw(st.integers(0, len(lines) - 1))
    lines[a], lines[b] = lines[b], lines[a][: data.draw(st.integers(0, 30))]
    scheme, problems = shop("\n".join(lines))
    assert scheme is not None or problems
