"""The score as a page by itself: no script, nothing from outside, light, dark and for print.

It has figures and no points: what a team makes of them is theirs.
"""

from collections.abc import Iterator
from html import escape

from app import __version__
from app.record.inks import DARK, LIGHT, NAMES, PAGE, PAPER
from app.record.svg import Ink
from app.score.picture import CAPTION, score_picture
from core.plan.model import Plan
from core.rehearsal.habits import DESKS
from core.rehearsal.model import Surprises
from core.rehearsal.score import Score
from core.rehearsal.scorewords import ScoreWords, Table
from core.session.record.words import EDITORIAL, REHEARSAL
from core.times.spoken import spoken_zone
from core.times.writing import Hours, date_text

_WIDTH = 1000.0
_POLICY = "default-src 'none'; style-src 'unsafe-inline'"
_STYLE = """
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 24px 20px 48px; max-width: 1080px; background: var(--ground);
  color: var(--text); font: 15px/1.45 "IBM Plex Sans", system-ui, sans-serif;
  font-variant-numeric: tabular-nums; }
h1 { font-size: 26px; font-weight: 600; margin: 0 0 6px; }
h2 { font-size: 19px; font-weight: 600; margin: 34px 0 8px; break-after: avoid; }
p { margin: 2px 0; color: var(--quiet); max-width: 66em; }
p.editorial { color: var(--text); margin-top: 8px; }
.rehearsal { border: 2px solid var(--text); padding: 8px 14px; margin: 0 0 18px; font-weight: 600;
  letter-spacing: .08em; display: inline-block; }
svg { display: block; width: 100%; height: auto; min-width: 760px; margin: 8px 0; }
.wide { overflow-x: auto; break-inside: avoid; }
.wide.long { break-inside: auto; }
dl { display: flex; flex-wrap: wrap; gap: 10px 26px; margin: 20px 0 0; }
dl div { flex: 1 1 15em; border-top: 1.5px solid var(--thread); padding-top: 4px;
  break-inside: avoid; }
dt { color: var(--quiet); font-size: 14px; }
dd { margin: 0; font-size: 17px; }
table { border-collapse: collapse; width: 100%; font-size: 14px; }
thead { display: table-header-group; }
th { text-align: left; font-weight: 600; color: var(--quiet);
  border-bottom: 1.5px solid var(--thread); }
th, td { padding: 4px 14px 4px 0; vertical-align: top; }
td { border-bottom: 1px solid var(--rule); }
td:first-child { white-space: nowrap; }
tr { break-inside: avoid; }
footer { margin-top: 40px; border-top: 1px solid var(--rule); padding-top: 10px; }
@media print { @page { size: A4; margin: 12mm; } body { padding: 0; font-size: 13px; }
  .wide { overflow: visible; } svg { min-width: 0; } table { font-size: 12px; } }
"""


def score_page(score: Score, day: Surprises, plan: Plan, hours: Hours = Hours.TWELVE) -> str:
    """The whole page."""
    told = ScoreWords(score, day, plan, hours)
    lines = (*_head(day), *_about(score, day, plan, told), *_body(score, day, told))
    return "\n".join((*lines, "</body>", "</html>", ""))


def _head(day: Surprises) -> Iterator[str]:
    yield "<!DOCTYPE html>"
    yield '<html lang="en">'
    yield "<head>"
    yield '<meta charset="utf-8">'
    yield f'<meta name="generator" content="Limbwatch {__version__}">'
    yield f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield '<meta name="color-scheme" content="light dark">'
    yield f"<title>{escape(f'{REHEARSAL}: {day.title}')}</title>"
    yield f"<style>{_colours()}{_STYLE}</style>"
    yield "</head>"


def _colours() -> str:
    return (
        f"\n:root {{ {_set(LIGHT)} }}"
        f"\n@media (prefers-color-scheme: dark) {{ :root {{ {_set(DARK)} }} }}"
        f"\n@media print {{ :root {{ {_set(PAPER)} }} }}"
    )


def _set(ink: Ink) -> str:
    return " ".join(f"--{name}: {getattr(ink, name)};" for name in NAMES)


def _about(score: Score, day: Surprises, plan: Plan, told: ScoreWords) -> Iterator[str]:
    zone = plan.zones[0]
    of = f"{plan.title}{f', {plan.subtitle}' if plan.subtitle else ''}"
    yield "<body>"
    yield f'<div class="rehearsal">{REHEARSAL}</div>'
    yield f"<h1>{escape(day.title)}</h1>"
    yield f"<p>{escape(of)}; {escape(_who(score.desk))}</p>"
    when = (
        f"{date_text(day.begin_ms, zone)}, {told.clock(day.begin_ms)} to {told.clock(day.end_ms)}"
    )
    yield f"<p>{escape(f'{when}, {spoken_zone(zone)} time on the simulated clock')}</p>"
    for line in told.by_trainer():
        yield f"<p>{escape(line)}</p>"
    yield f'<p class="editorial">{EDITORIAL}</p>'


def _who(desk: str) -> str:
    if desk in DESKS:
        return f"rehearsed by the scripted desk '{desk}'"
    return "rehearsed at the desk"


def _body(score: Score, day: Surprises, told: ScoreWords) -> Iterator[str]:
    yield "<dl>"
    for name, words in told.figures():
        yield f"<div><dt>{escape(name)}</dt><dd>{escape(words)}</dd></div>"
    yield "</dl>"
    yield "<h2>How it went</h2>"
    yield f'<div class="wide">{score_picture(score, day, told, PAGE, _WIDTH)}'
    yield f"<p>{CAPTION}</p></div>"
    for table in told.tables():
        yield from _table(table)
    yield f"<footer><p>{EDITORIAL}</p></footer>"


def _table(table: Table) -> Iterator[str]:
    yield f"<h2>{escape(table.title)}</h2>"
    if not table.rows:
        yield f"<p>{escape(table.empty)}</p>"
        return
    heads = "".join(f'<th scope="col">{escape(text)}</th>' for text in table.heads)
    yield f'<div class="wide long"><table><thead><tr>{heads}</tr></thead><tbody>'
    for row in table.rows:
        yield f"<tr>{''.join(f'<td>{escape(text)}</td>' for text in row)}</tr>"
    yield "</tbody></table></div>"
