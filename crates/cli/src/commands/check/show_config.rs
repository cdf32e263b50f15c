//! `untaught check --show-config`: each text's effective settings, and where each comes from.

use std::path::Path;

use crate::args::{CheckArgs, CheckFormat};
use crate::output::{Failure, Message, Outcome, Sink, complain};
use crate::reports::settings as report;
use crate::settings::RunSettings;
use crate::texts::{Discovery, FileFinder, read};

pub(super) fn run(args: &CheckArgs, settings: &RunSettings, found: FileFinder<'_>) -> Result<Outcome, Failure> {
    let json = match args.format {
        CheckFormat::Text => false,
        CheckFormat::Json => true,
        _ => return Err(Failure::Message("--show-config needs --format text or json".to_owned())),
    };
    let mut failed = false;
    let mut all = Vec::new();
    let plan = |path: &Path| {
        let source = read(path, &args.texts.stdin_name)?;
        Ok::<_, Message>((source.plan(settings)?, source.name))
    };
    for found in found {
        let plan = match found {
            Discovery::File(path) => plan(&path),
            Discovery::Error(_, message) => Err(message.into()),
            Discovery::Remark(message) => {
                complain(message);
                continue;
            }
        };
        match plan {
            Ok((plan, file)) => all.push(report::SettingsReport::new(file, &plan)),
            Err(message) => {
                complain(message);
                failed = true;
            }
        }
    }
    let mut sink = Sink::open(args.texts.output.as_deref(), !json)?;
    sink.write(&if json { report::json(&all)? } else { report::text(&all).into_bytes() })?;
    sink.close()?;
    Ok(if failed { Outcome::Failed } else { Outcome::Met })
}
