"""The writer of fresh plan files."""

from datetime import UTC, datetime, timedelta

from core.errors import TimeProblem
from core.plan.model import Plan
from core.plan.plain import Moment, Table, Value, plain_plan
from core.plan.reader import FORMAT
from core.times.instants import ms_to_aware
from core.times.zones import find_zone, local_to_utc_ms

_ESCAPES = {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\t": "\\t"}


def write_plan(plan: Plan) -> str:
    """The text of a file that reads back as `plan`. The rows of a course with a file stay there.

    ValueError where an id or a text holds what no plan file can hold.
    """
    table = plain_plan(plan, FORMAT)
    zone = plan.zones[0]
    lines = [f"{key} = {written(value, zone)}" for key, value in table.items() if not _own(value)]
    for key, value in table.items():
        if isinstance(value, dict):
            lines += _single(key, value, zone)
        elif _own(value) and isinstance(value, list):
            lines += [line for one in value for line in block(f"[[{key}]]", one, zone)]
    return "\n".join(lines) + "\n"


def moment(at_ms: int, zone: str) -> datetime:
    """An instant as a plan writes it: the clock time in `zone`, or UTC where that is not plain."""
    there = ms_to_aware(at_ms).astimezone(find_zone(zone)).replace(tzinfo=None)
    try:
        plain = local_to_utc_ms(there, zone) == at_ms
    except TimeProblem:
        plain = False
    return there if plain else ms_to_aware(at_ms)


def _own(value: Value) -> bool:
    """Whether a value has a heading of its own: a table, or a list of tables."""
    return isinstance(value, dict) or (
        isinstance(value, list) and bool(value) and isinstance(value[0], dict)
    )


def _single(key: str, table: Table, zone: str) -> list[str]:
    """A table under its heading; one of tables only, like `lane`, under a heading for each."""
    if table and all(isinstance(value, dict) for value in table.values()):
        return [
            line
            for name, one in table.items()
            if isinstance(one, dict)
            for line in block(f"[{key}.{_key(name)}]", one, zone)
        ]
    return block(f"[{key}]", table, zone)


def block(heading: str, table: Table, zone: str) -> list[str]:
    """The lines of a table under its heading, after an empty one."""
    keys = [f"{_key(key)} = {written(value, zone)}" for key, value in table.items()]
    return ["", heading, *keys]


def written(value: Value, zone: str) -> str:
    """A value on one line; a list of tables has a line for each."""
    match value:
        case bool():
            return "true" if value else "false"
        case str():
            return f'"{"".join(_escaped(letter) for letter in value)}"'
        case Moment():
            return _dated(moment(value.at_ms, zone))
        case dict():
            pairs = (f"{_key(key)} = {written(one, zone)}" for key, one in value.items())
            return f"{{ {', '.join(pairs)} }}"
        case list():
            return _listed([written(one, zone) for one in value], apart=_own(value))
    return repr(value)


def _listed(parts: list[str], *, apart: bool) -> str:
    if apart:
        return "[\n" + "".join(f"  {part},\n" for part in parts) + "]"
    return f"[{', '.join(parts)}]"


def _escaped(letter: str) -> str:
    if letter in _ESCAPES:
        return _ESCAPES[letter]
    return letter if letter.isprintable() else f"\\U{ord(letter):08x}"


def _dated(when: datetime) -> str:
    whole = when.microsecond == 0
    text = when.isoformat(timespec="seconds" if whole else "milliseconds")
    return text.replace("+00:00", "Z") if when.utcoffset() == timedelta(0) else text


def _key(name: str) -> str:
    plain = all(letter.isascii() and (letter.isalnum() or letter in "-_") for letter in name)
    return name if plain and name else written(name, str(UTC))
