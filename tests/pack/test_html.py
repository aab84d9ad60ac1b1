"""Our node tree as HTML."""

from quizkit.pack.html import render
from quizkit.pack.nodes import Element, plain


def test_text_and_attributes_are_escaped():
    nodes = (Element("p", (), ("a < b & ", Element("a", (("href", 'x"y'), ("onclick", "z")), ("l",)))),)
    assert render(nodes) == '<p>a &lt; b &amp; <a href="x&quot;y">l</a></p>\n'


def test_an_unknown_element_shows_only_what_it_is_filled_with():
    nodes = (Element("script", (), ("alert(1)",)),)
    assert render(nodes) == ""
    assert render(nodes, lambda element: f"[{element.tag}]") == "[script]"


def test_a_line_break_has_no_end():
    assert render((Element("br"),)) == "<br>"


def test_plain_words_keep_blocks_apart_and_letters_together():
    nodes = (Element("p", (), ("one", Element("em", (), ("s",)))), Element("p", (), ("two",)))
    assert plain(nodes) == "ones two"
