//! A piece of a lot as it is seen in the turned view: a bag is a pillow, a board and a plate have sharp edges.

use crate::look::Look;
use crate::paint;
use drafting::figure::{Ink, Light, Surface};
use eframe::egui::{Painter, Pos2, Rect, Shape, Stroke, Vec2, vec2};
use plan::{Form, Lot};
use quantity::Quantity;

/// How much light the sides have: top, left side, forward end; the lower half of a pillow lies in the shade.
const TOP: Light = Light(232);
const LEFT: Light = Light(150);
const FORWARD: Light = Light(96);
const UNDER: [Light; 2] = [Light(104), Light(56)];
/// How far the top of a pillow lies within its seam, part of its width.
const ROUND: f32 = 0.2;
/// A thin piece is drawn no thinner than this part of its length, that its sides are seen.
const LEAST_THICK: f32 = 0.07;

/// As large as it goes in a place.
pub(crate) fn paint(painter: &Painter, look: &Look, lot: &Lot, place: Rect) {
    #[expect(clippy::cast_possible_truncation, reason = "points of a small picture")]
    let [length, width, thick] = lot.size.map(|side| side.si() as f32);
    let thick = thick.max(LEAST_THICK * length.max(width));
    // Seen from the front, the left and above, as the turned view is at first: aft goes to the right, right to the left.
    let seen = |[x, y, z]: [f32; 3]| vec2(0.86 * x - 0.52 * y, -0.32 * x - 0.38 * y - 0.86 * z);
    let all = [0.0, length].into_iter().flat_map(|x| [0.0, width].map(|y| (x, y)));
    let all = all.flat_map(|(x, y)| [0.0, thick].map(|z| seen([x, y, z]))).map(Vec2::to_pos2);
    let around = Rect::from_points(&all.collect::<Vec<_>>());
    let scale = (place.width() / around.width()).min(place.height() / around.height());
    let at = |corner: [f32; 3]| place.center() + (seen(corner).to_pos2() - around.center()) * scale;
    let (surface, inset, seam) = match lot.form {
        Form::Bag => (Surface::Canvas, ROUND * width.min(length), 0.45 * thick),
        Form::Board => (Surface::Timber, 0.0, 0.0),
        Form::Solid => (Surface::Metal, 0.0, 0.0),
    };
    let ring = |inset: f32, z: f32| {
        [[inset, inset], [length - inset, inset], [length - inset, width - inset], [inset, width - inset]]
            .map(|[x, y]| at([x, y, z]))
    };
    let (foot, middle, top) = (ring(0.5 * inset, 0.0), ring(0.0, seam), ring(inset, thick));
    let edge = Stroke::new(0.6, look.ink(Ink::Structure));
    let side = |corners: [Pos2; 4], light: Light| {
        let fill = paint::color(look.palette.shaded(surface, light));
        painter.add(Shape::convex_polygon(corners.to_vec(), fill, Stroke::NONE));
        // Line by line: a joined outline runs out into a spike where two edges meet at a narrow angle.
        for (index, from) in corners.iter().enumerate() {
            painter.line_segment([*from, corners[(index + 1) % corners.len()]], edge);
        }
    };
    if seam > 0.0 {
        side([foot[0], foot[1], middle[1], middle[0]], UNDER[0]);
        side([foot[3], foot[0], middle[0], middle[3]], UNDER[1]);
        side([middle[1], middle[2], top[2], top[1]], LEFT);
        side([middle[2], middle[3], top[3], top[2]], LEFT);
    }
    // Towards the viewer lie the left side and the forward end.
    side([middle[0], middle[1], top[1], top[0]], LEFT);
    side([middle[3], middle[0], top[0], top[3]], FORWARD);
    side(top, TOP);
}
