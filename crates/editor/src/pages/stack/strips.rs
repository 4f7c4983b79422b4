//! Strips over the steps, sharing one axis: applied load, offsets, reserve, scale readings.

use super::table::Table;
use crate::look;
use crate::pages::head::Chart;
use assess::{Decision, Exact, StepReserve, StepState};
use drafting::figure::Ink;
use drafting::sheet::is_bound;
use eframe::egui::{self, Id, Rangef, Rect, Response, Ui, Vec2, WidgetInfo, accesskit::Role, pos2, vec2};
use egui_plot::{GridMark, HLine, HoverPosition, Line, LineStyle, Plot, PlotPoint, PlotUi, Polygon, Text, VLine};
use quantity::{Grain, Kind, Quantity};

/// The span of a strip's upright axis.
type Span = [f64; 2];

/// A chart in a part of the window; where the steps lie in it, from left to right.
pub(super) fn show(ui: &mut Ui, table: &mut Table, chart: Chart, size: Vec2) -> Rangef {
    let strip = of(table, chart);
    self::strip(ui, table, size, &strip)
}

fn of(table: &Table, chart: Chart) -> Strip {
    match chart {
        Chart::Load => load_strip(table),
        Chart::Offset => offset_strip(table),
        Chart::Reserve => margin_strip(table),
        Chart::Scales => scale_strip(table),
    }
}

/// What a chart shows, and in which unit; what its numbers are.
pub(super) fn words_of(table: &Table, chart: Chart) -> (String, &'static str) {
    let strip = of(table, chart);
    (strip.head, strip.about)
}

/// One strip: its curves and what they are held against.
struct Strip {
    head: String,
    /// What the numbers are, for the one in a hurry.
    about: &'static str,
    curves: Vec<(String, Ink, LineStyle, Vec<[f64; 2]>)>,
    limits: Vec<(String, f64)>,
    band: Option<Span>,
    span: Span,
    axis: Axis,
    /// After which steps the stack goes by leaning.
    leans: Vec<(f64, String)>,
    /// Whether the curves' names stand in the plot, because the head has no room for them.
    legend: bool,
}

/// How values lie on the upright axis.
#[derive(Clone, Copy)]
struct Axis {
    /// Even where none; else even within this value and squeezed beyond it: the first pieces lie
    /// far off by nature, and the tolerance must stay legible beside them.
    even_to: Option<f64>,
    decimals: usize,
}

impl Axis {
    const fn even(decimals: usize) -> Self {
        Self { even_to: None, decimals }
    }

    fn place(self, value: f64) -> f64 {
        self.even_to.map_or(value, |even| (value / even).asinh())
    }

    fn value(self, place: f64) -> f64 {
        self.even_to.map_or(place, |even| place.sinh() * even)
    }

    fn words(self, place: f64) -> String {
        let decimals = self.decimals;
        // Adding zero turns -0 into 0.
        format!("{:.decimals$}", self.value(place) + 0.0)
    }

    /// Where the axis is marked.
    fn marks(self, span: Span) -> Vec<GridMark> {
        let Some(even) = self.even_to else { return marks(span) };
        let far = span[1].sinh() * even;
        let decades = (far / even).log10().floor().max(1.0);
        let round =
            [10_f64.powf(decades) * even, 5.0 * even, 3.0 * even].into_iter().find(|r| *r <= far * 0.9).unwrap_or(even);
        let values = [-round, -even, 0.0, even, round];
        // Marks far apart by their step are never left out for want of room.
        values.into_iter().map(|value| GridMark { value: self.place(value), step_size: span[1] }).collect()
    }
}

fn step_number(step: usize) -> f64 {
    f64::from(u32::try_from(step + 1).unwrap_or(u32::MAX))
}

fn load_strip(table: &Table) -> Strip {
    let assessment = &table.shown.assessment;
    let unit = table.shown.plan.units.unit(Kind::Mass, Grain::Coarse);
    let points: Vec<_> =
        assessment.closed.steps.iter().enumerate().map(|(k, s)| [step_number(k), s.applied_kg / unit.si]).collect();
    let mut limits = Vec::new();
    if let Some(load) = assessment.closed.load {
        limits.push(("limit".to_owned(), load.limit.as_mass().si() / unit.si));
        limits.push(("ultimate".to_owned(), load.ultimate.as_mass().si() / unit.si));
    }
    let top = points.iter().map(|p| p[1]).chain(limits.iter().map(|l| l.1)).fold(1.0, f64::max);
    Strip {
        head: format!("Applied load, {}", unit.symbol),
        about: "Mass of all placed pieces after each step, with limit and ultimate load of the active case",
        curves: vec![("applied".to_owned(), Ink::Is, LineStyle::Solid, points)],
        limits,
        band: None,
        span: [0.0, top * 1.12],
        axis: Axis::even(0),
        leans: Vec::new(),
        legend: false,
    }
}

fn offset_strip(table: &Table) -> Strip {
    let assessment = &table.shown.assessment;
    let unit = table.shown.plan.units.unit(Kind::Length, Grain::Fine);
    let [fore_aft, lateral] = table.shown.plan.target.tolerance().map(|t| t.si() / unit.si);
    let steps = || assessment.closed.steps.iter().enumerate();
    let off = |(k, state): (usize, &StepState)| assessment.offset_m(k).unwrap_or(state.offset_m);
    let most = steps().flat_map(off).map(|m| (m / unit.si).abs()).fold(2.0 * fore_aft.max(lateral), f64::max);
    let axis = Axis {
        even_to: Some(fore_aft.max(lateral)).filter(|t| *t > 0.0),
        decimals: if unit.symbol == "mm" { 0 } else { 2 },
    };
    let curve = |which: usize| -> Vec<[f64; 2]> {
        steps().map(|(k, s)| [step_number(k), axis.place(off((k, s))[which] / unit.si)]).collect()
    };
    let top = axis.place(most) * 1.08;
    Strip {
        head: format!("Offset, {} · dashed: lateral", unit.symbol),
        about: "Line of action minus occupant point after each step, level with the floor, aft and right positive. The axis is squeezed beyond the tolerance, so that the first pieces do not hide it",
        curves: vec![
            ("fore and aft".to_owned(), Ink::Is, LineStyle::Solid, curve(0)),
            ("lateral".to_owned(), Ink::Is, LineStyle::dashed_dense(), curve(1)),
        ],
        limits: Vec::new(),
        band: Some([-fore_aft, fore_aft].map(|edge| axis.place(edge))),
        span: [-top, top],
        axis,
        leans: Vec::new(),
        legend: false,
    }
}

/// The reserve as solved; where the push was not solved as the bags give, and until all is solved, dashed what is
/// an upper bound.
fn margin_strip(table: &Table) -> Strip {
    let assessment = &table.shown.assessment;
    let allowed = table.shown.plan.allow.collapse;
    let point = |(k, least): (usize, Decision)| match least {
        Decision::Decided(reserve) => Some([step_number(k), reserve.multiplier]),
        _ => None,
    };
    let solved = assessment.exact.as_ref();
    let closed = assessment.closed.steps.iter().map(|s| s.least).enumerate().filter_map(point).collect();
    let of = |exact: &Exact, take: &dyn Fn(usize, &StepReserve) -> bool| -> Vec<[f64; 2]> {
        let reserves = exact.reserves.iter().enumerate().filter(|(step, state)| take(*step, state));
        reserves.filter_map(|(step, state)| point((step, state.least))).collect()
    };
    let curves = match solved {
        Some(exact) => {
            let known = of(exact, &|step, _| !is_bound(&table.shown.plan, exact, step));
            let bound = exact.steps.iter().map(|step| step.least).enumerate().filter_map(point).collect();
            let all = [(RESERVE, LineStyle::Solid, known), ("rigid, at most", LineStyle::dashed_dense(), bound)];
            all.into_iter().take(if exact.soft.is_some() { 2 } else { 1 }).collect()
        }
        None => vec![(RESERVE, LineStyle::dashed_dense(), closed)],
    };
    let leans = solved.map(|exact| {
        let leans = |(step, state): (usize, &StepReserve)| Some((step_number(step), state.leans(&table.shown.plan)?));
        exact.reserves.iter().enumerate().filter_map(leans).collect()
    });
    let points = curves.iter().flat_map(|(_, _, points)| points);
    let top = points.map(|p| p[1]).fold(allowed * 2.0, f64::max);
    Strip {
        head: if solved.is_some() { "Reserve, level push by weight" } else { "Reserve, upper bound" }.to_owned(),
        about: "The least level push on every piece, as a fraction of its weight, that brings the stack down after each step",
        curves: curves.into_iter().map(|(name, style, points)| (name.to_owned(), Ink::Is, style, points)).collect(),
        limits: vec![("required".to_owned(), allowed)],
        band: None,
        span: [0.0, top * 1.12],
        axis: Axis::even(2),
        leans: leans.unwrap_or_default(),
        legend: false,
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
    let head = if assessment.is_undecided() { "Scales, being solved" } else { "Scales" };
    Strip {
        head: format!("{head}, {}", unit.symbol),
        about: "What each scale shows after each step: article, stack and the pull of straps, as solved",
        curves,
        limits,
        band: None,
        // Room for the names over the curves.
        span: [0.0, top * 1.12],
        axis: Axis::even(0),
        leans: Vec::new(),
        legend: true,
    }
}

fn strip(ui: &mut Ui, table: &mut Table, size: Vec2, strip: &Strip) -> Rangef {
    let steps = table.shown.plan.steps();
    let placed = table.hand.placed();
    let shown = plot(strip, size).show(ui, |plot| {
        plot.set_plot_bounds_x(0.0..=step_number(steps.max(1)) - 1.0);
        plot.set_plot_bounds_y(strip.span[0]..=strip.span[1]);
        curves(plot, table, strip, placed);
    });
    if strip.legend {
        legend(ui, table, strip, shown.response.rect);
    }
    describe(table, strip, &shown.response);
    if shown.response.clicked()
        && let Some(at) = shown.response.interact_pointer_pos()
    {
        let step = shown.transform.value_from_position(at).x.round().max(0.0);
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "at least none, at most the steps"
        )]
        table.hand.go_to((step as usize).min(steps));
    }
    shown.transform.frame().x_range()
}

fn plot<'a>(strip: &Strip, size: Vec2) -> Plot<'a> {
    let (axis, span, leans) = (strip.axis, strip.span, strip.leans.clone());
    Plot::new(strip.head.split(',').next().unwrap_or_default())
        .height(size.y)
        .width(size.x)
        .show_x(false)
        .show_grid([false, true])
        .show_axes([false, true])
        .y_axis_min_width(38.0)
        .y_grid_spacer(move |_| axis.marks(span))
        .y_axis_formatter(move |mark, _| axis.words(mark.value))
        .allow_drag(false)
        .allow_zoom(false)
        .allow_scroll(false)
        .allow_boxed_zoom(false)
        .allow_double_click_reset(false)
        .auto_bounds([false, false])
        .set_margin_fraction(vec2(0.0, 0.0))
        .link_cursor(Id::unique("strips"), [true, false])
        .label_formatter(move |hover| words(hover, axis, &leans))
}

/// Names the strip with its values at the step in hand, for those who do not see it.
fn describe(table: &Table, strip: &Strip, response: &Response) {
    let placed = table.hand.placed();
    let last = placed.checked_sub(1);
    let value = |(name, _, _, points): &(String, Ink, LineStyle, Vec<[f64; 2]>)| {
        let point = points.iter().find(|p| last.is_some_and(|k| (p[0] - step_number(k)).abs() < 0.5))?;
        Some(format!("{name} {}{}", strip.axis.words(point[1]), by_leaning(&strip.leans, name, point[0])))
    };
    let values: Vec<String> = strip.curves.iter().filter_map(value).collect();
    let what = strip.head.split(" ·").next().unwrap_or_default();
    let label = format!("{what} after step {placed}: {}", values.join(", "));
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &label));
}

/// The curves' names with a sample of their line, at the upper left, where curves that rise leave
/// room.
fn legend(ui: &Ui, table: &Table, strip: &Strip, rect: Rect) {
    const MOST: usize = 4;
    const LINE: f32 = 12.0;
    let painter = ui.painter_at(rect);
    let ink = table.look.ink(Ink::Is);
    let (left, top) = (rect.left() + 8.0, rect.top() + 22.0);
    for (row, (name, _, style, _)) in (0_u8..).zip(strip.curves.iter().take(MOST)) {
        let y = top + LINE * f32::from(row);
        let ends = [pos2(left, y), pos2(left + 18.0, y)];
        let stroke = egui::Stroke::new(1.5, ink);
        match style {
            LineStyle::Solid => drop(painter.line_segment(ends, stroke)),
            LineStyle::Dotted { .. } => painter.extend(egui::Shape::dotted_line(&ends, ink, 4.0, 1.0)),
            LineStyle::Dashed { length } => {
                painter.extend(egui::Shape::dashed_line(&ends, stroke, *length, length * 0.6))
            }
        }
        let font = egui::FontId::proportional(look::TICK);
        painter.text(pos2(left + 22.0, y), egui::Align2::LEFT_CENTER, name, font, table.look.ink(Ink::Quiet));
    }
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
        let last = step_number(table.shown.plan.steps().max(1));
        let corners = vec![[0.0, low], [last, low], [last, high], [0.0, high]];
        let fill = look.ink(Ink::Wanted).gamma_multiply(0.14);
        plot.polygon(Polygon::new("tolerance", corners).fill_color(fill).stroke(egui::Stroke::NONE).allow_hover(false));
    }
    let end = step_number(table.shown.plan.steps().max(1)) - 1.0;
    for (name, at) in &strip.limits {
        let ink = look.ink(Ink::Wanted);
        plot.hline(HLine::new(name, *at).color(ink).style(LineStyle::dashed_loose()).width(1.0));
        let words = egui::RichText::new(name).size(look::TICK).color(ink);
        // Under its line, where the top of the chart cannot cut it; on the left the curves are still low, but the
        // names of the curves stand there where there are several.
        let (part, anchor) =
            if strip.legend { (0.99, egui::Align2::RIGHT_TOP) } else { (0.01, egui::Align2::LEFT_TOP) };
        let place = PlotPoint::new(part * end, *at);
        plot.text(Text::new(name, place, words).anchor(anchor).allow_hover(false));
    }
    for (name, ink, style, points) in &strip.curves {
        plot.line(Line::new(name, thinned(points)).color(look.ink(*ink)).style(*style).width(1.5));
    }
    if placed > 0 {
        plot.vline(
            VLine::new("selected step", step_number(placed - 1))
                .color(look.ink(Ink::Quiet))
                .width(1.0)
                .allow_hover(false),
        );
    }
}

/// A curve with no more points than a strip has room for: of many in a row the lowest and the highest,
/// in their order, so that no spike is lost.
fn thinned(points: &[[f64; 2]]) -> Vec<[f64; 2]> {
    const ROWS: usize = 150;
    if points.len() <= 2 * ROWS {
        return points.to_vec();
    }
    let row = |part: &[[f64; 2]]| {
        let by_height = |a: &&[f64; 2], b: &&[f64; 2]| a[1].total_cmp(&b[1]);
        let ends = [part.iter().min_by(by_height), part.iter().max_by(by_height)];
        let mut ends: Vec<[f64; 2]> = ends.into_iter().flatten().copied().collect();
        ends.sort_by(|a, b| a[0].total_cmp(&b[0]));
        ends
    };
    points.chunks(points.len().div_ceil(ROWS)).flat_map(row).collect()
}

/// What is added to a reserve that ends by leaning.
fn by_leaning(leans: &[(f64, String)], curve: &str, step: f64) -> String {
    let here = leans.iter().find(|(leaning, _)| curve == RESERVE && (leaning - step).abs() < 0.5);
    here.map(|(_, words)| format!(", {words}")).unwrap_or_default()
}

/// The curve of the reserve as it is known.
const RESERVE: &str = "reserve";

/// What is said of a point of a curve.
fn words(hover: &HoverPosition, axis: Axis, leans: &[(f64, String)]) -> Option<String> {
    match hover {
        HoverPosition::NearDataPoint { plot_name, position, .. } => {
            let leans = by_leaning(leans, plot_name, position.x);
            Some(format!("{plot_name} after step {:.0}: {}{leans}", position.x, axis.words(position.y)))
        }
        HoverPosition::Elsewhere { .. } => None,
    }
}
