//! The four numbers that matter, at every page's head, each with its picture.

mod offset;
mod pictures;
mod reserve;

use crate::look::Look;
use crate::pages::bar::{Bar, Tick};
use assess::{Assessment, Check, Decision, State};
use drafting::figure::Ink;
use drafting::sheet::{critical_factor, gives};
use eframe::egui::{self, Ui, vec2};
use offset::offset;
pub(crate) use offset::offset_words;
use pictures::{Number, Picture, Scale};
use plan::Plan;
use quantity::{Grain, Mass, Quantity};
use reserve::{at_most, reserve_words, reserve_words_of_step};

/// What the numbers are told of.
#[derive(Clone, Copy)]
pub(crate) struct Told<'a> {
    pub(crate) plan: &'a Plan,
    pub(crate) assessment: &'a Assessment,
    /// How many placements are looked at; fewer than all show the state after that step, with the
    /// end's beside it.
    pub(crate) placed: usize,
    /// The part of the full assessment that is done, while it runs.
    pub(crate) progress: Option<f32>,
}

/// A number of the head, and its chart over the steps.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub(crate) enum Chart {
    #[default]
    Load,
    Offset,
    Reserve,
    Scales,
}

impl Chart {
    /// In the order of the head.
    pub(crate) const ALL: [Self; 4] = [Self::Load, Self::Offset, Self::Reserve, Self::Scales];

    fn word(self) -> &'static str {
        match self {
            Self::Load => "applied load",
            Self::Offset => "offset",
            Self::Reserve => "reserve",
            Self::Scales => "scales",
        }
    }
}

/// The state for which the numbers stand.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Moment {
    /// Nothing is placed yet.
    Before,
    /// After a step, from 0, that is not the last one.
    After(usize),
    /// Everything is placed.
    End,
}

impl Told<'_> {
    fn moment(&self) -> Moment {
        match self.placed {
            0 => Moment::Before,
            placed if placed < self.plan.steps() => Moment::After(placed - 1),
            _ => Moment::End,
        }
    }

    /// The active step, from 0; none before the first.
    fn step(&self) -> Option<usize> {
        match self.moment() {
            Moment::Before => None,
            Moment::After(step) => Some(step),
            Moment::End => self.assessment.closed.steps.len().checked_sub(1),
        }
    }

    /// The state after it.
    fn state(&self) -> Option<&assess::StepState> {
        self.assessment.closed.steps.get(self.step()?)
    }

    /// `Applied at the end`, `Applied after step 12`, `Applied before step 1`.
    fn head(&self, what: &str) -> String {
        match self.moment() {
            Moment::Before => format!("{what} before step 1"),
            Moment::After(step) => format!("{what} after step {}", step + 1),
            Moment::End => format!("{what} at the end"),
        }
    }

    /// What holds at the end, for the second line while another state is looked at.
    fn at_the_end(&self, value: impl FnOnce() -> String) -> Option<String> {
        let other = self.moment() != Moment::End && !self.assessment.closed.steps.is_empty();
        other.then(|| format!("{} at the end", value()))
    }

    /// The worst state of some checks at the end: what is asked at the end is not asked on the way.
    fn state_of(&self, checks: &[Check]) -> Option<State> {
        let asked = self.assessment.findings.iter().filter(|f| checks.contains(&f.check));
        asked.map(|f| f.state).max().filter(|_| self.moment() == Moment::End)
    }
}

/// Two parts of a line, or the one that there is.
fn joined(first: Option<String>, second: Option<String>) -> String {
    first.into_iter().chain(second).collect::<Vec<_>>().join(" · ")
}

/// Shows them; the one whose chart stands in the timeline is underlined. Gives the chart that was asked for.
pub(crate) fn show(ui: &mut Ui, look: &Look, told: Told, chart: Option<Chart>) -> Option<Chart> {
    let area = egui::Rect::from_min_size(ui.cursor().min, vec2(ui.available_width(), HEIGHT));
    ui.allocate_rect(area, egui::Sense::hover());
    let width = area.width() / 4.0;
    let mut asked = None;
    let numbers = [applied(told), offset(told), reserve(told), supports(told)];
    for (index, (of, number)) in (0_u8..).zip(Chart::ALL.into_iter().zip(numbers)) {
        let at = area.min + vec2(width * f32::from(index), 0.0);
        let rect = egui::Rect::from_min_size(at, vec2(width - GAP, HEIGHT));
        ui.scope_builder(egui::UiBuilder::new().max_rect(rect).id_salt(of), |ui| pictures::number(ui, look, &number));
        if index > 0 {
            let x = at.x - GAP / 2.0;
            ui.painter().vline(x, area.y_range(), egui::Stroke::new(1.0, look.rule()));
        }
        if chart.is_some() && chosen(ui, look, rect, (of, chart == Some(of))) {
            asked = Some(of);
        }
    }
    asked
}

/// Height of the numbers with their pictures, points.
const HEIGHT: f32 = 68.0;
/// Between two numbers.
const GAP: f32 = 32.0;

/// A number that can be pressed for its chart; whether it was.
fn chosen(ui: &Ui, look: &Look, rect: egui::Rect, (of, is_chosen): (Chart, bool)) -> bool {
    let response = ui.interact(rect, egui::Id::unique(("chart of", of)), egui::Sense::click());
    let name = format!("Chart: {}", of.word());
    response.widget_info(|| egui::WidgetInfo::selected(egui::Role::Button, true, is_chosen, &name));
    if is_chosen || response.hovered() || response.has_focus() {
        let ink = if is_chosen { look.ink(Ink::Is) } else { look.rule() };
        ui.painter().hline(rect.x_range(), rect.bottom() + 3.5, egui::Stroke::new(2.5, ink));
    }
    response.clicked()
}

fn applied(told: Told) -> Number {
    let (plan, assessment) = (told.plan, told.assessment);
    let shown = |kg: f64| Mass::kg(kg).shown(plan.units, Grain::Coarse);
    let applied = told.state().map_or(0.0, |s| s.applied_kg);
    let note = assessment.closed.load.map(|load| {
        let ultimate = load.ultimate.as_mass().shown(plan.units, Grain::Coarse);
        let straps =
            told.state().and_then(|s| s.on_seat).map(|on_seat| format!(" · with straps {}", shown(on_seat.mass_kg)));
        format!(
            "{:.1} % · of {ultimate} ultimate{}",
            load.fraction(Mass::kg(applied)) * 100.0,
            straps.unwrap_or_default()
        )
    });
    let bar = assessment.closed.load.map(|load| {
        let [limit, ultimate] = [load.limit.as_mass().si(), load.ultimate.as_mass().si()];
        let ticks = [(0.5 * limit, "half limit"), (limit, "limit"), (ultimate, "ultimate")];
        let ticks = ticks.into_iter().map(|(at, word)| Tick::new(at, word)).collect();
        Bar { value: Some(applied), ticks, end: 1.06 * ultimate.max(applied) }
    });
    Number {
        picture: bar.map_or(Picture::None, Picture::Bar),
        state: None,
        head: told.head("Applied"),
        value: shown(applied),
        note: joined(note, told.at_the_end(|| shown(assessment.closed.applied_kg()))),
        in_order: told.state_of(&[Check::AppliedLoad, Check::SeatWithStraps]) != Some(State::Fails),
        about: "Mass of all placed pieces, bags and boards: what bears on the seat. Held against the ultimate load of the active load case: occupant mass x limit load factor x factor of safety x special factors.".to_owned(),
    }
}

/// The least reserve of all steps; while a step is looked at, that step's with the least beside it.
fn reserve(told: Told) -> Number {
    let (plan, assessment) = (told.plan, told.assessment);
    let weakest = assessment.weakest_step();
    let least = weakest.and_then(|step| assessment.reserve(step));
    let place = weakest.map_or(String::new(), |k| format!("step {} · ", k + 1));
    let asked = format!("required {:.2}", plan.allow.collapse);
    let here = match told.moment() {
        Moment::Before => None,
        Moment::After(step) => assessment.reserve(step),
        Moment::End => least,
    };
    let (head, note) = match told.moment() {
        Moment::End => {
            // What is required comes first: where the line is cut off, the findings tell the rest.
            let note = match least.and_then(|least| least.tips_words(plan)) {
                Some(tips) => format!("{asked} · {place}{tips}"),
                None => format!("{place}level push by weight · {asked}"),
            };
            ("Least reserve of all steps".to_owned(), note)
        }
        _ => {
            let of_all = weakest.map(|_| {
                format!(
                    "least of all: {place}{}",
                    if assessment.exact.is_none() { at_most(least) } else { reserve_words(least) }
                )
            });
            let tips = here.and_then(|here| here.tips_words(plan));
            (
                told.head("Reserve"),
                joined(Some(asked), of_all.into_iter().chain(tips).reduce(|all, tips| format!("{all} · {tips}"))),
            )
        }
    };
    let least_push = match here.map(|here| here.least) {
        Some(Decision::Decided(push)) => Some(push.multiplier.max(0.0)),
        _ => None,
    };
    let required = Tick::new(plan.allow.collapse, format!("required {:.2}", plan.allow.collapse));
    let end = (2.5 * plan.allow.collapse).max(1.15 * least_push.unwrap_or_default());
    // Of an upper bound only that it is too little is told by a picture: a full bar would reassure.
    let is_known = assessment.exact.is_some() || least_push.is_some_and(|push| push < plan.allow.collapse);
    let bar = Picture::Bar(Bar { value: least_push.filter(|_| is_known), ticks: vec![required], end });
    let state = told.state_of(&STANDING);
    Number {
        picture: told.progress.map_or(bar, Picture::Solving),
        state,
        head,
        value: match told.moment() {
            _ if assessment.exact.is_none() => at_most(here),
            Moment::End => reserve_words(here),
            _ => reserve_words_of_step(told, here),
        },
        note,
        in_order: here.is_none_or(|here| holds_out(here.least, plan.allow.collapse)) && state != Some(State::Fails),
        about: format!("{RESERVE}{}", critical_words(told)),
    }
}

const RESERVE: &str = "The least level push on every piece, as a fraction of its weight, that brings the stack down, and the way it goes (floor frame): the lesser of what rigid pieces bear and what the stack bears as its bags give. Solved over all plan directions; with friction an upper bound of the true reserve. Until it is solved a closed form stands here, which is an upper bound.";

/// How many times its weight the stack in hand would bear before it leans over by itself; nothing where nothing
/// gives, or where that is not worked out.
fn critical_words(told: Told) -> String {
    let soft = told.assessment.exact.as_ref().and_then(|exact| exact.soft.as_ref());
    let step = match told.moment() {
        Moment::End => soft.and_then(|soft| soft.usual.least_critical()).map(|(step, _)| step),
        _ => told.step(),
    };
    let step = step.filter(|step| gives(told.plan, *step));
    let state = soft.zip(step).and_then(|(soft, step)| soft.usual.steps.get(step));
    let factor = state.and_then(|state| state.end.critical()).filter(|factor| factor.is_finite());
    let words = |((step, factor), required): ((usize, f64), f64)| {
        format!("\n\nCritical load factor {} after step {}, required {required:.1}.", critical_factor(factor), step + 1)
    };
    step.zip(factor).map(|known| words((known, told.plan.allow.critical))).unwrap_or_default()
}

/// The checks that say whether the stack stands.
const STANDING: [Check; 4] = [Check::EveryStepStands, Check::CollapseReserve, Check::TipMargin, Check::EveryPieceRests];

/// Whether a reserve reaches what is asked; what is not decided does not.
fn holds_out(reserve: Decision, asked: f64) -> bool {
    match reserve {
        Decision::NotLimited => true,
        Decision::Decided(reserve) => reserve.multiplier >= asked,
        Decision::NotDecided { .. } | Decision::Falls | Decision::Loose => false,
    }
}

/// What each support shows in the state in hand, as solved; until then what all of them carry
/// together.
fn supports(told: Told) -> Number {
    let (plan, assessment) = (told.plan, told.assessment);
    let solved = assessment.exact.as_ref().and_then(|exact| exact.expected.get(told.placed)?.as_ref());
    let Some(solved) = solved else { return together(told) };
    let straps = plan.fixture.hold_downs.iter().zip(&solved.straps_n).map(|(strap, tension_n)| {
        format!("{} {}", strap.name, quantity::Force::n(*tension_n).shown(plan.units, Grain::Coarse))
    });
    let straps = straps.collect::<Vec<_>>().join(", ");
    let straps = if straps.is_empty() { straps } else { format!("\n\nStraps: {straps}.") };
    let shown = |kg: f64| Mass::kg(kg).shown_bare(plan.units, Grain::Coarse);
    let scales = plan.fixture.supports.iter().zip(&solved.supports_kg).map(|(support, kg)| Scale {
        name: support.name.clone(),
        kg: *kg,
        capacity_kg: support.capacity.map(Quantity::si),
        value: shown(kg + 0.0),
        of: match support.capacity {
            Some(capacity) => format!("of {}", capacity.shown(plan.units, Grain::Coarse)),
            None => "no limit given".to_owned(),
        },
    });
    let state = told.state_of(&CARRYING);
    Number {
        picture: Picture::Scales(scales.collect()),
        state,
        head: supports_head(told),
        value: String::new(),
        note: String::new(),
        in_order: state != Some(State::Fails),
        about: format!("{SUPPORTS}{straps}"),
    }
}

/// What the supports' part is called, and which of them stand in it where not all do.
fn supports_head(told: Told) -> String {
    let supports = &told.plan.fixture.supports;
    let head = told.head(if supports.iter().any(|s| s.scale) { "Scales" } else { "On the supports" });
    joined(Some(head), pictures::shown_of(supports.len()))
}

/// The checks that say whether the fixture carries; the first two of them by closed form.
const CARRYING: [Check; 6] =
    [Check::Footprint, Check::BareArticle, Check::StrapStretch, Check::ArticleStands, Check::Scales, Check::StrapPull];

const SUPPORTS: &str = "What each support shows in this state, in the order of their names: article, stack and the pull of straps, as solved.";

fn together(told: Told) -> Number {
    let Told { plan, progress, .. } = told;
    let shown = |kg: f64| Mass::kg(kg).shown(plan.units, Grain::Coarse);
    let (article, stack) = (plan.article.mass.si(), told.state().map_or(0.0, |s| s.applied_kg));
    Number {
        picture: progress.map_or(Picture::None, Picture::Solving),
        state: None,
        head: told.head("On the supports in all"),
        value: shown(article + stack),
        note: format!("article {} + stack {} · straps left out", shown(article), shown(stack)),
        in_order: told.state_of(if progress.is_some() { &CARRYING[..2] } else { &CARRYING }) != Some(State::Fails),
        about: SUPPORTS.to_owned(),
    }
}
