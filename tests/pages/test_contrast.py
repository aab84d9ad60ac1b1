"""The colours of the look are told apart by everyone: the tokens themselves, in light, dark and print.

Formula and bounds: WCAG 2.2 (W3C Recommendation, 5 October 2023, https://www.w3.org/TR/WCAG22/), relative luminance and
contrast ratio, success criteria 1.4.3 (text, 4.5 : 1) and 1.4.11 (frames of what can be used, 3 : 1). From memory.
"""

import re

import pytest

from quizkit.pages import STATIC

TEXT = [
    ("ink", ("paper", "sheet", "tape", "field", "warn-bg")),
    ("soft", ("paper", "sheet", "tape", "warn-bg")),
    ("warn", ("sheet", "warn-bg")),
    ("act-ink", ("act",)),
]
FRAMES = [("rule", ("paper", "sheet")), ("act", ("paper", "sheet")), ("warn", ("paper", "sheet")), ("ink", ("tape",))]


def _tokens() -> dict[str, dict[str, str]]:
    css = (STATIC / "look.css").read_text()
    blocks = re.findall(r":root \{([^}]*)\}", css)
    read = [dict(re.findall(r"--([a-z-]+): (#[0-9a-f]{3,6})", block)) for block in blocks]
    light, dark, printed = read
    return {"light": light, "dark": light | dark, "print": light | printed}


def _luminance(colour: str) -> float:
    digits = colour[1:] if len(colour) == 7 else "".join(sign * 2 for sign in colour[1:])
    parts = [int(digits[at : at + 2], 16) / 255 for at in (0, 2, 4)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    low, high = sorted((_luminance(one), _luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_the_measure_itself() -> None:
    assert contrast("#000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.01)


@pytest.mark.parametrize("theme", ["light", "dark", "print"])
def test_text_and_frames_stand_out_from_what_they_lie_on(theme: str) -> None:
    tokens = _tokens()[theme]
    faint = [
        (front, back, round(contrast(tokens[front], tokens[back]), 2))
        for pairs, least in ((TEXT, 4.5), (FRAMES, 3.0))
        for front, backs in pairs
        for back in backs
        if contrast(tokens[front], tokens[back]) < least
    ]
    assert faint == []
