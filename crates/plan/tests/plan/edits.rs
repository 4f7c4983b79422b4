//! Edits that put pieces in line, in order, or take them along from another plan.

use crate::TYPED;
use crate::draw::plans;
use crate::near::assert_near;
use plan::edit::{Adding, Restacking};
use plan::file::{read, write};
use plan::{Align, Anchors, Binding, Edit, Place, Plan, Turn};
use proptest::prelude::*;
use quantity::{Force, Length, Quantity};

/// Three pieces of the saved plan's first lot on a line askew: centres at x 0, 0.3, 1.0 m.
fn row() -> Plan {
    let mut plan = read(TYPED).expect("the saved plan is one");
    plan.fixture.bindings.clear();
    let lot = plan.ballast[0].name.clone();
    plan.ballast[0].count = 40;
    let place = |item: u32, x: f64, y: f64| Place {
        lot: lot.clone(),
        item,
        at: [x, y].map(Length::m),
        turn: Turn::Lengthwise,
        locked: false,
    };
    plan.stack = vec![place(1, 0.0, 0.0), place(2, 0.3, 0.1), place(3, 1.0, -0.2)];
    plan
}

fn after(plan: &Plan, edit: &Edit) -> Plan {
    edit.apply(plan).expect("the edit fits")
}

fn aligned(plan: &Plan, how: Align) -> Vec<[f64; 2]> {
    let plan = after(plan, &Edit::Align { steps: vec![0, 1, 2], how });
    plan.stack.iter().map(|place| place.at.map(Quantity::si)).collect()
}

/// Edges and gaps by hand (`own derivation`): with pieces alike, centres line up as edges do.
#[test]
fn pieces_line_up_by_edges_and_centres_and_spread_with_equal_gaps() {
    let plan = row();
    let rows: [(Align, usize, [f64; 3]); 8] = [
        (Align::ForwardEdges, 0, [0.0, 0.0, 0.0]),
        (Align::AftEdges, 0, [1.0, 1.0, 1.0]),
        (Align::CentresForeAndAft, 0, [0.5, 0.5, 0.5]),
        (Align::LeftEdges, 1, [-0.2, -0.2, -0.2]),
        (Align::RightEdges, 1, [0.1, 0.1, 0.1]),
        (Align::CentresAcross, 1, [-0.05, -0.05, -0.05]),
        (Align::SpreadForeAndAft, 0, [0.0, 0.5, 1.0]),
        (Align::SpreadAcross, 1, [-0.05, 0.1, -0.2]),
    ];
    for (how, axis, want) in rows {
        for (step, (got, want)) in aligned(&plan, how).iter().zip(want).enumerate() {
            assert_near(&format!("{how:?}, step {}", step + 1), got[axis], want, 1e-12, "m");
            let other = plan.stack[step].at[1 - axis].si();
            assert_near(&format!("{how:?}, step {}, the other axis", step + 1), got[1 - axis], other, 0.0, "m");
        }
    }
}

#[test]
fn unlike_pieces_spread_with_equal_gaps_between_their_edges() {
    let mut plan = row();
    plan.stack[1].turn = Turn::Crosswise;
    let spread = after(&plan, &Edit::Align { steps: vec![2, 0, 1], how: Align::SpreadForeAndAft });
    let [length, ..] = plan.ballast[0].size.map(Quantity::si);
    let half = |step: usize| plan.extent_of(&plan.stack[step])[0].si() / 2.0;
    assert!((half(0) - half(1)).abs() > 1e-3, "the pieces are unlike: {length} m long");
    let x = |step: usize| spread.stack[step].at[0].si();
    let gaps = [x(1) - half(1) - (x(0) + half(0)), x(2) - half(2) - (x(1) + half(1))];
    assert_near("the second gap", gaps[1], gaps[0], 1e-12, "m");
    assert_near("the first piece", x(0), 0.0, 0.0, "m");
    assert_near("the last piece", x(2), 1.0, 0.0, "m");
}

#[test]
fn several_pieces_are_placed_earlier_or_later_in_their_own_order() {
    let plan = row();
    let items = |plan: &Plan| plan.stack.iter().map(|p| p.item).collect::<Vec<_>>();
    let gathered = |steps: Vec<usize>, to: usize| items(&after(&plan, &Edit::Gather { steps, to }));
    assert_eq!(gathered(vec![2, 0], 0), [1, 3, 2]);
    assert_eq!(gathered(vec![1, 2], 0), [2, 3, 1]);
    assert_eq!(gathered(vec![0], 2), [2, 3, 1]);
    assert!(Edit::Gather { steps: vec![0, 1], to: 2 }.apply(&plan).is_err(), "beyond the last step");
}

#[test]
fn pieces_go_over_to_another_plan_with_the_lots_that_it_lacks() {
    let plan = row();
    let mut bare = plan.clone();
    bare.stack.clear();
    bare.ballast.clear();
    let carried = read(&write(&plan.only(&[2, 0]))).expect("an excerpt is a plan");
    let fitted = bare.fit(&carried);
    let edit = Edit::Paste { at_step: 0, lots: fitted.lots, places: fitted.places };
    assert!(edit.name(&bare).starts_with("paste "), "{}", edit.name(&bare));
    let pasted = after(&bare, &edit);
    assert_eq!(pasted.stack, carried.stack);
    let items: Vec<u32> = pasted.stack.iter().map(|p| p.item).collect();
    assert_eq!(items, [1, 3], "in their placing order");
    assert_eq!(pasted.ballast, carried.ballast);
    assert_eq!(pasted.ballast.len(), 1);
}

#[test]
fn pieces_pasted_where_they_came_from_take_items_that_are_left() {
    let mut plan = row();
    plan.ballast[0].count = 4;
    let fitted = plan.fit(&plan.only(&[0, 1, 2]));
    let items: Vec<u32> = fitted.places.iter().map(|p| p.item).collect();
    assert_eq!((items, fitted.left_out, fitted.lots.len()), (vec![4], 2, 0));
}

#[test]
fn a_lot_of_the_same_name_but_another_mass_comes_along_under_another_name() {
    let plan = row();
    let mut heavier = plan.clone();
    heavier.ballast[0].mass = heavier.ballast[0].mass * 2.0;
    heavier.ballast[0].weighed.clear();
    let fitted = plan.fit(&heavier.only(&[0, 1]));
    assert_eq!(fitted.lots.len(), 1, "one lot for both pieces: {:?}", fitted.lots);
    assert_eq!(fitted.lots[0].name, format!("{} (2)", plan.ballast[0].name));
    assert!(fitted.places.iter().all(|p| p.lot == fitted.lots[0].name), "{:?}", fitted.places);
}

/// Any edit of the stack, built from a few numbers.
fn edit_of(plan: &Plan, [kind, a, b, c]: [u32; 4]) -> Edit {
    let steps = plan.steps().max(1);
    let step = |n: u32| n as usize % steps;
    let length = |n: u32| Length::m(f64::from(n % 400) * 0.005 - 1.0);
    let several = vec![step(a), step(b)];
    match kind % 9 {
        0 => Edit::Move { steps: several, by: [length(b), length(c)] },
        1 => Edit::PutAt { step: step(a), at: [length(b), length(c)] },
        2 => Edit::Turn { steps: several },
        3 => Edit::Remove { steps: several },
        4 => Edit::Reorder { from: step(a), to: step(b) },
        5 => Edit::Align { steps: vec![step(a), step(b), step(c)], how: Align::ALL[c as usize % 8] },
        6 => Edit::Gather { steps: vec![step(a)], to: step(b) },
        7 => Edit::Lock { steps: several, locked: c % 2 == 0 },
        _ => {
            let lot = &plan.ballast[a as usize % plan.ballast.len().max(1)];
            let item = plan.next_item(lot).unwrap_or(1);
            let place =
                Place { lot: lot.name.clone(), item, at: [length(b), length(c)], turn: Turn::Crosswise, locked: false };
            Edit::Add { adding: Adding::Placing, at_step: step(c).min(plan.steps()), places: vec![place] }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// An edit makes a plan without faults that its text brings back, or it is refused.
    #[test]
    fn what_an_edit_makes_can_be_written_and_read(
        plan in plans(true),
        numbers in prop::collection::vec(any::<[u32; 4]>(), 1..12),
    ) {
        let mut plan = plan;
        for numbers in numbers {
            prop_assume!(!plan.ballast.is_empty());
            if let Ok(next) = edit_of(&plan, numbers).apply(&plan) {
                let text = write(&next);
                let again = read(&text);
                prop_assert!(again.is_ok(), "{:?}", again.err());
                plan = next;
            }
        }
    }
}

#[test]
fn a_whole_stack_is_laid_as_one_step_and_one_that_cannot_be_is_refused() {
    let plan = row();
    let mut places = plan.stack.clone();
    places.reverse();
    let edit = |places: &[Place]| Edit::Restack { why: Restacking::Ordering, places: places.to_vec() };
    assert_eq!(after(&plan, &edit(&places)).stack, places);
    assert_eq!(edit(&places).name(&plan), "order the stack");
    places.push(places[0].clone());
    let fault = edit(&places).apply(&plan).expect_err("a piece is placed twice");
    assert!(fault.sentence.contains("placed twice"), "{}", fault.sentence);
}

/// A strap over the stack goes on when all pieces lie: `common practice, no source`.
#[test]
fn a_stack_laid_anew_gets_its_binding_straps_after_its_last_piece() {
    let mut plan = row();
    let pull = Force::n(200.0);
    let strap = Binding {
        name: "over".to_owned(),
        anchors: Anchors::Article,
        at: [Length::m(0.0); 2],
        pull,
        width: Binding::WIDTH,
        after: 1,
    };
    plan.fixture.bindings = vec![strap];
    let last = u32::try_from(plan.stack.len()).expect("few pieces");
    for (why, due) in [(Restacking::Proposing, last), (Restacking::Ordering, 1), (Restacking::Trimming, 1)] {
        let edit = Edit::Restack { why, places: plan.stack.clone() };
        let is = after(&plan, &edit).fixture.bindings[0].after;
        assert_eq!(is, due, "{why:?}: after step {is}, want {due}");
    }
}
