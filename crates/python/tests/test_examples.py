"""The examples and the lines of the documentation do what they say."""

import doctest
import subprocess
import sys
from pathlib import Path

import pytest

import untaught

PACKAGE = Path(__file__).parents[1]


def run(example: str) -> str:
    return subprocess.run(
        [sys.executable, str(PACKAGE / "examples" / example)], capture_output=True, text=True, encoding="utf-8", check=True
    ).stdout


def test_documentation() -> None:
    assert doctest.testmod(untaught).attempted > 3
    assert doctest.testmod(untaught).failed == 0
    assert doctest.testfile(str(PACKAGE / "README.md"), module_relative=False).failed == 0


def test_the_guide() -> None:
    guide = (PACKAGE.parents[1] / "README.md").read_text(encoding="utf-8")
    section = guide.split("\n## In a program\n")[1].split("\n## ")[0]
    lines: dict[str, object] = {}
    exec(section.split("```python\n")[1].split("```")[0], lines)
    report = lines["report"]
    assert isinstance(report, untaught.Report) and [word.word for word in report.untaught] == ["night"]


def test_pandas() -> None:
    pytest.importorskip("pandas")
    lines = [" ".join(line.split()) for line in run("pandas_table.py").splitlines()]
    assert lines[:4] == [
        "title lesson readable untaught",
        "The hat 9 100.00",
        "The knight 9 66.67 knight, light",
        "The kite 22 100.00",
    ]
    assert lines[5] == "The knight knight 1 needs kn as in knot (lesson 53) and igh as in night (lesson 33)"


def test_polars() -> None:
    pytest.importorskip("polars")
    assert run("polars_table.py").splitlines() == [
        "title,lesson,readable,untaught",
        'The hat,9,100.0,""',
        'The knight,9,66.67,"knight, light"',
        'The kite,22,100.0,""',
    ]
