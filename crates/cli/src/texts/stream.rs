//! The work on texts that come in on a stream: on several threads, in order, each result as soon as it can be handed over.

use std::sync::Arc;
use std::thread;

use super::batches::{Batches, Step};
use super::work::{Worker, start_others, threads};
use crate::output::Failure;

/// Works on the batches of a stream and hands over the results in order; `done` gets those that are ready together and says whether
/// to go on.
///
/// A thread of its own reads the stream, because reading may wait for a sender who first waits for an answer. It is not waited for at
/// the end: it may be waiting for input that never comes.
pub(crate) fn in_order<B, T, R>(
    jobs: Option<u16>,
    open: impl Fn() -> B + Send + Sync + 'static,
    work: impl Fn(&mut Worker, T) -> R + Sync,
    mut done: impl FnMut(Vec<R>) -> Result<bool, Failure>,
) -> Result<(), Failure>
where
    B: Iterator<Item = T>,
    T: Send + 'static,
    R: Send + 'static,
{
    let threads = threads(jobs);
    let mut worker = Worker::default();
    let batches = Arc::new(Batches::new(threads));
    let open = Arc::new(open);
    let is_read_elsewhere = threads > 1 && {
        let (batches, open) = (Arc::clone(&batches), Arc::clone(&open));
        let read = move || {
            let _feed = batches.feed();
            // As long as more are wanted.
            let _ = open().all(|batch| batches.offer_in_turn(batch));
        };
        thread::Builder::new().spawn(read).is_ok()
    };
    if !is_read_elsewhere {
        for batch in open() {
            if !done(vec![work(&mut worker, batch)])? {
                break;
            }
        }
        return Ok(());
    }
    let batches = &*batches;
    thread::scope(|scope| {
        let _lead = batches.lead();
        start_others(scope, batches, threads, &work);
        loop {
            match batches.step() {
                Step::Work(number, batch) => batches.put(number, work(&mut worker, batch)),
                Step::End => return Ok(()),
                Step::HandOver(ready) => {
                    if !done(ready)? {
                        return Ok(());
                    }
                }
            }
        }
    })
}
