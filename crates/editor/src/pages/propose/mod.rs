//! Stacks that the program laid out, side by side over the page: the stack as it is, the best so far
//! while it works, then up to three that differ in kind. One is taken, as one step of undo.

mod column;

use crate::arranger::{Arranger, Laid, Question};
use crate::look::{self, Look};
use crate::shown::Shown;
use arrange::{Change, Kind, Numbers};
use assess::{Gap, State};
use column::Column;
use drafting::cautions::CAUTION_LINE;
use drafting::figure::Ink;
use eframe::egui::{self, Context, Key, ScrollArea, Ui};
use plan::Edit;
use quantity::{Grain, Length, Quantity, Units};
use std::collections::BTreeSet;

/// What the user asks of it.
pub(crate) enum Asked {
    /// Nothing: it stays.
    Stay,
    /// To leave it.
    Leave,
    /// To take a stack over.
    Take(Edit),
    /// Other stacks, from this seed.
    Again(u64),
}

/// The width of a column.
const COLUMN: f32 = 252.0;
/// The height of the bar that tells how far it got.
const BAR: f32 = 10.0;
/// The height of the columns, where there is room for it.
const HEIGHT: f32 = 620.0;

/// Shows what was found so far; says what is asked.
pub(crate) fn show(ctx: &Context, look: &Look, shown: &Shown, arranger: &Arranger) -> Asked {
    let mut asked = Asked::Stay;
    egui::Modal::new(egui::Id::unique("proposals")).frame(look::dialog(ctx)).show(ctx, |ui| {
        let room = ctx.content_rect().size();
        ui.set_width(((COLUMN + 16.0) * columns(arranger.question)).min(room.x - 60.0));
        head(ui, look, arranger, &mut asked);
        ui.add_space(6.0);
        // As high and as wide while it works as at its end, so that no button moves away under a pointer.
        let height = HEIGHT.min(room.y - 160.0);
        ScrollArea::both().auto_shrink(false).max_height(height).min_scrolled_height(height).show(ui, |ui| {
            side_by_side(ui, look, (shown, arranger), &mut asked);
        });
        ui.add_space(4.0);
        let check = "Check every step before a bag is lifted. ";
        let caution = look::caption(look, format!("{check}{CAUTION_LINE}")).color(look.ink(Ink::Wanted));
        ui.add(egui::Label::new(caution).wrap());
    });
    let escape = ctx.input_mut(|i| i.consume_key(egui::Modifiers::NONE, Key::Escape));
    // A press beside it leaves what was found where it is: a search takes seconds, and nobody wants it lost by a slip.
    if matches!(asked, Asked::Stay) && escape { Asked::Leave } else { asked }
}

/// The most stacks that there can be, beside the one that lies there.
fn columns(question: Question) -> f32 {
    match question {
        Question::Propose { .. } => 4.0,
        Question::Order | Question::Trim => 2.0,
    }
}

fn title(question: Question) -> &'static str {
    match question {
        Question::Propose { .. } => "Propose a stack",
        Question::Order => "Order the stack",
        Question::Trim => "Center the stack",
    }
}

fn head(ui: &mut Ui, look: &Look, arranger: &Arranger, asked: &mut Asked) {
    ui.horizontal(|ui| {
        ui.label(look::bold(title(arranger.question), 15.0));
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            if ui.button("Close").clicked() {
                *asked = Asked::Leave;
            }
            if arranger.progress().is_some() {
                if ui.button("Stop, keep the best so far").clicked() {
                    arranger.stop();
                }
            } else if let Question::Propose { seed } = arranger.question {
                let hover = "Searches again from other random numbers.";
                if ui.button("Search again").on_hover_text(hover).clicked() {
                    *asked = Asked::Again(seed + 1);
                }
            }
        });
    });
    match arranger.progress() {
        Some(part) => {
            let bar = egui::ProgressBar::new(part).desired_height(BAR).fill(look.ink(Ink::Is));
            ui.add(bar);
            ui.label(look::caption(look, "Working: the best so far is shown."));
        }
        None => {
            // Where the bar was: nothing moves at the end.
            ui.allocate_space(egui::vec2(ui.available_width(), BAR));
            ui.label(look::caption(look, told(arranger)));
        }
    }
}

/// What came of it, in a sentence.
fn told(arranger: &Arranger) -> String {
    let holds = arranger.found.iter().filter(|laid| laid.proposal.in_order()).count();
    match (arranger.found.len(), holds) {
        (0, _) => "No stack was found: the search was stopped before the first one.".to_owned(),
        (_, 0) if arranger.found.iter().all(|laid| laid.proposal.is_empty()) => {
            "No piece can be laid. What stands in the way is listed and drawn below, and stays in the views when this is \
             closed."
                .to_owned()
        }
        (_, 0) => {
            "No stack was found without a check that fails or is undecided. What stands in the way is listed below it."
                .to_owned()
        }
        (1, _) => arranger.found[0].proposal.assessment.tally().closing(),
        (count, _) => format!(
            "{count} stacks that differ in kind. For {holds} of them no check fails and none is undecided. This does not say that a stack is safe."
        ),
    }
}

/// What an ordered or a centred stack changes, what that gains and what it costs: nobody looks for the two bags among
/// thirty.
fn told_changes(ui: &mut Ui, look: &Look, (before, now): (&plan::Plan, &Numbers), laid: &Laid) {
    const MOST: usize = 12;
    if !matches!(laid.proposal.kind, Kind::Ordered | Kind::Trimmed) {
        return;
    }
    let changes: Vec<String> = laid.proposal.changes.iter().map(|change| change.sentence(before.units)).collect();
    ui.add_space(4.0);
    ui.spacing_mut().item_spacing.y = 1.0;
    if changes.is_empty() {
        ui.label("Changes nothing: no gain that anybody can measure was found.");
        return;
    }
    ui.label(look::bold(if changes.len() == 1 { "One change" } else { "What changes" }, look::BODY));
    for change in changes.iter().take(MOST) {
        ui.add(egui::Label::new(egui::RichText::new(change).size(look::SMALL)).wrap());
    }
    if changes.len() > MOST {
        ui.label(look::caption(look, format!("and {} more", changes.len() - MOST)))
            .on_hover_text(changes[MOST..].join("\n"));
    }
    ui.add(egui::Label::new(look::caption(look, gain((now, &laid.proposal.numbers), before.units))).wrap());
    ui.add(egui::Label::new(look::caption(look, cost(&laid.proposal.changes, before.stack.len()))).wrap());
}

/// What a change of the plan's own stack costs, in a sentence: the pieces that hands lay otherwise than planned.
fn cost(changes: &[Change], pieces: usize) -> String {
    let steps = changes.iter().flat_map(|change| match change {
        Change::Step { to: step, .. } | Change::Replacement { step, .. } => vec![*step],
        Change::Exchange { steps, .. } => steps.to_vec(),
        Change::Shift { steps, .. } => steps.clone(),
    });
    let touched = steps.collect::<BTreeSet<usize>>().len();
    let what = if touched == 1 { "piece is" } else { "pieces are" };
    format!("Cost: {touched} of {pieces} {what} laid otherwise than planned.")
}

/// What a change of the plan's own stack gains, in a sentence.
fn gain((before, after): (&Numbers, &Numbers), units: Units) -> String {
    let mm = |m: f64| Length::m(m).shown(units, Grain::Fine);
    let off = |numbers: &Numbers| mm(numbers.offset_m[0].hypot(numbers.offset_m[1]));
    let reserve = |numbers: &Numbers| numbers.reserve.map_or("none".to_owned(), |reserve| format!("{reserve:.2}"));
    format!(
        "Gain: offset at ultimate from {} to {}, at a hold at worst from {} to {}, least reserve from {} to {}.",
        off(before),
        off(after),
        mm(before.worst_at_holds_m),
        mm(after.worst_at_holds_m),
        reserve(before),
        reserve(after)
    )
}

fn side_by_side(ui: &mut Ui, look: &Look, (shown, arranger): (&Shown, &Arranger), asked: &mut Asked) {
    let extent = arranger.found.iter().map(|laid| column::extent(&laid.plan, &laid.proposal.assessment));
    let now = column::extent(&shown.plan, &shown.assessment);
    let extent = extent.fold(now, column::around_both);
    let extent = arranger.found.iter().flat_map(gaps).fold(extent, column::around_gap);
    ui.horizontal_top(|ui| {
        let numbers_now = Numbers::of(&shown.plan, &shown.assessment);
        let (plan, assessment) = (&shown.plan, &shown.assessment);
        let column =
            Column { look, name: "as it is", plan, assessment, numbers: numbers_now, gaps: Vec::new(), extent };
        column.show(ui, COLUMN, |_| {});
        for laid in &arranger.found {
            let Laid { proposal, plan } = laid;
            let (name, numbers) = (named(laid, arranger), proposal.numbers);
            let column =
                Column { look, name, plan, assessment: &proposal.assessment, numbers, gaps: gaps(laid), extent };
            column.show(ui, COLUMN, |ui| {
                // Nothing is no stack: it would only take the builder's own away.
                if !proposal.is_empty() && ui.button(format!("Use this: {name}")).clicked() {
                    *asked = Asked::Take(proposal.edit());
                }
                told_changes(ui, look, (&shown.plan, &numbers_now), laid);
                told_in_words(ui, look, &shown.plan, laid);
            });
        }
    });
}

fn named(laid: &Laid, arranger: &Arranger) -> &'static str {
    match (laid.proposal.kind, arranger.progress()) {
        _ if laid.proposal.is_empty() => "nothing laid",
        (Kind::Attempt, Some(_)) => "best so far",
        (kind, _) => kind.word(),
    }
}

fn gaps(laid: &Laid) -> Vec<&Gap> {
    laid.proposal.shortfalls.iter().filter_map(|short| short.gap.as_ref()).collect()
}

/// What it falls short of comes first; then straps and cautions.
fn told_in_words(ui: &mut Ui, look: &Look, before: &plan::Plan, laid: &Laid) {
    let proposal = &laid.proposal;
    for short in &proposal.shortfalls {
        let proven = if short.is_certain { "No stack can correct this. " } else { "" };
        let text = format!("{}: {proven}{}", short.check.heading(), short.sentence);
        ui.add(egui::Label::new(look::caption(look, text)).wrap());
    }
    for sentence in proposal.by_turns.iter().cloned().chain(proposal.strap_changes(before)) {
        ui.add(egui::Label::new(look::caption(look, sentence)).wrap());
    }
    for near in proposal.assessment.findings.iter().filter(|finding| finding.state == State::Caution) {
        let text = look::caption(look, format!("Caution: {}", near.check.heading()));
        ui.add(egui::Label::new(text).wrap()).on_hover_text(&near.text);
    }
}
