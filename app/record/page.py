"""The record as a page by itself: no script, nothing from outside, light, dark and for print."""

from collections.abc import Iterator
from html import escape

from app import __version__
from app.record.day_strip import strip_pictures
from app.record.inks import DARK, LIGHT, NAMES, PAGE, PAPER
from app.record.slips import slip_pictures
from app.record.svg import Ink
from core.session.record.glance import glance
from core.session.record.model import DayRecord
from core.session.record.tables import Part, parts
from core.session.record.words import EDITORIAL, REHEARSAL, about_lines, heading

WIDTH = 1000.0
ROWS = 46
"""So many lines of the first picture go on one sheet of paper."""
FIRST_ROWS = 34
"""So many on the first, under what stands at its top."""

GENERATOR = '<meta name="generator" content="Limbwatch'
"""What a page of ours says of itself near its top."""

_POLICY = "default-src 'none'; style-src 'unsafe-inline'"

_STYLE = """
* {{ box-sizing: border-box; }}
body {{ margin: 0 auto; padding: 24px 20px 48px; max-width: 1080px; background: var(--ground);
  color: var(--text); font: 15px/1.45 "IBM Plex Sans", system-ui, sans-serif;
  font-variant-numeric: tabular-nums; }}
h1 {{ font-size: 26px; font-weight: 600; margin: 0 0 6px; }}
h2 {{ font-size: 19px; font-weight: 600; margin: 36px 0 8px; break-after: avoid; }}
p {{ margin: 2px 0; color: var(--quiet); }}
p.editorial {{ color: var(--text); margin-top: 8px; }}
ul {{ margin: 14px 0 0; padding-left: 20px; }}
.rehearsal {{ border: 2px solid var(--text); padding: 8px 14px; margin: 0 0 18px; font-weight: 600;
  letter-spacing: .08em; display: inline-block; }}
svg {{ display: block; width: 100%; height: auto; margin: 10px 0 18px; break-inside: avoid; }}
.wide {{ overflow-x: auto; }}
table {{ border-collapse: collapse; width: 100%; font-size: 14px; }}
thead {{ display: table-header-group; }}
th {{ text-align: left; font-weight: 600; color: var(--quiet);
  border-bottom: 1.5px solid var(--thread); }}
th, td {{ padding: 4px 14px 4px 0; vertical-align: top; }}
td {{ border-bottom: 1px solid var(--rule); }}
tr {{ break-inside: avoid; }}
td.mark {{ font-size: 11px; letter-spacing: .06em; color: var(--quiet); padding-top: 6px; }}
footer {{ margin-top: 40px; border-top: 1px solid var(--rule); padding-top: 10px; }}
@page {{ size: A4; margin: 12mm; }}
@media print {{
  :root {{ {paper} }}
  body {{ padding: 0; font-size: 11px; }}
  h1 {{ font-size: 19px; }}
  h2 {{ font-size: 15px; margin-top: 20px; }}
  table {{ font-size: 9.5px; }}
  th, td {{ padding: 2px 7px 2px 0; }}
  td.mark {{ font-size: 7px; padding-top: 4px; }}
  .wide {{ overflow: visible; }}
}}
"""


def record_page(record: DayRecord) -> str:
    """The whole page; of a rehearsal every line of every table says so."""
    return "\n".join((*_head(record), *_body(record), "</body>", "</html>", ""))


def _head(record: DayRecord) -> Iterator[str]:
    title = f"{REHEARSAL}: {heading(record)}" if record.rehearsal else heading(record)
    yield "<!DOCTYPE html>"
    yield '<html lang="en">'
    yield "<head>"
    yield '<meta charset="utf-8">'
    yield f'{GENERATOR} {__version__}">'
    yield f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield '<meta name="color-scheme" content="light dark">'
    yield f"<title>{escape(title)}</title>"
    yield f"<style>{_colours()}{_STYLE.format(paper=_set(PAPER))}</style>"
    yield "</head>"


def _colours() -> str:
    return (
        f"\n:root {{ {_set(LIGHT)} }}"
        f"\n@media (prefers-color-scheme: dark) {{ :root {{ {_set(DARK)} }} }}"
    )


def _set(ink: Ink) -> str:
    return " ".join(f"--{name}: {getattr(ink, name)};" for name in NAMES)


def _body(record: DayRecord) -> Iterator[str]:
    yield "<body>"
    if record.rehearsal:
        yield f'<div class="rehearsal">{REHEARSAL}</div>'
    yield f"<h1>{escape(heading(record))}</h1>"
    for text in about_lines(record):
        kind = ' class="editorial"' if text == EDITORIAL else ""
        yield f"<p{kind}>{escape(text)}</p>"
    lines = "".join(f"<li>{escape(text)}</li>" for text in glance(record))
    yield f"<ul>{lines}</ul>"
    slips = slip_pictures(record, PAGE, WIDTH, ROWS, FIRST_ROWS)
    if slips:
        yield "<h2>Planned against happened</h2>"
        yield from slips
    yield "<h2>The day's strip</h2>"
    yield from strip_pictures(record, PAGE, WIDTH)
    for part in parts(record):
        yield from _table(part, rehearsal=record.rehearsal)
    yield f"<footer><p>{escape(EDITORIAL)}</p></footer>"


def _table(part: Part, *, rehearsal: bool) -> Iterator[str]:
    mark = f'<td class="mark">{REHEARSAL}</td>' if rehearsal else ""
    yield f"<h2>{escape(part.title)}</h2>"
    yield '<div class="wide"><table>'
    heads = "".join(f'<th scope="col">{escape(text)}</th>' for text in part.head)
    yield f"<thead><tr>{'<th></th>' if rehearsal else ''}{heads}</tr></thead>"
    yield "<tbody>"
    for row in part.rows:
        yield f"<tr>{mark}{''.join(f'<td>{escape(text)}</td>' for text in row)}</tr>"
    yield "</tbody></table></div>"
