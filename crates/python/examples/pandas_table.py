"""A table of stories with pandas: each gets its percentages and its untaught words."""

import pandas as pd

import untaught

stories = pd.DataFrame(
    {
        "title": ["The hat", "The knight", "The kite"],
        "lesson": [9, 9, 22],
        "text": ["Tam sat on a hat.", "The knight sat in the light.", "Vik had a big red kite."],
    }
)
scope = untaught.Scope.builtin("starter")
reports = untaught.check_many(stories["text"], scope, list(stories["lesson"]))
stories["readable"] = [report.percent_readable for report in reports]
stories["untaught"] = [", ".join(word.word for word in report.untaught) for report in reports]
print(stories[["title", "lesson", "readable", "untaught"]].to_string(index=False))

# One row for each untaught word, with its reason.
words = pd.DataFrame(
    [
        (title, word.word, word.count, word.reason)
        for title, report in zip(stories["title"], reports)
        for word in report.untaught
    ],
    columns=["title", "word", "count", "needs"],
)
print(words.to_string(index=False))
