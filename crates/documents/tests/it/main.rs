//! Documents read. One program, so that it is linked once.

mod files;
mod hostile;
mod properties;
