"""Scopes, errors, many texts, and what a package should have."""

import pickle
import threading
import time
from pathlib import Path

import pytest

import untaught

YAML = "format: 1\ntitle: Ferry\nlessons:\n- {id: a, title: First, teach: [s, a, t, m], sight: [the]}\n- {id: b, teach: [igh], skills: [final-blends], review: [s]}\n"


def test_a_scope_comes_from_a_name_a_file_or_a_text(tmp_path: Path) -> None:
    file = tmp_path / "ferry.yaml"
    file.write_text(YAML, encoding="utf-8")
    for scope in [
        untaught.Scope.from_yaml(YAML),
        untaught.Scope.from_file(file),
        untaught.Scope.from_file(str(file)),
        pickle.loads(pickle.dumps(untaught.Scope.from_file(file))),
    ]:
        assert (scope.title, scope.accent) == ("Ferry", "general-american")
        first, second = scope.lessons
        assert (first.id, first.title, first.teach, first.sight) == ("a", "First", ["s", "a", "t", "m"], ["the"])
        assert (second.skills, second.review, scope.lesson("b").teach) == (["final-blends"], ["s"], ["igh"])
        assert [word.word for word in untaught.check("Tam sat at night", scope, "a").untaught] == ["night"]
    assert "starter" in untaught.Scope.builtin_names()
    assert pickle.loads(pickle.dumps(untaught.Scope.builtin())).title == untaught.Scope.builtin("starter").title


def test_errors_are_sentences(tmp_path: Path, scope: untaught.Scope) -> None:
    with pytest.raises(untaught.ScopeError, match="no scope nowhere comes with the package; it has starter"):
        untaught.Scope.builtin("nowhere")
    mistaken = tmp_path / "mistaken.yaml"
    mistaken.write_text("format: 1\nlessons:\n- teach: [shh, igh as in bed]\n", encoding="utf-8")
    with pytest.raises(untaught.ScopeError, match="the scope file cannot be used\n.*mistaken.yaml:3:11: .*`sh`") as raised:
        untaught.Scope.from_file(mistaken)
    assert [(fault.line, fault.column) for fault in raised.value.faults] == [(3, 11), (3, 16)]
    assert "did you mean `sh`?" in raised.value.faults[0].message
    with pytest.raises(untaught.ScopeError, match="line 3, column 11"):
        untaught.Scope.from_yaml(mistaken.read_text(encoding="utf-8"))
    many = "format: 1\nlessons:\n- teach: [" + ", ".join(f"shh{n}" for n in range(50)) + "]\n"
    with pytest.raises(untaught.ScopeError, match="and 30 more$") as raised:
        untaught.Scope.from_yaml(many)
    assert len(raised.value.faults) == 50
    with pytest.raises(FileNotFoundError, match="there is no scope file"):
        untaught.Scope.from_file(tmp_path / "none.yaml")
    with pytest.raises(IsADirectoryError, match="is a folder, not a scope file"):
        untaught.Scope.from_file(tmp_path)
    with pytest.raises(untaught.LessonError, match="no lesson 99; did you mean 9"):
        untaught.check("Tam", scope, 99)
    with pytest.raises(untaught.LessonError, match="no lesson 99"):
        untaught.check_many(["Tam"], scope, 99)
    with pytest.raises(untaught.TextError, match="line 2, column 1: .*unknown key `lesso`") as text:
        untaught.check("---\nlesso: 9\n---\nTam", scope)
    assert text.value.index is None
    with pytest.raises(untaught.Error, match="“two words” is more than one word"):
        untaught.explain("two words", scope)
    with pytest.raises(untaught.Error, match="“12” is not a word"):
        untaught.explain("12", scope)
    with pytest.raises(untaught.Error, match="C for consonants"):
        untaught.words(scope, 9, shape="cvx")
    with pytest.raises(ValueError, match="all=True goes with neither"):
        untaught.words(scope, 9, all=True, focus=["sh"])
    with pytest.raises(ValueError, match="min_readable is a percentage from 0 to 100"):
        untaught.check("Tam", scope, min_readable=101)
    with pytest.raises(TypeError, match="names is a list of names"):
        untaught.check("Tam", scope, names="Tam")
    with pytest.raises(TypeError, match="a lesson is an id such as \"12\", not 1.5"):
        untaught.check("Tam", scope, 1.5)  # type: ignore[arg-type]
    assert issubclass(untaught.TextError, untaught.Error) and issubclass(untaught.Error, ValueError)


def test_a_text_that_cannot_be_checked_is_named_or_returned(scope: untaught.Scope) -> None:
    texts = ["Tam sat."] * 40 + [None, "Tam", "Tam\ud800", 5, float("nan")]
    lessons = ["9"] * 41 + ["99", "9", "9", None]
    with pytest.raises(untaught.TextError, match="text 40: there is no text") as raised:
        untaught.check_many(texts, scope, lessons)  # type: ignore[arg-type]
    assert raised.value.index == 40
    results = untaught.check_many(texts, scope, lessons, return_errors=True)  # type: ignore[arg-type]
    assert all(isinstance(result, untaught.Report) for result in results[:40])
    errors = [result for result in results if isinstance(result, untaught.TextError)]
    assert [error.index for error in errors] == [40, 41, 42, 43, 44]
    assert [str(error).split(": ")[1][:24] for error in errors] == [
        "there is no text",
        "the scope “Starter, a fi",
        "the text has characters ",
        "a text is a str, not int",
        "there is no text",
    ]
    with pytest.raises(ValueError, match="2 texts have 1 lessons"):
        untaught.check_many(["Tam", "Tam"], scope, ["9"])
    with pytest.raises(ValueError, match="jobs is a number of threads from 1"):
        untaught.check_many(["Tam"], scope, jobs=0)
    assert untaught.check_many([], scope) == []
    # None, and what pandas puts in its place, is no lesson of its own.
    assert [report.lesson for report in untaught.check_many(["Tam"] * 3, scope, [3, None, float("nan")])] == ["3", "60", "60"]  # type: ignore[list-item]


def stories(many: int) -> list[str]:
    sentences = ["Tam sat.", "The knight sat in the light.", "A photograph of Ann!", "The ship sank at night."]
    return [" ".join(sentences[(number // 3 + n) % 4] for n in range(number % 23)) for number in range(many)]


def test_reports_come_in_order_whatever_the_number_of_threads(scope: untaught.Scope) -> None:
    texts = stories(2_000)
    one = [report.to_json() for report in untaught.check_many(texts, scope, 9, jobs=1)]
    assert one == [untaught.check(text, scope, 9).to_json() for text in texts]
    for jobs in [2, 7]:
        assert one == [report.to_json() for report in untaught.check_many(texts, scope, 9, jobs=jobs)]


def test_other_threads_run_meanwhile(scope: untaught.Scope) -> None:
    text = " ".join(stories(23)) * 20_000
    ticks: list[float] = []
    done = threading.Event()

    def tick() -> None:
        while not done.is_set():
            ticks.append(time.monotonic())
            time.sleep(0.001)

    ticking = threading.Thread(target=tick)
    ticking.start()
    start = time.monotonic()
    untaught.check(text, scope, 9)
    end = time.monotonic()
    done.set()
    ticking.join()
    during = [moment for moment in ticks if start < moment < end]
    # With the lock held there would be none.
    assert len(during) >= 3, f"{len(during)} ticks in {end - start:.2f} s"


def test_threads_share_a_scope(scope: untaught.Scope) -> None:
    texts = stories(400)
    expected = [untaught.check(text, scope, 9).counts for text in texts]
    found: dict[int, list[untaught.Counts]] = {}

    def work(number: int) -> None:
        found[number] = [untaught.check(text, scope, 9).counts for text in texts]

    threads = [threading.Thread(target=work, args=(number,)) for number in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert all(found[number] == expected for number in range(4))


def test_everything_is_documented() -> None:
    for name in untaught.__all__:
        thing = getattr(untaught, name)
        assert thing.__doc__, name
        if isinstance(thing, type) and thing.__module__ == "untaught":
            for member, value in vars(thing).items():
                if not member.startswith("_"):
                    assert value.__doc__, f"{name}.{member}"
