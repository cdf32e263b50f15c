"""The reports are those of the command, for every reader."""

import json
from pathlib import Path

import pytest
from conftest import READERS, command, command_json

import untaught


def test_there_are_readers() -> None:
    assert len(READERS) == 12


@pytest.mark.parametrize("path", READERS, ids=lambda path: path.stem)
def test_a_report_is_that_of_the_command(path: Path, scope: untaught.Scope) -> None:
    text = path.read_text(encoding="utf-8")
    # At its own lesson, which its front matter names, and at others.
    for lesson in [None, "1", "17", "33", "60"]:
        options = [] if lesson is None else ["--lesson", lesson]
        expected = command_json("check", str(path), "--every-word", *options)["texts"]
        report = untaught.check(text, scope, lesson, every_word=True)
        assert [report.to_dict(str(path))] == expected
        # The typed report says the same.
        [told] = expected
        for counts, of in [(report.counts, told), (report.types, told["types"])]:
            assert {name: getattr(counts, name) for name in of["counts"]} == of["counts"]
        assert (report.percent_decodable, report.percent_readable) == (
            told["percent"]["decodable"],
            told["percent"]["readable"],
        )
        assert (report.lesson, report.met) == (told["lesson"], told["met"])
        assert [
            {
                "word": word.word,
                "status": "untaught",
                "count": word.count,
                "places": [{"line": line, "column": column} for line, column in word.places],
                "needs": [{"pattern": need.pattern, "kind": need.kind, "lesson": need.lesson} for need in word.needs],
                "first_readable": word.first_readable,
                "likely_name": word.likely_name,
                "by_letters": word.by_letters,
            }
            for word in report.untaught
        ] == told["findings"]


@pytest.mark.parametrize("name", untaught.Scope.builtin_names())
def test_every_scope_gives_the_same_verdicts(name: str) -> None:
    scope = untaught.Scope.builtin(name)
    last = scope.lessons[-1].id
    told = command_json("check", "--scope", name, "--lesson", last, *map(str, READERS))["texts"]
    reports = untaught.check_many((path.read_text(encoding="utf-8") for path in READERS), scope, last)
    assert [report.to_dict(str(path)) for path, report in zip(READERS, reports)] == told


def test_many_reports_are_the_records_of_the_command(scope: untaught.Scope) -> None:
    texts = [path.read_text(encoding="utf-8").split("---\n", 2)[-1] for path in READERS]
    texts = [line for text in texts for line in text.splitlines()] + ["", "Zo\u00eb\u2019s \u201cca\ufb01\u201d\r\nTam\u00ad my \U0001f600 dog"]
    lessons = [str(number % 60 + 1) for number in range(len(texts))]
    records = "".join(
        json.dumps({"text": text, "lesson": lesson}) + "\n" for text, lesson in zip(texts, lessons)
    )
    lines = [json.loads(line) for line in command("check", "-f", "jsonl", stdin=records).splitlines()]
    reports = untaught.check_many(texts, scope, lessons)
    assert len(lines) == len(texts) > 100
    for number, (line, report) in enumerate(zip(lines, reports), 1):
        assert {"format": 1, **report.to_dict(f"-:{number}")} == line


def test_options_mean_what_those_of_the_command_mean(scope: untaught.Scope, tmp_path: Path) -> None:
    story = tmp_path / "story.txt"
    text = "---\nnames: [Rosario]\nlesson: 9\n---\nRosario had a kite. The kite had a mast. Vik sat on the mast.\n"
    story.write_text(text, encoding="utf-8")
    typed = ["--names", "Vik", "--story-words", "mast", "--focus", "st", "--min-readable", "80", "--min-focus", "50"]
    [told] = command_json("check", str(story), *typed)["texts"]
    report = untaught.check(
        text, scope, names=["Vik"], story_words=["mast"], focus=["st"], min_readable=80, min_focus=50
    )
    assert report.to_dict(str(story)) == told
    assert told["counts"]["story"] == 4 and told["lesson"] == "9"
    [told] = command_json("check", str(story), "--names", "allow", "--min-decodable", "10", "--min-readable", "1")["texts"]
    report = untaught.check(text, scope, names="allow", min_decodable=10, min_readable=1)
    assert report.to_dict(str(story)) == told


@pytest.mark.parametrize("word", ["night", "hoping", "said", "Tam's", "read", "quigh", "Mr", "bathtub"])
def test_explanations_are_those_of_the_command(word: str, scope: untaught.Scope) -> None:
    [told] = command_json("explain", word)
    explained = untaught.explain(word, scope)
    assert explained.to_dict() == told
    assert (explained.word, explained.origin, explained.accent) == (told["word"], told["origin"], told["accent"])
    assert (explained.first_decodable, explained.first_readable) == (told["first_decodable"], told["first_readable"])
    assert [reading.ipa for reading in explained.readings] == [reading["ipa"] for reading in told["readings"]]
    assert [
        [(part.spelling, part.sound, part.ipa, part.pattern, part.lesson) for part in reading.parts]
        for reading in explained.readings
    ] == [
        [tuple(part[key] for key in ("spelling", "sound", "ipa", "pattern", "lesson")) for part in reading["parts"]]
        for reading in told["readings"]
    ]


def test_lists_of_words_are_those_of_the_command(scope: untaught.Scope) -> None:
    cases = [
        ({}, []),
        ({"shape": "cvc", "limit": 20}, ["--shape", "cvc", "--limit", "20"]),
        ({"all": True, "sounds": 3, "syllables": (1, 1)}, ["--all", "--sounds", "3", "--syllables", "1"]),
        ({"focus": ["ck"], "position": "end", "rarer": True}, ["--focus", "ck", "--position", "end", "--rarer"]),
        ({"older": True, "limit": None}, ["--older", "--limit", "100000"]),
        ({"new": True, "limit": None}, ["--new", "--limit", "100000"]),
    ]
    for options, typed in cases:
        told = command_json("words", "--lesson", "15", *typed)["words"]
        listed = untaught.words(scope, 15, **options)  # type: ignore[arg-type]
        keys = ("word", "ipa", "parts", "sounds", "syllables", "shape", "lesson")
        assert [{key: getattr(word, key) for key in keys} for word in listed] == told
        assert listed
