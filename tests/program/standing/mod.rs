//! Standing tests: promises that hold whatever is entered. Few rounds in every run, many by
//! `LOADCAIRN_TEST_ROUNDS=1000 cargo test --test program standing`; another seed by `PROPTEST_RNG_SEED=1`.
//!
//! The plans are drawn by `proptest`, which the other crates' properties use already: a failing draw shrinks to
//! the few changes that matter, the seed comes from the environment, and it needs no compiler of its own, as
//! coverage-guided fuzzing does. A plan that fails is kept as a file, to become a test.

mod cut;
mod drawn;
mod output;
mod promise;
mod twins;
mod words;

use plan::Plan;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};

/// How many rounds: as the environment asks, else few.
fn rounds(few: u32) -> u32 {
    std::env::var("LOADCAIRN_TEST_ROUNDS").ok().and_then(|asked| asked.parse().ok()).unwrap_or(few)
}

fn demo(name: &str) -> Plan {
    let text = std::fs::read_to_string(crate::example(name)).expect("a demo");
    plan::file::read(&text).unwrap_or_else(|error| panic!("{name}: {error}"))
}

/// Where a failing input is kept.
fn kept(name: &str) -> PathBuf {
    Path::new(env!("CARGO_TARGET_TMPDIR")).join(name)
}

/// Holds a property of a plan; where it does not hold, the plan is kept as a file, the smallest last.
fn hold(about: &str, plan: &Plan, property: impl FnOnce(&Plan)) {
    if catch_unwind(AssertUnwindSafe(|| property(plan))).is_err() {
        let path = kept(&format!("{about}.ron"));
        std::fs::write(&path, plan::file::write(plan)).expect("the failing plan is kept");
        panic!("{about}: the plan that fails is kept in {}", path.display());
    }
}
