//! `untaught place`: the earliest lesson at which each text can be read, the curve up to there, and what is in the way.

use std::path::Path;

use crate::analysis::{Detail, Placement, check, place};
use crate::args::{PlaceArgs, PlaceFormat};
use crate::output::{Failure, Outcome, Sink, remark};
use crate::reports::place as report;
use crate::settings::RunSettings;
use crate::texts::{Worker, each, gather, read};

/// What is left of a text once it has been reported.
struct PlacedText {
    late: bool,
    note: Option<String>,
    /// Its placement, if the report is made of all texts together.
    placement: Option<Box<Placement>>,
}

pub(crate) fn run(args: &PlaceArgs) -> Result<Outcome, Failure> {
    let settings = RunSettings::new(args.texts.settings(), &args.texts.config)?;
    let found = gather(&args.texts, &settings)?;
    let mut sink = Sink::open(args.texts.output.as_deref(), args.format == PlaceFormat::Text)?;
    let (mut placements, mut errors, mut late) = (Vec::new(), Vec::new(), 0);
    let work = |worker: &mut Worker, path: &Path, out: &mut Vec<u8>| {
        let source = read(path, &args.texts.stdin_name)?;
        let plan = source.plan(&settings)?;
        let checked = check(source, plan, Detail::COUNTS, worker, &settings)?;
        let placement = place(checked, args.all_obstacles, worker, &settings);
        let (late, note) = (placement.is_late(), placement.checked.source.note());
        if args.format == PlaceFormat::Html {
            return Ok(PlacedText { late, note, placement: Some(Box::new(placement)) });
        }
        let piece = report::piece(args.format, &placement);
        out.extend(piece.map_err(|error| format!("the report could not be made: {error}"))?);
        Ok(PlacedText { late, note, placement: None })
    };
    sink.write(report::head(args.format).as_bytes())?;
    let mut written = 0;
    each(found, args.texts.jobs, work, |result| {
        match result {
            Err(error) => errors.push(error),
            Ok((text, piece)) => {
                if let Some(note) = text.note {
                    remark(&note);
                }
                late += usize::from(text.late);
                placements.extend(text.placement.map(|placement| *placement));
                if written > 0 {
                    sink.write(report::between(args.format).as_bytes())?;
                }
                sink.write(piece)?;
                written += 1;
            }
        }
        Ok(true)
    })?;
    sink.write(&report::tail(args.format, &placements, &errors)?)?;
    sink.close()?;
    Ok(Outcome::of(errors.len(), late))
}
