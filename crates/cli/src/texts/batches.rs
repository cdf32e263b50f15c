//! Work shared out in batches, whose results come back in order.

use std::collections::VecDeque;
use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};

/// Batches that may be taken, for each thread, before those of earlier texts are handed over: bounds the memory.
const AHEAD: usize = 4;

/// What the thread that hands over does next.
pub(super) enum Step<T, R> {
    /// Hands over what came of the next batches, in order.
    HandOver(Vec<R>),
    /// Works on a batch with its number.
    Work(usize, T),
    /// Ends: everything has been handed over.
    End,
}

/// Work for several threads.
pub(super) struct Batches<T, R> {
    state: Mutex<BatchState<T, R>>,
    changed: Condvar,
    threads: usize,
}

struct BatchState<T, R> {
    /// Batches not taken yet.
    offered: VecDeque<T>,
    /// Whether there may be more.
    open: bool,
    /// What came of the batches that were taken and not handed over yet, in order; none of those still worked on.
    results: VecDeque<Option<R>>,
    /// The number of the first of these.
    first: usize,
    /// Worker threads, not counting the one that hands out batches.
    others: usize,
    /// Threads that wait for a change.
    waiting: usize,
}

impl<T, R> Batches<T, R> {
    /// For so many threads, the one that hands over among them.
    pub(super) fn new(threads: usize) -> Batches<T, R> {
        let (offered, results) = (VecDeque::new(), VecDeque::new());
        let state = BatchState { offered, open: true, results, first: 0, others: 0, waiting: 0 };
        Batches { state: Mutex::new(state), changed: Condvar::new(), threads }
    }

    /// Adds a batch.
    pub(super) fn offer(&self, batch: T) {
        let mut state = self.state();
        state.offered.push_back(batch);
        self.wake(&state);
    }

    /// Adds a batch once few enough of the earlier ones are waiting to be taken. Returns whether more are wanted.
    pub(super) fn offer_in_turn(&self, batch: T) -> bool {
        let mut state = self.state();
        while state.open && state.offered.len() >= self.threads {
            state = self.wait(state);
        }
        if state.open {
            state.offered.push_back(batch);
            self.wake(&state);
        }
        state.open
    }

    /// That was all.
    pub(super) fn close(&self) {
        let mut state = self.state();
        state.open = false;
        self.wake(&state);
    }

    /// The next batch and its number; none if that was all. Waits for one, and as long as too much has not been handed over.
    pub(super) fn take(&self) -> Option<(usize, T)> {
        let mut state = self.state();
        loop {
            match state.offered.is_empty() {
                true if !state.open => return None,
                false if !self.is_full(&state) => return self.take_from(&mut state),
                _ => state = self.wait(state),
            }
        }
    }

    /// What the thread that hands over does next: it hands over first, works where nothing can be handed over, and waits where it
    /// can do neither.
    pub(super) fn step(&self) -> Step<T, R> {
        let mut state = self.state();
        loop {
            if matches!(state.results.front(), Some(Some(_))) {
                return Step::HandOver(self.hand_over(state));
            }
            if !self.is_full(&state)
                && let Some((number, batch)) = self.take_from(&mut state)
            {
                return Step::Work(number, batch);
            }
            // What others work on will come, unless they are gone.
            let comes = if state.results.is_empty() { state.open } else { state.others > 0 };
            if !comes {
                return Step::End;
            }
            state = self.wait(state);
        }
    }

    fn is_full(&self, state: &BatchState<T, R>) -> bool {
        state.results.len() >= self.threads * AHEAD
    }

    /// Takes a batch, if there is one, which makes room for another.
    fn take_from(&self, state: &mut BatchState<T, R>) -> Option<(usize, T)> {
        let taken = state.take()?;
        self.wake(state);
        Some(taken)
    }

    /// Brings what came of a batch.
    pub(super) fn put(&self, number: usize, result: R) {
        let mut state = self.state();
        // A number is given out once, and its result is handed over only once it is here.
        let Some(at) = number.checked_sub(state.first) else { return };
        let Some(slot) = state.results.get_mut(at) else { return };
        *slot = Some(result);
        if at == 0 {
            self.wake(&state);
        }
    }

    /// What came of the next batches, in order: what there is.
    pub(super) fn ready(&self) -> Vec<R> {
        self.hand_over(self.state())
    }

    fn hand_over(&self, mut state: MutexGuard<'_, BatchState<T, R>>) -> Vec<R> {
        let mut ready = Vec::new();
        while let Some(result) = state.results.front_mut().and_then(Option::take) {
            ready.push(result);
            state.results.pop_front();
            state.first += 1;
        }
        if !ready.is_empty() {
            self.wake(&state);
        }
        ready
    }

    /// To be kept by each of the other threads as long as it works, so that nobody waits for one that is gone.
    pub(super) fn join(&self) -> impl Drop + '_ {
        self.state().others += 1;
        Departure { batches: self, end: |state| state.others -= 1 }
    }

    /// To be kept by a thread that only offers batches: once it has gone, however that came, there are no more.
    pub(super) fn feed(&self) -> impl Drop + '_ {
        Departure { batches: self, end: |state| state.open = false }
    }

    /// To be kept by the thread that hands over: once it has gone, however that came, nothing is taken any more.
    pub(super) fn lead(&self) -> impl Drop + '_ {
        let end = |state: &mut BatchState<T, R>| {
            state.open = false;
            state.offered.clear();
        };
        Departure { batches: self, end }
    }

    fn wait<'s>(&'s self, mut state: MutexGuard<'s, BatchState<T, R>>) -> MutexGuard<'s, BatchState<T, R>> {
        state.waiting += 1;
        let mut state = self.changed.wait(state).unwrap_or_else(PoisonError::into_inner);
        state.waiting -= 1;
        state
    }

    /// Wakes those who wait; to ask the system to is dear where nobody does.
    fn wake(&self, state: &BatchState<T, R>) {
        if state.waiting > 0 {
            self.changed.notify_all();
        }
    }

    fn state(&self) -> MutexGuard<'_, BatchState<T, R>> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl<T, R> BatchState<T, R> {
    fn take(&mut self) -> Option<(usize, T)> {
        let batch = self.offered.pop_front()?;
        self.results.push_back(None);
        Some((self.first + self.results.len() - 1, batch))
    }
}

struct Departure<'b, T, R> {
    batches: &'b Batches<T, R>,
    end: fn(&mut BatchState<T, R>),
}

impl<T, R> Drop for Departure<'_, T, R> {
    fn drop(&mut self) {
        let mut state = self.batches.state();
        (self.end)(&mut state);
        self.batches.wake(&state);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Doubles numbers on several threads, until one comes.
    fn doubled(numbers: u32, threads: usize, until: u32) -> Vec<u32> {
        let batches: Batches<u32, u32> = Batches::new(threads);
        // Some take longer than others.
        let work = |number: u32| {
            let rounds = if number.is_multiple_of(7) { 20_000 } else { 10 };
            (0..rounds).fold(2 * number, |n, _| std::hint::black_box(n))
        };
        let mut all = Vec::new();
        std::thread::scope(|scope| {
            let _lead = batches.lead();
            for _ in 1..threads {
                let other = batches.join();
                scope.spawn(|| {
                    let _other = other;
                    while let Some((number, batch)) = batches.take() {
                        batches.put(number, work(batch));
                    }
                });
            }
            for number in 0..numbers {
                batches.offer(number);
                all.extend(batches.ready());
            }
            batches.close();
            loop {
                let step = batches.step();
                assert!(batches.state().results.len() <= threads * AHEAD);
                match step {
                    Step::Work(number, batch) => batches.put(number, work(batch)),
                    Step::End => break,
                    Step::HandOver(ready) => {
                        all.extend(&ready);
                        if ready.contains(&until) {
                            break;
                        }
                    }
                }
            }
        });
        all
    }

    #[test]
    fn results_come_in_order_whatever_takes_how_long() {
        for threads in 2..5 {
            for numbers in [0, 1, 2, 3, 17, 5000] {
                let all: Vec<u32> = (0..numbers).map(|number| 2 * number).collect();
                assert_eq!(doubled(numbers, threads, u32::MAX), all, "{numbers}, {threads} threads");
            }
        }
    }

    #[test]
    fn nobody_waits_for_more_once_the_leader_has_gone() {
        for threads in 2..5 {
            let batches: Batches<u32, u32> = Batches::new(threads);
            std::thread::scope(|scope| {
                let lead = batches.lead();
                for _ in 1..threads {
                    let other = batches.join();
                    scope.spawn(|| {
                        let _other = other;
                        while let Some((number, batch)) = batches.take() {
                            batches.put(number, batch);
                        }
                    });
                }
                for number in 0..1000 {
                    batches.offer(number);
                }
                let mut first = Vec::new();
                while first.is_empty() {
                    match batches.step() {
                        Step::Work(number, batch) => batches.put(number, batch),
                        Step::HandOver(ready) => first = ready,
                        Step::End => unreachable!("a thousand batches were offered"),
                    }
                }
                assert_eq!(first, Vec::from_iter(0..first.len() as u32));
                drop(lead);
            });
            assert_eq!(batches.state().others, 0);
            assert_eq!(batches.take(), None);
            assert!(!batches.offer_in_turn(1));
        }
    }

    #[test]
    fn a_feeder_runs_ahead_only_so_far_and_its_end_is_the_end() {
        for threads in 1..4 {
            let batches: Batches<u32, u32> = Batches::new(threads);
            std::thread::scope(|scope| {
                let _lead = batches.lead();
                scope.spawn(|| {
                    let _feed = batches.feed();
                    for number in 0..1000 {
                        assert!(batches.offer_in_turn(number));
                        assert!(batches.state().offered.len() <= threads);
                    }
                });
                let mut all = Vec::new();
                loop {
                    match batches.step() {
                        Step::Work(number, batch) => batches.put(number, batch),
                        Step::HandOver(ready) => all.extend(ready),
                        Step::End => break,
                    }
                }
                assert_eq!(all, Vec::from_iter(0..1000));
            });
        }
    }
}
