"""A table of stories with polars: the reports become a column of structs."""

import polars as pl

import untaught

stories = pl.DataFrame(
    {
        "title": ["The hat", "The knight", "The kite"],
        "lesson": ["9", "9", "22"],
        "text": ["Tam sat on a hat.", "The knight sat in the light.", "Vik had a big red kite."],
    }
)
scope = untaught.Scope.builtin("starter")


def verdicts(texts: pl.Series, lessons: pl.Series) -> pl.Series:
    reports = untaught.check_many(texts, scope, lessons.to_list())
    rows = [
        {"readable": report.percent_readable, "untaught": [word.word for word in report.untaught]}
        for report in reports
    ]
    return pl.Series("verdict", rows, dtype=pl.Struct({"readable": pl.Float64, "untaught": pl.List(pl.String)}))


checked = stories.with_columns(verdicts(stories["text"], stories["lesson"])).unnest("verdict")
print(checked.select("title", "lesson", "readable", pl.col("untaught").list.join(", ")).write_csv(), end="")
