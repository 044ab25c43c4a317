"""Cases of the independent solver written as plan files and entry lines, the way a reader of the
plan format would write them.

What the format leaves open (how a tie, a time, a length, an open end is written) is a `Hand`.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Any, Literal

Told = Mapping[str, Any]

_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)


@dataclass(frozen=True)
class Hand:
    """One way of writing what may be written in several."""

    ties: Literal["beside", "inline", "tables"] = "beside"
    times: Literal["text", "native"] = "text"
    lengths: Literal["seconds", "ms", "clock", "parts"] = "seconds"
    open_end: Literal["none", ""] = "none"
    bounds: Literal["all", "needed"] = "all"
    """Whether a least of 0 is written, which the format gives anyway."""

    def at(self, instant_ms: int) -> str:
        """An instant as a value."""
        text = clock(instant_ms)
        return text if self.times == "native" else f'"{text}"'

    def length(self, length_ms: int) -> str:
        """A length as a value."""
        sign, size_ms = ("-" if length_ms < 0 else ""), abs(length_ms)
        if self.lengths == "ms":
            return f'"{sign}{size_ms}ms"'
        if self.lengths == "seconds":
            return f'"{sign}{size_ms // 1000}.{size_ms % 1000:03d}s"'
        minutes, rest_ms = divmod(size_ms, 60_000)
        hours, minutes = divmod(minutes, 60)
        seconds = f"{rest_ms // 1000:02d}.{rest_ms % 1000:03d}"
        if self.lengths == "clock":
            return f'"{sign}{hours}:{minutes:02d}:{seconds}"'
        return f'"{sign}{hours}h {minutes}m {seconds}s"'

    def end(self, instant_ms: int | None) -> str:
        """An end of a window."""
        return f'"{self.open_end}"' if instant_ms is None else self.at(instant_ms)


PLAIN = Hand()
HANDS = (
    PLAIN,
    Hand(ties="inline", lengths="ms", open_end=""),
    Hand(ties="tables", times="native", lengths="clock", bounds="needed"),
    Hand(lengths="parts", times="native"),
)


def clock(instant_ms: int) -> str:
    """RFC 3339 in UTC with milliseconds."""
    text = (_EPOCH + timedelta(milliseconds=instant_ms)).isoformat(timespec="milliseconds")
    return text.replace("+00:00", "Z")


def plan_text(plan: Told, hand: Hand = PLAIN) -> str:
    """A case's plan as the text of a plan file."""
    return "\n".join(_lines(plan, hand)) + "\n"


def _lines(plan: Told, hand: Hand) -> Iterator[str]:
    yield from ("limbwatch = 1", 'title = "Trial"', 'zones = ["UTC"]')
    for event in plan["events"]:
        yield from _event(event, hand)
    for limit in plan["limits"]:
        yield from ("[[limit]]", f'from = "{limit["from"]}"', f'to = "{limit["to"]}"')
        yield from (f"{k} = {v}" for k, v in _bounds(limit, hand, tie=False))
    snapped = {event["snap"]["series"] for event in plan["events"] if "snap" in event}
    for series in plan["series"]:
        yield from _members(series, hand)
        if series["id"] in snapped:
            yield from _course(series, hand)


def _event(event: Told, hand: Hand) -> Iterator[str]:
    yield from ("[[event]]", f'id = "{event["id"]}"')
    if "planned" in event:
        yield f"at = {hand.at(event['planned'])}"
    if "pin" in event:
        yield from (f"at = {hand.at(event['pin'])}", "pinned = true")
    if "actual" in event:
        yield f"happened = {hand.at(event['actual'])}"
    if "not_before" in event or "not_after" in event:
        first, last = event.get("not_before"), event.get("not_after")
        yield f"window = [{hand.end(first)}, {hand.end(last)}]"
    if "snap" in event:
        after = event["snap"]["after"]
        yield (
            f'edge = {{ lane = "{event["snap"]["series"]}", change = "back", '
            f'after = "{after["event"]}", offset = {hand.length(after["offset"])} }}'
        )
    yield from _ties(event.get("after", ()), hand)


def _ties(ties: Sequence[Told], hand: Hand) -> Iterator[str]:
    if not ties:
        return
    if hand.ties == "tables":
        for tie in ties:
            yield "[[event.after]]"
            yield from (f"{key} = {value}" for key, value in _tie(tie, hand, "event"))
    elif hand.ties == "beside" and len(ties) == 1:
        yield from (f"{key} = {value}" for key, value in _tie(ties[0], hand, "after"))
    else:
        each = (", ".join(f"{k} = {v}" for k, v in _tie(tie, hand, "event")) for tie in ties)
        yield "after = [ " + ", ".join(f"{{ {one} }}" for one in each) + " ]"


def _tie(tie: Told, hand: Hand, key: str) -> Iterator[tuple[str, str]]:
    yield key, f'"{tie["event"]}"'
    if tie["nominal"] is not None:
        yield "offset", hand.length(tie["nominal"])
    yield from _bounds(tie, hand, tie=True)


def _bounds(told: Told, hand: Hand, *, tie: bool) -> Iterator[tuple[str, str]]:
    least, most = told.get("min"), told.get("max")
    plain = hand.bounds == "needed" and ((told.get("nominal") or 0) >= 0) == (least == 0)
    if least is not None and not (tie and plain):
        yield "least", hand.length(least)
    elif least is None and tie:
        yield "least", '"none"'
    if most is not None:
        yield "most", hand.length(most)


def _members(series: Told, hand: Hand) -> Iterator[str]:
    """The members of a series as events of their own, a fixed length after the anchor."""
    for number in range(series["count"]):
        offset_ms = series["first"] + number * series["period"]
        yield from ("[[event]]", f'id = "{series["id"]}#{number + 1}"')
        yield from (f'after = "{series["anchor"]}"', f"offset = {hand.length(offset_ms)}")
        yield "fixed = true"


def _course(series: Told, hand: Hand) -> Iterator[str]:
    """The series as a table of contacts that follows the anchor: each lasts half the period."""
    yield from ("[[course]]", f'id = "contacts-{series["id"]}"', 'kind = "passes"')
    yield from (f'follows = "{series["anchor"]}"', 'times = "offset"', "rows = [")
    for number in range(series["count"]):
        back_ms = series["first"] + number * series["period"]
        lost_ms = back_ms + series["period"] // 2
        yield (
            f'  {{ lane = "{series["id"]}", back = {hand.length(back_ms)}, '
            f"lost = {hand.length(lost_ms)} }},"
        )
    yield "]"


# ------------------------------------------------------------------ steps


@dataclass(frozen=True)
class Day:
    """What has been told up to a step: the plan as it is by then, the lines, and the clock."""

    plan: Told
    lines: tuple[str, ...] = ()
    now_ms: int | None = None

    def then(self, step: Told) -> "Day":
        """The day with one step more."""
        line = _line(step)
        now_ms = step.get("now", self.now_ms)
        if step["op"] in ("retie", "limit"):
            return Day(changed(self.plan, step), self.lines, now_ms)
        if step["op"] == "hold" and line in self.lines:
            return Day(self.plan, self.lines, now_ms)  # it is held already: only time passes
        return Day(self.plan, (*self.lines, line), now_ms)

    def arguments(self) -> list[str]:
        """The end of the command line."""
        now = [] if self.now_ms is None else ["--now", clock(self.now_ms)]
        return [*(part for line in self.lines for part in ("--enter", line)), *now]


def _line(step: Told) -> str:
    """What is typed for a step; nothing where the plan is changed instead."""
    typed = {
        "revise": "{event} {time}",
        "actual": "{event} happened {time}",
        "clear": "{event} free",
        "hold": "{event} hold",
        "scrub": "{event} scrub {followers}",
        "rebase": "replan",
    }.get(step["op"], "")
    return typed.format(**{**step, "time": clock(step.get("time", 0))})


def changed(plan: Told, step: Told) -> Told:
    """The plan with one tie's offset, or one limit, written anew."""
    if step["op"] == "limit":
        ends = ("from", "to", "min", "max")
        others = [x for x in plan["limits"] if any(x[k] != step[k] for k in ends[:2])]
        return {**plan, "limits": [*others, {key: step.get(key) for key in ends}]}
    events = [
        {**event, "after": [_retied(tie, step) for tie in event["after"]]}
        if event["id"] == step["event"]
        else event
        for event in plan["events"]
    ]
    return {**plan, "events": events}


def _retied(tie: Told, step: Told) -> Told:
    return {**tie, "nominal": step["nominal"]} if tie["event"] == step["after"] else tie
