"""What a mission hands out, read as rows of a plan: tables, calendars, timelines, orbit files.

Each reader gives an `Imported`: what was read, what was not and why, and what it was taken for.
Nothing is dropped: each line of a text is in exactly one of these. Exports go the other way.

What a window calls, in this order:

- `opening.text_of(data, shown)`, or `opening.checked(text, shown)` for what was pasted; then
  `kinds.kind_of(text)`: table, calendar, timeline, trajectory, elements;
- `table.open_table(text, source)`: the columns proposed; `table.read_table(table, columns, setting,
  progress)` once a person has confirmed or changed them;
- `timeline.read_timeline(text, setting, source, progress)`;
- `calendar.read_calendar(text, setting, source, progress)`;
- `orbits.read_orbit(text, source)`: what a course needs;
- `events.events_of(rows, plan)`: events to be added, and those that stand already;
- `exports.plan_csv(plan, times_ms)`, `exports.plan_calendar(plan, times_ms, stamp_ms)`.

A text that cannot be taken at all raises PlanProblems, with file, line and remedy.
"""
