"""`quizkit demo`: one command makes the shop and opens it, the next one opens the same."""

import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from urllib.request import urlopen

CODE = "from quizkit.cli import main; main()"


@contextmanager
def demo(into: Path) -> Iterator[tuple[str, str]]:
    """The running demo: all that it said, and its address."""
    command = [sys.executable, "-c", CODE, "demo", "--into", str(into), "--port", "0", "--no-open"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True) as process:
        assert process.stdout is not None
        said = ""
        for line in process.stdout:
            said += line
            if "http://" in line:
                break
        else:
            raise AssertionError(said)
        try:
            yield said, said.split()[-1]
        finally:
            process.send_signal(signal.SIGINT)
            process.communicate(timeout=60)
    assert process.returncode == 0


def test_the_first_run_makes_the_shop_and_the_next_one_opens_it(tmp_path: Path) -> None:
    with demo(tmp_path / "d") as (said, address):
        assert "Making the invented shop" in said
        assert "Ruth Adeyo" in said and "PIN: 4831" in said and "passphrase: one shelf two bays" in said
        with urlopen(address) as page:
            assert page.status == 200 and "Ruth Adeyo" in page.read().decode()
    assert [path.name for path in (tmp_path / "d").glob("*.db")] == ["shop.db"]
    before = (tmp_path / "d/shop.key").read_bytes()
    with demo(tmp_path / "d") as (said, _address):
        assert "Making" not in said and "PIN: 4831" in said
    assert (tmp_path / "d/shop.key").read_bytes() == before
