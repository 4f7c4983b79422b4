//! A few of the bench's tasks: whatever is called holding passes the full check again.

use crate::draw::{Grade, task};
use arrange::{Wish, propose};

#[test]
fn every_stack_that_is_proposed_passes_the_full_check_or_says_why_not() {
    // One of each grade, the last one impossible.
    for number in [0, 18, 10] {
        let drawn = task(number);
        let proposals = propose(&drawn.plan, &Wish::default(), &|_| true);
        assert!(!proposals.is_empty(), "task {number}: a stack is laid out");
        for proposal in &proposals {
            let laid = proposal.edit().apply(&drawn.plan).expect("a plan without faults");
            let holds = assess::assess(&laid, assess::Ask::full()).in_order();
            assert_eq!(proposal.in_order(), holds, "task {number}: what is said and what the check says");
            assert_eq!(holds, proposal.shortfalls.is_empty(), "task {number}: {:?}", proposal.shortfalls);
            assert!(holds || matches!(drawn.grade, Grade::Impossible(_)), "task {number}: {:?}", proposal.shortfalls);
        }
    }
}
