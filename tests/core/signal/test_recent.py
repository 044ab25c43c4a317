"""What is kept, and what goes."""

from core.signal.recent import Recent


def test_of_too_many_the_one_not_asked_for_longest_goes() -> None:
    kept = Recent[str, int](2)
    kept["one"], kept["two"] = 1, 2
    assert kept["one"] == 1
    kept["three"] = 3
    assert "two" not in kept
    assert (kept.get("one"), kept.get("two"), kept.get("three")) == (1, None, 3)


def test_what_was_replaced_counts_once() -> None:
    kept = Recent[str, int](2)
    kept["one"], kept["two"], kept["one"] = 1, 2, 7
    assert (kept["one"], kept["two"]) == (7, 2)
    kept.clear()
    assert kept.get("one") is None
