//! What is typed and what comes out, as data: every case in `cmd/` that reads files runs in the folder beside it that bears its name,
//! or in the one that it names.
//!
//! `*.trycmd` show several commands with their output, both streams together; `*.toml` are one command each, with its standard
//! input, output and error apart. `TRYCMD=overwrite cargo test -p untaught-cli cli::` writes what the program says into the
//! cases, to be read with a teacher's eye before it is kept.

#[test]
fn commands_say_what_the_cases_show() {
    let cases = trycmd::TestCases::new();
    cases.case("tests/cmd/*.trycmd").case("tests/cmd/*.toml");
    // What the terminal of the person who runs the tests wishes is not part of a case.
    cases.env("NO_COLOR", "1");
}
