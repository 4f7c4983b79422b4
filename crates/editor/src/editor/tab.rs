//! A tab of the bar: the page's name and the sign of the worst that is found of it. The page in hand has its ground and
//! a line over it; between two pages stands the way from one to the next.

use crate::icons::Icon;
use crate::look::{self, Look};
use crate::pages::Page;
use crate::{paint, signs};
use assess::State;
use drafting::figure::Ink;
use drafting::lower;
use eframe::egui::{
    self, FontId, Rect, Response, Sense, Stroke, StrokeKind, Ui, WidgetInfo, accesskit::Role, pos2, vec2,
};

/// Height of the bar's row, and what the bar has above and below it, points.
pub(super) const HIGH: f32 = 26.0;
const BAR: f32 = 6.0;
/// Beside the words, and the place of a sign, which is kept: no tab moves when one appears.
const PAD: f32 = 9.0;
const SIGN: f32 = 19.0;
/// The place of the caret between two pages.
const BETWEEN: f32 = 12.0;

pub(super) struct Tab {
    pub(super) page: Page,
    pub(super) worst: Option<State>,
    pub(super) is_chosen: bool,
}

pub(super) fn show(ui: &mut Ui, look: &Look, tab: &Tab) -> Response {
    let Tab { page, worst, is_chosen } = *tab;
    if page != Page::ALL[0] {
        let (between, _) = ui.allocate_exact_size(vec2(BETWEEN, HIGH), Sense::hover());
        Icon::CARET_RIGHT.paint(ui.painter(), between.center(), 10.0, look.ink(Ink::Quiet));
    }
    let bold = paint::bold_family();
    let font = if is_chosen { FontId::new(look::BODY, bold.clone()) } else { FontId::proportional(look::BODY) };
    let ink = look.ink(Ink::Line);
    let words = ui.painter().layout_no_wrap(page.word().to_owned(), font, ink);
    // As wide as in bold, chosen or not.
    let wide = ui.painter().layout_no_wrap(page.word().to_owned(), FontId::new(look::BODY, bold), ink).size().x;
    let sign = if page.has_findings() { SIGN } else { 0.0 };
    let (rect, response) = ui.allocate_exact_size(vec2(2.0 * PAD + wide + sign, HIGH), Sense::click());
    response.widget_info(|| WidgetInfo::selected(Role::Button, true, is_chosen, page.word()));
    let whole = Rect::from_x_y_ranges(rect.x_range(), rect.top() - BAR..=rect.bottom() + BAR + 1.0);
    let painter = ui.painter();
    if is_chosen {
        painter.rect_filled(whole, 0.0, look.ground());
        painter.rect_filled(whole.with_max_y(whole.top() + 3.0), 0.0, look.ink(Ink::Is));
    } else if response.hovered() {
        painter.rect_filled(rect, 4.0, look.rule());
    }
    if response.has_focus() {
        painter.rect_stroke(rect, 4.0, Stroke::new(1.5, look.ink(Ink::Is)), StrokeKind::Inside);
    }
    painter.galley(pos2(rect.left() + PAD, rect.center().y - words.size().y / 2.0), words, ink);
    if let Some(state) = worst {
        let (shape, ink) = signs::of_state(state);
        let at = [f64::from(rect.right() - PAD - 4.0), f64::from(rect.center().y)];
        paint::primitives(painter, lower::sign(shape, at, ink, 1.25, &look.palette));
    }
    response.on_hover_cursor(egui::CursorIcon::PointingHand)
}
