"""Runs the steps of the composite action as its runner would: usage action.py ACTION NAME=VALUE…"""

import os
import re
import subprocess
import sys

import yaml

path, *given = sys.argv[1:]
with open(path, encoding="utf-8") as file:
    action = yaml.safe_load(file)
assert action["runs"]["using"] == "composite" and action["name"] and action["description"]
inputs = {name: about["default"] for name, about in action["inputs"].items()}
for pair in given:
    name, value = pair.split("=", 1)
    assert name in inputs, f"there is no input {name}"
    inputs[name] = value


def filled(text):
    return re.sub(r"\$\{\{ inputs\.([a-z-]+) \}\}", lambda found: inputs[found[1]], text)


for step in action["runs"]["steps"]:
    assert step["shell"] == "bash" and "${{" not in step["run"], "values reach a script through its environment only"
    env = {name: filled(text) for name, text in step.get("env", {}).items()}
    env["GITHUB_ACTION_PATH"] = os.path.dirname(os.path.abspath(path))
    done = subprocess.run(["bash", "-eo", "pipefail", "-c", step["run"]], env=os.environ | env)
    if done.returncode:
        sys.exit(done.returncode)
