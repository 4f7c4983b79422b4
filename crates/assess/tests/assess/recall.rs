//! What was solved of a plan before an edit is used again after it, and changes no number.

use crate::bench::{bench, place, soft};
use crate::random::{on_a_panel, on_tubes, pieces, tilted};
use assess::{Ask, Recall, assess};
use plan::{Anchors, Binding, Edit, Form, Plan, Softness};
use proptest::prelude::*;
use quantity::{Angle, Force, Length, Mass, Pressure};

/// Every number of what takes a solver, to the last bit.
fn solved(plan: &Plan, recall: Option<&Recall>) -> String {
    format!("{:?}", assess(plan, Ask { recall, ..Ask::full() }).exact)
}

/// The same assessment as from scratch.
fn same(plan: &Plan, recall: &Recall, what: &str) {
    let (got, want) = (solved(plan, Some(recall)), solved(plan, None));
    let apart = got.bytes().zip(want.bytes()).position(|(got, want)| got != want);
    let around = |text: &str| apart.map(|at| text[at.saturating_sub(200)..text.len().min(at + 60)].to_owned());
    assert!(got == want, "{what}: got …{:?}…, want …{:?}…", around(&got), around(&want));
}

/// One change of a plan: which, of what, by how much.
type Change = (usize, usize, f64);

fn changed(plan: &Plan, (which, of, by): Change) -> Plan {
    let mut plan = plan.clone();
    let steps = plan.stack.len().max(1);
    let (lots, step) = (plan.ballast.len(), of % steps);
    match which {
        0 => {
            plan.stack.iter_mut().skip(step).take(1).for_each(|place| place.at[0] = place.at[0] + Length::m(0.02 * by))
        }
        1 => {
            plan.stack.iter_mut().skip(step).take(1).for_each(|place| place.at[1] = place.at[1] + Length::m(0.02 * by))
        }
        2 => plan.ballast[of % lots].mass = Mass::kg(20.0 + by),
        3 => plan.ballast[of % lots].friction = 0.4 + 0.1 * by,
        4 => plan.bed.slope = Angle::rad(0.02 * by),
        5 => plan.fixture.floor_friction = 0.4 + 0.1 * by,
        6 => {
            let modulus = Pressure::pa(0.5e6 + 0.3e6 * by);
            let give = |softness: &mut Softness| softness.modulus = modulus;
            plan.ballast.iter_mut().filter_map(|lot| lot.softness.as_mut()).for_each(give);
        }
        7 => plan.fixture.bindings.iter_mut().for_each(|strap| strap.pull = Force::n(200.0 + 100.0 * by)),
        8 if plan.stack.len() > 1 => drop(plan.stack.remove(step)),
        _ => plan.stack.swap(0, step),
    }
    plan
}

/// Bags that give, of which nobody knows how much where `assumed`, and a strap over them.
fn strapped(mut plan: Plan, assumed: bool) -> Plan {
    for lot in plan.ballast.iter_mut().filter(|lot| lot.form == Form::Bag) {
        lot.softness = (!assumed).then(|| soft(0.6e6, 0.02));
    }
    plan.fixture.bindings = vec![Binding {
        name: "strap".to_owned(),
        at: [0.2, 0.0].map(Length::m),
        width: Length::m(0.05),
        pull: Force::n(150.0),
        after: 2,
        anchors: Anchors::Article,
    }];
    plan
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 6, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_plan_that_was_edited_is_solved_as_from_scratch(
        drawn in pieces(6), (panel, assumed, pitch) in (any::<bool>(), any::<bool>(), -3.0..3.0_f64),
        changes in prop::collection::vec((0_usize..10, 0_usize..8, -1.0..1.0_f64), 3),
    ) {
        let plan = if panel { on_a_panel(&drawn) } else { on_tubes(&drawn) };
        let mut plan = strapped(tilted(plan, pitch, 0.5, 4), assumed);
        let first = plan.clone();
        let recall = Recall::default();
        same(&plan, &recall, "the first");
        for change in changes {
            plan = changed(&plan, change);
            same(&plan, &recall, &format!("after {change:?}"));
        }
        same(&first, &recall, "undone");
    }
}

/// So many bags, crossed in turn, on the bench's bed: more than one run of states.
fn tall() -> Plan {
    let mut plan = bench();
    plan.ballast[0].count = 40;
    plan.ballast[0].size = [0.30, 0.20, 0.03].map(Length::m);
    plan.ballast[0].mass = Mass::kg(2.0);
    plan.ballast[0].weighed.clear();
    plan.stack = (0..30_u32)
        .map(|at| place("sand bag", at + 1, [0.2 + 0.002 * f64::from(at % 3), 0.12 * f64::from(at % 2) - 0.06]))
        .collect();
    plan
}

#[test]
fn an_edit_of_a_tall_stack_solves_only_what_it_changes() {
    let recall = Recall::default();
    let plan = tall();
    same(&plan, &recall, "as it is");
    let kept = recall.kept();
    same(&plan, &recall, "asked again");
    assert_eq!(recall.kept(), kept, "answers kept, asked again");
    let moved = |step: usize| {
        Edit::Move { steps: vec![step], by: [0.003, -0.002].map(Length::m) }.apply(&plan).expect("there is room")
    };
    same(&moved(29), &recall, "the last one moved");
    let of_last = recall.kept() - kept;
    assert!(5 * of_last < kept, "got {of_last} answers more of {kept}, want few, for the last one moved");
    same(&moved(12), &recall, "one in the middle moved");
    let of_middle = recall.kept() - kept - of_last;
    assert!(of_middle > of_last && of_middle < kept, "got {of_middle} answers more of {kept}, want some");
    same(&moved(0), &recall, "the first one moved");
}
