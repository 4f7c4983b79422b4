//! Ballast: the lots of pieces, what each piece weighs, and how it is lifted.

mod add;
mod detail;
mod hand;
mod handling;
mod histogram;
pub(crate) mod lots;
mod paste;
mod softness;
mod trial;
mod weighing;

pub(crate) use hand::{Asked, Hand};

use super::{Bench, beside, section};
use eframe::egui::Ui;

/// Width of the lots' side of the page, points.
const LOTS: f32 = 690.0;

pub(crate) fn show(ui: &mut Ui, bench: &mut Bench, hand: &mut Hand) -> Option<Asked> {
    hand.settle(bench.plan);
    let mut asked = None;
    let left = |ui: &mut Ui, bench: &mut Bench, hand: &mut Hand| {
        section(ui, "Lots", &lots::about(bench.plan), |ui| lots::show(ui, bench, hand));
        detail::show(ui, bench, hand);
    };
    // Two closures cannot both hold the hand: the second side gets it when the first is done.
    let hand = std::cell::RefCell::new(hand);
    beside(
        ui,
        bench,
        LOTS,
        |ui, bench| left(ui, bench, &mut hand.borrow_mut()),
        |ui, bench| {
            asked = weighing::show(ui, bench, &mut hand.borrow_mut());
            section(ui, "Lifting by hand", "a caution, not a check", |ui| handling::show(ui, bench));
        },
    );
    asked
}
