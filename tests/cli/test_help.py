"""The list of commands is quick: it imports nothing heavy, and names every command with a line."""

import subprocess
import sys

from click.testing import CliRunner

from quizkit.cli import COMMANDS, main, short_words

HEAVY = ("numpy", "pint", "flask", "sqlite_utils", "cryptography", "jinja2", "openpyxl", "waitress", "markdown_it")


def test_the_help_imports_nothing_heavy() -> None:
    code = (
        "import sys\nfrom quizkit.cli import main\n"
        "try:\n    main(['--help'])\nexcept SystemExit as end:\n    assert not end.code\n"
        f"print([name for name in {HEAVY!r} if name in sys.modules], file=sys.stderr)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stderr.strip() == "[]"
    assert "compile" in done.stdout


def test_every_command_has_its_line_and_its_own_help() -> None:
    assert list(COMMANDS) == list(short_words())
    for name in COMMANDS:
        assert name in CliRunner().invoke(main, ["--help"]).output
        done = CliRunner().invoke(main, [name, "--help"])
        assert (done.exit_code, done.output.startswith("Usage:")) == (0, True), name


def test_an_unknown_command_is_wrong_use() -> None:
    assert CliRunner().invoke(main, ["compyle"]).exit_code == 2
