//! Strips over the steps, sharing one axis: applied load, offsets, reserve, scale readings.

use super::Table;
use crate::look;
use assess::Decision;
use drafting::figure::Ink;
use eframe::egui::{self, Id, Ui, vec2};
use egui_plot::{GridMark, HLine, HoverPosition, Line, LineStyle, Plot, PlotUi, Polygon, VLine};
use quantity::{Grain, Kind, Quantity};

/// The span of a strip's upright axis.
type Span = [f64; 2];

pub(super) fn show(ui: &mut Ui, table: &mut Table) {
    let gap = 14.0;
    let width = (ui.available_width() - 3.0 * gap) / 4.0;
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = gap;
        strip(ui, table, width, &load_strip(table));
        strip(ui, table, width, &offset_strip(table));
        strip(ui, table, width, &margin_strip(table));
        strip(ui, table, width, &scale_strip(table));
    });
}

/// One strip: its curves and what they are held against.
struct Strip {
    head: String,
    curves: Vec<(String, Ink, LineStyle, Vec<[f64; 2]>)>,
    limits: Vec<(String, f64)>,
    band: Option<Span>,
    span: Span,
    decimals: usize,
}

fn step_number(step: usize) -> f64 {
    f64::from(u32::try_from(step + 1).unwrap_or(u32::MAX))
}

fn load_strip(table: &Table) -> Strip {
    let assessment = &table.shown.assessment;
    let unit = table.shown.plan.units.unit(Kind::Mass, Grain::Coarse);
    let points: Vec<_> =
        assessment.steps.iter().enumerate().map(|(k, s)| [step_number(k), s.applied_kg / unit.si]).collect();
    let mut limits = Vec::new();
    if let Some(load) = assessment.load {
        limits.push(("limit".to_owned(), load.limit.as_mass().si() / unit.si));
        limits.push(("ultimate".to_owned(), load.ultimate.as_mass().si() / unit.si));
    }
    let top = points.iter().map(|p| p[1]).chain(limits.iter().map(|l| l.1)).fold(1.0, f64::max);
    Strip {
        head: format!("Applied load, {}", unit.symbol),
        curves: vec![("applied".to_owned(), Ink::Is, LineStyle::Solid, points)],
        limits,
        band: None,
        span: [0.0, top * 1.12],
        decimals: 0,
    }
}

fn offset_strip(table: &Table) -> Strip {
    let assessment = &table.shown.assessment;
    let unit = table.shown.plan.units.unit(Kind::Length, Grain::Fine);
    let [fore_aft, lateral] = table.shown.plan.target.tolerance().map(|t| t.si() / unit.si);
    let curve = |axis: usize| -> Vec<[f64; 2]> {
        assessment.steps.iter().enumerate().map(|(k, s)| [step_number(k), s.offset_m[axis] / unit.si]).collect()
    };
    // The first pieces lie far off by nature; the band must stay legible.
    let most = fore_aft.max(lateral) * 4.0;
    Strip {
        head: format!("Offset, {} · dashed lateral", unit.symbol),
        curves: vec![
            ("fore and aft".to_owned(), Ink::Is, LineStyle::Solid, curve(0)),
            ("lateral".to_owned(), Ink::Is, LineStyle::dashed_dense(), curve(1)),
        ],
        limits: Vec::new(),
        band: Some([-fore_aft, fore_aft]),
        span: [-most, most],
        decimals: if unit.symbol == "mm" { 0 } else { 2 },
    }
}

/// The reserve as solved; until then the closed form, dashed, which is an upper bound.
fn margin_strip(table: &Table) -> Strip {
    let assessment = &table.shown.assessment;
    let allowed = table.shown.plan.allow.collapse;
    let point = |(k, least): (usize, Decision)| match least {
        Decision::Decided(reserve) => Some([step_number(k), reserve.multiplier]),
        _ => None,
    };
    let solved = assessment.exact.as_ref();
    let closed = assessment.steps.iter().map(|s| s.least).enumerate().filter_map(point).collect();
    let points: Vec<_> = match solved {
        Some(exact) => exact.steps.iter().map(|s| s.least).enumerate().filter_map(point).collect(),
        None => closed,
    };
    let top = points.iter().map(|p| p[1]).fold(allowed * 2.0, f64::max);
    let style = if solved.is_some() { LineStyle::Solid } else { LineStyle::dashed_dense() };
    Strip {
        head: if solved.is_some() { "Reserve, level push by weight" } else { "Reserve, upper bound" }.to_owned(),
        curves: vec![("reserve".to_owned(), Ink::Is, style, points)],
        limits: vec![("asked".to_owned(), allowed)],
        band: None,
        span: [0.0, top * 1.12],
        decimals: 2,
    }
}

/// What each scale should show, with the least capacity.
fn scale_strip(table: &Table) -> Strip {
    let (plan, assessment) = (&table.shown.plan, &table.shown.assessment);
    let unit = plan.units.unit(Kind::Mass, Grain::Coarse);
    let reading = |support: usize| -> Vec<[f64; 2]> {
        let steps = assessment.exact.iter().flat_map(|exact| exact.fixture.iter().enumerate());
        let shown = steps
            .filter_map(|(k, f)| Some([step_number(k), f.settled.reactions()?.supports[support].reading_kg / unit.si]));
        shown.collect()
    };
    let styles = [LineStyle::Solid, LineStyle::dashed_dense(), LineStyle::dotted_dense(), LineStyle::dashed_loose()];
    let scales = plan.fixture.supports.iter().enumerate().filter(|(_, s)| s.scale);
    let curves: Vec<_> = scales
        .enumerate()
        .map(|(line, (index, support))| (support.name.clone(), Ink::Is, styles[line % styles.len()], reading(index)))
        .collect();
    let capacity =
        plan.fixture.supports.iter().filter(|s| s.scale).filter_map(|s| s.capacity).map(|c| c.si() / unit.si);
    let limits: Vec<_> = capacity.reduce(f64::min).map(|c| ("least capacity".to_owned(), c)).into_iter().collect();
    let readings = curves.iter().flat_map(|c| c.3.iter().map(|p| p[1]));
    let top = readings.chain(limits.iter().map(|l| l.1)).fold(1.0, f64::max);
    let head = if assessment.exact.is_some() { "Scales" } else { "Scales, being worked out" };
    Strip { head: format!("{head}, {}", unit.symbol), curves, limits, band: None, span: [0.0, top * 1.12], decimals: 0 }
}

fn strip(ui: &mut Ui, table: &mut Table, width: f32, strip: &Strip) {
    ui.allocate_ui(vec2(width, 112.0), |ui| {
        ui.vertical(|ui| {
            ui.set_width(width);
            ui.spacing_mut().item_spacing.y = 2.0;
            ui.add(egui::Label::new(look::caption(table.look, &strip.head)).truncate());
            let steps = table.shown.plan.steps();
            let placed = table.hand.placed();
            let (decimals, span) = (strip.decimals, strip.span);
            let shown = Plot::new(strip.head.split(',').next().unwrap_or_default())
                .height(92.0)
                .width(width)
                .show_x(false)
                .show_grid([false, true])
                .show_axes([false, true])
                .y_axis_min_width(38.0)
                .y_grid_spacer(move |_| marks(span))
                .y_axis_formatter(move |mark, _| format!("{:.decimals$}", mark.value + 0.0))
                .allow_drag(false)
                .allow_zoom(false)
                .allow_scroll(false)
                .allow_boxed_zoom(false)
                .allow_double_click_reset(false)
                .auto_bounds([false, false])
                .set_margin_fraction(vec2(0.0, 0.0))
                .link_cursor(Id::unique("strips"), [true, false])
                .label_formatter(move |hover| words(hover, decimals))
                .show(ui, |plot| {
                    plot.set_plot_bounds_x(0.5..=step_number(steps.max(1)) - 0.5);
                    plot.set_plot_bounds_y(strip.span[0]..=strip.span[1]);
                    curves(plot, table, strip, placed);
                });
            let response = shown.response;
            if response.clicked()
                && let Some(at) = response.interact_pointer_pos()
            {
                let step = shown.transform.value_from_position(at).x.round().max(1.0);
                #[expect(
                    clippy::cast_possible_truncation,
                    clippy::cast_sign_loss,
                    reason = "at least one, at most the steps"
                )]
                table.hand.go_to((step as usize).min(steps));
            }
        });
    });
}

/// Three or four round marks over a span.
fn marks([low, high]: Span) -> Vec<GridMark> {
    let rough = (high - low) / 4.0;
    let power = 10_f64.powf(rough.log10().floor());
    let step = [1.0, 2.0, 5.0, 10.0].map(|m| m * power).into_iter().find(|s| *s >= rough).unwrap_or(rough);
    let first = (low / step).ceil();
    (0..6_u32)
        .map(|i| (first + f64::from(i)) * step)
        .filter(|value| *value < high - 0.03 * (high - low))
        .map(|value| GridMark { value, step_size: step })
        .collect()
}

fn curves(plot: &mut PlotUi, table: &Table, strip: &Strip, placed: usize) {
    let look = table.look;
    if let Some([low, high]) = strip.band {
        let last = step_number(table.shown.plan.steps());
        let corners = vec![[0.0, low], [last, low], [last, high], [0.0, high]];
        let fill = look.ink(Ink::Wanted).gamma_multiply(0.14);
        plot.polygon(Polygon::new("tolerance", corners).fill_color(fill).stroke(egui::Stroke::NONE).allow_hover(false));
    }
    for (name, at) in &strip.limits {
        let line = HLine::new(name, *at).color(look.ink(Ink::Wanted)).style(LineStyle::dashed_loose()).width(1.0);
        plot.hline(line);
    }
    for (name, ink, style, points) in &strip.curves {
        plot.line(Line::new(name, points.clone()).color(look.ink(*ink)).style(*style).width(1.5));
    }
    if placed > 0 {
        plot.vline(
            VLine::new("step in hand", step_number(placed - 1))
                .color(look.ink(Ink::Quiet))
                .width(1.0)
                .allow_hover(false),
        );
    }
}

/// What is said of a point of a curve.
fn words(hover: &HoverPosition, decimals: usize) -> Option<String> {
    match hover {
        HoverPosition::NearDataPoint { plot_name, position, .. } => {
            Some(format!("{plot_name} after step {:.0}: {:.decimals$}", position.x, position.y))
        }
        HoverPosition::Elsewhere { .. } => None,
    }
}
