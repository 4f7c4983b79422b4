//! Numbers beside the controls of a picture, found by the names that a screen reader is told.

use crate::look::{self, Look};
use drafting::figure::Ink;
use eframe::egui::accesskit::{Node, TreeUpdate};
use eframe::egui::{Align2, Color32, Context, FontId, Id, LayerId, Order, Pos2, Rect, Stroke, Vec2, pos2};

/// The disc behind a number, points.
const RADIUS: f32 = 11.0;
/// So much of a control is within the picture at the least, points.
const LEAST: Vec2 = Vec2::splat(20.0);

/// Where the number of each name stands, points: at the upper left corner of its control.
///
/// # Errors
/// A name that nothing within the picture has, with those that there are.
pub(super) fn places(names: &[&str], size: Vec2, update: Option<&TreeUpdate>) -> Result<Vec<Option<Pos2>>, String> {
    let nodes = || update.iter().flat_map(|update| update.nodes.iter().map(|(_, node)| node));
    let place = |name: &&str| -> Result<Option<Pos2>, String> {
        if name.is_empty() {
            return Ok(None);
        }
        let corner = |node: &Node| node.bounds().map(|bounds| pos2(bounds.x0 as f32, bounds.y0 as f32));
        let is_seen = |at: &Pos2| Rect::from_min_size(Pos2::ZERO, size - LEAST).contains(*at);
        let found = nodes().filter(|node| node.label() == Some(name)).filter_map(corner).find(is_seen);
        found.map(Some).ok_or_else(|| {
            let there: Vec<&str> = nodes().filter_map(Node::label).collect();
            format!("nothing in the picture has the name “{name}”; there are {}", there.join(" | "))
        })
    };
    names.iter().map(place).collect()
}

/// Over everything else.
pub(super) fn paint(ctx: &Context, places: &[Option<Pos2>]) {
    let look = Look::of(ctx);
    let painter = ctx.layer_painter(LayerId::new(Order::Debug, Id::unique("marks")));
    let room = ctx.content_rect().shrink(RADIUS + 2.0);
    for (place, number) in places.iter().zip(1..).filter_map(|(place, number)| place.map(|place| (place, number))) {
        let at = room.clamp(place);
        painter.circle(at, RADIUS, look.ink(Ink::Is), Stroke::new(2.0, Color32::WHITE));
        let font = FontId::new(look::HEAD, crate::paint::bold_family());
        painter.text(at, Align2::CENTER_CENTER, number, font, Color32::WHITE);
    }
}
