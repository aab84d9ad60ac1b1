"""Compiling content: whole, the seven modules, one touched lesson of 700, and how the time grows.

Aims: the whole of 700 lessons ≤ 2.5 × markdown-it-py and Jinja2 rendering the same files, imports included on both
sides; the seven modules under 1.5 s; a recompile after one touched lesson ≤ 3 × hashing all files and writing the
pack; 7 → 70 → 700 lessons with an exponent ≤ 1.1.
"""

import hashlib
import math
import statistics
import tempfile
from itertools import count
from pathlib import Path

from quizkit.authoring.cache import Cache
from quizkit.authoring.content import compile_folder
from quizkit.pack.codec import to_json
from tests.bench.lessons import CONTENT, make
from tests.bench.measure import line, medians, processor_time, program, said, shown

COMPILE = """
import sys
from pathlib import Path
import quizkit
from quizkit.pack.codec import to_json
Path(sys.argv[2]).write_bytes(to_json(quizkit.compile_content(sys.argv[1])))
"""
RENDER = """
import sys
from pathlib import Path
from jinja2 import Environment
from markdown_it import MarkdownIt
parser = MarkdownIt("commonmark", {"html": False}).enable("table")
page = Environment(autoescape=True).from_string(
    "<!doctype html><html lang=en><head><title>{{ title }}</title></head><body>{{ body|safe }}</body></html>"
)
for path in sorted(Path(sys.argv[1]).glob("*/*.md")):
    page.render(title=path.stem, body=parser.render(path.read_text(encoding="utf-8")))
"""
ALONE = """
import sys, time
from pathlib import Path
from quizkit.authoring.content import compile_folder
import numpy
start = time.perf_counter()
compile_folder(Path(sys.argv[1]))
print(time.perf_counter() - start)
"""


def main() -> None:
    """Print the figures."""
    with tempfile.TemporaryDirectory() as temporary:
        place = Path(temporary)
        folders = {lessons: make(place / str(lessons), lessons) for lessons in (7, 70, 700)}
        compiled, rendered = program(COMPILE, folders[700], place / "pack"), program(RENDER, folders[700])
        ours, floor = medians(5, compiled, rendered)
        line("700 lessons, in a new process", ours, floor, 2.5, "rendering them")
        ours, floor = processor_time(compiled), processor_time(rendered)
        told = f"{ours / floor:5.2f} × ({shown(floor)})"
        print(f"{'the same in processor time, all processors':46} {shown(ours):>10}  {told}")
        (seven,) = medians(5, program(COMPILE, CONTENT, place / "pack"))
        print(f"{'the seven modules, in a new process':46} {shown(seven):>10}  aim < 1.5 s")
        touched(folders[700], place / "pack.json")
        growth(folders)


def touched(folder: Path, pack: Path) -> None:
    """A recompile in one process after a change of one lesson, and the floor: read and hash all, write the pack."""
    cache = Cache()
    written = to_json(compile_folder(folder, cache).pack)
    lesson = sorted(folder.glob("*/*.md"))[350]
    text = lesson.read_text(encoding="utf-8")
    turns = count(1)

    def again() -> None:
        pack.write_bytes(to_json(compile_folder(folder, cache).pack))

    def hashed() -> None:
        for path in sorted(folder.rglob("*")):
            if path.is_file():
                hashlib.sha256(path.read_bytes()).hexdigest()
        pack.write_bytes(written)

    def change() -> None:
        question = text.index("\n::: question")
        end = text.index("\nTopic:", question)
        lesson.write_text(f"{text[:end]}-{next(turns)}{text[end:]}", encoding="utf-8")

    ours, floor, _change = medians(9, again, hashed, change)
    lesson.write_text(text, encoding="utf-8")
    line("one touched lesson of 700, in one process", ours, floor, 3, "hashing all, writing the pack")


def growth(folders: dict[int, Path]) -> None:
    """The exponent of the time over the number of lessons, without the imports."""
    times = {n: statistics.median(said(ALONE, folder) for _repeat in range(3)) for n, folder in folders.items()}
    steps = ", ".join(f"{n}: {shown(taken)}" for n, taken in times.items())
    exponents = [math.log10(times[10 * n] / times[n]) for n in (7, 70)]
    told = " and ".join(f"{one:.2f}" for one in exponents)
    print(f"{'exponent over the number of lessons':46} {told:>10}  ({steps}), aim ≤ 1.1")
