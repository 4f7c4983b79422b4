//! The weighing list of the lot in hand: bag by bag with the keyboard alone, and what it tells.

use super::hand::{Asked, Hand, field};
use super::histogram;
use super::lots::name_cell;
use super::paste::{self, Paste};
use crate::fields::label;
use crate::look::{self, Look};
use crate::pages::{Bench, section};
use drafting::figure::Ink;
use eframe::egui::{self, Align, FontId, Key, Label, Layout, Modifiers, RichText, ScrollArea, TextEdit, Ui, vec2};
use plan::weighing::{Outlier, Summary, mass_as_typed, outliers, summary};
use plan::{Edit, Lot};
use quantity::{Grain, Mass, Quantity, Units};

/// Height of a line, points: that of the button which the name is, so that numbers stand at its height.
const LINE: f32 = 23.0;
/// Widths of the list's columns, points.
const NAME: f32 = 150.0;
const NUMBER: f32 = 90.0;
/// Least and greatest height of the list, points, and what a page of three columns has above and below it.
const LIST: [f32; 2] = [250.0, 900.0];
const AROUND: f32 = 420.0;

/// A lot with what its weighings tell.
struct Weighed<'a> {
    lot: &'a Lot,
    summary: Summary,
    /// Those that stand apart from the others.
    outliers: Vec<Outlier>,
}

/// The list; `apart` where its drawing has a column of its own.
pub(super) fn show(ui: &mut Ui, bench: &mut Bench, hand: &mut Hand, apart: bool) -> Option<Asked> {
    let plan = bench.plan;
    let lot = plan.ballast.get(hand.lot)?;
    let mut asked = None;
    section(ui, "Weighing list", &lot.name, |ui| {
        entry(ui, bench, hand, lot);
        asked = buttons(ui, bench, hand);
        let first = plan::weighing::Asked { lot, first_item: hand.item, bare: hand.unit(bench.plan) };
        paste::show(ui, bench, &mut hand.paste, &first);
        let weighed = Weighed { lot, summary: summary(lot), outliers: outliers(lot) };
        words(ui, bench, hand, &weighed);
        if !apart {
            histogram::show(ui, bench.look, hand, (lot, &weighed.outliers, plan.units));
        }
        let room = ui.ctx().content_rect().height() - AROUND;
        let high = if apart { room.clamp(LIST[0], LIST[1]) } else { LIST[0] };
        list(ui, bench, hand, (&weighed, high));
    });
    asked
}

/// The drawing of the list in a column of its own.
pub(super) fn scatter(ui: &mut Ui, bench: &Bench, hand: &mut Hand) {
    let Some(lot) = bench.plan.ballast.get(hand.lot) else { return };
    section(ui, "How the weighed ones scatter", "click a bar to see its pieces in the list", |ui| {
        if lot.weighed.len() < histogram::LEAST {
            ui.label(look::caption(bench.look, "Three weighed pieces at least make a picture."));
        }
        histogram::large(ui, bench.look, hand, (lot, &outliers(lot), bench.plan.units));
    });
}

/// The mass of the item in hand, and in what the scale reads: Enter notes it and goes on.
fn entry(ui: &mut Ui, bench: &mut Bench, hand: &mut Hand, lot: &Lot) {
    let id = field();
    if ui.memory(|m| m.has_focus(id)) {
        let pressed = |key| ui.input_mut(|i| i.consume_key(Modifiers::NONE, key));
        if pressed(Key::ArrowDown) {
            go(hand, (hand.item + 1).min(lot.count));
        } else if pressed(Key::ArrowUp) {
            go(hand, hand.item.saturating_sub(1).max(1));
        }
    }
    let reads_in = hand.unit(bench.plan).symbol;
    ui.horizontal(|ui| {
        // Beside it: how many, the field, in what the scale reads.
        const BESIDE: f32 = 310.0;
        let width = (ui.available_width() - BESIDE).max(80.0);
        ui.scope(|ui| {
            ui.set_max_width(width);
            ui.add(Label::new(look::bold(format!("{} {}", lot.name, hand.item), look::LARGE)).truncate());
        });
        ui.label(look::caption(bench.look, format!("of {}", lot.count)));
        let field =
            TextEdit::singleline(&mut hand.typed).id(id).desired_width(120.0).font(FontId::proportional(look::LARGE));
        let field = ui.add(field.hint_text(reads_in));
        label(ui, &field, "weighed mass");
        if std::mem::take(&mut hand.wants_mass) {
            field.request_focus();
        }
        if field.changed() {
            hand.sentence = None;
        }
        if field.lost_focus() && ui.input(|i| i.key_pressed(Key::Enter)) {
            note(bench, hand, lot);
            field.request_focus();
        }
        units(ui, bench, hand);
    });
    match &hand.sentence {
        Some(sentence) => ui.colored_label(bench.look.ink(Ink::Wanted), sentence),
        None => ui.label(look::caption(
            bench.look,
            "Enter accepts it and goes to the next item; Enter in an empty field skips it; arrows go up and down",
        )),
    };
}

fn go(hand: &mut Hand, item: u32) {
    (hand.item, hand.sentence) = (item, None);
    hand.typed.clear();
}

fn note(bench: &mut Bench, hand: &mut Hand, lot: &Lot) {
    let item = hand.item;
    if !hand.typed.trim().is_empty() {
        match mass_as_typed(&hand.typed, hand.unit(bench.plan)) {
            Ok(mass) => {
                bench.edits.push(Edit::Weigh { lot: lot.name.clone(), masses: vec![(item, Some(mass))] });
            }
            Err(sentence) => {
                hand.sentence = Some(sentence);
                return;
            }
        }
    }
    let open = |other: &u32| *other != item && !lot.is_weighed(*other);
    let next = (item + 1..=lot.count).find(open).or_else(|| (1..item).find(open));
    go(hand, next.unwrap_or_else(|| (item + 1).min(lot.count)));
}

/// In what the scale reads, for numbers without a unit.
fn units(ui: &mut Ui, bench: &Bench, hand: &mut Hand) {
    let now = hand.unit(bench.plan).symbol;
    ui.label("scale reads in");
    let shown = egui::ComboBox::from_id_salt("scale reads in").selected_text(now).width(48.0).show_ui(ui, |ui| {
        for symbol in ["kg", "g", "lb"] {
            if ui.selectable_label(now == symbol, symbol).clicked() {
                hand.reads_in = Some(symbol);
            }
        }
    });
    label(ui, &shown.response, "scale reads in");
}

fn buttons(ui: &mut Ui, bench: &mut Bench, hand: &mut Hand) -> Option<Asked> {
    let mut asked = None;
    ui.horizontal_wrapped(|ui| {
        if ui.button("Paste a column").clicked() {
            hand.paste = Some(Paste::of(String::new()));
        }
        if ui.button("Open CSV").clicked() {
            asked = Some(Asked::OpenList);
        }
        if ui.button("Save CSV").clicked() {
            asked = Some(Asked::SaveList);
        }
        let Some(lot) = bench.plan.ballast.get(hand.lot) else { return };
        let take_back = egui::Button::new("Delete weighing");
        let shown = ui.add_enabled(lot.is_weighed(hand.item), take_back);
        if shown.on_hover_text("Removes the weighed mass of this item: the nominal mass counts again").clicked() {
            bench.edits.push(Edit::Weigh { lot: lot.name.clone(), masses: vec![(hand.item, None)] });
        }
    });
    asked
}

fn words(ui: &mut Ui, bench: &Bench, hand: &Hand, weighed: &Weighed) {
    let Weighed { lot, summary, outliers } = weighed;
    let units = bench.plan.units;
    ui.add_space(4.0);
    let wrapped = |ui: &mut Ui, text: RichText| drop(ui.add(Label::new(text).wrap()));
    wrapped(ui, in_words(lot, summary, units).into());
    let warn = |ui: &mut Ui, text: String| wrapped(ui, RichText::new(text).color(bench.look.ink(Ink::Wanted)));
    // A slip would drag the mean along: it comes first.
    if let Some(text) = off_nominal(lot, summary, units).filter(|_| outliers.is_empty()) {
        warn(ui, text);
    }
    wrapped(ui, buys(bench, hand.lot).into());
    let about =
        "± is two standard deviations of the pieces that were not weighed; what the scale itself is off is not in it.";
    wrapped(ui, look::caption(bench.look, about));
    for outlier in outliers {
        warn(ui, outlier.sentence(lot, units));
    }
}

fn shown(mass: Mass, units: Units) -> String {
    mass.shown(units, Grain::Coarse)
}

fn in_words(lot: &Lot, told: &Summary, units: Units) -> String {
    let (Some(mean), Some([least, most])) = (told.mean, told.range) else {
        return format!("None of {} weighed.", lot.count);
    };
    let told_of = |mass: Mass| as_weighed(lot, mass, units);
    let spread = told.deviation.map(|sd| format!(", standard deviation {}", told_of(sd))).unwrap_or_default();
    let (weighed, count) = (told.weighed, lot.count);
    format!("{weighed} of {count} weighed: mean {}{spread}, {} to {}.", told_of(mean), told_of(least), told_of(most))
}

/// Weighed pieces that are off the nominal mass say something of those that were not weighed.
fn off_nominal(lot: &Lot, told: &Summary, units: Units) -> Option<String> {
    let mean = told.mean.filter(|_| told.weighed >= 3 && told.left > 0)?;
    let off = mean - lot.mass;
    let word = if off.si() < 0.0 { "lighter" } else { "heavier" };
    let off = Mass::kg(off.si().abs());
    (off.si() > lot.mass_tolerance.si() / 2.0).then(|| {
        format!(
            "The weighed ones are {} {word} than nominal in the mean: so, probably, are the {} that are left.",
            shown(off, units),
            told.left
        )
    })
}

/// What weighing the rest of the lot in hand would change.
fn buys(bench: &Bench, lot: usize) -> String {
    let units = bench.plan.units;
    let known = assess::certainty(bench.plan);
    let (Some(left), Some(then)) = (known.left.get(lot), known.with_lot_weighed.get(lot)) else { return String::new() };
    let now = &known.now;
    match left {
        0 if bench.plan.stack.is_empty() => "No piece is placed yet: place some to see what weighing buys.".to_owned(),
        0 if now.independent.si() <= 0.0 => {
            "Every placed piece of the plan is weighed: what is left is what the scale itself is off.".to_owned()
        }
        0 => format!(
            "Every placed piece of it is weighed. Other lots leave ± {} on the applied load.",
            shown(now.independent, units)
        ),
        _ => format!(
            "Weigh the {left} placed ones that are left: applied load ± {} → ± {}; if a lot is off alike, ± {} → ± {}.",
            shown(now.independent, units),
            shown(then.independent, units),
            shown(now.alike, units),
            shown(then.alike, units)
        ),
    }
}

/// How far a mass is off the mean, with its sign; what rounds to nothing has none.
fn off_the_mean(lot: &Lot, mass: Mass, mean: Mass, units: Units) -> String {
    let off = mass - mean;
    let text = as_weighed(lot, Mass::kg(off.si().abs()), units);
    let nothing = text == as_weighed(lot, Mass::kg(0.0), units);
    let sign = match off.si() {
        _ if nothing => "",
        off if off < 0.0 => "−",
        _ => "+",
    };
    format!("{sign}{text}")
}

/// So high at most, points.
fn list(ui: &mut Ui, bench: &Bench, hand: &mut Hand, (weighed, high): (&Weighed, f32)) {
    ui.add_space(4.0);
    ui.spacing_mut().item_spacing.y = 0.0;
    heads(ui, bench.look);
    let mut area = ScrollArea::vertical().id_salt("weighing list").max_height(high).auto_shrink([false, true]);
    if let Some(offset) = scroll_to(hand, high) {
        area = area.vertical_scroll_offset(offset);
    }
    let rows = usize::try_from(weighed.lot.count).unwrap_or(usize::MAX);
    let out = area.show_rows(ui, LINE, rows, |ui, range| {
        for item in range.filter_map(|row| u32::try_from(row + 1).ok()) {
            line(ui, bench, hand, weighed, item);
        }
    });
    hand.scrolled = out.state.clamped_offset().y;
}

/// Where the list must be scrolled to, so that an item that was just taken in hand is seen.
fn scroll_to(hand: &mut Hand, high: f32) -> Option<f32> {
    if hand.seen == (hand.lot, hand.item) {
        return None;
    }
    hand.seen = (hand.lot, hand.item);
    let rows = u16::try_from(hand.item.saturating_sub(1)).unwrap_or(u16::MAX);
    let top = f32::from(rows) * LINE;
    let in_view = hand.scrolled..=hand.scrolled + high - 2.0 * LINE;
    (!in_view.contains(&top)).then(|| (top - high / 2.0).max(0.0))
}

/// As fine as the finest of its lot was noted, so that the numbers stand under one another: what weighing gave is not
/// rounded away.
fn as_weighed(lot: &Lot, mass: Mass, units: Units) -> String {
    let decimals =
        |text: &str| text.split(' ').next().and_then(|number| number.split_once('.')).map_or(0, |(_, d)| d.len());
    let finest = lot.weighed.values().map(|mass| decimals(&mass.at_rest(units, Grain::Coarse))).max().unwrap_or(0);
    let least = decimals(&shown(mass, units));
    let unit = units.unit(quantity::Kind::Mass, Grain::Coarse);
    format!("{:.*} {}", finest.max(least), mass.si() / unit.si, unit.symbol)
}

/// How far the farthest of a lot is off its mean.
fn reach(lot: &Lot, mean: Mass) -> Mass {
    Mass::kg(lot.weighed.values().map(|mass| (*mass - mean).si().abs()).fold(1e-6, f64::max))
}

/// Where a piece lies about the mean of its lot, to the right what is heavier.
fn dot(ui: &mut Ui, look: &Look, off: Mass, (reach, is_apart): (Mass, bool)) {
    const WIDE: f32 = 112.0;
    let (rect, _) = ui.allocate_exact_size(vec2(WIDE, LINE), egui::Sense::hover());
    let middle = rect.center();
    ui.painter().vline(middle.x, middle.y - 6.0..=middle.y + 6.0, egui::Stroke::new(1.0, look.rule()));
    #[expect(clippy::cast_possible_truncation, reason = "a part of one")]
    let part = (off.si() / reach.si()).clamp(-1.0, 1.0) as f32;
    let ink = look.ink(if is_apart { Ink::Wanted } else { Ink::Is });
    ui.painter().circle_filled(middle + vec2(part * (0.5 * WIDE - 8.0), 0.0), 3.5, ink);
}

fn heads(ui: &mut Ui, look: &Look) {
    ui.horizontal(|ui| {
        ui.allocate_ui_with_layout(vec2(NAME, LINE), Layout::left_to_right(Align::Center), |ui| {
            ui.set_min_width(NAME);
            ui.label(look::caption(look, "Item"));
        });
        for head in ["Mass", "Off the mean"] {
            column(ui, look::caption(look, head));
        }
    });
}

/// A cell of numbers, which stand at its right.
fn column(ui: &mut Ui, text: impl Into<egui::WidgetText>) {
    ui.allocate_ui_with_layout(vec2(NUMBER, LINE), Layout::right_to_left(Align::Center), |ui| {
        ui.set_min_width(NUMBER);
        ui.label(text);
    });
}

fn line(ui: &mut Ui, bench: &Bench, hand: &mut Hand, weighed: &Weighed, item: u32) {
    let (look, units, lot) = (bench.look, bench.plan.units, weighed.lot);
    let mass = lot.weighed.get(&item);
    let text = mass.map_or_else(|| "not weighed".to_owned(), |mass| as_weighed(lot, *mass, units));
    ui.horizontal(|ui| {
        let called = format!("{} {item}", lot.name);
        let name = name_cell(ui, hand.item == item, &called, vec2(NAME, LINE));
        label(ui, &name, &format!("{} {item}: {text}", lot.name));
        if name.clicked() {
            go(hand, item);
            hand.wants_mass = true;
        }
        match (mass, weighed.summary.mean) {
            (Some(mass), Some(mean)) => {
                let is_selected = histogram::is_in(hand.bar, *mass);
                let text =
                    if is_selected { look::bold(text, look::BODY).color(look.ink(Ink::Is)) } else { text.into() };
                column(ui, text);
                column(ui, look::caption(look, off_the_mean(lot, *mass, mean, units)));
                let is_apart = weighed.outliers.iter().any(|outlier| outlier.item == item);
                dot(ui, look, *mass - mean, (reach(lot, mean), is_apart));
                if is_apart {
                    ui.colored_label(look.ink(Ink::Wanted), "stands apart");
                }
            }
            _ => column(ui, look::caption(look, text)),
        }
    });
}
