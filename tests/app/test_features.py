"""PySide's hook before the import is taken away."""

import subprocess
import sys

CODE = """
from app import features
features.turn_off()
import linecache
import colorsys, app.theme
print(any(name.endswith(("colorsys.py", "theme.py")) for name in linecache.cache))
"""


def test_no_source_is_looked_through_after_it_was_turned_off() -> None:
    for code, looked in ((CODE, "False"), (CODE.replace("features.turn_off()", ""), "True")):
        command = [sys.executable, "-c", code]
        ran = subprocess.run(command, check=False, capture_output=True, text=True)
        assert (ran.stdout.strip(), ran.returncode) == (looked, 0), ran.stderr
