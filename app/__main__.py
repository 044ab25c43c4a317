"""`python -m app`: the `limbwatch` command in a checkout."""

import gc
import sys


def main() -> int:
    """Run the command line; gives its exit status."""
    gc.disable()  # until all is loaded: nothing made meanwhile is garbage, and looking takes long
    from app import cli  # noqa: PLC0415  # loaded only once the line above has run

    return cli.main()


if __name__ == "__main__":
    sys.exit(main())
