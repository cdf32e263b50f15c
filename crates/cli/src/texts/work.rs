//! The work on many texts: on several threads, with the same bytes out as on one.

use std::io::{self, IsTerminal as _, Write as _};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, mpsc};
use std::time::{Duration, Instant};

use untaught::{Checker, Scope};

use super::Settings;
use crate::output::Failure;

/// What one thread keeps from text to text: the words it has judged, by scope.
#[derive(Default)]
pub(crate) struct Worker {
    checkers: Vec<(&'static Scope, Checker<'static>)>,
}

impl Worker {
    pub(crate) fn checker(&mut self, scope: &'static Scope, settings: &Settings) -> &mut Checker<'static> {
        let known = self.checkers.iter().position(|(known, _)| std::ptr::eq(*known, scope));
        let at = known.unwrap_or_else(|| {
            self.checkers.push((scope, Checker::new(scope, settings.reader)));
            self.checkers.len() - 1
        });
        &mut self.checkers[at].1
    }
}

/// Texts that may be worked on, for each thread, before the results of earlier ones are handed over: bounds the memory.
const AHEAD: usize = 64;

/// Texts that a thread takes at once, at most.
const BATCH: usize = 16;

/// Works on every file and hands over the results in order. `done` says whether to go on.
pub(crate) fn each<R: Send>(
    files: &[PathBuf],
    jobs: Option<u16>,
    work: impl Fn(&mut Worker, &Path) -> Result<R, String> + Sync,
    mut done: impl FnMut(&Path, Result<R, String>) -> Result<bool, Failure>,
) -> Result<(), Failure> {
    let threads = jobs.map_or_else(|| std::thread::available_parallelism().map_or(1, usize::from), usize::from);
    let threads = threads.min(files.len());
    let mut progress = Progress::new(files.len());
    if threads < 2 {
        let mut worker = Worker::default();
        for path in files {
            let result = work(&mut worker, path);
            progress.step(1);
            if !done(path, result)? {
                break;
            }
        }
        return Ok(());
    }
    let batch = (files.len() / (threads * AHEAD)).clamp(1, BATCH);
    // What will come of each batch, in the order of the files. Whoever takes a batch first puts its place into the queue, and waits
    // there while too much has not been handed over.
    let (queue, results) = mpsc::sync_channel(threads * AHEAD / batch);
    let left = Mutex::new((files.chunks(batch), queue));
    let take = || {
        let mut left = left.lock().ok()?;
        let (batches, queue) = &mut *left;
        let batch = batches.next()?;
        let (sender, receiver) = mpsc::sync_channel(1);
        // Nobody waits for results any more once the work is to stop.
        queue.send((batch, receiver)).ok()?;
        Some((batch, sender))
    };
    let run = || {
        let mut worker = Worker::default();
        while let Some((batch, sender)) = take() {
            let results: Vec<Result<R, String>> = batch.iter().map(|path| work(&mut worker, path)).collect();
            if sender.send(results).is_err() {
                break;
            }
        }
    };
    std::thread::scope(|scope| {
        // Here, so that it is gone before the threads are waited for.
        let results = results;
        for _ in 0..threads {
            let thread = std::thread::Builder::new().spawn_scoped(scope, run);
            thread.map_err(|error| Failure::Message(format!("the threads cannot be started: {error}")))?;
        }
        let mut waiting = files.len();
        while waiting > 0 {
            let Ok((batch, results)) = results.recv() else { break };
            let Ok(results) = results.recv() else { break };
            waiting -= batch.len();
            for (path, result) in batch.iter().zip(results) {
                progress.step(1);
                if !done(path, result)? {
                    return Ok(());
                }
            }
        }
        Ok(())
    })
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
    fn new(total: usize) -> Progress {
        let on = total > 1 && io::stderr().is_terminal() && !io::stdout().is_terminal();
        Progress { total, done: 0, begun: Instant::now(), shown: None, on }
    }

    fn step(&mut self, n: usize) {
        self.done += n;
        let due = self.shown.is_none_or(|shown| shown.elapsed() >= PAUSE);
        if self.on && due && self.begun.elapsed() >= PATIENCE {
            self.shown = Some(Instant::now());
            // Nothing is lost where this cannot be shown.
            let _ = write!(io::stderr(), "\r{} of {} stories", self.done, self.total);
        }
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        if self.shown.is_some() {
            let _ = write!(io::stderr(), "\r\x1b[K");
        }
    }
}
