//! How a run ends.

use std::io;

use super::message::Message;

/// How a run ended.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(crate) enum Outcome {
    /// All texts meet their thresholds.
    Met,
    /// Some text falls short.
    Short,
    /// Part of the run failed.
    Failed,
}

impl Outcome {
    /// The outcome of a run with so many errors and so many texts that fall short.
    pub(crate) fn of(errors: usize, short: usize) -> Outcome {
        match (errors, short) {
            (0, 0) => Outcome::Met,
            (0, _) => Outcome::Short,
            _ => Outcome::Failed,
        }
    }
}

/// Why a run ended early.
#[derive(Debug)]
pub(crate) enum Failure {
    /// A sentence for the user.
    Message(String),
    /// A sentence and the faults of a file.
    Faults(Message),
    /// The reader of the output has gone: not our failure.
    ClosedPipe,
}

impl From<Message> for Failure {
    fn from(message: Message) -> Failure {
        Failure::Faults(message)
    }
}

impl From<io::Error> for Failure {
    fn from(error: io::Error) -> Failure {
        match error.kind() {
            io::ErrorKind::BrokenPipe => Failure::ClosedPipe,
            _ => Failure::Message(format!("the results cannot be written: {error}")),
        }
    }
}

impl From<untaught::UnknownLesson> for Failure {
    fn from(unknown: untaught::UnknownLesson) -> Failure {
        Failure::Message(unknown.to_string())
    }
}
