//! One stack among several: a small figure from the side, or from above where what is too short lies across the bed; its
//! state, its numbers.

use crate::look::{self, Look};
use crate::{paint, signs};
use arrange::Numbers;
use assess::{Assessment, Gap, State};
use drafting::figure::{Ink, Mark};
use drafting::lower::{self, Viewport};
use drafting::views::{self, Scene, View};
use eframe::egui::{Grid, Sense, Ui, WidgetInfo, accesskit::Role, vec2};
use plan::Plan;
use quantity::{Grain, Length, Mass, Quantity, STANDARD_GRAVITY_M_S2 as GRAVITY};

/// Least and greatest point of the side view, m.
pub(super) type Extent = [[f64; 2]; 2];

const FIGURE_HEIGHT: f32 = 190.0;
/// Room around a figure, in points of the window.
const MARGIN: f64 = 10.0;
/// Signs are smaller than on the page.
const UNIT_PER_PT: f64 = 1.0;

/// A stack with what is told of it.
pub(super) struct Column<'a> {
    pub(super) look: &'a Look,
    pub(super) name: &'a str,
    pub(super) plan: &'a Plan,
    pub(super) assessment: &'a Assessment,
    pub(super) numbers: Numbers,
    /// What is too short for its pieces.
    pub(super) gaps: Vec<&'a Gap>,
    /// The same for all columns, so that heights compare.
    pub(super) extent: Extent,
}

/// What of the side view a stack takes up, with the occupant point and the bed.
pub(super) fn extent(plan: &Plan, assessment: &Assessment) -> Extent {
    let scene = Scene::whole(plan, &assessment.closed);
    let bed = plan.floor_from_bed() * nalgebra::Point3::origin();
    let target = assessment.closed.target_in_floor;
    let corners = scene.pieces().filter_map(|step| scene.outline(View::Side, step)).flatten();
    let least = [[bed.x, bed.z - 0.1], [target.x, target.z]].into_iter().chain(corners);
    least.fold([[f64::INFINITY; 2], [f64::NEG_INFINITY; 2]], |extent, at| around_both(extent, [at, at]))
}

pub(super) fn around_both([low, high]: Extent, [other_low, other_high]: Extent) -> Extent {
    [[0, 1].map(|axis| low[axis].min(other_low[axis])), [0, 1].map(|axis| high[axis].max(other_high[axis]))]
}

/// An extent that has room for a gap with its lines of measure, too.
pub(super) fn around_gap(extent: Extent, gap: &Gap) -> Extent {
    let room_m = 0.55 * gap.between_m() + 0.1;
    gap.faces_in_floor
        .iter()
        .fold(extent, |extent, face| around_both(extent, [[face.x - 0.1, face.z], [face.x + 0.1, face.z + room_m]]))
}

/// Whether a gap lies across the bed rather than along it.
fn is_across(gap: &Gap) -> bool {
    let along = gap.faces_in_floor[1] - gap.faces_in_floor[0];
    along.y.abs() > along.x.abs()
}

impl Column<'_> {
    pub(super) fn show(&self, ui: &mut Ui, width: f32, below: impl FnOnce(&mut Ui)) {
        ui.vertical(|ui| {
            ui.set_width(width);
            ui.horizontal(|ui| {
                if let Some(state) = self.state() {
                    signs::state(ui, self.look, state);
                }
                ui.label(look::bold(self.name, look::BODY));
                self.not_weighed(ui);
            });
            self.figure(ui, width);
            if !self.is_empty() {
                self.table(ui);
            }
            below(ui);
        });
    }

    /// Whether it shows that nothing could be laid.
    fn is_empty(&self) -> bool {
        self.plan.stack.is_empty() && !self.gaps.is_empty()
    }

    /// How many of its pieces nobody weighed yet: another stack may do without them.
    fn not_weighed(&self, ui: &mut Ui) {
        let open = |place: &&plan::Place| !self.plan.lot_of(place).is_weighed(place.item);
        let count = self.plan.stack.iter().filter(open).count();
        if count > 0 {
            let pieces = if count == 1 { "1 piece".to_owned() } else { format!("{count} pieces") };
            let text = look::caption(self.look, format!("{pieces} not weighed")).color(self.look.ink(Ink::Wanted));
            ui.label(text).on_hover_text(
                "Counted at the nominal mass of their lot: weigh them first, on the \
                                          Ballast page.",
            );
        }
    }

    /// The worst of all findings; none without pieces.
    fn state(&self) -> Option<State> {
        if self.plan.stack.is_empty() {
            return None;
        }
        self.assessment.findings.iter().map(|finding| finding.state).max()
    }

    /// The view without its words, which would not be read at this size: from the side, or from above where a gap would be
    /// seen end on.
    fn figure(&self, ui: &mut Ui, width: f32) {
        let (rect, response) = ui.allocate_exact_size(vec2(width, FIGURE_HEIGHT), Sense::hover());
        let scene = Scene::whole(self.plan, &self.assessment.closed);
        let (view, from, mut figure, extent) = match self.gaps.iter().any(|gap| is_across(gap)) {
            true => (View::Above, "above", views::above(&scene), self.extent_above(&scene)),
            false => (View::Side, "the side", views::side(&scene), self.extent),
        };
        let name = format!("From {from}: {}", self.name);
        response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &name));
        let area = [rect.left(), rect.top(), rect.right(), rect.bottom()].map(f64::from);
        let viewport = Viewport::fitting(extent, area, MARGIN, UNIT_PER_PT);
        figure.marks.retain(|mark| !matches!(mark, Mark::Text(_)));
        for gap in &self.gaps {
            figure.over(views::gap(gap, self.plan.units, view));
        }
        let painter = ui.painter_at(rect);
        painter.rect_filled(rect, 0.0, self.look.field());
        paint::primitives(&painter, lower::lower(&figure, &viewport, &self.look.palette));
    }

    /// What of the view from above the pieces, the occupant point, the bearings and the gaps take up.
    fn extent_above(&self, scene: &Scene) -> Extent {
        let project = |point| View::Above.project(point);
        let pieces = scene.pieces().filter_map(|step| scene.outline(View::Above, step)).flatten();
        let bearings = self.plan.bed.bearings.iter().flat_map(|bearing| {
            let corner = |x: usize, y: usize| nalgebra::Point3::new(bearing.x[x].si(), bearing.y[y].si(), 0.0);
            [corner(0, 0), corner(1, 1)].map(|at| project(self.plan.floor_from_bed() * at))
        });
        let room_m = |gap: &Gap| 0.55 * gap.between_m() + 0.1;
        let gaps = self.gaps.iter().flat_map(|gap| {
            let faces = gap.faces_in_floor.map(project);
            faces.into_iter().flat_map(move |[x, y]| [[x - room_m(gap), y - 0.1], [x + room_m(gap), y + 0.1]])
        });
        let all = pieces.chain(bearings).chain(gaps).chain([project(self.assessment.closed.target_in_floor)]);
        all.fold([[f64::INFINITY; 2], [f64::NEG_INFINITY; 2]], |extent, at| around_both(extent, [at, at]))
    }

    fn table(&self, ui: &mut Ui) {
        ui.add_space(4.0);
        ui.spacing_mut().interact_size.y = 17.0;
        Grid::new(("numbers", self.name)).num_columns(2).spacing([10.0, 2.0]).show(ui, |ui| {
            for (what, value) in self.rows() {
                ui.label(look::caption(self.look, what));
                ui.label(value);
                ui.end_row();
            }
        });
        ui.add_space(4.0);
    }

    fn rows(&self) -> Vec<(&'static str, String)> {
        let (n, units) = (&self.numbers, self.plan.units);
        let fine = |m: f64| Length::m(m).shown(units, Grain::Fine);
        let mean_lift_m = if n.applied_kg > 0.0 { n.work_j / (n.applied_kg * GRAVITY) } else { 0.0 };
        let pieces = format!("{}, {} of them boards", n.pieces, n.boards);
        let leans = if n.leans { ", leans" } else { "" };
        let none = if self.assessment.exact.is_none() { "not decided yet" } else { "none" };
        if self.plan.stack.is_empty() {
            // No place and no height of nothing: zeros would read as if it lay right.
            return vec![("Pieces", "none".to_owned())];
        }
        vec![
            ("Applied", Mass::kg(n.applied_kg).shown(units, Grain::Coarse)),
            ("Least reserve", n.reserve.map_or(none.to_owned(), |reserve| format!("{reserve:.2} of weight{leans}"))),
            ("Offset at ultimate", fine(n.offset_m[0].hypot(n.offset_m[1]))),
            ("Offset at a hold, worst", fine(n.worst_at_holds_m)),
            ("Height", fine(n.height_m)),
            ("Lift, mean of all mass", fine(mean_lift_m)),
            ("Pieces", pieces),
            ("Layers", format!("{}, {:.0} % in bond", n.layers, 100.0 * n.bonded)),
        ]
    }
}
