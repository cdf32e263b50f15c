"""Reads what the command writes with other programs' parsers: python formats.py UNTAUGHT FOLDER SARIF-SCHEMA"""

import csv
import glob
import io
import json
import re
import subprocess
import sys
from pathlib import Path

import html5lib
import jsonschema
import openpyxl
import yaml
from junitparser import Error, Failure, JUnitXml

UNTAUGHT, FOLDER, SARIF = sys.argv[1], Path(sys.argv[2]), Path(sys.argv[3]).resolve()
SCHEMAS = {name: json.load(open(f"scope-files/{name}.schema.json")) for name in ["check", "compare", "place", "shelf", "scope", "untaught"]}
SARIF_SCHEMA = json.load(open(SARIF))

SCOPE = """format: 1
title: Ferry
lessons:
- {id: a, teach: [s, a, t, m, p, i, n]}
- {id: b, teach: [sh, ck]}
- {id: c, teach: [igh], review: [sh]}
"""
SETTINGS = """format: 1
scope: ferry.yaml
lesson-from-name: "^([a-z])-"
names: [Ross]
exclude: [drafts]
texts:
- files: "c-*"
  min-readable: 50
  focus: [igh]
- files: ["*.md", "late/*"]
  lesson: b
  story-words: [quay]
"""
STORIES = {
    "a-one.txt": "---\ntitle: The mat & the \"pan\"\n---\nTam sat at night. Tam read. Zorbish!\n\nPam <b>spat</b>, =cmd() ]]> \x1b[31m\n",
    "b-two.md": "# Ross\n\n**Mash** it, Tam. 7 ships at the quay!\n",
    "c-three.txt": "Might a night ship sit? Tam: light, 100 % light.\r\nNight\r\n",
    "nowhere.txt": "Tam spat.\n",
    "nothing.txt": "",
    "=cmd(), \"a\"\n.txt": "Tam sat at night.\n",
    "100%, late: <i>'é'.txt".replace("/", ""): "Wait at the quay, Tam.\n",
}
BROKEN = {"z-broken.docx": b"no archive", "z-lost.txt": b"\x00\x01"}
CLEAN = {"a.txt": "Tam sat. Pat sat in it.\n"}


def folder(name, stories, broken):
    path = FOLDER / name
    path.mkdir(parents=True)
    (path / "untaught.yaml").write_text(SETTINGS)
    (path / "ferry.yaml").write_text(SCOPE)
    for name, text in stories.items():
        (path / name).write_bytes(text.encode())
    for name, content in broken.items():
        (path / name).write_bytes(content)
    return path


def run(path, command, form, *more):
    done = subprocess.run([UNTAUGHT, command, "-f", form, *more, "."], cwd=path, capture_output=True)
    return done.stdout.decode(), done.returncode


def follows(value, name, part=None):
    schema = dict(SCHEMAS[name])
    if part:
        schema = {"$defs": schema["$defs"], "$ref": f"#/$defs/{part}"}
    jsonschema.validate(value, schema)


def check_json(path, code):
    whole, got = run(path, "check", "json", "--every-word")
    assert got == code, (path, got)
    whole = json.loads(whole)
    follows(whole, "check")
    short = json.loads(run(path, "check", "json")[0])
    follows(short, "check")
    lines = [json.loads(line) for line in run(path, "check", "jsonl")[0].splitlines()]
    for line in lines:
        follows(line, "check", "line")
    assert {line["file"] for line in lines} == {one["file"] for one in short["texts"] + short["errors"]}
    for command in ["place", "shelf"]:
        follows(json.loads(run(path, command, "json", *(["--order"] if command == "shelf" else []))[0]), command)
    return short


def check_records():
    records = "".join(json.dumps({"id": n, "text": text}) + "\n" for n, text in enumerate(STORIES.values())) + "{}\n"
    done = subprocess.run([UNTAUGHT, "check", "-f", "jsonl"], input=records.encode(), capture_output=True)
    lines = [json.loads(line) for line in done.stdout.splitlines()]
    for line in lines:
        follows(line, "check", "line")
    assert [line.get("id") for line in lines] == [*range(len(STORIES)), None] and "error" in lines[-1]


def check_sarif(path, report):
    sarif = json.loads(run(path, "check", "sarif")[0])
    validator = jsonschema.validators.validator_for(SARIF_SCHEMA)(SARIF_SCHEMA)
    validator.validate(sarif)
    assert not validator.is_valid({**sarif, "runs": [{**sarif["runs"][0], "columnKind": "letters"}]})
    (it,) = sarif["runs"]
    rules = {rule["id"] for rule in it["tool"]["driver"]["rules"]}
    assert all(found["ruleId"] in rules for found in it["results"])
    places = sum(f["count"] for text in report["texts"] for f in text["findings"])
    assert sum(found["ruleId"] == "untaught-word" for found in it["results"]) == places
    notes = it["invocations"][0]["toolExecutionNotifications"]
    assert len(notes) == len(report["errors"])
    assert it["invocations"][0]["executionSuccessful"] == (not report["errors"])


def check_junit(path, report):
    xml = JUnitXml.fromstring(run(path, "check", "junit")[0].encode())
    suites = list(xml)
    assert len(suites) == len(report["texts"]) + len(report["errors"])
    kinds = [type(result) for suite in suites for case in suite for result in case.result]
    assert kinds.count(Error) == len(report["errors"]) == sum(suite.errors for suite in suites)
    assert sum(suite.failures for suite in suites) == kinds.count(Failure)
    short = sum(not text["met"] for text in report["texts"])
    assert sum(suite.failures > 0 for suite in suites) == short
    cases = sum(len(list(suite)) for suite in suites)
    assert cases == sum(suite.tests for suite in suites)


def table(text):
    assert "\n" not in text.replace("\r\n", "")
    return list(csv.DictReader(io.StringIO(text, newline=""), strict=True))


def cell(text):
    """What the table shows of a name: control characters as codes, no formula."""
    text = re.sub(r"[\x00-\x1f\x7f]", lambda m: "\\u{%x}" % ord(m[0]), text)
    return "'" + text if text[0] in "=+-@" else text


def check_csv(path, report):
    rows = table(run(path, "check", "csv")[0])
    assert len(rows) == len(report["texts"])
    for row, text in zip(rows, report["texts"]):
        assert row["file"] == cell(text["file"]), (row, text["file"])
        for key in ["words", "decodable", "sight", "story", "untaught", "uncounted"]:
            assert int(row[key]) == text["counts"][key]
        for key in ["decodable", "readable"]:
            percent = row[f"percent_{key}"]
            assert (float(percent) if percent else None) == text["percent"][key]
        assert (row["met"] == "true") == text["met"] and row["lesson"] == text["lesson"]
        assert row["untaught_words"].split() == [finding["word"] for finding in text["findings"]]
        for key in ["words", "decodable", "sight", "story", "untaught"]:
            assert int(row[f"different_{key}"]) == text["types"]["counts"][key]
        assert (row["why_not_met"] == "") == text["met"]
    total = table(run(path, "check", "csv", "--totals")[0])[-1]
    assert total["file"] == "all" and int(total["words"]) == sum(int(row["words"]) for row in rows)
    rows = table(run(path, "check", "csv-words")[0])
    findings = [(text, finding) for text in report["texts"] for finding in text["findings"]]
    assert len(rows) == len(findings)
    for row, (text, finding) in zip(rows, findings):
        place = finding["places"][0]
        assert row["file"] == cell(text["file"]) and row["word"] == finding["word"]
        numbers = [int(row[key]) for key in ["times", "line", "column"]]
        assert numbers == [finding["count"], place["line"], place["column"]]
        assert row["needs"] == " + ".join(need["pattern"] for need in finding["needs"])
        assert row["first_readable"] == (finding["first_readable"] or "never")
    place, shelf = (json.loads(run(path, command, "json")[0]) for command in ["place", "shelf"])
    rows = table(run(path, "place", "csv")[0])
    assert [row["first_readable"] for row in rows] == [text["lesson"] or "never" for text in place["texts"]]
    rows = table(run(path, "shelf", "csv")[0])
    assert [row["sits"] for row in rows[:-1]] == [reader["sits"] for reader in shelf["readers"]]
    for pattern in shelf["patterns"]:
        column = f"{pattern['pattern']} (lesson {pattern['lesson']})"
        assert int(rows[-1][column]) == pattern["words"] == sum(int(row[column]) for row in rows[:-1])


def check_spreadsheet(path):
    """The sheets say what the tables say."""
    name = FOLDER / f"{path.name}.xlsx"
    run(path, "shelf", "xlsx", "-o", str(name.resolve()))
    book = openpyxl.load_workbook(name)
    assert book.sheetnames == ["Readers", "Words", "Patterns", "Lessons", "Practice", "Lacking"]
    assert all(sheet.freeze_panes == "B2" and sheet.auto_filter.ref for sheet in book)
    assert not any(cell.data_type == "f" for sheet in book for row in sheet for cell in row), "a formula"
    shown = lambda cell: "" if cell.value is None else f"{cell.value:.2f}" if cell.number_format == "0.0" else str(cell.value)
    for form, sheet in [("csv-words", "Words"), ("csv-patterns", "Patterns"), ("csv-lessons", "Lessons")]:
        rows = table(run(path, "shelf", form)[0])
        heads, *lines = book[sheet].iter_rows()
        assert [head.value.lower().replace(" ", "_") for head in heads] == list(rows[0])
        assert [[cell(shown(one)) if one.value else shown(one) for one in line] for line in lines] == [list(row.values()) for row in rows]
    wide = table(run(path, "shelf", "csv")[0])
    readers, practice = (list(book[sheet].iter_rows(values_only=True)) for sheet in ["Readers", "Practice"])
    assert [row[0] for row in readers[1:]] == [row[0] for row in practice[1:-1]]
    assert len(readers) == len(wide) and practice[-1][0] == "all"
    for column, name in list(enumerate(practice[0]))[2:]:
        assert [row[column] for row in practice[1:]] == [int(row[name]) for row in wide]
    for column in ["words", "new_words", "different_words", "different_words_so_far"]:
        at = readers[0].index(column.replace("_", " ").capitalize())
        assert [row[at] for row in readers[1:]] == [int(row[column]) for row in wide[:-1]]


def check_in_office(path):
    """An office program opens the spreadsheet and shows the same table of words."""
    every_sheet = "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true,false,false,false,-1"
    out = FOLDER.resolve() / f"{path.name}-office"
    profile = f"-env:UserInstallation=file://{FOLDER.resolve()}/office"
    command = ["soffice", "--headless", profile, "--convert-to", every_sheet, "--outdir", out, FOLDER / f"{path.name}.xlsx"]
    subprocess.run(command, check=True, capture_output=True)
    assert len(list(out.glob("*.csv"))) == 6
    shown = list(csv.reader(open(out / f"{path.name}-Words.csv", newline="")))
    ours = list(csv.reader(io.StringIO(run(path, "shelf", "csv-words")[0], newline="")))
    names = [6, 7]  # Names that look like formulas differ: csv has an apostrophe before them.
    strip = lambda rows: [[cell for at, cell in enumerate(row) if at not in names] for row in rows[1:]]
    assert strip(shown) == strip(ours)


COMMAND = re.compile(r"::(notice|error) file=[^:,]+(,line=\d+(,endLine=\d+|,col=\d+,endColumn=\d+))?,title=[^:,]+::[^\r\n]+")


def check_comparison(path):
    new = FOLDER / "new.yaml"
    new.write_text(SCOPE.replace("sh, ck", "igh").replace("teach: [igh], review: [sh]", "teach: [sh]"))
    done = subprocess.run([UNTAUGHT, "scope", new.resolve(), ".", "--against", "ferry.yaml", "-f", "json"], cwd=path, capture_output=True)
    report = json.loads(done.stdout)
    follows(report, "compare")
    moves = {row["name"]: row["change"] for row in report["patterns"]}
    assert moves == {"igh": "sooner", "sh": "later", "ck": "gone"}, moves
    follows(json.loads(run(path, "shelf", "json", "--against", str(new.resolve()))[0]), "shelf")


def check_github(path, report):
    lines = run(path, "check", "github")[0].split("\n")
    assert lines.pop() == "" and all(COMMAND.fullmatch(line) for line in lines), lines
    places = sum(f["count"] for text in report["texts"] for f in text["findings"])
    assert sum(",line=" in line for line in lines) == places
    assert sum("title=Not checked" in line for line in lines) == len(report["errors"])


def check_pages(path):
    for command in ["check", "place", "shelf"]:
        page, _ = run(path, command, "html", *(["--order"] if command == "shelf" else []))
        name = FOLDER / f"{path.name}-{command}.html"
        name.write_text(page)
        html5lib.HTMLParser(strict=True).parse(page)


def main():
    for name, schema in SCHEMAS.items():
        jsonschema.Draft202012Validator.check_schema(schema)
    for name in glob.glob("scope-files/*.yaml"):
        follows(yaml.safe_load(open(name)), "scope")
    settings = yaml.safe_load(SETTINGS)
    follows(settings, "untaught")
    for wrong in [{}, {"format": 2}, {**settings, "min-readble": 3}, {**settings, "min-readable": 300}, {"format": 1, "texts": [{}]}]:
        assert not jsonschema.Draft202012Validator(SCHEMAS["untaught"]).is_valid(wrong), wrong
    check_records()
    for name, stories, broken, code in [("mixed", STORIES, BROKEN, 2), ("short", STORIES, {}, 1), ("clean", CLEAN, {}, 0)]:
        path = folder(name, stories, broken)
        report = check_json(path, code)
        assert len(report["texts"]) == len(stories) and len(report["errors"]) == len(broken)
        for check in [check_sarif, check_junit, check_csv, check_github]:
            check(path, report)
        check_pages(path)
        check_spreadsheet(path)
        check_in_office(path)
        check_comparison(path)
        print(f"{name}: json, jsonl, sarif, junit, csv, github, the spreadsheet and the pages agree")
    readers = sorted(glob.glob("scope-files/readers/*.txt"))
    done = subprocess.run([UNTAUGHT, "check", "--every-word", "-f", "json", *readers], capture_output=True)
    report = json.loads(done.stdout)
    follows(report, "check")
    assert len(report["texts"]) == len(readers) > 3


main()
