"""The symbols on the hazard signs, drawn by us, black on white, in the middle of a square of 240 by 240."""

from __future__ import annotations

from quizkit.pictures.svg import Point, around, circle, line, path, polygon, rect

BLACK, WHITE = "#000000", "#ffffff"

_FLAME = (
    "M119 46C123 62 133 70 141 82C146 90 147 97 145 104C150 101 153 95 153 88C163 100 167 113 164 126"
    "C161 142 150 154 138 160C145 150 146 139 140 129C138 136 134 140 129 142C132 128 127 114 116 106"
    "C118 120 111 126 106 134C101 143 103 152 109 160C92 155 79 143 77 126C75 112 82 102 88 92"
    "C90 100 93 105 98 108C98 95 102 86 108 76C114 66 119 58 119 46Z"
)


def _solid(data: str) -> str:
    return path(data, fill=BLACK, stroke="none")


def _disc(middle: Point, radius: float, paint: str = BLACK) -> str:
    return circle(middle, radius, fill=paint, stroke="none")


def _bar(start: Point, end: Point, width: float, paint: str = BLACK, cap: str = "butt") -> str:
    return line(start, end, stroke=paint, stroke_width=width, stroke_linecap=cap)


def flame() -> str:
    """A flame over a line."""
    return _solid(_FLAME) + _bar((76, 172), (164, 172), 8)


def oxidiser() -> str:
    """A flame that stands on a ring, on a line."""
    ring = circle((120, 148), 24, stroke=BLACK, stroke_width=9)
    fire = (
        "M121 34C123 47 132 53 138 62C142 68 142 74 141 79C145 77 147 72 148 67C155 77 157 88 154 98"
        "C151 109 146 117 138 121C140 112 139 105 134 99C133 104 130 107 126 109C128 98 124 89 117 83"
        "C118 93 113 98 109 104C106 110 105 115 107 121C96 116 88 107 87 96C86 86 91 78 96 70C97 76 99 80 103 82"
        "C103 72 106 66 111 58C117 50 121 44 121 34Z"
    )
    return _solid(fire) + ring + _bar((84, 182), (156, 182), 7)


def exclamation() -> str:
    """An exclamation mark."""
    return _solid("M104 62C104 48 136 48 136 62L127 136C126 146 114 146 113 136Z") + _disc((120, 172), 14)


def health() -> str:
    """Head and chest, a white star on the chest."""
    body = (
        "M74 166C74 134 82 116 107 108L109 94C99 86 98 54 120 52C142 54 141 86 131 94L133 108C158 116 166 134 166 166Z"
    )
    star = [around((120, 137), 28 if turn % 2 == 0 else 9, 30 * turn) for turn in range(12)]
    return _solid(body) + polygon(star, fill=WHITE, stroke="none")


def skull() -> str:
    """A skull over crossed bones."""
    head = (
        "M120 47C144 47 157 62 157 81C157 92 153 99 147 104C146 111 146 116 143 120C137 125 103 125 97 120"
        "C94 116 94 111 93 104C87 99 83 92 83 81C83 62 96 47 120 47Z"
    )
    ends = ((80, 134), (160, 162), (160, 134), (80, 162))
    bones = _bar(ends[0], ends[1], 10) + _bar(ends[2], ends[3], 10)
    knobs = "".join(_disc((x, y - 5), 7) + _disc((x + (5 if x < 120 else -5), y + 6), 7) for x, y in ends)
    eyes = _disc((104, 85), 10, WHITE) + _disc((136, 85), 10, WHITE)
    nose = polygon(((120, 94), (127, 106), (113, 106)), fill=WHITE, stroke="none")
    teeth = "".join(_bar((x, 112), (x, 125), 2.4, WHITE) for x in (106, 115, 125, 134))
    return _solid(head) + eyes + nose + teeth + bones + knobs


def gas() -> str:
    """A long bottle with a short neck, lying at a slant."""
    return (
        _bar((66, 151), (148, 104), 36)
        + _disc((148, 104), 18)
        + _bar((150, 103), (172, 90), 12)
        + _bar((168, 92.5), (176, 88), 22)
        + _bar((76, 138), (140, 101), 4, WHITE, "round")
    )


def bomb() -> str:
    """A ball that bursts, with pieces flying off."""
    middle = (120, 134)
    cracks = path(
        "M120 134L112 114L118 102M120 134L138 126L152 132M120 134L114 148L120 166", stroke=WHITE, stroke_width=4
    )
    rays = ((-100, 58), (-70, 60), (-42, 70), (-14, 64), (14, 74), (42, 64), (70, 66), (100, 58), (135, 52), (-135, 52))
    strokes = "".join(_bar(around(middle, 40, turn), around(middle, reach, turn), 5) for turn, reach in rays)
    pieces = ((90, 76), (121, 52), (152, 80), (63, 95), (177, 95))
    chips = "".join(
        polygon(((x, y - 7), (x + 8, y + 1), (x - 1, y + 8), (x - 7, y)), fill=BLACK, stroke="none") for x, y in pieces
    )
    return _disc(middle, 32) + cracks + strokes + chips


def corrosion() -> str:
    """Two tubes dripping, on a bar and on a hand, both eaten away."""
    bar = rect(56, 134, 58, 17, fill=BLACK, stroke="none") + _disc((74, 133), 9, WHITE) + _disc((84, 135), 6, WHITE)
    hand = _solid(
        "M192 131L152 131C142 129 134 134 126 140C122 143 124 147 129 147L146 144L132 151C128 154 131 158 136 157"
        "L157 152C166 155 176 153 186 149Z"
    )
    eaten = _disc((166, 130), 8, WHITE) + _disc((175, 131), 5, WHITE)
    drops = "".join(_drop((x, y)) for x in (74, 166) for y in (103, 118))
    return _tube((110, 62), (77, 87)) + _tube((130, 62), (163, 87)) + drops + bar + hand + eaten


def _tube(end: Point, mouth: Point) -> str:
    """A tube held at a slant: black outline, white inside, black where the liquid stands."""
    lip = (mouth[0] - end[0], mouth[1] - end[1])
    half = (end[0] + 0.35 * lip[0], end[1] + 0.35 * lip[1])
    glass = _bar(end, mouth, 20, BLACK, "butt") + _bar(end, mouth, 12, WHITE, "butt") + _disc(end, 10)
    rim = ((mouth[0] - 0.3 * lip[1], mouth[1] + 0.3 * lip[0]), (mouth[0] + 0.3 * lip[1], mouth[1] - 0.3 * lip[0]))
    return glass + _bar(half, mouth, 12) + _bar(rim[0], rim[1], 5)


def _drop(top: Point) -> str:
    x, y = top
    return _solid(
        f"M{x} {y - 6}C{x + 6} {y + 2} {x + 4} {y + 7} {x} {y + 7}C{x - 4} {y + 7} {x - 6} {y + 2} {x} {y - 6}Z"
    )


def environment() -> str:
    """A bare tree and a fish with its belly up."""
    branches = (
        ((92, 160), (96, 100), 9),
        ((95, 116), (74, 92), 5),
        ((96, 112), (116, 84), 5),
        ((96, 104), (95, 62), 5),
        ((84, 103), (68, 104), 4),
        ((107, 97), (122, 94), 4),
        ((95, 86), (82, 70), 3.5),
        ((95, 80), (108, 66), 3.5),
    )
    tree = "".join(_bar(root, tip, width, BLACK, "round") for root, tip, width in branches)
    ground = _solid(
        "M70 160C88 151 106 152 122 160C132 164 142 163 150 161"
        "C142 172 128 169 118 175C106 171 98 177 90 172C82 167 76 166 70 160Z"
    )
    fish = _solid("M116 140C126 122 150 120 164 134L182 122C178 132 179 142 184 150L164 144C150 156 128 156 116 140Z")
    fins = _solid("M136 126L150 112L152 128Z") + _solid("M138 152L146 160L152 150Z")
    eye = path("M124 136L131 143M131 136L124 143", stroke=WHITE, stroke_width=2.4)
    return tree + ground + fish + fins + eye
