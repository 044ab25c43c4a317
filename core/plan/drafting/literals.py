"""Plain values of a plan as its file writes them."""

from datetime import datetime, timedelta

from core.plan.writer import written


def literal(value: object) -> str:
    """A value as TOML has it: text, numbers, flags, dates, lists and tables of them."""
    match value:
        case datetime():
            text = value.isoformat(timespec="milliseconds" if value.microsecond else "seconds")
            return text.replace("+00:00", "Z") if value.utcoffset() == timedelta(0) else text
        case list():
            return f"[{', '.join(literal(one) for one in value)}]"
        case dict():
            pairs = (f"{key} = {literal(one)}" for key, one in value.items())
            return f"{{ {', '.join(pairs)} }}"
        case bool() | str() | int() | float():
            return written(value, "UTC")
    raise ValueError(f"a plan cannot hold {type(value).__name__}")
