//! What the figures show: sides, heights, what is strong and what is hidden.

mod gap;
mod lowered;
mod members;
mod seat;
mod told;

use assess::{Ask, Assessment, assess};
use drafting::figure::{Figure, Fill, Ink, Mark, Pen, Sign, Strength, Weight};
use drafting::lower::Primitive;
use drafting::views::{self, Scene, View};
use lowered::screen;
use plan::Plan;
use quantity::Units;
use std::collections::BTreeSet;
use std::sync::OnceLock;

const EXAMPLES: [&str; 3] = [
    include_str!("../../../../assets/examples/tandem-rear-seat.ron"),
    include_str!("../../../../assets/examples/side-by-side.ron"),
    include_str!("../../../../assets/examples/four-faults.ron"),
];

fn example(index: usize) -> (Plan, Assessment) {
    // Solved once for all tests: it takes seconds.
    static SOLVED: [OnceLock<Assessment>; 3] = [const { OnceLock::new() }; 3];
    let plan = plan::file::read(EXAMPLES[index]).expect("an example opens");
    let assessment = SOLVED[index].get_or_init(|| assess(&plan, Ask::full())).clone();
    (plan, assessment)
}

fn sign_at(figure: &Figure, wanted: Sign) -> Option<[f64; 2]> {
    figure.marks.iter().find_map(|mark| match mark {
        Mark::Sign { at, sign, .. } if *sign == wanted => Some(*at),
        _ => None,
    })
}

fn close(got: f64, want: f64, what: &str) {
    assert!((got - want).abs() < 1e-9, "{what}: got {got}, want {want}, difference {} m", got - want);
}

fn both(got: [f64; 2], want: [f64; 2], what: &str) {
    close(got[0], want[0], what);
    close(got[1], want[1], what);
}

/// The aircraft's right (buttock line positive) is up in the view from above and on the viewer's
/// left from the front (`own derivation`: the axes are right-handed, the viewer is at +z, at -x).
#[test]
fn each_view_has_the_right_hand_side_where_its_viewer_sees_it() {
    let right = nalgebra::Point3::new(2.0, 0.3, 0.7);
    both(View::Side.project(right), [2.0, 0.7], "View::Side");
    both(View::Front.project(right), [-0.3, 0.7], "View::Front");
    both(View::Above.project(right), [2.0, 0.3], "View::Above");
}

#[test]
fn centroid_and_occupant_point_stand_where_the_assessment_has_them() {
    for index in 0..EXAMPLES.len() {
        let (plan, assessment) = example(index);
        let scene = Scene::whole(&plan, &assessment.closed);
        let (side, front) = (views::side(&scene), views::front(&scene));
        let centroid = assessment.closed.last().expect("a stack").centroid;
        let (at_side, at_front) = (sign_at(&side, Sign::Centroid), sign_at(&front, Sign::Centroid));
        let ([x, z], [minus_y, height]) = (at_side.expect("a centroid"), at_front.expect("a centroid"));
        close(x, centroid.x, "station of the centroid");
        close(minus_y, -centroid.y, "across, from the front");
        close(z, centroid.z, "height of the centroid");
        close(height, z, "height in both views");
        let occupant = sign_at(&side, Sign::OccupantPoint).expect("an occupant point");
        close(occupant[0], assessment.closed.target_in_floor.x, "station of the occupant point");
    }
}

fn texts(figure: &Figure) -> Vec<&str> {
    figure
        .marks
        .iter()
        .filter_map(|m| if let Mark::Text(label) = m { Some(label.text.as_str()) } else { None })
        .collect()
}

#[test]
fn the_weakest_layer_is_named_in_one_view_with_its_push_and_direction() {
    for index in 0..EXAMPLES.len() {
        let (plan, assessment) = example(index);
        let scene = Scene::whole(&plan, &assessment.closed);
        let weakest = assessment.weakest_layer(plan.steps() - 1).expect("something moves");
        let figures = [View::Side, View::Front].map(|view| views::weakest(&scene, Some(weakest), view));
        let named: Vec<&str> = figures.iter().flat_map(texts).collect();
        assert_eq!(named.len(), 1, "got {named:?}, want one view to name it");
        let layer = format!("layer {}", weakest.layer);
        assert!(named[0].contains(&layer), "“{layer}” is wanted in “{}”", named[0]);
        let toward = weakest.reserve.toward();
        assert!(named[0].ends_with(toward) || named[0].contains("by itself"), "“{toward}” is wanted in “{}”", named[0]);
    }
}

/// The strap lies over the stack from the step on at which it is put on, never before.
#[test]
fn a_binding_strap_is_drawn_with_its_name_in_every_view_once_it_is_on() {
    let (plan, assessment) = example(1);
    let strap = &plan.fixture.bindings[0];
    for (done, due) in [(strap.after as usize, true), (strap.after as usize - 1, false)] {
        let scene = Scene { step: done, ..Scene::whole(&plan, &assessment.closed) };
        for (figure, view) in
            [(views::side(&scene), "side"), (views::front(&scene), "front"), (views::above(&scene), "above")]
        {
            let named = texts(&figure).contains(&strap.name.as_str());
            assert_eq!(named, due, "from {view} after step {done}: named {named}, want {due}");
        }
    }
}

/// The strap's line from the front, floor frame, m: of all dashed ones that which is no hold-down from point to point.
fn strap_from_front(scene: &Scene) -> Vec<[f64; 2]> {
    let pen = Pen::dashed(Ink::Structure, Weight::Medium);
    let figure = views::front(scene);
    let mut lines = figure.marks.iter().filter_map(|mark| match mark {
        Mark::Shape(shape) if shape.pen == Some(pen) && !shape.closed && shape.points.len() > 3 => Some(&shape.points),
        _ => None,
    });
    lines.next().expect("a strap is drawn").clone()
}

fn highest(line: &[[f64; 2]]) -> f64 {
    line.iter().map(|[_, up]| *up).fold(f64::NEG_INFINITY, f64::max)
}

/// Pieces that are put down after a strap lie over it: it stays where it was (`own derivation`, of a taut strap).
#[test]
fn a_binding_strap_stays_on_the_layer_that_it_binds_while_pieces_come_over_it() {
    let (mut plan, _) = example(1);
    let last_layer = assess(&plan, Ask::closed()).closed.pile.layer.iter().copied().max().expect("layers");
    let pile = assess(&plan, Ask::closed()).closed.pile;
    let first_above = pile.layer.iter().position(|layer| *layer == last_layer).expect("a top layer");
    let under_last = plan.stack[plan.steps() - 1].at[0];
    let strap = &mut plan.fixture.bindings[0];
    strap.at[0] = under_last;
    strap.after = u32::try_from(first_above).expect("few");
    let at_x = quantity::Quantity::si(strap.at[0]);
    let layout = assess(&plan, Ask::closed()).closed;
    let whole = Scene::whole(&plan, &layout);
    let then = Scene { step: first_above, ..whole };
    let top = |step: usize| {
        let [length, _, thickness] = plan.extent_of(&plan.stack[step]).map(quantity::Quantity::si);
        let [x, y] = plan.stack[step].at.map(quantity::Quantity::si);
        let up = layout.pile.underside_m[step] + thickness;
        ((x - at_x).abs() <= length / 2.0).then(|| (layout.floor_from_bed * nalgebra::Point3::new(at_x, y, up)).z)
    };
    let want = (0..first_above).filter_map(top).fold(f64::NEG_INFINITY, f64::max);
    close(highest(&strap_from_front(&then)), want, "as it is put on");
    close(highest(&strap_from_front(&whole)), want, "with all pieces in place");
    let over = (first_above..plan.steps()).filter_map(top).fold(f64::NEG_INFINITY, f64::max);
    assert!(over > want + 0.01, "pieces come over it: {over} m, strap at {want} m");
}

/// A solid line is solved, a broken one is a bound with the straps left out.
#[test]
fn the_curve_of_the_push_is_solid_once_solved_and_tells_when_straps_are_left_out() {
    let (plan, solved) = example(1);
    let closed = assess(&plan, Ask::closed());
    for (assessment, is_solved) in [(&solved, true), (&closed, false)] {
        let curve = assess::push_curve(&plan, &assessment.closed, assessment.exact.as_ref(), plan.steps() - 1)
            .expect("a curve");
        let figure = views::push(&curve);
        let pens: Vec<Pen> = figure
            .marks
            .iter()
            .filter_map(|m| if let Mark::Shape(s) = m { s.pen.filter(|p| s.closed && p.ink == Ink::Is) } else { None })
            .collect();
        let want = if is_solved { Pen::solid(Ink::Is, Weight::Medium) } else { Pen::dashed(Ink::Is, Weight::Medium) };
        assert_eq!(pens, vec![want], "one teal curve");
        let told = texts(&figure).iter().any(|t| t.contains("straps left out"));
        assert_eq!(told, !is_solved, "{:?}", texts(&figure));
        assert!(texts(&figure).iter().any(|t| t.contains("required 0.10")), "{:?}", texts(&figure));
    }
}

/// A number without its unit is none: rulers name their axis and the plan's unit, on screen and paper.
#[test]
fn rulers_name_their_axes_with_the_unit() {
    for (units, unit) in [(Units::Metric, "m"), (Units::InchPound, "in")] {
        for (view, axes) in [
            (View::Side, ["station", "waterline"]),
            (View::Front, ["buttock line", "waterline"]),
            (View::Above, ["station", "buttock line"]),
        ] {
            let figure = views::rulers(&screen(), view, units);
            for axis in axes {
                let want = format!("{axis}, {unit}");
                assert!(texts(&figure).contains(&want.as_str()), "{view:?}: “{want}” in {:?}", texts(&figure));
            }
        }
    }
}

fn materials(figure: &Figure, strength: Strength) -> usize {
    let of = |fill: Fill| matches!(fill, Fill::Material(_, s) if s == strength);
    figure.marks.iter().filter(|m| matches!(m, Mark::Shape(s) if of(s.fill))).count()
}

#[test]
fn a_layer_in_hand_is_strong_and_nothing_above_it_is_drawn() {
    for index in 0..EXAMPLES.len() {
        let (plan, assessment) = example(index);
        let top = assessment.closed.pile.layer.iter().copied().max().unwrap_or(0);
        for layer in 1..=top {
            let scene = Scene::of_layer(&plan, &assessment.closed, layer);
            let figure = views::side(&scene);
            // Of pieces right behind one another the nearest alone is drawn.
            let count = |keep: &dyn Fn(usize) -> bool| {
                let of_them = (0..plan.steps()).filter(|step| keep(assessment.closed.pile.layer[*step]));
                let outline = |step| scene.outline(View::Side, step).expect("it is in place");
                let spot = |step| outline(step).into_iter().flatten().map(|m| (m * 1e6).round().to_string());
                of_them.map(|step| spot(step).collect::<Vec<_>>()).collect::<BTreeSet<_>>().len()
            };
            let (strong, want) = (materials(&figure, Strength::Strong), count(&|l| l == layer));
            assert_eq!(
                strong,
                want,
                "layer {layer}: got {strong} strong pieces, want {want}, difference {}",
                strong.abs_diff(want)
            );
            let (faint, most) = (materials(&figure, Strength::Faint), count(&|l| l < layer));
            assert!(faint <= most, "layer {layer}: got {faint} faint pieces, want at most {most} pieces");
        }
    }
}

#[test]
fn before_the_first_step_there_is_no_piece_and_no_plumb_line() {
    let (plan, assessment) = example(0);
    let scene = Scene { step: 0, ..Scene::whole(&plan, &assessment.closed) };
    for figure in [views::side(&scene), views::front(&scene), views::above(&scene)] {
        assert_eq!(sign_at(&figure, Sign::Centroid), None);
        assert_eq!(materials(&figure, Strength::Strong) + materials(&figure, Strength::Faint), 0);
    }
}

#[test]
fn every_tag_of_the_view_from_above_is_a_step_of_its_layer() {
    let (plan, assessment) = example(1);
    for layer in 1..=assessment.closed.pile.layer.iter().copied().max().unwrap_or(0) {
        let figure = views::above(&Scene::of_layer(&plan, &assessment.closed, layer));
        let tag = |mark: &Mark| match mark {
            Mark::Text(label) => label.text.parse::<usize>().ok(),
            _ => None,
        };
        let tags: Vec<usize> = figure.marks.iter().filter_map(tag).collect();
        let want: Vec<usize> =
            (0..plan.steps()).filter(|s| assessment.closed.pile.layer[*s] == layer).map(|s| s + 1).collect();
        assert_eq!(tags, want, "layer {layer}");
    }
}

#[test]
fn offsets_are_told_with_their_side_and_unit() {
    let told = |m, units| views::offset_words(m, 0, units);
    assert_eq!(told(0.004, Units::Metric), "4 mm aft of the occupant point");
    assert_eq!(told(-0.0127, Units::InchPound), "0.50 in forward of the occupant point");
    assert_eq!(told(0.0002, Units::Metric), "less than 1 mm off the occupant point");
    assert_eq!(told(-0.0001, Units::InchPound), "less than 0.01 in off the occupant point");
}

#[test]
fn every_step_of_a_layer_is_painted_on_its_printed_view_from_above() {
    for index in 0..EXAMPLES.len() {
        let (plan, assessment) = example(index);
        let pages = drafting::sheet::pages(&plan, &assessment, drafting::page::Paper::usual(plan.units));
        let top = assessment.closed.pile.layer.iter().copied().max().unwrap_or(0);
        for layer in 1..=top {
            let head = format!("Layer {layer} of {top}");
            let painted = |page: &drafting::page::Page, wanted: &dyn Fn(&str) -> bool| {
                page.marks.iter().any(|m| matches!(m, Primitive::Text { text, .. } if wanted(text)))
            };
            let of_layer: Vec<_> = pages.iter().filter(|p| painted(p, &|t| t.starts_with(&head))).collect();
            assert!(!of_layer.is_empty(), "a page a layer");
            let marks = || of_layer.iter().flat_map(|page| &page.marks);
            for step in (0..plan.steps()).filter(|s| assessment.closed.pile.layer[*s] == layer) {
                let number = (step + 1).to_string();
                // Once in the table, and as a tag on the drawing of each page.
                let count = marks().filter(|m| matches!(m, Primitive::Text { text, .. } if *text == number)).count();
                let want = of_layer.len() + 1;
                assert!(
                    count >= want,
                    "{}: step {number} stands {count} times for layer {layer}, want {want}",
                    plan.title
                );
            }
        }
    }
}

fn captions(figure: &Figure) -> Vec<&str> {
    figure
        .marks
        .iter()
        .filter_map(|mark| if let Mark::Text(label) = mark { Some(label.text.as_str()) } else { None })
        .collect()
}

#[test]
fn the_fixture_by_itself_names_what_can_be_taken_hold_of_and_has_no_piece() {
    let (plan, assessment) = example(0);
    let scene = Scene::whole(&plan, &assessment.closed);
    for view in [View::Side, View::Front, View::Above] {
        let figure = views::rig(&scene, view);
        let said = captions(&figure);
        for name in ["article's centroid", "pivot", "occupant point", "bed"] {
            assert!(said.contains(&name), "{view:?}: {name} is not named in {said:?}");
        }
        let material = |mark: &Mark| matches!(mark, Mark::Shape(shape) if matches!(shape.fill, Fill::Material(..)));
        assert!(!figure.marks.iter().any(material), "{view:?}: no piece is drawn");
    }
}

/// The hull of three supports is their triangle (`own derivation`).
#[test]
fn the_footprint_from_above_is_the_hull_of_the_supports() {
    let (plan, assessment) = example(0);
    let figure = views::rig(&Scene::whole(&plan, &assessment.closed), View::Above);
    let wanted = plan.fixture.supports.iter().map(|s| View::Above.project(plan::point(s.at)));
    let is_hull = |points: &[[f64; 2]]| {
        let near = |p: &[f64; 2], q: &[f64; 2]| (p[0] - q[0]).hypot(p[1] - q[1]) < 1e-9;
        points.len() == 3 && wanted.clone().all(|want| points.iter().any(|p| near(p, &want)))
    };
    let found = figure.marks.iter().any(|mark| matches!(mark, Mark::Shape(s) if s.closed && is_hull(&s.points)));
    assert!(found, "a closed outline through the three supports");
}
