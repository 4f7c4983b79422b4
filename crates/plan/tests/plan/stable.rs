//! Reading and writing change nothing, for random plans in both unit systems.

use crate::draw::plans;
use plan::faults;
use plan::file::{read, write};
use proptest::prelude::*;

proptest! {
    #[test]
    fn a_plan_of_typed_values_is_the_same_after_writing_and_reading(plan in plans(true)) {
        prop_assert_eq!(faults(&plan), vec![]);
        let text = write(&plan);
        let again = read(&text).map_err(|error| TestCaseError::fail(format!("{error}\n{text}")))?;
        prop_assert_eq!(&again, &plan);
    }

    #[test]
    fn a_plan_of_any_values_is_written_again_byte_for_byte(plan in plans(false)) {
        let text = write(&plan);
        let again = read(&text).map_err(|error| TestCaseError::fail(format!("{error}\n{text}")))?;
        prop_assert_eq!(write(&again), text);
    }
}
