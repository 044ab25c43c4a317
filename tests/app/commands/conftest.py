"""How the commands are run here: in this process, on a plan in a folder of its own."""

from pathlib import Path

import pytest

from app.cli import main
from tests.app.commands.plans import Answer, Run

_NOW = "2031-05-14T09:00:00"


@pytest.fixture
def run(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Run:
    """Runs a command at nine o'clock (`now` empty: at the machine's time).

    Words that are no options are entries.
    """

    def run_it(command: str, plan: str, *words: str, now: str = _NOW) -> Answer:
        path = tmp_path / "plan.toml"
        path.write_text(plan, encoding="utf-8")
        arguments = [command, str(path)]
        if command != "check" and now:
            arguments += ["--now", now]
        options = iter(words)
        for word in options:
            if word in ("--lane", "--from", "--to"):
                arguments += [word, next(options)]
            else:
                arguments += [word] if word.startswith("--") else ["--enter", word]
        status = main(arguments)
        return Answer(status, *capsys.readouterr())

    return run_it
