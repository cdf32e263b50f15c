"""What the tests share: the scope, the stories, and the command that reports are compared with."""

import json
import os
import subprocess
import sysconfig
from pathlib import Path
from typing import Any

import pytest

import untaught

REPOSITORY = Path(__file__).parents[3]
READERS = sorted((REPOSITORY / "scope-files/readers").glob("*.txt"))
# The command that the package installs; UNTAUGHT names another build of it.
INSTALLED = Path(sysconfig.get_path("scripts")) / "untaught"
COMMAND = os.environ.get("UNTAUGHT", str(INSTALLED))


def command(*arguments: str, stdin: str = "", codes: tuple[int, ...] = (0, 1), program: str = COMMAND) -> str:
    """What the command prints; it must end with one of the exit codes."""
    done = subprocess.run([program, *arguments], input=stdin, capture_output=True, text=True, encoding="utf-8")
    assert done.returncode in codes, done.stderr
    return done.stdout


def command_json(*arguments: str, stdin: str = "") -> Any:
    return json.loads(command(*arguments, "--format", "json", stdin=stdin))


@pytest.fixture(scope="session")
def scope() -> untaught.Scope:
    return untaught.Scope.builtin("starter")
