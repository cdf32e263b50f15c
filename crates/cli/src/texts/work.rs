//! The work on many texts: on several threads, with the same bytes out as on one.

use std::io::{self, IsTerminal as _, Write as _};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};

use rayon::prelude::*;
use untaught::{Checker, Scope};

use super::Settings;
use crate::output::{Failure, path_line};

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

/// Texts worked on before their results are handed over: bounds the memory.
const AT_ONCE: usize = 64;

/// Works on every file and hands over the results in order. `done` says whether to go on.
pub(crate) fn each<R: Send>(
    files: &[PathBuf],
    jobs: Option<u16>,
    work: impl Fn(&mut Worker, &Path) -> Result<R, String> + Sync,
    mut done: impl FnMut(&Path, Result<R, String>) -> Result<bool, Failure>,
) -> Result<(), Failure> {
    let threads = jobs.map_or_else(|| std::thread::available_parallelism().map_or(1, usize::from), usize::from);
    let threads = threads.min(files.len());
    if threads < 2 {
        let mut worker = Worker::default();
        let mut progress = Progress::new(files.len());
        for path in files {
            let result = work(&mut worker, path);
            progress.step(1);
            if !done(path, result)? {
                break;
            }
        }
        return Ok(());
    }
    let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build();
    let pool = pool.map_err(|error| Failure::Message(format!("the threads cannot be started: {error}")))?;
    let workers: Vec<Mutex<Worker>> = (0..threads).map(|_| Mutex::default()).collect();
    let mut progress = Progress::new(files.len());
    for chunk in files.chunks(AT_ONCE * threads) {
        let one = |path: &PathBuf| {
            let number = rayon::current_thread_index().unwrap_or(0);
            // Each thread has its own, so that none waits.
            let mut worker = workers[number % threads].lock().unwrap_or_else(PoisonError::into_inner);
            work(&mut worker, path)
        };
        let results: Vec<Result<R, String>> = pool.install(|| chunk.par_iter().map(one).collect());
        progress.step(chunk.len());
        for (path, result) in chunk.iter().zip(results) {
            if !done(path, result)? {
                return Ok(());
            }
        }
    }
    Ok(())
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
