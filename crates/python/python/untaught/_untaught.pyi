from collections.abc import Iterable, Sequence
from os import PathLike
from typing import Any, Literal, final, overload

__all__ = [
    "Counts",
    "Error",
    "Explanation",
    "Fault",
    "Lesson",
    "LessonError",
    "Need",
    "Part",
    "Reading",
    "Report",
    "Scope",
    "ScopeError",
    "TextError",
    "UntaughtWord",
    "Word",
    "__version__",
    "_run",
    "check",
    "check_many",
    "explain",
    "words",
]
__version__: str

class Error(ValueError):
    """Something that was given cannot be used; the message says why."""

class ScopeError(Error):
    """A scope cannot be used."""

    faults: list[Fault]

class LessonError(Error):
    """A scope has no such lesson."""

class TextError(Error):
    """A text cannot be checked."""

    index: int | None

@final
class Fault:
    """One thing that is wrong with a scope file."""

    @property
    def line(self) -> int: ...
    @property
    def column(self) -> int: ...
    @property
    def message(self) -> str: ...

@final
class Lesson:
    """One step of a scope."""

    @property
    def id(self) -> str: ...
    @property
    def title(self) -> str: ...
    @property
    def teach(self) -> list[str]: ...
    @property
    def sight(self) -> list[str]: ...
    @property
    def skills(self) -> list[str]: ...
    @property
    def review(self) -> list[str]: ...

@final
class Scope:
    """A scope and sequence: an ordered list of lessons, each of which teaches some patterns and sight words."""

    @staticmethod
    def builtin(name: str = "starter") -> Scope: ...
    @staticmethod
    def builtin_names() -> list[str]: ...
    @staticmethod
    def from_file(path: str | PathLike[str]) -> Scope: ...
    @staticmethod
    def from_yaml(text: str) -> Scope: ...
    @property
    def title(self) -> str: ...
    @property
    def accent(self) -> str: ...
    @property
    def lessons(self) -> list[Lesson]: ...
    def lesson(self, id: str | int) -> Lesson: ...
    def __reduce__(self) -> tuple[Any, tuple[str]]: ...

@final
class Counts:
    """Numbers of words by status."""

    @property
    def words(self) -> int: ...
    @property
    def decodable(self) -> int: ...
    @property
    def sight(self) -> int: ...
    @property
    def story(self) -> int: ...
    @property
    def untaught(self) -> int: ...
    @property
    def uncounted(self) -> int: ...
    def __eq__(self, other: object, /) -> bool: ...
    def __ne__(self, other: object, /) -> bool: ...

@final
class Need:
    """Something that an untaught word needs."""

    @property
    def pattern(self) -> str: ...
    @property
    def kind(self) -> str: ...
    @property
    def lesson(self) -> str | None: ...

@final
class UntaughtWord:
    """An untaught word."""

    @property
    def word(self) -> str: ...
    @property
    def count(self) -> int: ...
    @property
    def places(self) -> list[tuple[int, int]]: ...
    @property
    def needs(self) -> list[Need]: ...
    @property
    def reason(self) -> str: ...
    @property
    def first_readable(self) -> str | None: ...
    @property
    def likely_name(self) -> bool: ...
    @property
    def by_letters(self) -> bool: ...

@final
class Report:
    """The report on a text at a lesson."""

    @property
    def lesson(self) -> str: ...
    @property
    def scope(self) -> Scope: ...
    @property
    def met(self) -> bool: ...
    @property
    def counts(self) -> Counts: ...
    @property
    def types(self) -> Counts: ...
    @property
    def percent_decodable(self) -> float | None: ...
    @property
    def percent_readable(self) -> float | None: ...
    @property
    def untaught(self) -> list[UntaughtWord]: ...
    def to_dict(self, file: str = "-") -> dict[str, Any]: ...
    def to_json(self, file: str = "-") -> str: ...

@final
class Part:
    """One spelling with its sound in a word."""

    @property
    def spelling(self) -> str: ...
    @property
    def sound(self) -> str: ...
    @property
    def ipa(self) -> str: ...
    @property
    def pattern(self) -> str: ...
    @property
    def lesson(self) -> str | None: ...

@final
class Reading:
    """One pronunciation of a word, cut into parts."""

    @property
    def ipa(self) -> str: ...
    @property
    def parts(self) -> list[Part]: ...
    @property
    def skills(self) -> list[str]: ...
    @property
    def first_decodable(self) -> str | None: ...
    @property
    def made_of(self) -> str | None: ...
    @property
    def also(self) -> list[str]: ...

@final
class Explanation:
    """The explanation of a word."""

    @property
    def word(self) -> str: ...
    @property
    def accent(self) -> str: ...
    @property
    def origin(self) -> str: ...
    @property
    def first_decodable(self) -> str | None: ...
    @property
    def first_readable(self) -> str | None: ...
    @property
    def when(self) -> str: ...
    @property
    def readings(self) -> list[Reading]: ...
    def to_dict(self) -> dict[str, Any]: ...

@final
class Word:
    """A word of a list."""

    @property
    def word(self) -> str: ...
    @property
    def ipa(self) -> str: ...
    @property
    def parts(self) -> list[str]: ...
    @property
    def sounds(self) -> int: ...
    @property
    def syllables(self) -> int: ...
    @property
    def shape(self) -> str: ...
    @property
    def lesson(self) -> str: ...

def check(
    text: str,
    scope: Scope,
    lesson: str | int | None = None,
    *,
    names: Sequence[str] | Literal["allow"] | None = None,
    story_words: Sequence[str] | None = None,
    focus: Sequence[str] | None = None,
    min_decodable: float | None = None,
    min_readable: float | None = None,
    min_focus: float | None = None,
    every_word: bool = False,
) -> Report: ...
@overload
def check_many(
    texts: Iterable[str | None],
    scope: Scope,
    lesson: str | int | Sequence[str | int | None] | None = None,
    *,
    jobs: int | None = None,
    return_errors: Literal[False] = False,
    names: Sequence[str] | Literal["allow"] | None = None,
    story_words: Sequence[str] | None = None,
    focus: Sequence[str] | None = None,
    min_decodable: float | None = None,
    min_readable: float | None = None,
    min_focus: float | None = None,
    every_word: bool = False,
) -> list[Report]: ...
@overload
def check_many(
    texts: Iterable[str | None],
    scope: Scope,
    lesson: str | int | Sequence[str | int | None] | None = None,
    *,
    jobs: int | None = None,
    return_errors: bool,
    names: Sequence[str] | Literal["allow"] | None = None,
    story_words: Sequence[str] | None = None,
    focus: Sequence[str] | None = None,
    min_decodable: float | None = None,
    min_readable: float | None = None,
    min_focus: float | None = None,
    every_word: bool = False,
) -> list[Report | TextError]: ...
def explain(word: str, scope: Scope) -> Explanation: ...
def words(
    scope: Scope,
    lesson: str | int | None = None,
    *,
    focus: Sequence[str] | None = None,
    all: bool = False,
    shape: str | None = None,
    sounds: int | tuple[int, int] | None = None,
    syllables: int | tuple[int, int] | None = None,
    position: Literal["start", "middle", "end"] | None = None,
    new: bool = False,
    older: bool = False,
    rarer: bool = False,
    limit: int | None = 60,
) -> list[Word]: ...
def _run(arguments: Sequence[str]) -> int: ...
