"""Check stories against a phonics scope and sequence: which words a child cannot yet be expected to read, and why.

>>> import untaught
>>> scope = untaught.Scope.builtin("starter")
>>> report = untaught.check("Tam sat at night.", scope, 12)
>>> report.percent_readable
75.0
>>> [(word.word, word.reason) for word in report.untaught]
[('night', 'needs igh as in night (lesson 33)')]
"""

from ._untaught import (
    Counts,
    Error,
    Explanation,
    Fault,
    Lesson,
    LessonError,
    Need,
    Part,
    Reading,
    Report,
    Scope,
    ScopeError,
    TextError,
    UntaughtWord,
    Word,
    __version__,
    check,
    check_many,
    explain,
    words,
)

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
    "check",
    "check_many",
    "explain",
    "words",
]
