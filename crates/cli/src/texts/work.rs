//! The work on many texts: on several threads, with the same bytes out as on one.

use std::io::{self, IsTerminal as _};
use std::path::Path;
use std::thread;
use std::time::{Duration, Instant};

use untaught::json::ErrorReport;
use untaught::{Checker, Scope};

use super::batches::{Batches, Step};
use super::gather::{Discovery, FileFinder};
use crate::output::{self, Failure, Message, complain, complain_of, error_at};
use crate::settings::RunSettings;

/// What one thread keeps from text to text, by scope: the words it has judged.
#[derive(Default)]
pub(crate) struct Worker {
    checkers: ByScope<Checker<'static>>,
}

type ByScope<T> = Vec<(&'static Scope, T)>;

impl Worker {
    pub(crate) fn checker(&mut self, scope: &'static Scope, settings: &RunSettings) -> &mut Checker<'static> {
        kept(&mut self.checkers, scope, || Checker::new(scope, settings.reader))
    }
}

fn kept<'a, T>(all: &'a mut ByScope<T>, scope: &'static Scope, make: impl FnOnce() -> T) -> &'a mut T {
    let known = all.iter().position(|(known, _)| std::ptr::eq(*known, scope));
    let at = known.unwrap_or_else(|| {
        all.push((scope, make()));
        all.len() - 1
    });
    &mut all[at].1
}

/// The number of threads to work with: as many as were asked for, or one for each processor.
pub(super) fn threads(jobs: Option<u16>) -> usize {
    jobs.map_or_else(|| thread::available_parallelism().map_or(1, usize::from), usize::from)
}

/// Texts that a thread takes at once, at most.
const BATCH: usize = 16;

/// Into so many parts, for each thread, the texts found so far are cut for the next batch: how uneven the end may be.
const SHARES: usize = 32;

/// What became of a batch. All that is written about its texts lies in one place: what one thread has set aside and another gives back
/// makes them wait for each other.
struct BatchResults<R> {
    texts: Vec<TextResult<R>>,
    written: Vec<u8>,
}

/// What became of something that was found.
enum TextResult<R> {
    /// With the number of bytes that were written about it.
    Done(R, usize),
    Error(ErrorReport),
    Remark(String),
}

/// Works on every file and hands over the results in order. `work` may write about a text what will be handed over with its result, or
/// say in a sentence why it cannot be done; `done` says whether to go on.
pub(crate) fn each<R: Send>(
    files: FileFinder<'_>,
    jobs: Option<u16>,
    work: impl Fn(&mut Worker, &Path, &mut Vec<u8>) -> Result<R, Message> + Sync,
    mut done: impl FnMut(Result<(R, &[u8]), ErrorReport>) -> Result<bool, Failure>,
) -> Result<(), Failure> {
    let (mut files, mut progress) = Progress::of(files);
    let work = |worker: &mut Worker, batch: Vec<Discovery>| {
        let mut worked = BatchResults { texts: Vec::with_capacity(batch.len()), written: Vec::new() };
        for found in batch {
            let before = worked.written.len();
            worked.texts.push(match found {
                Discovery::File(path) => match work(worker, &path, &mut worked.written) {
                    Ok(result) => TextResult::Done(result, worked.written.len() - before),
                    Err(message) => {
                        worked.written.truncate(before);
                        TextResult::Error(error_at(path.display().to_string(), message))
                    }
                },
                Discovery::Error(path, message) => TextResult::Error(error_at(path.display().to_string(), message)),
                Discovery::Remark(message) => TextResult::Remark(message),
            });
        }
        worked
    };
    let mut hand_over = |worked: BatchResults<R>| -> Result<bool, Failure> {
        let mut written = worked.written.as_slice();
        for text in worked.texts {
            let result = match text {
                TextResult::Done(result, bytes) => {
                    let (now, later) = written.split_at(bytes);
                    written = later;
                    Ok((result, now))
                }
                TextResult::Error(error) => {
                    complain_of(&error);
                    Err(error)
                }
                TextResult::Remark(message) => {
                    complain(message);
                    continue;
                }
            };
            progress.step();
            if !done(result)? {
                return Ok(false);
            }
        }
        Ok(true)
    };
    let threads = threads(jobs);
    let first: Vec<Discovery> = files.by_ref().take(threads).collect();
    let threads = threads.min(first.len());
    let mut files = first.into_iter().chain(files);
    let mut worker = Worker::default();
    if threads < 2 {
        for found in files {
            if !hand_over(work(&mut worker, vec![found]))? {
                break;
            }
        }
        return Ok(());
    }
    let batches = Batches::new(threads);
    thread::scope(|scope| {
        let _lead = batches.lead();
        start_others(scope, &batches, threads, &work);
        // While the others begin, this thread finds the files and hands over what is ready; then it works too.
        let mut found = 0;
        loop {
            // Few at first: where there are few, there are some for everybody.
            let batch: Vec<Discovery> = files.by_ref().take((found / (threads * SHARES)).clamp(1, BATCH)).collect();
            if batch.is_empty() {
                break;
            }
            found += batch.len();
            batches.offer(batch);
            for worked in batches.ready() {
                if !hand_over(worked)? {
                    return Ok(());
                }
            }
        }
        batches.close();
        loop {
            match batches.step() {
                Step::Work(number, batch) => batches.put(number, work(&mut worker, batch)),
                Step::End => return Ok(()),
                Step::HandOver(ready) => {
                    for worked in ready {
                        if !hand_over(worked)? {
                            return Ok(());
                        }
                    }
                }
            }
        }
    })
}

/// Starts the threads that work beside the one that hands over.
pub(super) fn start_others<'scope, T: Send, R: Send>(
    scope: &'scope thread::Scope<'scope, '_>,
    batches: &'scope Batches<T, R>,
    threads: usize,
    work: &'scope (impl Fn(&mut Worker, T) -> R + Sync),
) {
    for _ in 1..threads {
        let other = batches.join();
        let run = move || {
            let _other = other;
            let mut worker = Worker::default();
            while let Some((number, batch)) = batches.take() {
                batches.put(number, work(&mut worker, batch));
            }
        };
        if thread::Builder::new().spawn_scoped(scope, run).is_err() {
            // Where the system gives no more, those there are do the work: at least the one that hands over.
            break;
        }
    }
}

/// Says how far the work is, on a terminal, where it takes long.
struct Progress {
    total: usize,
    done: usize,
    begun: Instant,
    shown: Option<Instant>,
    on: bool,
}

const PATIENCE: Duration = Duration::from_secs(1);
const PAUSE: Duration = Duration::from_millis(100);

impl Progress {
    /// Watches the work on some files. To say how many there are it must find them all first, so it does where that is shown.
    fn of<'a>(files: FileFinder<'a>) -> (Box<dyn Iterator<Item = Discovery> + Send + 'a>, Progress) {
        let mut progress = Progress { total: 0, done: 0, begun: Instant::now(), shown: None, on: false };
        // On a terminal the results themselves show it.
        let beside_results = output::goes_to_stdout(files.report) && io::stdout().is_terminal();
        if !io::stderr().is_terminal() || beside_results {
            return (Box::new(files), progress);
        }
        let files: Vec<Discovery> = files.collect();
        progress.total = files.iter().filter(|found| !matches!(found, Discovery::Remark(_))).count();
        progress.on = progress.total > 1;
        (Box::new(files.into_iter()), progress)
    }

    fn step(&mut self) {
        self.done += 1;
        let due = self.shown.is_none_or(|shown| shown.elapsed() >= PAUSE);
        if self.on && due && self.begun.elapsed() >= PATIENCE {
            self.shown = Some(Instant::now());
            output::progress(&format!("{} of {} stories", self.done, self.total));
        }
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        output::progress_is_over();
    }
}
