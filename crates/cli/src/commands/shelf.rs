//! `untaught shelf`: a folder of readers as one sequence.

use std::path::Path;

use untaught::Scope;

use crate::analysis::{Book, Detail, Shelf, check};
use crate::args::{ShelfArgs, ShelfFormat};
use crate::output::{Failure, Outcome, Sink, complain_about, remark};
use crate::reports::shelf as report;
use crate::settings::RunSettings;
use crate::texts::{Worker, each, gather, read};

pub(crate) fn run(args: &ShelfArgs) -> Result<Outcome, Failure> {
    let settings = RunSettings::new(args.texts.settings(), &args.texts.config)?;
    let found = gather(&args.texts, &settings)?;
    let mut errors = Vec::new();
    let mut books: Vec<Book> = Vec::new();
    let mut shelf: Option<&'static Scope> = None;
    let work = |worker: &mut Worker, path: &Path, _: &mut Vec<u8>| {
        let source = read(path, &args.texts.stdin_name)?;
        let plan = source.plan(&settings)?;
        let checked = check(source, plan, Detail::COUNTS, worker, &settings)?;
        let (scope, note) = (checked.plan.scope, checked.source.note());
        Ok((Book::new(checked, worker.practice(scope, &settings)), scope, note))
    };
    each(found, args.texts.jobs, work, |result| {
        let (book, scope, note) = match result {
            Ok((read, _)) => read,
            Err(error) => {
                errors.push(error);
                return Ok(true);
            }
        };
        if let Some(note) = note {
            remark(&note);
        }
        let first = *shelf.get_or_insert(scope);
        if std::ptr::eq(first, scope) {
            books.push(book);
        } else {
            let message = format!(
                "{} uses a different scope ({}) from the first text ({}); report on each scope separately",
                book.name,
                scope.title(),
                first.title()
            );
            errors.push(complain_about(book.name, message));
        }
        Ok(true)
    })?;
    let shelf = Shelf::new(shelf, settings.reader, books, args.enough, args.order);
    let mut sink = Sink::open(args.texts.output.as_deref(), args.format == ShelfFormat::Text)?;
    sink.write(&report::report(args.format, &shelf, &errors)?)?;
    sink.close()?;
    Ok(Outcome::of(errors.len(), shelf.misplaced().count()))
}
