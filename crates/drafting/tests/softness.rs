//! How bags give, on paper and in the drawing: the hangar test, the leaning stack, catch blocks, movement at holds.

use assess::{Ask, Assessment, assess};
use drafting::figure::{Figure, Mark};
use drafting::sheet;
use drafting::views::{self, Scene, View};
use lopdf::Document;
use nalgebra::Vector3;
use plan::{Plan, SoftnessFrom};
use quantity::{Length, Quantity};

fn demo() -> Plan {
    plan::file::read(include_str!("../../../assets/examples/tandem-rear-seat.ron")).expect("the demo opens")
}

fn assessed(plan: &Plan) -> Assessment {
    assess(plan, Ask::full())
}

/// The text of the sheet, as lopdf reads it, white space made single.
fn text(plan: &Plan, assessment: &Assessment) -> String {
    let bytes = sheet::pdf(plan, assessment).expect("it prints");
    let document = Document::load_mem(&bytes).expect("a PDF that another reader opens");
    let pages: Vec<u32> = document.get_pages().into_keys().collect();
    let text = document.extract_text(&pages).expect("pages with text");
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn tenth_mm(m: f64) -> String {
    format!("{:.1} mm", 1e3 * m)
}

/// By hand: 1.8 mm x 0.21 m x 0.13 m / (60 kg x 9.80665) = 8.35e-8 m3/N; 50 mm / 8.35e-8 = 0.60 MPa.
#[test]
fn the_sheet_prints_the_arithmetic_of_the_measured_bags_and_lines_for_those_that_nobody_measured() {
    let mut plan = demo();
    let measured = text(&plan, &assess(&plan, Ask::closed()));
    assert!(measured.contains("1.8 mm × 210 mm × 130 mm / (60.0 kg × 9.80665 m/s²) = 8.35e-8 m³/N"), "{measured}");
    assert!(measured.contains("modulus = thickness / c = 50 mm / c = 0.60 MPa"), "the modulus");
    assert!(!measured.contains("Measure 3 bags"), "nothing is left to measure");
    plan.ballast[0].softness = None;
    let open = text(&plan, &assess(&plan, Ask::closed()));
    assert!(open.contains("not measured, judged at 0.1, 0.3 and 1 MPa. Measure 3 bags"), "{open}");
    assert!(open.contains("4. Measure length and width of the flat"), "the four steps");
}

#[test]
fn a_stated_softness_is_never_printed_as_measured() {
    let mut plan = demo();
    if let Some(softness) = &mut plan.ballast[0].softness {
        softness.from = SoftnessFrom::Stated;
    }
    let text = text(&plan, &assess(&plan, Ask::closed()));
    let nobody = "shot bag: stated, not measured on these bags, and nobody wrote who gave it; modulus 0.6 MPa";
    assert!(text.contains(nobody), "{text}");
    assert!(!text.contains("c = sinking"), "no arithmetic of a measurement");
    if let Some(softness) = &mut plan.ballast[0].softness {
        softness.source = "letter of the maker".to_owned();
    }
    let text = self::text(&plan, &assess(&plan, Ask::closed()));
    assert!(text.contains("not measured on these bags, from: letter of the maker; modulus 0.6 MPa"), "{text}");
}

#[test]
fn each_hold_tells_the_lean_the_sinking_and_the_turn_and_each_catch_block_what_is_left_of_its_gap() {
    let plan = demo();
    let assessment = assessed(&plan);
    let text = text(&plan, &assessment);
    let exact = assessment.exact.as_ref().expect("solved");
    let soft = exact.soft.as_ref().expect("bags");
    let step = plan.steps() - 1;
    let rest = soft.usual.steps[step].end.rest().expect("it stands");
    let moved = exact.article_moved(step).expect("it stands on its supports");
    assert!(rest.lean_m > 0.0, "it leans");
    let planned = testday::lean_planned(&plan, step + 1).expect("its lean is known");
    let moved_m = plan.floor_from_bed() * Vector3::from(soft.moved_after(step)[planned.due.piece].shift_m);
    for (axis, sides) in [["aft", "forward"], ["right", "left"]].into_iter().enumerate() {
        let to = |m: f64, words: String| format!("{words} {}", sides[usize::from(m < 0.0)]);
        let [from_m, to_m] = planned.fits_from_to_m[axis];
        let whole = |m: f64| to(m, format!("{:.0} mm", 1e3 * m.abs()));
        let usual = to(moved_m[axis], tenth_mm(moved_m[axis].abs()));
        let row = format!("{usual}; anything from {} to {} fits", whole(from_m), whole(to_m));
        assert!(text.contains(&row), "no {row:?} in {text}");
        assert!(from_m < moved_m[axis] && moved_m[axis] < to_m, "what is expected fits");
    }
    let lower = format!("top mark sank {}; anything from", tenth_mm(-moved_m.z));
    assert!(text.contains(&lower), "no {lower:?} in {text}");
    let mark = format!("Top mark: middle of {}.", planned.due.name);
    assert!(text.contains(&mark), "no {mark:?} in {text}");
    let sinks = format!("sank at the occupant point {}", tenth_mm(moved.sink_m(&assessment.closed.target_in_floor)));
    assert!(text.contains(&sinks), "no {sinks:?} in {text}");
    for block in &plan.fixture.catch_blocks {
        let sinks_m = moved.sink_m(&plan::point(block.at));
        let row = format!("{} sinks {}", tenth_mm(block.gap.si() - sinks_m), tenth_mm(sinks_m));
        assert!(text.contains(&row), "no {row:?} for {} in {text}", block.name);
    }
}

#[test]
fn a_gap_that_closes_is_printed_as_closed() {
    let mut plan = demo();
    let assessment = assessed(&plan);
    assert!(!text(&plan, &assessment).contains("CLOSED"), "the demo's gaps stay open");
    // The article of the demo goes down by more than this as it is loaded.
    plan.fixture.catch_blocks[0].gap = Length::m(1e-6);
    assert!(text(&plan, &assessment).contains("CLOSED"), "a gap of a thousandth of a millimetre closes");
}

/// The middle of each outline, m.
fn middles(figure: &Figure) -> Vec<[f64; 2]> {
    let polygons = figure.marks.iter().filter_map(|mark| match mark {
        Mark::Shape(shape) if shape.closed && shape.points.len() == 4 => Some(&shape.points),
        _ => None,
    });
    polygons.map(|points| [0, 1].map(|axis| points.iter().map(|p| p[axis]).sum::<f64>() / 4.0)).collect()
}

/// Of the lean, and of the sinking.
fn scales_told(figure: &Figure) -> [f64; 2] {
    let told = figure.marks.iter().find_map(|mark| match mark {
        Mark::Text(label) => {
            let (lean, sinking) = label.text.strip_prefix("lean drawn × ")?.split_once(", sinking × ")?;
            Some([lean.parse::<f64>().ok()?, sinking.parse::<f64>().ok()?])
        }
        _ => None,
    });
    told.expect("the scales are told")
}

/// A piece turns about its centre: the middle of its outline goes by its shift and by the mean of its two faces' sinking,
/// each times the scale that is told.
#[test]
fn the_leaning_stack_is_drawn_off_by_its_shifts_and_sinking_times_the_scales_that_are_told_at_the_step_that_is_shown() {
    let plan = demo();
    let assessment = assessed(&plan);
    let soft = assessment.exact.as_ref().and_then(|exact| exact.soft.as_ref()).expect("bags");
    for placed in [plan.steps(), plan.steps() / 2] {
        let scene = Scene { step: placed, ..Scene::whole(&plan, &assessment.closed) };
        let figure = views::lean(&scene, soft).expect("it stands");
        let ([scale, sinking], drawn) = (scales_told(&figure), middles(&figure));
        assert_eq!(drawn.len(), placed, "an outline a piece");
        let (moved, faces) =
            (soft.moved_after(placed - 1), soft.faces_sunk_m(&plan, &assessment.closed.pile, placed - 1));
        for (step, got) in drawn.iter().enumerate() {
            let outline = scene.outline(View::Side, step).expect("it is laid");
            let laid = [0, 1].map(|axis| outline.iter().map(|p| p[axis]).sum::<f64>() / 4.0);
            let [aft, right, _] = moved[step].shift_m;
            let down_m = 0.5 * (faces[step][0] + faces[step][1]);
            let shift = plan.floor_from_bed() * Vector3::new(scale * aft, scale * right, -sinking * down_m);
            let off_m = (got[0] - laid[0] - shift.x).hypot(got[1] - laid[1] - shift.z);
            assert!(off_m < 1e-9, "step {}: drawn {got:?} m, laid {laid:?} m, off by {off_m} m", step + 1);
        }
        let far_m = moved.iter().map(|moved| moved.shift_m[0].abs()).fold(0.0, f64::max);
        assert!(scale * far_m > 0.001, "drawn {} m off, which nobody sees", scale * far_m);
    }
}

/// In a straight pile of equal bags the face between two of them sinks by the mean of both, the lowest underside not at
/// all (`own derivation`: equal springs in a row).
#[test]
fn faces_of_pieces_on_one_another_sink_alike() {
    let plan = demo();
    let assessment = assessed(&plan);
    let soft = assessment.exact.as_ref().and_then(|exact| exact.soft.as_ref()).expect("bags");
    let faces = soft.faces_sunk_m(&plan, &assessment.closed.pile, plan.steps() - 1);
    let layer = |step: usize| assessment.closed.pile.layer[step];
    for (step, [low_m, high_m]) in faces.iter().enumerate() {
        assert!(high_m >= low_m, "step {}: no piece grows thicker: {low_m} m, {high_m} m", step + 1);
        assert!(layer(step) > 1 || low_m.abs() < 1e-12, "step {}: the seat does not sink", step + 1);
    }
    let most_m = faces.iter().map(|[_, high_m]| *high_m).fold(0.0, f64::max);
    assert!(most_m > 1e-4, "the top sinks: {most_m} m");
}
