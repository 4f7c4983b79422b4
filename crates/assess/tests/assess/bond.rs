//! Columns: what stands without bond.

use crate::bench::{added, bench, place, put};
use assess::{Ask, assess, columns};

/// The columns of a plan, by steps.
fn of(plan: &plan::Plan) -> Vec<Vec<usize>> {
    columns(plan, &assess(plan, Ask::closed()).closed)
}

#[test]
fn bags_straight_on_one_another_are_a_column_and_two_are_none() {
    let three = bench();
    assert_eq!(of(&three), [[0, 1, 2]], "the three bags of the bench");
    let beside = put(&three, 2, [0.2, 0.4]);
    assert!(of(&beside).is_empty(), "two bags and one beside them");
}

#[test]
fn a_bag_across_the_joint_of_two_ends_both_columns() {
    // Two towers of three with 0.34 m between their middles, and one bag across both.
    let mut plan = put(&bench(), 0, [0.2, -0.17]);
    plan = put(&put(&plan, 1, [0.2, -0.17]), 2, [0.2, -0.17]);
    let tower: Vec<_> = (4..=6).map(|item| place("sand bag", item, [0.2, 0.17])).collect();
    plan = added(&plan, tower);
    assert_eq!(of(&plan), [[0, 1, 2], [3, 4, 5]]);
    let tied = added(&plan, vec![place("sand bag", 7, [0.2, 0.0])]);
    assert_eq!(of(&tied), [[0, 1, 2], [3, 4, 5]], "it lies on both and belongs to none");
}
