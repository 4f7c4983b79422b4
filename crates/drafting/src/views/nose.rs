//! Where the nose is: an arrow on every drawing of the sheet, so that nobody lays a stack the wrong way round.

use super::projection::View;
use crate::figure::{Align, Anchor, Figure, Fill, Ink, Label, Level, TextSize};

/// Adds the arrow over a drawing from the side or from above, whose nose is at the left; from the front there is none
/// to draw, and the words say from where one looks.
pub fn nose(figure: &mut Figure, view: View) {
    let Some([low, high]) = figure.bounds() else { return };
    let size = (high[0] - low[0]).max(high[1] - low[1]).max(0.1);
    // Off the corner, where mark A stands.
    let (x, y) = (low[0] + 0.22 * (high[0] - low[0]), high[1] + 0.1 * size);
    let [length, half] = [0.14 * size, 0.018 * size];
    if view != View::Front {
        let head = [[x, y], [x + 0.4 * length, y - 2.0 * half], [x + 0.4 * length, y + 2.0 * half]];
        figure.polygon(head.to_vec(), Fill::Solid(Ink::Line), None);
        let shaft = [[x + 0.4 * length, y - 0.7 * half], [x + length, y + 0.7 * half]];
        figure.rectangle(shaft[0], shaft[1], Fill::Solid(Ink::Line), None);
    }
    let (at, words) = if view == View::Front { (x, "from the NOSE, looking aft") } else { (x + length, "NOSE") };
    let anchor = Anchor { align: Align::Left, level: Level::Middle };
    figure.label(Label::new([at, y], words).bold().size(TextSize::Body).anchored(anchor, [4.0, 0.0]));
}
