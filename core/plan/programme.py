"""What is on the air: hours, junctions, items, check-offs, grave lines, from their tables."""

from core.plan.fields import Fields
from core.plan.gather import Named
from core.plan.model import Air, CheckOff, GraveLine, Item, Junction
from core.plan.values import choice, flag, instant, length, name, pair, reference, whole
from core.times.durations import write_duration

_event = reference(Named.EVENT)
_lane = reference(Named.LANE)
_count = whole(1, 10_000)
_kind = choice("break", "remote", "tape", "studio")


def read_air(top: Fields) -> Air | None:
    """The programme's hours, and the rules between items."""
    fields = top.table("air")
    if fields is None:
        return None
    air = Air(
        on_ms=fields.get("on", instant),
        off_ms=fields.get("off", instant),
        item_gap_ms=fields.get("item_gap", length, default=0),
        break_gap_ms=fields.get("break_gap", length, default=0),
        delay_ms=fields.get("delay", length, default=0),
    )
    if air.on_ms is not None and air.off_ms is not None and air.off_ms <= air.on_ms:
        fields.page.problem(
            fields.at("off"), "the programme ends before it begins", "Check both times"
        )
    fields.close()
    return air


def read_junctions(top: Fields) -> tuple[Junction, ...]:
    """Every junction, in the file's order."""
    found = []
    for fields in top.tables("junction"):
        at_ms = fields.need("at", instant, "2031-05-14T17:00:00")
        title = fields.need("name", name, '"Network joins"')
        fields.close()
        if at_ms is not None and title is not None:
            found.append(Junction(at_ms, title))
    return tuple(found)


def read_items(top: Fields) -> tuple[Item, ...]:
    """Every item, in the file's order."""
    items = (_item(fields) for fields in top.tables("item"))
    return tuple(item for item in items if item is not None)


def _item(fields: Fields) -> Item | None:
    identity = fields.define(Named.ITEM)
    kind = fields.need("kind", _kind, '"break", "remote", "tape" or "studio"')
    length_ms = fields.need("length", length, '"2m 10s"')
    item = Item(
        id=identity or "",
        kind=kind or "",
        name=fields.named(identity),
        length_ms=length_ms or 0,
        turnaround_ms=fields.get("turnaround", length, default=0),
        owed=fields.get("owed", flag, default=False),
        sponsor=fields.words("sponsor"),
        can_cut=fields.get("can_cut", flag, default=True),
        earliest_ms=fields.get("earliest", instant),
        latest_ms=fields.get("latest", instant),
        at_ms=fields.get("at", instant),
        needs=fields.get("needs", _lane),
        prefers=fields.get("prefers", choice("gap")),
        booked=fields.each("booked", pair),
        weight=fields.get("weight", whole(1, 1_000), default=1),
        ran=fields.get("ran", pair),
    )
    _check_item(fields, item, length_ms)
    fields.close()
    return None if identity is None or kind is None or length_ms is None else item


def _check_item(fields: Fields, item: Item, length_ms: int | None) -> None:
    if length_ms == 0:
        fields.page.problem(fields.at("length"), "an item takes some time", 'Like "2m 10s"')
    first, last = item.earliest_ms, item.latest_ms
    if first is not None and last is not None and last < first:
        fields.page.problem(
            fields.at("latest"), "latest is before earliest", "Put the earlier time in earliest"
        )
    elif (longest_ms := _longest_ms(item)) is not None and longest_ms < item.length_ms:
        fields.warning(
            "length",
            f"'{item.id}' is longer than any stretch in which it may run",
            f"The longest is {write_duration(longest_ms)}: check earliest, latest and booked",
        )


def _longest_ms(item: Item) -> int | None:
    """How long the longest stretch is in which it may run; None where one has no end."""
    first, last = item.earliest_ms, item.latest_ms
    if item.booked:
        begins = (from_ms if first is None else max(first, from_ms) for from_ms, _ in item.booked)
        ends = (to_ms if last is None else min(last, to_ms) for _, to_ms in item.booked)
        return max(0, *(to - begun for begun, to in zip(begins, ends, strict=True)))
    return None if first is None or last is None else last - first


def read_checkoffs(top: Fields) -> tuple[CheckOff, ...]:
    """Every check-off, in the file's order."""
    checkoffs = (_checkoff(fields) for fields in top.tables("checkoff"))
    return tuple(checkoff for checkoff in checkoffs if checkoff is not None)


def _checkoff(fields: Fields) -> CheckOff | None:
    identity = fields.define(Named.CHECKOFF)
    of = fields.need("of", _event, '"the id of an event"')
    count = fields.need("count", _count, "8")
    enough = fields.get("enough", _count, default=count or 1)
    checkoff = CheckOff(
        id=identity or "",
        name=fields.named(identity),
        of=of or "",
        count=count or 1,
        enough=enough,
        spaced=fields.get("spaced", flag, default=False),
    )
    if count is not None and enough > count:
        fields.page.problem(
            fields.at("enough"), f"{enough} cannot be enough of {count}", f"At most {count}"
        )
    elif count is not None and checkoff.spaced and count % enough:
        fields.page.problem(
            fields.at("enough"),
            f"no {enough} of {count} are evenly spread round the ring",
            f"{_dividing(count)} can be; or take spaced out",
        )
    fields.close()
    return None if identity is None or of is None or count is None else checkoff


def _dividing(count: int) -> str:
    """The numbers that go into `count` without rest, as one lists them; the last few of many."""
    most = 8
    found = [str(each) for each in range(1, count + 1) if count % each == 0]
    return f"{', '.join(found[-most:-1])} or {found[-1]}" if len(found) > 1 else found[0]


def read_grave(top: Fields) -> tuple[GraveLine, ...]:
    """Every line for a grave board, in the file's order."""
    found = []
    for fields in top.tables("grave"):
        after_ms = fields.need("after", length, '"10m"')
        words = fields.need("text", name, '"words the editor passed"')
        fields.close()
        if after_ms is not None and words is not None:
            found.append(GraveLine(after_ms, words))
    return tuple(found)
