"""How soon the command line is there. Aim: `quizkit --help` ≤ 2 × importing click."""

from tests.bench.measure import line, medians, program

HELP = "import sys; sys.argv = ['quizkit', '--help']; from quizkit.cli import main; main()"


def main() -> None:
    """Print the figure."""
    ours, floor = medians(25, program(HELP), program("import click"))
    line("quizkit --help", ours, floor, 2, "importing click")
