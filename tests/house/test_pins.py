"""The exact pins, the ranges of the package and the imports of the code agree."""

import ast
import sys
import tomllib
from collections.abc import Iterator
from importlib.metadata import packages_distributions
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).resolve().parents[2]
PYTHONS = ("3.11", "3.12", "3.13")


def pins() -> list[Requirement]:
    lines = (ROOT / "requirements.txt").read_text(encoding="utf-8").splitlines()
    return [Requirement(line) for line in lines if line and not line.startswith("#")]


def ranges() -> list[Requirement]:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    return [Requirement(text) for text in project["dependencies"]]


def holding_on(python: str, requirements: list[Requirement]) -> dict[str, Requirement]:
    return {
        canonicalize_name(one.name): one
        for one in requirements
        if one.marker is None or one.marker.evaluate({"python_version": python})
    }


@pytest.mark.parametrize("python", PYTHONS)
def test_each_range_of_the_package_has_a_pin_inside_it(python: str) -> None:
    pinned = holding_on(python, pins())
    for name, allowed in holding_on(python, ranges()).items():
        (exact,) = pinned[name].specifier
        assert allowed.specifier.contains(exact.version), name


def test_every_pin_is_exact() -> None:
    assert {one.operator for pin in pins() for one in pin.specifier} == {"=="}


def imported_by(folder: str) -> Iterator[str]:
    """The top-level names imported anywhere in the Python files of a folder, or by one file."""
    path = ROOT / folder
    for file in path.rglob("*.py") if path.is_dir() else [path]:
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Import):
                yield from (alias.name.split(".")[0] for alias in node.names)
            elif isinstance(node, ast.ImportFrom) and node.module:
                yield node.module.split(".")[0]


def foreign(folder: str) -> set[str]:
    """Of these, those that are neither the standard library's nor ours."""
    return set(imported_by(folder)) - sys.stdlib_module_names - {"app", "core"}


def test_the_program_imports_only_what_the_package_depends_on() -> None:
    declared = {canonicalize_name(one.name) for one in ranges()} | {"shiboken6"}
    owners = packages_distributions()
    used = {canonicalize_name(owners[name][0]): name for name in foreign("app") | foreign("core")}
    assert set(used) <= declared


@pytest.mark.parametrize("part", ["core/schedule", "tasks.py"])
def test_the_standard_library_is_enough_for(part: str) -> None:
    assert foreign(part) == set()
