//! Shell completions and the manual page, generated from the arguments.

mod scripts;
pub(crate) mod values;

use std::io;

use clap::CommandFactory as _;

use crate::args::Args;
use crate::output::{Failure, Outcome, Sink};

pub(crate) fn completions(shell: clap_complete::Shell) -> Result<Outcome, Failure> {
    let mut out = Vec::new();
    clap_complete::generate(shell, &mut Args::command(), "untaught", &mut out);
    write(scripts::with_values(shell, &String::from_utf8_lossy(&out)).as_bytes())
}

/// The page of the command, and after it one of each subcommand.
pub(crate) fn manual() -> Result<Outcome, Failure> {
    let mut out = Vec::new();
    let page =
        |out: &mut Vec<u8>, command: clap::Command| -> io::Result<()> { clap_mangen::Man::new(command).render(out) };
    let command = Args::command();
    page(&mut out, command.clone())?;
    for sub in command.get_subcommands() {
        let name = format!("untaught-{}", sub.get_name());
        let name: &'static str = Box::leak(name.into_boxed_str());
        page(&mut out, sub.clone().name(name))?;
    }
    write(&ascii(&String::from_utf8_lossy(&out)))
}

/// Typesetters take bytes beyond ASCII for an old encoding unless they are told otherwise: each such character is named by its code.
fn ascii(page: &str) -> Vec<u8> {
    let one = |c: char| if c.is_ascii() { c.to_string() } else { format!("\\[u{:04X}]", u32::from(c)) };
    page.chars().map(one).collect::<String>().into_bytes()
}

fn write(bytes: &[u8]) -> Result<Outcome, Failure> {
    let mut sink = Sink::open(None, false)?;
    sink.write(bytes)?;
    sink.close()?;
    Ok(Outcome::Met)
}
