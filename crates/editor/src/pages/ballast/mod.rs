//! Ballast: the lots of pieces, what each piece weighs, and how it is lifted.

mod add;
mod density;
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
/// From this width on the drawings have a third column, points; how wide the weighing list is then.
const THREE: f32 = 1640.0;
const WEIGHING: f32 = 500.0;

pub(crate) fn show(ui: &mut Ui, bench: &mut Bench, hand: &mut Hand) -> Option<Asked> {
    hand.settle(bench.plan);
    let mut asked = None;
    let left = |ui: &mut Ui, bench: &mut Bench, hand: &mut Hand| {
        section(ui, "Lots", &lots::about(bench.plan), |ui| lots::show(ui, bench, hand));
        detail::show(ui, bench, hand);
    };
    // Two closures cannot both hold the hand: the second side gets it when the first is done.
    let hand = std::cell::RefCell::new(hand);
    let apart = ui.available_width() >= THREE;
    let mut list = |ui: &mut Ui, bench: &mut Bench| asked = weighing::show(ui, bench, &mut hand.borrow_mut(), apart);
    let lifting = |ui: &mut Ui, bench: &mut Bench| {
        section(ui, "Lifting by hand", "a caution, not a check", |ui| handling::show(ui, bench));
    };
    let drawings = |ui: &mut Ui, bench: &mut Bench| {
        weighing::scatter(ui, bench, &mut hand.borrow_mut());
        lifting(ui, bench);
    };
    let right = |ui: &mut Ui, bench: &mut Bench| match apart {
        true => beside(ui, bench, WEIGHING, list, drawings),
        false => {
            list(ui, bench);
            lifting(ui, bench);
        }
    };
    beside(ui, bench, LOTS, |ui, bench| left(ui, bench, &mut hand.borrow_mut()), right);
    asked
}
