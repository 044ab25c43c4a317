"""The `limbwatch` command of an installed wheel; in the wheel this file is `limbwatch/__init__`.

A wheel may not scatter packages called `app` and `core` over everybody's Python, so there they
lie inside the `limbwatch` package. Starting the command puts that folder on the path of its own
process; importing `limbwatch` changes nothing.
"""

import gc
import sys
from pathlib import Path


def main() -> int:
    """Run the command line; gives its exit status."""
    sys.path.insert(0, str(Path(__file__).resolve().parent))
    gc.disable()  # until all is loaded: nothing made meanwhile is garbage, and looking takes long
    from app import cli  # noqa: PLC0415  # found only once the lines above have run

    return cli.main()
