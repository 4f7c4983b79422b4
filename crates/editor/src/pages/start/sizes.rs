//! The five sizes of a shape, each with a letter that stands on its dimension line in the picture. A size that nobody
//! entered is drawn by the way and makes no plan.

use super::Desk;
use super::drawn::Drawn;
use crate::fields::Form;
use crate::look;
use drafting::figure::{Figure, Ink, Label, Pen, Plate, TextSize, Weight};
use drafting::solids::Direction;
use eframe::egui::{Align, Button, Key, Label as Words, Layout, Rect, Sense, Stroke, StrokeKind, Ui, vec2};
use plan::edit::Part;
use plan::start::{SIZES, Shape};
use plan::{Edit, Plan};
use quantity::{Grain, Length, Units};

const LETTERS: [&str; SIZES] = ["a", "b", "c", "d", "e"];
/// Width of the fields with their words, points.
const FORM: f32 = 400.0;

pub(super) fn show(ui: &mut Ui, desk: &mut Desk, shape: Shape) {
    ui.label(look::bold(shape.name(), look::LARGE));
    let about = format!(
        "{} · five sizes, as a tape measures them; heights from the tops of scales or cells",
        shape.stands_on()
    );
    ui.label(look::caption(desk.look, about));
    ui.add_space(10.0);
    let is_opened_now = desk.hand.large.as_ref().is_none_or(|large| large.of.0 != shape);
    let room = ui.available_size();
    let picture = vec2((room.x - FORM - 24.0).max(280.0), (room.y - 16.0).clamp(260.0, 620.0));
    ui.horizontal_top(|ui| {
        ui.spacing_mut().item_spacing.x = 24.0;
        let (rect, _) = ui.allocate_exact_size(picture, Sense::hover());
        drawing(ui, desk, shape, rect);
        ui.vertical(|ui| {
            ui.spacing_mut().item_spacing.x = 8.0;
            ui.set_width(FORM);
            if is_opened_now {
                desk.fields.lead_on();
            }
            fields(ui, desk, shape);
            ending(ui, desk, shape);
        });
    });
    if ui.input(|i| i.key_pressed(Key::Escape)) && !ui.ctx().text_edit_focused() {
        back(desk);
    }
}

/// The picture of a shape by its sizes.
pub(super) struct Large {
    of: (Shape, [Option<Length>; SIZES]),
    drawn: Drawn,
    /// Why it is drawn with usual sizes although all are entered.
    misfit: Option<String>,
}

impl Large {
    fn of(units: Units, shape: Shape, sizes: [Option<Length>; SIZES]) -> Option<Self> {
        let (plan, with, why) = match shape.picture(units, sizes) {
            Ok(plan) => (plan, sizes, None),
            Err(fault) => (shape.picture(units, [None; SIZES]).ok()?, [None; SIZES], Some(fault.sentence)),
        };
        let mut drawn = Drawn::with_nose(&plan);
        dimensions(&mut drawn.figure, &plan, (shape, with));
        let misfit = why.filter(|_| sizes.iter().all(Option::is_some));
        Some(Self { of: (shape, sizes), drawn, misfit })
    }
}

/// The picture follows each size as it is entered.
fn drawing(ui: &Ui, desk: &mut Desk, shape: Shape, rect: Rect) {
    let sizes = desk.hand.sizes;
    if desk.hand.large.as_ref().is_none_or(|large| large.of != (shape, sizes)) {
        desk.hand.large = Large::of(desk.units, shape, sizes);
    }
    if let Some(large) = &desk.hand.large {
        large.drawn.paint(ui, rect, desk.look, 34.0);
    }
}

fn dimensions(figure: &mut Figure, plan: &Plan, (shape, sizes): (Shape, [Option<Length>; SIZES])) {
    let seen = |end: [Length; 3]| Direction::HOME.project(plan.floor_from_article() * plan::point(end));
    for (index, span) in shape.spans(sizes).into_iter().enumerate() {
        let ends = span.map(seen);
        let ink = if sizes[index].is_some() { Ink::Is } else { Ink::Wanted };
        figure.line(ends.to_vec(), Pen::solid(ink, Weight::Thick));
        let middle = [0, 1].map(|axis| 0.5 * (ends[0][axis] + ends[1][axis]));
        figure.label(Label::new(middle, LETTERS[index]).bold().size(TextSize::Large).ink(ink).on(Plate::Framed));
    }
}

fn fields(ui: &mut Ui, desk: &mut Desk, shape: Shape) {
    for (index, size) in shape.sizes().into_iter().enumerate() {
        ui.horizontal(|ui| {
            let ink = if desk.hand.sizes[index].is_some() { Ink::Is } else { Ink::Wanted };
            ui.add_sized([16.0, 22.0], Words::new(look::bold(LETTERS[index], look::HEAD).color(desk.look.ink(ink))));
            let words = Words::new(size.called).selectable(false);
            let middle = Layout::left_to_right(Align::Center);
            ui.allocate_ui_with_layout(vec2(230.0, 22.0), middle, |ui| {
                ui.set_min_size(vec2(230.0, 22.0));
                ui.add(words);
            });
            let mut form = Form::of(desk.fields, desk.look, desk.units);
            form.optional(ui, &format!("size {}", LETTERS[index]), Grain::Coarse, &mut desk.hand.sizes[index]);
        });
        // Room for the sentence under a field.
        ui.add_space(10.0);
    }
    if desk.fields.take_change().is_some() {
        desk.fields.accept();
    }
}

fn ending(ui: &mut Ui, desk: &mut Desk, shape: Shape) {
    let left = desk.hand.sizes.iter().filter(|size| size.is_none()).count();
    ui.add_space(4.0);
    ui.horizontal(|ui| {
        let (ink, ground) = (desk.look.ink(Ink::Is), desk.look.ground());
        let make = match left {
            0 => Button::new(look::bold("Make the plan", look::BODY).color(ground)).fill(ink),
            _ => Button::new("Make the plan"),
        };
        let make = ui.add_enabled(left == 0, make.min_size(vec2(130.0, 28.0)));
        // Enter in the last field leads here.
        if desk.fields.take_lead() && left == 0 {
            make.request_focus();
        }
        if make.has_focus() {
            let ring = Stroke::new(2.0, desk.look.ink(Ink::Line));
            ui.painter().rect_stroke(make.rect.expand(2.0), 4.0, ring, StrokeKind::Outside);
        }
        if make.clicked() {
            begin(desk, shape);
        }
        if ui.add(Button::new("Back").min_size(vec2(70.0, 28.0))).clicked() {
            back(desk);
        }
    });
    let misfit = desk.hand.large.as_ref().and_then(|large| large.misfit.as_ref());
    let told = match (left, misfit) {
        (_, Some(misfit)) => (format!("{misfit}; the picture is drawn with usual sizes"), Ink::Wanted),
        (0, None) => ("All five are entered.".to_owned(), Ink::Quiet),
        (1, None) => ("1 size is not entered yet: the picture is drawn with a usual one.".to_owned(), Ink::Quiet),
        (_, None) => (format!("{left} sizes are not entered yet: the picture is drawn with usual ones."), Ink::Quiet),
    };
    ui.add(Words::new(eframe::egui::RichText::new(told.0).size(look::SMALL).color(desk.look.ink(told.1))).wrap());
    ui.add_space(12.0);
    ui.add(Words::new(look::caption(desk.look, GIVES)).wrap());
}

const GIVES: &str = "They give outline, scales, bearings, bed, mark A and string; all of it can be changed on the Fixture \
                     page. Timber and sheet that no size names are drawn only. Masses, who sits there and where the \
                     load acts are asked next.";

fn begin(desk: &mut Desk, shape: Shape) {
    let entered: Vec<Length> = desk.hand.sizes.iter().copied().flatten().collect();
    let Ok(sizes) = <[Length; SIZES]>::try_from(entered) else { return };
    // Why there is none is told already where the picture is drawn with usual sizes.
    let Ok(plan) = shape.plan(desk.units, sizes) else { return };
    desk.edits = vec![
        Edit::set(Part::Title(plan.title), "title"),
        Edit::set(Part::Article(plan.article), "article"),
        Edit::set(Part::Fixture(plan.fixture), "fixture"),
        Edit::set(Part::Bed(plan.bed), "bed"),
    ];
    *desk.hand = super::Hand::default();
}

fn back(desk: &mut Desk) {
    (desk.hand.shape, desk.hand.sizes) = (None, [None; SIZES]);
    desk.hand.large = None;
    desk.fields.clear();
}
