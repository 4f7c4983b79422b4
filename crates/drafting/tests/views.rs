//! What the figures show: sides, heights, what is strong and what is hidden.

use assess::{Ask, Assessment, assess};
use drafting::figure::{Figure, Fill, Ink, Label, Mark, Material, Pen, Room, Sign, Strength, Weight};
use drafting::lower::{Primitive, Viewport, lower, lower_named};
use drafting::palette::Palette;
use drafting::views::{self, Scene, View};
use plan::Plan;
use quantity::Units;
use std::collections::BTreeSet;
use std::sync::OnceLock;

const EXAMPLES: [&str; 3] = [
    include_str!("../../../assets/examples/tandem-rear-seat.ron"),
    include_str!("../../../assets/examples/side-by-side.ron"),
    include_str!("../../../assets/examples/four-faults.ron"),
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

/// A solid line is solved, a broken one is a bound with the straps left out.
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

#[test]
fn a_number_makes_way_for_the_sign_that_is_painted_over_it() {
    let mut figure = Figure::default();
    figure.label(Label::new([0.0, 0.0], "12").room(Room::Within([1.6, 0.3])));
    let at = |figure: &Figure| {
        let of = |m: &Primitive| if let Primitive::Text { at, .. } = m { Some(at[0]) } else { None };
        lower(figure, &screen(), &Palette::light()).iter().find_map(of).expect("the number is there")
    };
    let alone = at(&figure);
    figure.sign([0.0, 0.0], Sign::Centroid, Ink::Is);
    let beside = at(&figure);
    assert!((beside - alone).abs() > 12.0, "got {beside}, alone {alone}, want 12 device units apart at least");
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

fn screen() -> Viewport {
    Viewport { centre: [0.0, 0.0], scale: 100.0, area: [0.0, 0.0, 200.0, 100.0], unit_per_pt: 1.0 }
}

#[test]
fn the_device_and_the_plane_lead_to_each_other() {
    let back = screen().to_plane(screen().to_device([0.31, -0.17]));
    close(back[0], 0.31, "across");
    close(back[1], -0.17, "up");
    assert!(
        screen().to_device([0.0, 0.2])[1] < screen().to_device([0.0, 0.1])[1],
        "up on the plane is up on the device"
    );
}

#[test]
fn what_lies_outside_the_area_is_not_drawn() {
    let mut figure = Figure::default();
    figure.rectangle([5.0, 5.0], [6.0, 6.0], Fill::Material(Material::Sand, Strength::Strong), None);
    figure.sign([9.0, 0.0], Sign::Centroid, Ink::Is);
    figure.label(Label::new([0.0, 3.0], "out of sight").room(Room::Dodge));
    assert!(lower(&figure, &screen(), &Palette::light()).is_empty());
}

#[test]
fn what_crosses_the_edge_of_the_area_is_cut_there() {
    let mut figure = Figure::default();
    let pen = Pen::solid(Ink::Line, Weight::Thin);
    figure.rectangle([-9.0, -0.1], [9.0, 0.1], Fill::Material(Material::Wood, Strength::Strong), Some(pen));
    figure.line(vec![[-9.0, 0.0], [9.0, 0.0]], pen);
    for mark in lower(&figure, &screen(), &Palette::light()) {
        let (Primitive::Polygon { points, .. } | Primitive::Polyline { points, .. }) = mark else { continue };
        for [x, y] in points {
            assert!(
                (-0.01..=200.01).contains(&x) && (-0.01..=100.01).contains(&y),
                "got {x}, {y}, want within 200 by 100 device units"
            );
        }
    }
}

#[test]
fn a_number_that_does_not_fit_its_piece_is_left_out() {
    let texts = |room: [f64; 2]| {
        let mut figure = Figure::default();
        figure.label(Label::new([0.0, 0.0], "12").room(Room::Within(room)));
        lower(&figure, &screen(), &Palette::light()).len()
    };
    assert_eq!((texts([0.3, 0.3]), texts([0.1, 0.3]), texts([0.3, 0.05])), (1, 0, 0));
}

#[test]
fn labels_at_one_point_make_way_for_each_other() {
    let mut figure = Figure::default();
    for name in ["left cell", "right cell", "front cell"] {
        figure.label(Label::new([0.0, 0.0], name).room(Room::Dodge));
    }
    let heights: Vec<f32> = lower(&figure, &screen(), &Palette::light())
        .iter()
        .filter_map(|m| if let Primitive::Text { at, .. } = m { Some(at[1]) } else { None })
        .collect();
    assert_eq!(heights.len(), 3, "got {} labels, want 3 labels", heights.len());
    for (i, a) in heights.iter().enumerate() {
        for b in &heights[i + 1..] {
            assert!((a - b).abs() > 9.0, "got baselines {a} and {b}, want 9 device units apart at least");
        }
    }
}

#[test]
fn states_differ_by_shape_and_not_by_colour_alone() {
    let shapes: Vec<Vec<Primitive>> = [Sign::Holds, Sign::Near, Sign::Fails, Sign::Undecided, Sign::NoLimit]
        .into_iter()
        .map(|s| drafting::lower::sign(s, [0.0, 0.0], Ink::Line, 1.0, &Palette::print()))
        .collect();
    for (i, a) in shapes.iter().enumerate() {
        for b in &shapes[i + 1..] {
            assert!(a != b, "two states share a shape in one colour");
        }
    }
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

/// The first example with its occupant sitting there, however the example comes by the point.
fn seated() -> (Plan, Assessment) {
    let mut plan = plan::file::read(EXAMPLES[0]).expect("an example opens");
    let length = quantity::Length::m;
    let degrees = |d: f64| quantity::Angle::rad(d.to_radians());
    plan.target = plan::Target::Posture(plan::Posture {
        seat_reference: [length(2.0), length(0.0), length(0.46)],
        recline: degrees(15.0),
        pan: degrees(5.0),
        thigh: None,
        knee: degrees(120.0),
        arm: degrees(25.0),
        elbow: degrees(110.0),
        head: None,
        pan_cushion: length(0.0),
        back_cushion: length(0.0),
        back_pack: length(0.0),
        stature: length(1.755),
        slump: length(0.020),
        sex: plan::Sex::Male,
        table: plan::SegmentTable::DeLeva,
        lower_legs: plan::LowerLegs::OnSeat,
        tolerance: [length(0.025), length(0.010)],
    });
    let assessment = assess(&plan, Ask::closed());
    (plan, assessment)
}

fn outlines(figure: &Figure, wanted: Pen) -> Vec<Vec<[f64; 2]>> {
    let shapes = figure.marks.iter().filter_map(|mark| match mark {
        Mark::Shape(shape) if shape.pen == Some(wanted) && shape.closed && shape.fill == Fill::None => {
            Some(shape.points.clone())
        }
        _ => None,
    });
    shapes.collect()
}

#[test]
fn a_seated_occupant_is_drawn_quietly_in_the_side_view_and_not_without_a_posture() {
    let quiet = Pen::solid(Ink::Quiet, Weight::Hair);
    let (plan, assessment) = seated();
    let with = outlines(&views::side(&Scene::whole(&plan, &assessment.closed)), quiet).len();
    // A typed point says nothing of how somebody sits.
    let at = assessment.closed.occupant.in_article;
    let mut typed = plan;
    typed.target =
        plan::Target::Point { at: [at.x, at.y, at.z].map(quantity::Length::m), tolerance: typed.target.tolerance() };
    let assessment = assess(&typed, Ask::closed());
    let without = outlines(&views::side(&Scene::whole(&typed, &assessment.closed)), quiet).len();
    assert_eq!(with, without + 8, "six limbs, a trunk and a head");
}

#[test]
fn the_drawn_joints_lie_within_the_drawn_body() {
    let (plan, assessment) = seated();
    let bounds = views::seat_bounds(&Scene::whole(&plan, &assessment.closed));
    let seated = assessment.closed.occupant.seated.as_ref().expect("a posture");
    let joints = seated.figure.joints;
    for at in [joints.hip, joints.knee, joints.ankle, joints.toe, joints.shoulder, joints.wrist, joints.vertex] {
        let [u, v] = View::Side.project(plan.floor_from_article() * seated.in_article(at));
        let [low, high] = bounds;
        assert!(low[0] < u && u < high[0] && low[1] < v && v < high[1], "{u} {v} lies outside {bounds:?}");
    }
}

#[test]
fn the_seat_view_shows_the_point_in_force_and_the_others_by_their_marks() {
    let (plan, assessment) = seated();
    let other = views::Candidate { in_article: nalgebra::Point3::new(1.9, 0.0, 0.7), mark: "B".to_owned() };
    let figure = views::seat(&Scene { step: 0, ..Scene::whole(&plan, &assessment.closed) }, &[other]);
    let point = View::Side.project(assessment.closed.target_in_floor);
    both(sign_at(&figure, Sign::OccupantPoint).expect("the point"), point, "the point in force");
    let labels = figure.marks.iter().filter_map(|mark| match mark {
        Mark::Text(label) => Some((label.text.as_str(), label.at)),
        _ => None,
    });
    let at = View::Side.project(plan.floor_from_article() * nalgebra::Point3::new(1.9, 0.0, 0.7));
    let marked = labels.into_iter().find(|(text, _)| *text == "B").expect("its mark");
    both(marked.1, at, "the other one");
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

/// Of the demo's fixture in a view of usual size: every name stands outside what is drawn and keeps off the others.
#[test]
fn the_names_of_a_fixture_stand_beside_it_and_keep_off_one_another() {
    let (plan, assessment) = example(0);
    let scene = Scene::whole(&plan, &assessment.closed);
    for view in [View::Side, View::Above] {
        let figure = views::rig(&scene, view);
        let around = figure.bounds().expect("it is drawn");
        let viewport = Viewport::fitting(around, [0.0, 0.0, 900.0, 500.0], 150.0, 1.36);
        let palette = Palette::light();
        let named = lower_named(&figure, &viewport, &palette, Vec::new());
        let texts: Vec<[f64; 4]> = named.iter().filter_map(text_box).collect();
        for (number, one) in texts.iter().enumerate() {
            for other in &texts[number + 1..] {
                let apart = one[0] >= other[2] || other[0] >= one[2] || one[1] >= other[3] || other[1] >= one[3];
                assert!(apart, "{view:?}: {one:?} covers {other:?}");
            }
        }
        let leaders = named.len() - lower(&figure, &viewport, &palette).len();
        assert!(leaders > 8, "{view:?}: {leaders} primitives more, leaders and dots");
    }
}

/// A bag of 450 mm for half a metre less two clearances of 30 mm: three lengths to the same scale, one over the other.
#[test]
fn a_gap_is_drawn_with_its_three_lengths_where_it_is_seen_and_not_end_on() {
    let at = |x: f64| nalgebra::Point3::new(x, 0.1, 0.45);
    let gap = assess::Gap {
        between: ["stick", "spar"].map(str::to_owned),
        faces_in_floor: [at(1.88), at(2.38)],
        ends_in_floor: [at(1.91), at(2.35)],
        needed: Some(("sand bag".to_owned(), 0.45)),
    };
    let longest_level = |figure: &Figure, text: &str| {
        let label = figure.marks.iter().find_map(|mark| match mark {
            Mark::Text(label) if label.text == text => Some(label.at),
            _ => None,
        });
        let [middle, height] = label.unwrap_or_else(|| panic!("{text} is not written"));
        let lines = figure.marks.iter().filter_map(|mark| match mark {
            Mark::Shape(shape) => {
                let ends = shape.points.iter().filter(|p| (p[1] - height).abs() < 0.02).map(|p| p[0]);
                Some(ends.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], u| [low.min(u), high.max(u)]))
            }
            _ => None,
        });
        let longest = lines.max_by(|a, b| (a[1] - a[0]).total_cmp(&(b[1] - b[0]))).expect("a line");
        close(f64::midpoint(longest[0], longest[1]), middle, "the value stands in the middle");
        longest
    };
    for view in [View::Side, View::Above] {
        let figure = views::gap(&gap, Units::Metric, view);
        both(longest_level(&figure, "500 mm"), [1.88, 2.38], "from face to face");
        both(longest_level(&figure, "440 mm free"), [1.91, 2.35], "clearances taken off");
        both(longest_level(&figure, "“sand bag” 450 mm"), [1.905, 2.355], "the piece");
    }
    let end_on = views::gap(&gap, Units::Metric, View::Front);
    assert!(end_on.marks.is_empty(), "{:?}", end_on.marks);
    let bare = assess::Gap { needed: None, ends_in_floor: gap.faces_in_floor, ..gap };
    both(longest_level(&views::gap(&bare, Units::Metric, View::Side), "500 mm"), [1.88, 2.38], "nothing is to go in");
}

/// The box of a text: capitals from its baseline up.
fn text_box(primitive: &Primitive) -> Option<[f64; 4]> {
    let Primitive::Text { at, align, size, bold, text, .. } = primitive else { return None };
    let [x, y, size] = [at[0], at[1], *size].map(f64::from);
    let wide = drafting::text::width(text, size, *bold);
    let left = match align {
        drafting::figure::Align::Left => x,
        drafting::figure::Align::Centre => x - 0.5 * wide,
        drafting::figure::Align::Right => x - wide,
    };
    Some([left, y - drafting::text::capital_height(size, *bold), left + wide, y])
}
