//! `untaught place`: the earliest lesson at which each text can be read, the curve up to there, and what stands in the way.

mod chart;
mod html;
mod report;

use std::path::Path;

use untaught::{Curve, Obstacle, curve, obstacles};

use crate::Outcome;
use crate::args::{Place, PlaceFormat};
use crate::check::{Checked, Wanted, check};
use crate::output::{Failure, Sink, remark};
use crate::settings::RunSettings;
use crate::texts::{Worker, each, gather, read};

/// Patterns named as standing in the way.
const OBSTACLES: usize = 3;

/// A text with its place.
struct Placed {
    checked: Checked,
    curve: Curve,
    /// The earliest lesson at which it reaches its thresholds.
    first: Option<untaught::LessonIndex>,
    /// The lesson at which the obstacles stand in its way: its own if it names one; else the one before it can be read, or the last.
    at: untaught::LessonIndex,
    /// What would lift it most at that lesson.
    obstacles: Vec<Obstacle>,
}

/// What is left of a text once it has been reported.
struct Worked {
    late: bool,
    note: Option<String>,
    /// Itself, where the report is made of all texts together.
    placed: Option<Box<Placed>>,
}

pub(crate) fn run(args: &Place) -> Result<Outcome, Failure> {
    let settings = RunSettings::new(args.texts.settings(), &args.texts.config)?;
    let found = gather(&args.texts, &settings)?;
    let mut sink = Sink::open(args.texts.output.as_deref(), args.format == PlaceFormat::Text)?;
    let (mut placed, mut failed, mut late) = (Vec::new(), Vec::new(), 0);
    let work = |worker: &mut Worker, path: &Path, out: &mut Vec<u8>| {
        let source = read(path, &args.texts.stdin_name)?;
        let plan = settings.plan(&source)?;
        let checked = check(source, plan, Wanted::COUNTS, worker, &settings)?;
        let placed = place(checked, worker, &settings);
        let (late, note) = (placed.is_late(), placed.checked.source.note());
        if args.format == PlaceFormat::Html {
            return Ok(Worked { late, note, placed: Some(Box::new(placed)) });
        }
        out.extend(report::piece(args.format, &placed).map_err(|error| format!("the report cannot be made: {error}"))?);
        Ok(Worked { late, note, placed: None })
    };
    sink.write(report::head(args.format).as_bytes())?;
    let mut written = 0;
    each(found, args.texts.jobs, work, |result| {
        match result {
            Err(why) => failed.push(why),
            Ok((text, piece)) => {
                if let Some(note) = text.note {
                    remark(&note);
                }
                late += usize::from(text.late);
                placed.extend(text.placed.map(|placed| *placed));
                if args.format == PlaceFormat::Json && written > 0 {
                    sink.write(b",")?;
                }
                sink.write(piece)?;
                written += 1;
            }
        }
        Ok(true)
    })?;
    match args.format {
        PlaceFormat::Html => sink.write(html::page(&placed, &failed)?.as_bytes())?,
        PlaceFormat::Json => sink.write(&report::json_tail(&failed)?)?,
        PlaceFormat::Text | PlaceFormat::Csv => {}
    }
    sink.close()?;
    Ok(match (failed.len(), late) {
        (0, 0) => Outcome::Met,
        (0, _) => Outcome::Short,
        _ => Outcome::Failed,
    })
}

fn place(checked: Checked, worker: &mut Worker, settings: &RunSettings) -> Placed {
    let plan = &checked.plan;
    let curve = curve(&checked.report, plan.scope);
    let first = plan.first_readable(&curve);
    let at = match (plan.set_lesson(), first) {
        (Some(set), _) => set,
        (None, Some(first)) => first.back(1).unwrap_or(first),
        (None, None) => plan.scope.last(),
    };
    let judge = worker.checker(plan.scope, settings).judge();
    let mut obstacles = obstacles(&checked.report, &judge, at);
    obstacles.truncate(OBSTACLES);
    Placed { checked, curve, first, at, obstacles }
}

impl Placed {
    /// Whether it cannot be read at the lesson it is meant for; where it names none, at any.
    fn is_late(&self) -> bool {
        match self.meant_for() {
            None => self.first.is_none(),
            Some(lesson) => self.first.is_none_or(|first| first > lesson),
        }
    }

    fn meant_for(&self) -> Option<untaught::LessonIndex> {
        self.checked.plan.set_lesson()
    }
}
