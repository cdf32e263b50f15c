//! What pages call a text.

use crate::analysis::CheckedText;

/// What a text is called, and its file if that says more.
pub(crate) fn of(checked: &CheckedText) -> (String, Option<String>) {
    of_named(checked.plan.title.as_deref(), &checked.source.name)
}

/// The same by the title it gives itself and the name of its file.
pub(crate) fn of_named(title: Option<&str>, name: &str) -> (String, Option<String>) {
    let file = name.trim_start_matches("./");
    match (title, file) {
        (Some(title), "-") => (title.to_owned(), None),
        (Some(title), file) => (title.to_owned(), Some(file.to_owned())),
        (None, "-") => ("The story".to_owned(), None),
        (None, file) => {
            let last = file.rsplit(['/', std::path::MAIN_SEPARATOR]).next().unwrap_or(file);
            (last.to_owned(), (last != file).then(|| file.to_owned()))
        }
    }
}
