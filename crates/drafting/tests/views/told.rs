//! Numbers, names and the offset as the figures tell them.

use super::{captions, example};
use drafting::figure::{Label, Mark, Plate};
use drafting::lower::{Viewport, lower_with_names};
use drafting::palette::Palette;
use drafting::views::{self, Scene, View};
use quantity::Quantity;

fn labels(figure: &drafting::figure::Figure) -> impl Iterator<Item = &Label> {
    figure.marks.iter().filter_map(|mark| if let Mark::Text(label) = mark { Some(label) } else { None })
}

/// From the side the viewer stands on the aircraft's left (`own derivation`: buttock lines grow away from there).
#[test]
fn of_pieces_behind_one_another_the_nearest_has_its_number_on_its_own_tint() {
    let (plan, assessment) = example(0);
    let scene = Scene::whole(&plan, &assessment.closed);
    let figure = views::side(&scene);
    let outline = |step: usize| scene.outline(View::Side, step).expect("it is laid");
    let alike =
        |a: usize, b: usize| outline(a).iter().zip(outline(b)).all(|(p, q)| (p[0] - q[0]).hypot(p[1] - q[1]) < 1e-9);
    let y_m = |step: usize| plan.stack[step].at[1].si();
    let mut hidden = 0;
    for label in labels(&figure) {
        let Ok(number) = label.text.parse::<usize>() else { continue };
        let behind: Vec<usize> = (0..plan.steps()).filter(|s| *s + 1 != number && alike(*s, number - 1)).collect();
        assert!(behind.iter().all(|s| y_m(*s) > y_m(number - 1)), "step {number} is not the nearest of {behind:?}");
        assert!(matches!(label.plate, Plate::Tint(..)), "step {number}: {:?}", label.plate);
        hidden += behind.len();
    }
    assert!(hidden > 10, "{hidden} pieces lie behind others");
}

#[test]
fn an_offset_that_lean_and_tilt_change_is_told_as_it_counts_and_as_laid() {
    let (plan, assessment) = example(0);
    let laid = Scene::whole(&plan, &assessment.closed);
    let laid_m = assessment.closed.steps.last().expect("pieces").offset_m;
    let said = |by_m: f64| {
        let scene = Scene { offset_m: Some([laid_m[0] + by_m, laid_m[1]]), ..laid };
        let told = captions(&views::side(&scene)).join("|");
        told.split('|').find(|text| text.contains("of the occupant point")).map(str::to_owned)
    };
    let told = said(0.012).expect("an offset");
    assert!(told.starts_with("12 mm aft of the occupant point; as laid "), "{told}");
    assert!(!said(-0.012).expect("an offset").contains("as laid,"));
    let unsolved = captions(&views::side(&laid)).join("|");
    assert!(unsolved.contains(", as laid"), "what is not solved is told as laid: {unsolved}");
    let alike = Scene { offset_m: Some(laid_m), ..laid };
    assert!(!captions(&views::side(&alike)).iter().any(|text| text.contains("as laid")), "where nothing leans");
}

/// A name is beside the drawing or told under the pointer, and never over what it names.
#[test]
fn names_that_find_no_room_are_given_back_with_their_points() {
    let (plan, assessment) = example(0);
    let figure = views::rig(&Scene::whole(&plan, &assessment.closed), View::Front);
    let around = figure.bounds().expect("it is drawn");
    let unnamed = |wide: f64| {
        let viewport = Viewport::fitting(around, [0.0, 0.0, wide, 500.0], 0.2 * wide, 1.47);
        lower_with_names(&figure, &viewport, &Palette::light(), Vec::new()).1
    };
    let (narrow, roomy) = (unnamed(200.0), unnamed(1600.0));
    assert!(narrow.len() > roomy.len(), "{} in a narrow view, {} in a wide one", narrow.len(), roomy.len());
    assert!(narrow.iter().all(|name| (0.0..=200.0).contains(&name.at[0]) && !name.text.is_empty()), "{narrow:?}");
}
