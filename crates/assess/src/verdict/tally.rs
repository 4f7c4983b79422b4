//! How many findings there are of each state, and the line that closes every list of them.

use super::finding::{Finding, State};

/// How many findings stand how.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    /// In order.
    pub met: usize,
    /// Without a limit.
    pub no_limit: usize,
    /// In order, with something to look at.
    pub cautions: usize,
    /// Not decided.
    pub undecided: usize,
    /// Beyond a limit.
    pub fails: usize,
}

impl Tally {
    /// Of some findings.
    pub fn of<'a>(findings: impl IntoIterator<Item = &'a Finding>) -> Self {
        let mut tally = Self::default();
        for finding in findings {
            *tally.count(finding.state) += 1;
        }
        tally
    }

    fn count(&mut self, state: State) -> &mut usize {
        match state {
            State::Met => &mut self.met,
            State::NoLimit => &mut self.no_limit,
            State::Caution => &mut self.cautions,
            State::Undecided => &mut self.undecided,
            State::Fails => &mut self.fails,
        }
    }

    /// How many fall short.
    pub fn short(&self) -> usize {
        self.fails + self.undecided
    }

    /// `No check fails, none is undecided, 2 cautions`, without a stop.
    pub fn words(&self) -> String {
        let fail = match self.fails {
            0 => "No check fails".to_owned(),
            1 => "1 check fails".to_owned(),
            many => format!("{many} checks fail"),
        };
        let open = match self.undecided {
            0 => "none is undecided".to_owned(),
            1 => "1 is undecided".to_owned(),
            many => format!("{many} are undecided"),
        };
        let cautions = match self.cautions {
            0 => "no cautions".to_owned(),
            1 => "1 caution".to_owned(),
            many => format!("{many} cautions"),
        };
        format!("{fail}, {open}, {cautions}")
    }

    /// The line that closes a list of findings. It never says that a stack is safe.
    pub fn closing(&self) -> String {
        let end = match (self.fails, self.undecided) {
            (0, 0) => "This does not say that the stack is safe.",
            (0, _) => "Undecided counts as falling short: do not load this stack.",
            _ => "Do not load this stack.",
        };
        format!("{}. {end}", self.words())
    }
}

#[cfg(test)]
mod tests {
    use super::Tally;

    #[test]
    fn the_closing_line_never_calls_a_stack_safe_and_counts_what_is_open() {
        let all = Tally { met: 12, cautions: 3, no_limit: 1, ..Tally::default() };
        assert_eq!(
            all.closing(),
            "No check fails, none is undecided, 3 cautions. This does not say that the stack is safe."
        );
        let open = Tally { undecided: 2, cautions: 1, ..Tally::default() };
        assert_eq!(
            open.closing(),
            "No check fails, 2 are undecided, 1 caution. Undecided counts as falling short: do not load this stack."
        );
        let bad = Tally { fails: 1, undecided: 1, ..Tally::default() };
        assert_eq!(bad.closing(), "1 check fails, 1 is undecided, no cautions. Do not load this stack.");
    }
}
