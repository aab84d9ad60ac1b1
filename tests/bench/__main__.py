"""All benches, or those named: `python -m tests.bench [NAME …]`. Ratios in one run; nothing here is asserted.

A bench is a file of this folder with a function `main` that prints its figures.
"""

import importlib
import sys
from pathlib import Path

from tests.bench.measure import machine

SHARED = {"__main__", "__init__", "lessons", "measure", "serving"}
NAMES = sorted(path.stem for path in Path(__file__).parent.glob("*.py") if path.stem not in SHARED)


def main() -> None:
    """Run each bench that is named, or all of them."""
    wanted = sys.argv[1:] or NAMES
    unknown = [name for name in wanted if name not in NAMES]
    if unknown:
        sys.exit(f"no bench {', '.join(unknown)}; there are: {', '.join(NAMES)}")
    print(machine(), flush=True)
    for name in wanted:
        print(f"\n{name}", flush=True)
        sys.argv[1:] = []
        importlib.import_module(f"tests.bench.{name}").main()


if __name__ == "__main__":
    main()
