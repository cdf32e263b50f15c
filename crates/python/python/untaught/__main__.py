"""The command `untaught`, as `python -m untaught` too."""

import signal
import sys

from ._untaught import _run


def main() -> None:
    """Runs the command with the arguments of the program and exits with its code."""
    # The command does not come back to Python until it ends: an interrupt ends it at once.
    signal.signal(signal.SIGINT, signal.SIG_DFL)
    sys.exit(_run(["untaught", *sys.argv[1:]]))


if __name__ == "__main__":
    main()
