//! A run as it was when a line was entered: a bag that lost mass later weighed more then.

use crate::{Course, RunDone};

/// A run as it was before a bag lost some of its mass.
#[derive(Clone, Debug)]
pub(crate) struct Earlier {
    until: u64,
    pub(crate) run: RunDone,
    pub(crate) course: Course,
}

impl Earlier {
    pub(crate) fn all(run: &RunDone) -> Vec<Self> {
        let then = |until: u64| {
            let run = run.as_it_was(until - 1)?;
            Some(Self { until, course: Course::of(run.as_done()), run })
        };
        run.losses().filter_map(then).collect()
    }

    /// The run and its course when a line was entered.
    pub(crate) fn at<'a>(
        earlier: &'a [Self],
        line: u64,
        (run, course): (&'a RunDone, &'a Course),
    ) -> (&'a RunDone, &'a Course) {
        earlier.iter().find(|earlier| line < earlier.until).map_or((run, course), |then| (&then.run, &then.course))
    }
}
