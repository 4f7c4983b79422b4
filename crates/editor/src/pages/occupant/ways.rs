//! The choice of the way to the occupant point. A way that is left is kept beside the new one, and a
//! new one begins where the point is now, so that nothing jumps and nothing is lost.

use super::super::Bench;
use super::super::list::row;
use crate::look;
use assess::Seated;
use eframe::egui::Ui;
use plan::{Edit, LoadPoint, LowerLegs, Plan, Posture, SegmentTable, Sex, Target, Weighed, WeighingScale};
use quantity::{Angle, Length, Mass, Quantity, Units};

/// The ways: kind, as it is chosen, and what it rests on.
const WAYS: [(&str, &str, &str); 4] = [
    ("typed point", "a typed point", "a station and a waterline that you know"),
    ("posture", "the occupant's posture", "the centre of mass of the case's occupant as he sits, by published tables"),
    ("weighing", "two weighings", "the aircraft on its scales with and without the occupant: better than any table"),
    ("load point", "a document", "from a document that you name: the plan assumes none"),
];

pub(super) fn choice(ui: &mut Ui, bench: &mut Bench) {
    let words = WAYS.map(|(kind, word, _)| (kind, word));
    let kind = bench.plan.target.kind();
    let mut wanted = kind;
    row(ui, "It comes from", |ui| bench.form().choice(ui, "way to the occupant point", &words, &mut wanted));
    if wanted != kind && bench.edits.is_empty() {
        bench.edits.push(to(bench.plan, wanted));
    }
    let about = WAYS.iter().find(|(of, ..)| *of == kind).map_or("", |(.., about)| about);
    row(ui, "", |ui| drop(ui.label(look::caption(bench.look, about))));
}

/// One that is kept is taken again, else a new one is begun.
fn to(plan: &Plan, wanted: &str) -> Edit {
    let kept = plan.other_targets.iter().position(|other| other.kind() == wanted);
    kept.map_or_else(|| Edit::NewTarget { target: Box::new(begun(plan, wanted)) }, |index| Edit::UseTarget { index })
}

fn begun(plan: &Plan, wanted: &str) -> Target {
    let at: [f64; 3] = assess::occupant_point(plan).in_article.into();
    let (at, tolerance) = (at.map(Length::m), plan.target.tolerance());
    match wanted {
        "posture" => match seat(plan).filter(|_| nobody_said(plan)) {
            Some(seat) => Target::Posture(Posture { seat_reference: seat, ..sitting(plan, at) }),
            None => Target::Posture(sitting(plan, at)),
        },
        "weighing" => Target::Weighed(to_be_read(plan, at, tolerance)),
        "load point" => Target::LoadPoint(LoadPoint { document: LoadPoint::UNNAMED.to_owned(), at, tolerance }),
        _ => Target::Point { at, tolerance },
    }
}

/// Whether the point still lies where a new plan has it.
fn nobody_said(plan: &Plan) -> bool {
    matches!(&plan.target, Target::Point { at, .. } if *at == [Length::m(0.0); 3])
}

/// Where a back would meet the pan: at the aft end of the rearmost bearing, in the bed's middle, article
/// frame.
fn seat(plan: &Plan) -> Option<[Length; 3]> {
    let aft = |bearing: &&plan::Bearing| bearing.x[1].si();
    let rearmost = plan.bed.bearings.iter().max_by(|a, b| aft(a).total_cmp(&aft(b)))?;
    let in_bed = plan::point([rearmost.x[1], Length::m(0.0), rearmost.top]);
    let in_article: [f64; 3] = (plan.article_from_bed() * in_bed).into();
    Some(in_article.map(rounded))
}

/// As in a light aircraft, put where the centre of mass is at a point; the tolerance begins as the
/// uncertainty of a known posture.
fn sitting(plan: &Plan, at: [Length; 3]) -> Posture {
    let degrees = |d: f64| Angle::rad(d.to_radians());
    let zero = Length::m(0.0);
    let mut posture = Posture {
        seat_reference: at,
        recline: degrees(20.0),
        pan: degrees(10.0),
        thigh: None,
        knee: degrees(125.0),
        arm: degrees(25.0),
        elbow: degrees(110.0),
        head: None,
        pan_cushion: zero,
        back_cushion: zero,
        back_pack: zero,
        stature: if plan.units == Units::Metric { Length::m(1.75) } else { Length::m(69.0 * 0.0254) },
        slump: Length::m(0.020),
        sex: Sex::Male,
        table: SegmentTable::DeLeva,
        lower_legs: LowerLegs::OnSeat,
        tolerance: [Length::m(assess::KNOWN_WITHIN_M), Length::m(0.010)],
    };
    let [ahead, up] = Seated::of(plan, &posture).figure.cg_m();
    posture.seat_reference = [rounded(at[0].si() + ahead), at[1], rounded(at[2].si() - up)];
    posture
}

/// To the millimetre: nobody knows a seat better.
fn rounded(m: f64) -> Length {
    Length::m((m * 1e3).round() / 1e3)
}

/// Two scales a metre apart, the case's occupant over their middle and no aircraft: a check fails
/// until real readings stand there.
fn to_be_read(plan: &Plan, at: [Length; 3], tolerance: [Length; 2]) -> Weighed {
    let mass = plan.case_in_hand().map_or(Mass::kg(80.0), |case| case.occupant_mass);
    let scale = |name: &str, aft_m: f64| WeighingScale {
        name: name.to_owned(),
        at: [rounded(at[0].si() + aft_m), at[1]],
        without: Mass::kg(0.0),
        with: mass * 0.5,
    };
    Weighed {
        scales: vec![scale("front scale", -0.5), scale("rear scale", 0.5)],
        reading_within: Mass::kg(0.2),
        waterline: at[2],
        tolerance,
    }
}
