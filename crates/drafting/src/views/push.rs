//! The push that the fixture bears by its direction, as a closed curve on the footprint; for the view
//! from above.

use crate::figure::{Align, Anchor, Figure, Fill, Ink, Label, Level, Pen, Sign, Weight};
use assess::PushCurve;

/// The footprint thin, the curve of what is borne in teal, what is asked in broken orange, and the
/// weakest direction as an arrow from the plumb line of article and stack to the curve.
pub fn push(curve: &PushCurve) -> Figure {
    let mut figure = Figure::default();
    figure.polygon(curve.footprint_m.clone(), Fill::None, Some(Pen::dashed(Ink::Structure, Weight::Thin)));
    for foot in &curve.footprint_m {
        figure.sign(*foot, Sign::SupportUp, Ink::Structure);
    }
    figure.polygon(curve.asked_m(), Fill::None, Some(Pen::dashed(Ink::Wanted, Weight::Thin)));
    let pen = if curve.solved { Pen::solid(Ink::Is, Weight::Medium) } else { Pen::dashed(Ink::Is, Weight::Medium) };
    figure.polygon(curve.points_m(), Fill::None, Some(pen));
    weakest(&mut figure, curve);
    figure
}

fn weakest(figure: &mut Figure, curve: &PushCurve) {
    let Some(weakest) = curve.weakest() else { return };
    let tip = curve.point_m(weakest.direction_rad, weakest.multiplier);
    let falls_short = weakest.multiplier < curve.asked;
    let ink = if falls_short { Ink::Wanted } else { Ink::Is };
    figure.line(vec![curve.middle_m, tip], Pen::solid(ink, Weight::Thin));
    figure.line(super::arrow::barbs(curve.middle_m, tip, 0.12 * curve.walk_m), Pen::solid(ink, Weight::Thin));
    let toward = weakest.toward();
    let straps = if curve.solved { "" } else { ", straps left out" };
    // What is asked is told here: its circle lies on the pieces, where there is no room for words.
    let text = format!("push on fixture: {} {toward}{straps}, required {:.2}", told(weakest.multiplier), curve.asked);
    let align = if tip[0] >= curve.middle_m[0] { Align::Left } else { Align::Right };
    let shift = if align == Align::Left { 5.0 } else { -5.0 };
    let anchor = Anchor { align, level: Level::Middle };
    figure.label(Label::caption(tip, text).ink(ink).anchored(anchor, [shift, 0.0]).dodging());
}

/// A push by the stack's weight. A light first piece takes many times its own weight, which says nothing.
fn told(multiplier: f64) -> String {
    if multiplier > 1.0 { "more than 1".to_owned() } else { format!("{multiplier:.2}") }
}
