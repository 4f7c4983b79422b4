//! The fixture: what stands where, what it may carry, what it should show before the first piece.

use super::beside::{self, Framed};
use super::catch;
use crate::figure::Align;
use crate::page::{Book, Cell, Column, Style, Table};
use crate::views::{self, Scene, View};
use crate::words::{bare_mass, bare_place, force, heading, unit_of_mass, unit_of_place};
use assess::Assessment;
use assess::expect::Expected;
use plan::{Anchors, Plan, PreloadSet};
use quantity::{Grain, Quantity};

pub(super) fn set(book: &mut Book, plan: &Plan, assessment: &Assessment) {
    book.section("Fixture");
    drawings(book, plan, assessment);
    heading(book, "Supports and scales", 30.0);
    supports(plan, assessment).set(book);
    if !plan.fixture.hold_downs.is_empty() {
        heading(book, "Hold-down straps", 26.0);
        straps(plan, assessment).set(book);
        preloads(book, plan);
    }
    bindings(book, plan);
    catch::set(book, plan, assessment);
    article(book, plan);
    push(book, plan, assessment);
}

/// The bare article on its supports, with the places of supports and straps as dimensions.
fn drawings(book: &mut Book, plan: &Plan, assessment: &Assessment) {
    let scene = Scene { step: 0, ..Scene::whole(plan, &assessment.closed) };
    for (caption, view, height_mm) in [
        ("From the side: aft to the right", View::Side, 62.0),
        ("Supports from above: aft to the right, aircraft's right at top", View::Above, 60.0),
    ] {
        let room_mm = beside::room_mm([book.width_mm(), height_mm - BELOW_MM]);
        let figure = views::dimensioned(&scene, view, room_mm);
        let Some(focus) = figure.bounds() else { continue };
        let framed = Framed { caption, view, figure: &figure, focus, share: 1.0, below_mm: BELOW_MM };
        beside::set(book, &[framed], height_mm, plan.units);
    }
    let unit = unit_of_place(plan);
    book.paragraph(
        Style::SMALL,
        &format!("Figures in the drawings are stations, buttock lines and waterlines of the floor frame, {unit}."),
    );
}

/// Room under the floor for the names of what stands on it, mm.
const BELOW_MM: f64 = 9.0;

/// What the fixture bears of a level push, by its direction.
fn push(book: &mut Book, plan: &Plan, assessment: &Assessment) {
    let Some(step) = plan.steps().checked_sub(1) else { return };
    let Some(curve) = assess::push_curve(plan, &assessment.closed, assessment.exact.as_ref(), step) else { return };
    let pushed = views::push(&curve);
    let Some(focus) = pushed.bounds() else { return };
    // The bed alone: pieces would hide the curve of what is asked.
    let mut figure = views::above(&Scene { step: 0, ..Scene::whole(plan, &assessment.closed) });
    figure.over(pushed);
    const HEIGHT_MM: f64 = 70.0;
    heading(book, "Level push on the fixture, all in place", HEIGHT_MM + 22.0);
    let straps = if curve.solved { "straps counted up to their working load" } else { "straps left out" };
    let text = format!(
        "Solid: the greatest level push at the stack's centroid in each direction before article and stack tip or \
         slide, {straps}. Dashed: the required push, {:.2} of the stack's weight. To scale: the push shifts the \
         line of action to the curve on the floor.",
        curve.asked
    );
    book.paragraph(Style::SMALL, &text);
    let caption = "From above: aft to the right, aircraft's right at top";
    let framed = Framed { caption, view: View::Above, figure: &figure, focus, share: 1.0, below_mm: 0.0 };
    beside::set(book, &[framed], HEIGHT_MM, plan.units);
}

fn supports(plan: &Plan, assessment: &Assessment) -> Table {
    let (mass, place) = (unit_of_mass(plan), unit_of_place(plan));
    let columns = vec![
        Column::wide("support"),
        Column::fixed(format!("at ({place}, floor frame)"), 40.0, Align::Left),
        Column::fixed("graduation", 20.0, Align::Right),
        Column::fixed(format!("capacity, {mass}"), 19.0, Align::Right),
        Column::fixed(format!("tare due, {mass}"), 25.0, Align::Right),
        Column::fixed(format!("tare read, {mass}"), 24.0, Align::Left),
    ];
    let before = before(assessment);
    let row = |(index, support): (usize, &plan::Support)| {
        let band = before.and_then(|b| *b.scales.get(index)?);
        let capacity = support.capacity.map_or_else(|| "–".to_owned(), |c| bare_mass(plan, c.si()));
        let division = match support.division.filter(|_| support.scale) {
            // Rounded as little as a field at rest: 0.1 kg is 0.22 lb, not 0.2.
            Some(division) => division.at_rest(plan.units, Grain::Coarse),
            None if support.scale => "–".to_owned(),
            None => "no scale".to_owned(),
        };
        vec![
            Cell::strong(support.name.as_str()),
            Cell::text(bare_place(plan, support.at).join(", ")),
            Cell::text(division),
            Cell::text(capacity),
            Cell::text(
                band.map_or_else(|| "–".to_owned(), |band| format!("about {}", bare_mass(plan, band.reading_kg))),
            ),
            if support.scale { Cell::Write(String::new()) } else { Cell::text("–") },
        ]
    };
    Table { columns, rows: plan.fixture.supports.iter().enumerate().map(row).collect(), row_mm: 8.0 }
}

/// What is expected before the first piece.
fn before(assessment: &Assessment) -> Option<&Expected> {
    assessment.exact.as_ref()?.expected.first()?.as_ref()
}

fn straps(plan: &Plan, assessment: &Assessment) -> Table {
    let place = unit_of_place(plan);
    let columns = vec![
        Column::wide("strap"),
        Column::fixed(format!("on the article ({place}, article frame)"), 44.0, Align::Left),
        Column::fixed(format!("on the floor ({place}, floor frame)"), 44.0, Align::Left),
        Column::fixed("preload", 17.0, Align::Right),
        Column::fixed("working load", 17.0, Align::Right),
        Column::fixed("greatest pull", 18.0, Align::Right),
    ];
    let steps = assessment.exact.iter().flat_map(|exact| exact.expected.iter().flatten());
    let most = |index: usize| steps.clone().filter_map(|s| s.straps_n.get(index)).fold(f64::NAN, |a, b| a.max(*b));
    let row = |(index, strap): (usize, &plan::HoldDown)| {
        let most = most(index);
        vec![
            Cell::strong(strap.name.as_str()),
            Cell::text(bare_place(plan, strap.on_article).join(", ")),
            Cell::text(bare_place(plan, strap.on_floor).join(", ")),
            Cell::text(force(plan, strap.preload.si())),
            Cell::text(force(plan, strap.working_load.si())),
            Cell::text(if most.is_nan() { "–".to_owned() } else { force(plan, most) }),
        ]
    };
    Table { columns, rows: plan.fixture.hold_downs.iter().enumerate().map(row).collect(), row_mm: 8.0 }
}

/// When preloads are set: the tare follows from it.
fn preloads(book: &mut Book, plan: &Plan) {
    let when = |set: PreloadSet, told: &str| {
        let straps = plan.fixture.hold_downs.iter().filter(|strap| strap.preload_set == set);
        let names: Vec<String> = straps.map(|strap| format!("“{}”", strap.name)).collect();
        (!names.is_empty()).then(|| format!("Preload set {told}: {}.", names.join(", ")))
    };
    let before = when(PreloadSet::Before, "before the article settles on its supports");
    let after = when(PreloadSet::After, "after the article has settled, by gauge in the strap");
    for line in [before, after].into_iter().flatten() {
        book.cursor_mm += 1.5;
        book.paragraph(Style::BODY, &line);
    }
}

fn bindings(book: &mut Book, plan: &Plan) {
    for strap in &plan.fixture.bindings {
        let to = if strap.anchors == Anchors::Article { "the article" } else { "the floor" };
        let [x, y] = strap.at.map(|c| c.shown(plan.units, Grain::Coarse));
        book.cursor_mm += 1.5;
        book.paragraph(
            Style::BODY,
            &format!(
                "Binding strap “{}” over the stack, {} wide, tied to {to}: {x} aft and {y} right of the bed's origin, {} in each leg, put on after step {}.",
                strap.name,
                strap.width.shown(plan.units, Grain::Fine),
                strap.pull.shown(plan.units, Grain::Coarse),
                strap.after
            ),
        );
    }
}

fn article(book: &mut Book, plan: &Plan) {
    let article = &plan.article;
    let [x, y, z] = article.centroid.map(|c| c.shown(plan.units, Grain::Coarse));
    let pitch = article.pitch.shown(plan.units, Grain::Coarse);
    book.cursor_mm += 1.5;
    book.paragraph(
        Style::BODY,
        &format!(
            "Article as it stands there: {}, centroid at station {x}, buttock line {y}, waterline {z} (article frame), pitched {pitch} nose up. Friction on the floor {}.",
            article.mass.shown(plan.units, Grain::Coarse),
            plan.fixture.floor_friction
        ),
    );
}
