//! Holds the benchmarks: `cargo bench -p untaught-benches`.
