"""Files that mean harm, or that were never plans: one clear problem each, and no traceback."""

from pathlib import Path

import pytest

from core.errors import PlanProblems
from core.plan.files import LARGEST_BYTES, beside
from core.plan.reader import read_plan, read_plan_text

HEAD = b'limbwatch = 1\ntitle = "x"\nzones = ["UTC"]\n'

HOSTILE: dict[str, tuple[bytes, str, tuple[int, int]]] = {
    "over 20 MB": (HEAD + b"#" * LARGEST_BYTES, "over 20 MB", (0, 0)),
    "nested lists": (HEAD + b"a = " + b"[" * 100_000, "deeper than 50", (4, 55)),
    "one level too deep": (HEAD + b"a = " + b"[" * 51 + b"]" * 51, "deeper than 50", (4, 55)),
    "nested tables": (HEAD + b"a = " + b"{a=" * 9_000, "deeper than 50", (4, 155)),
    "a key of many parts": (HEAD + b"a." * 100_000 + b"a = 1", "over 50 parts", (4, 2)),
    "a heading of many parts": (HEAD + b"[a" + b".'b'" * 90 + b"]", "over 50 parts", (4, 3)),
    "a NUL byte": (HEAD + b'a = "\0"', "NUL byte", (4, 6)),
    "a NUL byte behind a mark": (b"\xef\xbb\xbf" + HEAD + b"a\0", "NUL byte", (4, 2)),
    "a number of 5,000 digits": (HEAD + b"a = " + b"9" * 5_000, "thousand digits", (4, 5)),
    "a fraction of 5,000 digits": (HEAD + b"a = 0." + b"9" * 5_000, "thousand digits", (4, 7)),
    "UTF-16": (HEAD.decode().encode("utf-16"), "UTF-16", (0, 0)),
    "UTF-16 without a mark": (HEAD.decode().encode("utf-16-le"), "NUL byte", (1, 2)),
    "UTF-32": (HEAD.decode().encode("utf-32"), "UTF-16", (0, 0)),
    "Latin-1": (HEAD + 'a = "ü"'.encode("latin-1"), "not UTF-8", (4, 6)),
    "a picture": (b"\x89PNG\r\n\x1a\n", "not UTF-8", (1, 1)),
    "nothing": (b"", "does not say that it is a plan", (1, 1)),
    "a million empty lines": (b"\n" * 1_100_000, "a million lines", (0, 0)),
    "another version": (b"limbwatch = 2\nwhat = 3", "another version", (1, 13)),
    "a version that is true": (b"limbwatch = true", "another version", (1, 13)),
    "no version": (b'title = "x"', "does not say", (1, 1)),
    "no value": (HEAD + b"a =\n", "invalid value", (4, 4)),
    "the same key twice": (HEAD + b'title = "y"', "overwrite", (4, 12)),
    "the same table twice": (HEAD + b"[air]\n[air]\n", "twice", (5, 5)),
    "marks left open": (HEAD + b'a = "x\n', "illegal character", (4, 7)),
    "a list left open": (HEAD + b"a = [1", "unclosed array", (4, 7)),
    "a day that is none": (HEAD + b"a = 2031-02-30T00:00:00", "invalid date", (4, 5)),
    "quotation marks without end": (HEAD + b'a="' + b'\\"' * 200_000, "", (4, 400_004)),
    "old line ends": (HEAD.replace(b"\n", b"\r"), "not TOML", (1, 14)),
}


@pytest.mark.parametrize("kind", HOSTILE)
def test_a_hostile_file_gets_one_clear_problem(kind: str, tmp_path: Path) -> None:
    data, what, place = HOSTILE[kind]
    path = tmp_path / "plan.toml"
    path.write_bytes(data)
    with pytest.raises(PlanProblems) as caught:
        read_plan(path)
    (problem,) = caught.value.problems
    assert what in problem.what
    assert (problem.where.file, problem.where.line, problem.where.column) == (str(path), *place)
    assert len(str(problem)) < 400


@pytest.mark.parametrize(
    "text", ['"[[[' + "[" * 90 + '"', '"' + "a." * 90 + '"', '"' + "9" * 2_000 + '"']
)
def test_what_only_looks_monstrous_inside_a_text_is_taken(text: str) -> None:
    plan = read_plan_text(f"{HEAD.decode()}subtitle = {text} # {'[' * 60}", "p", Path())
    assert plan.subtitle == text.strip('"')


def test_windows_line_ends_and_a_byte_order_mark_are_taken(tmp_path: Path) -> None:
    path = tmp_path / "plan.toml"
    path.write_bytes(b"\xef\xbb\xbf" + HEAD.replace(b"\n", b"\r\n"))
    assert read_plan(path).title == "x"


def test_places_are_right_behind_a_mark_wide_letters_and_windows_line_ends(tmp_path: Path) -> None:
    path = tmp_path / "plan.toml"
    path.write_bytes(
        b"\xef\xbb\xbf" + HEAD.replace(b"\n", b"\r\n") + "air = { 'ü🛰' = 1, onn = 2 }".encode()
    )
    with pytest.raises(PlanProblems) as caught:
        read_plan(path)
    places = [(one.where.line, one.where.column) for one in caught.value.problems]
    assert places == [(4, 9), (4, 19)]


def test_a_missing_file_a_folder_and_a_pipe_are_told(tmp_path: Path) -> None:
    for path, what in (
        (tmp_path / "nowhere.toml", "no such file"),
        (tmp_path, "this is a folder"),
        (Path("/dev/null"), "no ordinary file"),
        (tmp_path / "a\0b", "cannot be opened"),
        (tmp_path / ("a" * 5_000), "cannot be opened"),
    ):
        with pytest.raises(PlanProblems) as caught:
            read_plan(path)
        assert what in caught.value.problems[0].what


def test_a_link_out_of_the_folder_is_refused_and_one_inside_is_taken(tmp_path: Path) -> None:
    folder = tmp_path / "plan"
    folder.mkdir()
    (tmp_path / "secret.csv").write_text("x", encoding="utf-8")
    (folder / "real.csv").write_text("x", encoding="utf-8")
    (folder / "out.csv").symlink_to(tmp_path / "secret.csv")
    (folder / "in.csv").symlink_to(folder / "real.csv")
    (folder / "loop.csv").symlink_to(folder / "loop.csv")
    assert "leads outside" in beside(folder, "out.csv")[1]
    assert beside(folder, "in.csv")[0] == (folder / "real.csv").resolve()
    loop = beside(folder, "loop.csv")
    assert loop[0] is None or not loop[0].is_file()


def test_a_flood_of_problems_is_cut_off_and_counted() -> None:
    keys = "".join(f"key-{number} = 1\n" for number in range(1_500))
    with pytest.raises(PlanProblems) as caught:
        read_plan_text(HEAD.decode() + keys, "p", Path())
    assert len(caught.value.problems) == 1_001
    assert caught.value.problems[-1].what == "and 500 more problems"


def test_a_text_from_elsewhere_is_looked_at_like_a_file() -> None:
    for text, what in (("a\0", "NUL"), ("#" * (LARGEST_BYTES + 1), "over 20 MB")):
        with pytest.raises(PlanProblems) as caught:
            read_plan_text(text, "p", Path())
        assert what in caught.value.problems[0].what
