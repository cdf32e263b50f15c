"""Runs the lines for Spark as they are printed in the guide, and compares them with one process of the command.

Usage: spark.py README.md RECORDS
"""

import json
import os
import random
import re
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from pyspark.sql import SparkSession

guide, many = Path(sys.argv[1]).resolve(), int(sys.argv[2])
section = guide.read_text(encoding="utf-8").split("\n## Many texts at once\n")[1].split("\n## ")[0]
through_pipe, through_pandas = re.findall(r"```python\n(.*?)```", section, re.S)
folder = tempfile.TemporaryDirectory()
options = ["check", "-f", "jsonl", "--lesson", "12"]


def sentences():
    for path in sorted((guide.parent / "scope-files/readers").glob("*.txt")):
        story = path.read_text(encoding="utf-8").split("---\n")[-1]
        yield from re.split(r"(?<=[.!?])\s+", story.strip())
    bank = (guide.parent / "crates/lists/data/sentences/bank.txt").read_text(encoding="utf-8").splitlines()
    yield from (line.split("\t")[0] for line in bank if line and not line.startswith("#"))


SENTENCES = list(sentences())


def records(count):
    """Lines of records; each id is the number of its line."""
    chosen = random.Random(7)
    for number in range(count):
        text = " ".join(chosen.choices(SENTENCES, k=chosen.randint(4, 16)))
        yield json.dumps({"id": number, "text": text}) + "\n"


def command(*more, jobs="2", output=subprocess.PIPE):
    with open("stories.jsonl", "rb") as stories:
        return subprocess.run(
            ["untaught", *options, "--jobs", jobs, *more], stdin=stories, stdout=output, stderr=subprocess.DEVNULL
        )


def bare(verdict):
    """A verdict without the number of the line, which in Spark is that of the partition."""
    verdict = {key: value for key, value in verdict.items() if key not in ("file", "format", "id")}
    if "error" in verdict:
        verdict["error"] = re.sub(r"^-:\d+: ", "", verdict["error"])
    return verdict


def fails(action):
    try:
        action()
    except Exception as error:  # What Spark raises has many layers.
        return str(error)
    return None


# Spark takes the folder it begins in.
os.chdir(folder.name)
session = SparkSession.builder.master("local[2]").appName("untaught").config("spark.ui.enabled", "false")
session = session.config("spark.ui.showConsoleProgress", "false")
session = session.config("spark.driver.bindAddress", "127.0.0.1").config("spark.driver.memory", "2g")
session = session.config("spark.log.level", "OFF")
spark = session.getOrCreate()
sc = spark.sparkContext

# Verdicts, order and a bad record.
lines = list(records(5_000))
lines[1_234] = '{"id": 1234, "txet": "no text"}\n'
Path("stories.jsonl").write_text("".join(lines), encoding="utf-8")
one = command(jobs="1")
assert one.returncode == 1, one
expected = [json.loads(line) for line in one.stdout.splitlines()]
assert [verdict["id"] for verdict in expected] == list(range(5_000)) and "error" in expected[1_234]

lines_of_pipe = {"sc": sc}
exec(through_pipe, lines_of_pipe)
piped = lines_of_pipe["verdicts"]
assert piped.getNumPartitions() >= 2, "more than one process must work on it"
found = piped.collect()
assert [verdict["id"] for verdict in found] == list(range(5_000)), "out of order"
assert [bare(verdict) for verdict in found] == [bare(verdict) for verdict in expected]

lines_of_pandas = {"spark": spark}
exec(through_pandas, lines_of_pandas)
rows = lines_of_pandas["table"].collect()
assert [row["id"] for row in rows] == list(range(5_000)), "out of order"
for row, verdict in zip(rows, expected):
    if "error" in verdict:
        assert row["error"].endswith(": there is no text") and row["readable"] is None, row
    else:
        words = [finding["word"] for finding in verdict["findings"]]
        assert row["error"] is None and (row["readable"], row["untaught"]) == (verdict["percent"]["readable"], words), row
print("pipe and mapInPandas: 5,000 verdicts in order, those of one process; 1 of them of a faulty record")

# Exit codes, where Spark looks at them.
def checked(*more):
    line = " ".join(["untaught", *options, *more])
    return fails(sc.textFile("stories.jsonl").pipe(line, env={"PATH": os.environ["PATH"]}, checkCode=True).count)


for more, code in [((), 1), (("--strict", "--min-readable", "0"), 2), (("--exit-zero",), None)]:
    error = checked(*more)
    assert (error is None) if code is None else (error and f"exited with error code {code}" in error), (more, error)
print("exit codes: 1, 2 and, with --exit-zero, 0 reach Spark")

# How fast each is.
with open("stories.jsonl", "w", encoding="utf-8") as stories:
    stories.writelines(records(many))
size = os.path.getsize("stories.jsonl") / 1e6
ways = {
    "one process, 1 thread": lambda: command(jobs="1", output=subprocess.DEVNULL),
    "one process, 2 threads": lambda: command(jobs="2", output=subprocess.DEVNULL),
    "Spark local[2], pipe": lambda: exec(through_pipe + "\nverdicts.count()", {"sc": sc}),
    "Spark local[2], mapInPandas": lambda: exec(
        through_pandas + "\ntable.write.format('noop').mode('overwrite').save()", {"spark": spark}
    ),
}
print(f"\n{many:,} records, {size:.0f} MB; the best of two runs\n{'':30}{'seconds':>9}{'texts/s':>10}{'MB/s':>8}{'ratio':>8}")
first = None
for name, way in ways.items():
    took = []
    for _ in range(2):
        begun = time.monotonic()
        way()
        took.append(time.monotonic() - begun)
    best = min(took)
    first = first or best
    print(f"{name:30}{best:9.1f}{many / best:10,.0f}{size / best:8.1f}{first / best:8.2f}")
spark.stop()
