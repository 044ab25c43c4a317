"""For how long nobody has said that an event happened."""

from core.board.scene import Scene
from core.board.words import rough_words
from core.times.writing import HOUR_MS, MINUTE_MS, apart_ms, duration_words, is_about


def overdue_words(scene: Scene, event: str, now_ms: int) -> str:
    """'2 min 10 s' since it was due, as one hears of it; empty where it has no time.

    Of one that is only about known whole minutes, and 'under a minute' for none of them.
    """
    line = scene.line(event)
    if line.expected_ms is None:
        return ""
    late_ms = apart_ms(now_ms, line.expected_ms + scene.way_ms(event))
    if is_about(line.give_ms) and late_ms < MINUTE_MS:
        return "under a minute"
    return duration_words(late_ms, line.give_ms) if late_ms < HOUR_MS else rough_words(late_ms)
