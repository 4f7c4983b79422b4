//! Undo and redo without end: back to the first byte and on to the last.

use editor::document::Document;
use plan::edit::Adding;
use plan::{Align, Edit, Place, Plan, Turn};
use quantity::Length;

/// Numbers that look random and are the same in every run (an xorshift generator, `from memory`).
struct Numbers(u64);

impl Numbers {
    fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }

    fn below(&mut self, bound: usize) -> usize {
        usize::try_from(self.next() % u64::try_from(bound.max(1)).expect("few")).expect("few")
    }

    /// Within a metre of the bed's origin, on the grid of a drag.
    fn length(&mut self) -> Length {
        let grid = i32::try_from(self.below(400)).expect("few") - 200;
        Length::m(f64::from(grid) * 0.005)
    }
}

fn place(plan: &Plan, numbers: &mut Numbers) -> Option<Place> {
    let lot = &plan.ballast[numbers.below(plan.ballast.len())];
    let item = plan.next_item(lot)?;
    let at = [numbers.length(), numbers.length()];
    let turn = if numbers.below(2) == 0 { Turn::Lengthwise } else { Turn::Crosswise };
    Some(Place { lot: lot.name.clone(), item, at, turn, locked: false })
}

/// Any edit that a gesture of the Stack page makes.
fn edit(plan: &Plan, numbers: &mut Numbers) -> Option<Edit> {
    let count = plan.steps();
    let kind = if count < 4 { 0 } else { numbers.below(11) };
    let [a, b, c] = [0; 3].map(|_: u8| numbers.below(count));
    Some(match kind {
        0 => Edit::Add { adding: Adding::Placing, at_step: a.min(count), places: vec![place(plan, numbers)?] },
        1 | 2 => Edit::Move { steps: vec![a, b], by: [numbers.length(), numbers.length()] },
        3 => Edit::PutAt { step: a, at: [numbers.length(), numbers.length()] },
        4 => Edit::Turn { steps: vec![a] },
        5 => Edit::Remove { steps: vec![a] },
        6 => Edit::Reorder { from: a, to: b },
        7 => Edit::Align { steps: vec![a, b, c], how: Align::ALL[numbers.below(Align::ALL.len())] },
        8 => Edit::Gather { steps: vec![a], to: b },
        9 => Edit::Lock { steps: vec![a], locked: numbers.below(2) == 0 },
        _ => {
            let fitted = plan.fit(&plan.only(&[a, b]));
            Edit::Paste { at_step: c, lots: fitted.lots, places: fitted.places }
        }
    })
}

#[test]
fn undo_to_the_start_and_redo_to_the_end_give_the_same_bytes_after_1000_edits() {
    for (seed, (_, demo)) in (1_u64..).zip(editor::DEMOS) {
        let first = plan::file::read(demo).expect("a demo");
        let mut document = Document::untitled(first.clone());
        let mut numbers = Numbers(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15));
        let (mut made, mut refused) = (0, 0);
        while made < 1000 {
            let Some(edit) = edit(document.plan(), &mut numbers) else { continue };
            match document.apply(&edit) {
                Ok(()) => made += 1,
                Err(_) => refused += 1,
            }
            assert!(refused < 1000, "{}: {refused} edits were refused, {made} made", first.title);
        }
        let last = plan::file::write(document.plan());
        while document.undo_name().is_some() {
            document.undo();
        }
        assert_eq!(plan::file::write(document.plan()), plan::file::write(&first), "{}: undone", first.title);
        assert!(!document.is_dirty(), "{}: nothing is left to save", first.title);
        while document.redo_name().is_some() {
            document.redo();
        }
        assert_eq!(plan::file::write(document.plan()), last, "{}: done again", first.title);
    }
}
