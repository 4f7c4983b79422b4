//! How a number of the head is drawn: what it is, its value, and a picture that is read at a glance.

use crate::look::{self, Look};
use crate::pages::bar::{self, Bar, part};
use crate::{paint, signs};
use assess::State;
use drafting::figure::Ink;
use eframe::egui::{self, Align2, FontId, Label, Rect, Sense, Stroke, StrokeKind, Ui, pos2, vec2};

/// A number of the head.
pub(super) struct Number {
    pub(super) head: String,
    /// None where the picture has the values.
    pub(super) value: String,
    pub(super) note: String,
    pub(super) in_order: bool,
    /// The worst that is found of it; none where nothing is asked yet.
    pub(super) state: Option<State>,
    pub(super) about: String,
    pub(super) picture: Picture,
}

pub(super) enum Picture {
    None,
    Bar(Bar),
    Target(Target),
    Scales(Vec<Scale>),
    /// The part of the solving that is done.
    Solving(f32),
}

/// Offsets against their tolerance, aft and right positive, m.
pub(super) struct Target {
    pub(super) tolerance_m: [f64; 2],
    /// Over the last steps; the last one is the step in hand.
    pub(super) track_m: Vec<[f64; 2]>,
}

/// What a support shows.
pub(super) struct Scale {
    pub(super) name: String,
    pub(super) kg: f64,
    pub(super) capacity_kg: Option<f64>,
    pub(super) value: String,
    /// What it is held against, in words.
    pub(super) of: String,
}

impl Scale {
    fn fullness(&self) -> f64 {
        self.capacity_kg.map_or(0.0, |capacity| self.kg / capacity)
    }
}

/// Narrower than this a number goes without its target.
const TARGET_FROM: f32 = 270.0;
/// Side of the target.
const TARGET: f32 = 58.0;

/// Into the part of the window that the ui has.
pub(super) fn number(ui: &mut Ui, look: &Look, number: &Number) {
    let area = ui.max_rect();
    let mut words = area;
    if let Picture::Target(shown) = &number.picture
        && area.width() >= TARGET_FROM
    {
        target(ui, look, shown, Rect::from_min_size(area.min + vec2(0.0, 3.0), vec2(TARGET, TARGET)));
        words.min.x += TARGET + 14.0;
    }
    ui.scope_builder(egui::UiBuilder::new().max_rect(words), |ui| {
        ui.spacing_mut().item_spacing = vec2(8.0, 1.0);
        head(ui, look, number);
        let place = |from: f32| Rect::from_min_max(pos2(words.left(), words.top() + from), words.max);
        match &number.picture {
            Picture::Scales(scales) => return self::scales(ui, look, scales, place(18.0)),
            Picture::Target(_) => {
                value(ui, look, number, false);
                return note(ui, look, number);
            }
            Picture::None | Picture::Bar(_) | Picture::Solving(_) => value(ui, look, number, true),
        }
        match &number.picture {
            Picture::Bar(shown) => bar::paint(ui, look, shown, (place(45.0), Ink::Is)),
            Picture::Solving(part) => solving(ui, look, *part, place(45.0)),
            _ => {}
        }
    });
}

/// What it is, and at the right the state of it.
fn head(ui: &mut Ui, look: &Look, number: &Number) {
    ui.horizontal(|ui| {
        ui.set_height(16.0);
        let width = ui.available_width() - 24.0;
        let head = Label::new(look::caption(look, &number.head)).truncate();
        ui.scope(|ui| {
            ui.set_max_width(width);
            ui.add(head).on_hover_text(&number.about);
        });
        if let Some(state) = number.state {
            ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| signs::state(ui, look, state));
        }
    });
}

/// The value, with the note beside it where there is a picture beneath.
fn value(ui: &mut Ui, look: &Look, number: &Number, with_note: bool) {
    let ink = look.ink(if number.in_order { Ink::Line } else { Ink::Wanted });
    ui.horizontal(|ui| {
        ui.set_height(24.0);
        let size = fitting(ui, &number.value, ui.available_width());
        let value = Label::new(look::bold(&number.value, size).color(ink)).truncate();
        ui.add(value).on_hover_text(&number.about);
        if with_note && ui.available_width() > 60.0 {
            note(ui, look, number);
        }
    });
}

/// As many parts of the note as there is room for, the first ones first: no word is cut off. All of it under the pointer.
fn note(ui: &mut Ui, look: &Look, number: &Number) {
    let shown = leading_parts(ui, &number.note, ui.available_width());
    if !shown.is_empty() {
        let words = ui.add(Label::new(look::caption(look, shown)).extend());
        words.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Label, true, &number.note));
        words.on_hover_text(format!("{}\n\n{}", number.note, number.about));
    }
}

fn leading_parts(ui: &Ui, note: &str, width: f32) -> String {
    let mut parts: Vec<&str> = note.split(" · ").collect();
    let font = FontId::proportional(look::SMALL);
    let wide = |text: String| ui.painter().layout_no_wrap(text, font.clone(), egui::Color32::BLACK).size().x;
    while !parts.is_empty() && wide(parts.join(" · ")) > width {
        parts.pop();
    }
    parts.join(" · ")
}

/// The largest size at which a value stands on one line.
fn fitting(ui: &Ui, value: &str, width: f32) -> f32 {
    let sizes = [look::LARGE, 18.0, 15.5];
    let wide = |size: f32| {
        let font = FontId::new(size, paint::bold_family());
        ui.painter().layout_no_wrap(value.to_owned(), font, egui::Color32::BLACK).size().x
    };
    sizes.into_iter().find(|size| wide(*size) <= width).unwrap_or(look::BODY)
}

/// How far the solving is: never mistaken for a value, since it says so.
fn solving(ui: &Ui, look: &Look, part: f32, place: Rect) {
    let track = Rect::from_min_size(place.min + vec2(0.0, 3.0), vec2(place.width(), 3.0));
    ui.painter().rect_filled(track, 1.0, look.rule());
    ui.painter().rect_filled(
        track.with_max_x(egui::lerp(track.x_range(), part.clamp(0.0, 1.0))),
        1.0,
        look.ink(Ink::Quiet),
    );
    let words = format!("being solved, {:.0} %", f64::from(part) * 100.0);
    let font = FontId::proportional(look::TICK);
    ui.painter().text(track.left_bottom() + vec2(0.0, 3.0), Align2::LEFT_TOP, words, font, look.ink(Ink::Quiet));
}

/// The tolerance as a box, the offset in it, and the way that it took; aft is right, the right side up.
fn target(ui: &Ui, look: &Look, shown: &Target, square: Rect) {
    let painter = ui.painter_at(square.expand(1.0));
    painter.rect(square, 0.0, look.field(), Stroke::new(1.0, look.rule()), StrokeKind::Inside);
    let cross = Stroke::new(1.0, look.rule());
    painter.hline(square.x_range(), square.center().y, cross);
    painter.vline(square.center().x, square.y_range(), cross);
    let [along, across] = shown.tolerance_m;
    // The box takes a good half of the square.
    let reach = 1.6 * along.max(across).max(1e-6);
    #[expect(clippy::cast_possible_truncation, reason = "a point of a small square")]
    let at = |[x, y]: [f64; 2]| {
        let [x, y] = [x, y].map(|m| (m / reach).clamp(-0.9, 0.9) as f32 * square.width() / 2.0);
        square.center() + vec2(x, -y)
    };
    let tolerance = Rect::from_two_pos(at([-along, -across]), at([along, across]));
    let wanted = look.ink(Ink::Wanted);
    painter.rect(tolerance, 0.0, wanted.gamma_multiply(0.10), Stroke::new(1.2, wanted), StrokeKind::Inside);
    let track: Vec<_> = shown.track_m.iter().map(|offset| at(*offset)).collect();
    painter.line(track, Stroke::new(0.8, look.ink(Ink::Is).gamma_multiply(0.6)));
    if let Some(last) = shown.track_m.last() {
        painter.circle(at(*last), 4.0, look.ink(Ink::Is), Stroke::new(1.0, look.ground()));
    }
}

/// How many supports there is room for.
const MOST: usize = 3;

/// Which of so many are shown, where not all are: `fullest 3 of 4`.
pub(super) fn shown_of(scales: usize) -> Option<String> {
    (scales > MOST).then(|| format!("fullest {MOST} of {scales}"))
}

/// A bar each against its capacity; of many the fullest.
fn scales(ui: &mut Ui, look: &Look, scales: &[Scale], place: Rect) {
    const LINE: f32 = 15.0;
    let mut shown: Vec<&Scale> = scales.iter().collect();
    if shown.len() > MOST {
        shown.sort_by(|a, b| b.fullness().total_cmp(&a.fullness()).then(b.kg.total_cmp(&a.kg)));
        shown.truncate(MOST);
    }
    let names = names_width(ui, &shown);
    // What has no limit never reaches the end of its line: there is none.
    let most_kg = scales.iter().map(|scale| scale.capacity_kg.unwrap_or(OPEN * scale.kg)).fold(1e-6, f64::max);
    for (row, scale) in (0_u8..).zip(shown) {
        let top = place.top() + LINE * f32::from(row);
        let line = Rect::from_min_max(pos2(place.left(), top), pos2(place.right(), top + LINE));
        self::scale(ui, look, scale, (line, names, most_kg));
    }
}

/// Full where the capacity is reached.
fn against(painter: &egui::Painter, look: &Look, track: Rect, (kg, capacity_kg): (f64, f64)) {
    painter.rect_filled(track, 1.0, look.rule());
    let fill = track.with_max_x(egui::lerp(track.x_range(), part(kg, capacity_kg)));
    painter.rect_filled(fill, 1.0, look.ink(if kg > capacity_kg { Ink::Wanted } else { Ink::Is }));
    let limit = Stroke::new(2.0, look.ink(Ink::Wanted));
    painter.vline(track.right(), track.center().y - 6.0..=track.center().y + 6.0, limit);
}

/// The least length of a bar beside a long name, points.
const LEAST_BAR: f32 = 48.0;

/// How much longer than the fullest reading a line without a limit is.
const OPEN: f64 = 1.6;

/// A thin line with a point at its end, on dots and not on a track: nothing that could be full.
fn open(painter: &egui::Painter, look: &Look, track: Rect, part: f32) {
    let middle = track.center().y;
    let end = pos2(egui::lerp(track.x_range(), part), middle);
    let dots = [end, pos2(track.right(), middle)];
    painter.extend(egui::Shape::dotted_line(&dots, look.ink(Ink::Quiet), 6.0, 0.9));
    painter.hline(track.left()..=end.x, middle, Stroke::new(2.0, look.ink(Ink::Is)));
    painter.circle_filled(end, 3.0, look.ink(Ink::Is));
}

/// Room for the longest of the names, points.
fn names_width(ui: &Ui, scales: &[&Scale]) -> f32 {
    let font = FontId::proportional(look::SMALL);
    let wide = |scale: &&Scale| {
        ui.painter().layout_no_wrap(scale.name.clone(), font.clone(), egui::Color32::PLACEHOLDER).size().x
    };
    scales.iter().map(wide).fold(0.0, f32::max) + 8.0
}

/// Its line, the room for its name there, and what a line without a limit ends at, kg.
type Placed = (Rect, f32, f64);

fn scale(ui: &mut Ui, look: &Look, scale: &Scale, (line, names, most_kg): Placed) {
    let told = format!("{} {} {}", scale.name, scale.value, scale.of);
    let response = ui.interact(line, ui.scope_id().with(&scale.name), Sense::hover());
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Label, true, told.trim_end()));
    let wide = line.width() >= TARGET_FROM;
    let values = if wide { 128.0 } else { 52.0 };
    // Names stand whole as long as a bar is left beside them.
    let names = names.clamp(72.0, (line.width() - values - LEAST_BAR).max(72.0));
    let small = FontId::proportional(look::SMALL);
    let painter = ui.painter();
    let middle = line.center().y;
    let name = egui::text::LayoutJob::simple_singleline(scale.name.clone(), small.clone(), look.ink(Ink::Quiet));
    let name = egui::text::LayoutJob { wrap: egui::text::TextWrapping::truncate_at_width(names - 6.0), ..name };
    let name = painter.layout_job(name);
    painter.galley(pos2(line.left(), middle - name.size().y / 2.0), name, look.ink(Ink::Quiet));
    let track = Rect::from_x_y_ranges(line.left() + names..=line.right() - values, middle - 4.0..=middle + 4.0);
    match scale.capacity_kg {
        Some(capacity_kg) => against(painter, look, track, (scale.kg, capacity_kg)),
        None => open(painter, look, track, part(scale.kg, most_kg)),
    }
    let bold = FontId::new(look::BODY, paint::bold_family());
    let end = if wide { track.right() + 54.0 } else { line.right() };
    painter.text(pos2(end, middle), Align2::RIGHT_CENTER, &scale.value, bold, look.ink(Ink::Line));
    if wide {
        painter.text(pos2(end + 5.0, middle), Align2::LEFT_CENTER, &scale.of, small, look.ink(Ink::Quiet));
    }
}
