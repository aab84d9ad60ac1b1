"""Reading a picture as a person does: by its numbers, its marks and the shapes between them."""

from __future__ import annotations

import math
import xml.etree.ElementTree as ElementTree
from collections.abc import Callable
from dataclasses import dataclass

import pytest

SVG = "{http://www.w3.org/2000/svg}"
Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Drawing:
    """One parsed picture."""

    root: ElementTree.Element

    @property
    def texts(self) -> list[str]:
        """Every piece of text in reading order, title and description too."""
        return [text for element in self.root.iter() if (text := (element.text or "").strip())]

    def of_class(self, name: str) -> list[ElementTree.Element]:
        return [element for element in self.root.iter() if element.get("class") == name]

    def corners(self, name: str) -> list[list[Point]]:
        """The corners of each polygon of a class."""
        found = []
        for element in self.of_class(name):
            pairs = (pair.split(",") for pair in element.attrib["points"].split())
            found.append([(float(x), float(y)) for x, y in pairs])
        return found

    def numbers(self, name: str = "number") -> list[tuple[float, Point]]:
        """The numbers of a scale and where their middles stand."""
        return [
            (float((mark.text or "").replace("−", "-")), (float(mark.attrib["x"]), float(mark.attrib["y"])))
            for mark in self.of_class(name)
        ]


def between(known: list[tuple[float, float]], place: float) -> float:
    """The value at a place of an even scale, from its first and last number."""
    (value, at), (last, end) = known[0], known[-1]
    return value + (place - at) * (last - value) / (end - at)


def turned(middle: Point, point: Point) -> float:
    """Degrees clockwise from straight up."""
    return math.degrees(math.atan2(point[0] - middle[0], middle[1] - point[1]))


@pytest.fixture(scope="session")
def look() -> Callable[[str], Drawing]:
    """Parses a picture; text that is not well-formed XML fails the test."""
    return lambda svg: Drawing(ElementTree.fromstring(svg))


@pytest.fixture(scope="session")
def read_along() -> Callable[[list[tuple[float, float]], float], float]:
    return between


@pytest.fixture(scope="session")
def read_around() -> Callable[[list[tuple[float, Point]], Point, Point], float]:
    def read(numbers: list[tuple[float, Point]], middle: Point, tip: Point) -> float:
        return between([(value, turned(middle, at)) for value, at in numbers], turned(middle, tip))

    return read
