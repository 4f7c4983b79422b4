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
    assert!(text.contains("shot bag: stated, not measured on these bags; modulus 0.6 MPa"), "{text}");
    assert!(!text.contains("c = sinking"), "no arithmetic of a measurement");
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
    let row = format!("{} leans, to any side {}", plan.piece_name(rest.leaning), tenth_mm(rest.lean_m));
    assert!(text.contains(&row), "no {row:?} in {text}");
    let sinks = format!("sinks at the occupant point {}", tenth_mm(moved.sink_m(&assessment.closed.target_in_floor)));
    assert!(text.contains(&sinks), "no {sinks:?} in {text}");
    for block in &plan.fixture.catch_blocks {
        let sinks_m = moved.sink_m(&plan::point(block.at));
        let row = format!("{} {}", tenth_mm(sinks_m), tenth_mm(block.gap.si() - sinks_m));
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

fn scale_told(figure: &Figure) -> f64 {
    let told = figure.marks.iter().find_map(|mark| match mark {
        Mark::Text(label) => label.text.strip_prefix("lean drawn × ")?.split(',').next()?.parse::<f64>().ok(),
        _ => None,
    });
    told.expect("the scale is told")
}

/// A piece turns about its centre: the middle of its outline goes by its shift alone, times the scale.
#[test]
fn the_leaning_stack_is_drawn_off_by_its_shifts_times_the_scale_that_is_told() {
    let plan = demo();
    let assessment = assessed(&plan);
    let soft = assessment.exact.as_ref().and_then(|exact| exact.soft.as_ref()).expect("bags");
    let scene = Scene::whole(&plan, &assessment.closed);
    let figure = views::lean(&scene, soft).expect("it stands");
    let (scale, drawn) = (scale_told(&figure), middles(&figure));
    assert_eq!(drawn.len(), plan.steps(), "an outline a piece");
    for (step, got) in drawn.iter().enumerate() {
        let outline = scene.outline(View::Side, step).expect("it is laid");
        let laid = [0, 1].map(|axis| outline.iter().map(|p| p[axis]).sum::<f64>() / 4.0);
        let [aft, right, _] = soft.moved[step].shift_m;
        let shift = plan.floor_from_bed() * (scale * Vector3::new(aft, right, 0.0));
        let off_m = (got[0] - laid[0] - shift.x).hypot(got[1] - laid[1] - shift.z);
        assert!(off_m < 1e-9, "step {}: drawn {got:?} m, laid {laid:?} m, off by {off_m} m", step + 1);
    }
    let far_m = soft.moved.iter().map(|moved| moved.shift_m[0].abs()).fold(0.0, f64::max);
    assert!(scale * far_m > 0.001, "drawn {} m off, which nobody sees", scale * far_m);
}
