//! Stacks that the program laid out, side by side over the page: the stack as it is, the best so far
//! while it works, then up to three that differ in kind. One is taken, as one step of undo.

mod column;

use crate::arranger::{Arranger, Laid, Question};
use crate::look::{self, Look};
use crate::shown::Shown;
use arrange::{Kind, Numbers};
use assess::State;
use column::Column;
use drafting::cautions::CAUTION_LINE;
use drafting::figure::Ink;
use eframe::egui::{self, Context, Key, ScrollArea, Ui};
use plan::Edit;
use quantity::{Grain, Length, Quantity, Units};

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

/// Shows what was found so far; says what is asked.
pub(crate) fn show(ctx: &Context, look: &Look, shown: &Shown, arranger: &Arranger) -> Asked {
    let mut asked = Asked::Stay;
    let frame = egui::Frame::popup(&ctx.global_style()).inner_margin(16);
    let modal = egui::Modal::new(egui::Id::unique("proposals")).frame(frame).show(ctx, |ui| {
        let columns = 1 + arranger.found.len().max(1);
        #[expect(clippy::cast_precision_loss, reason = "four columns at most")]
        let width = (COLUMN + 16.0) * columns as f32;
        ui.set_width(width.max(560.0).min(ctx.content_rect().width() - 60.0));
        head(ui, look, arranger, &mut asked);
        ui.add_space(6.0);
        let height = ctx.content_rect().height() - 150.0;
        ScrollArea::both().max_height(height).min_scrolled_height(height.min(560.0)).show(ui, |ui| {
            side_by_side(ui, look, (shown, arranger), &mut asked);
        });
        ui.add_space(4.0);
        let check = "Check every step before a bag is lifted. ";
        let caution = look::caption(look, format!("{check}{CAUTION_LINE}")).color(look.ink(Ink::Wanted));
        ui.add(egui::Label::new(caution).wrap());
    });
    let escape = ctx.input_mut(|i| i.consume_key(egui::Modifiers::NONE, Key::Escape));
    if matches!(asked, Asked::Stay) && (modal.should_close() || escape) { Asked::Leave } else { asked }
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
            let bar = egui::ProgressBar::new(part).desired_height(10.0).fill(look.ink(Ink::Is));
            ui.add(bar);
            ui.label(look::caption(look, "Working: the best so far is shown."));
        }
        None => drop(ui.label(look::caption(look, told(arranger)))),
    }
}

/// What came of it, in a sentence.
fn told(arranger: &Arranger) -> String {
    let holds = arranger.found.iter().filter(|laid| laid.proposal.in_order()).count();
    match (arranger.found.len(), holds) {
        (0, _) => "No stack was found: the search was stopped before the first one.".to_owned(),
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
    ui.horizontal_top(|ui| {
        let numbers_now = Numbers::of(&shown.plan, &shown.assessment);
        let (plan, assessment) = (&shown.plan, &shown.assessment);
        let column = Column { look, name: "as it is", plan, assessment, numbers: numbers_now, extent };
        column.show(ui, COLUMN, |_| {});
        for laid in &arranger.found {
            let Laid { proposal, plan } = laid;
            let (name, numbers) = (proposal.kind.word(), proposal.numbers);
            let column = Column { look, name, plan, assessment: &proposal.assessment, numbers, extent };
            column.show(ui, COLUMN, |ui| {
                if ui.button(format!("Use this: {name}")).clicked() {
                    *asked = Asked::Take(proposal.edit());
                }
                told_changes(ui, look, (&shown.plan, &numbers_now), laid);
                for sentence in proposal.strap_changes(&shown.plan) {
                    ui.add(egui::Label::new(look::caption(look, sentence)).wrap());
                }
                for near in proposal.assessment.findings.iter().filter(|finding| finding.state == State::Caution) {
                    let text = look::caption(look, format!("Caution: {}", near.check.heading()));
                    ui.add(egui::Label::new(text).wrap()).on_hover_text(&near.text);
                }
                for short in &proposal.shortfalls {
                    let proven = if short.is_certain { "No stack can correct this. " } else { "" };
                    let text = format!("{}: {proven}{}", short.check.heading(), short.sentence);
                    ui.add(egui::Label::new(look::caption(look, text)).wrap());
                }
            });
        }
    });
}
