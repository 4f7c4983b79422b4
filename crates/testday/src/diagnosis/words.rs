//! Causes in one sentence each, with what to look at.

use super::Fault;
use crate::RunDone;
use quantity::{Grain, Length, Mass, Quantity, Units};

pub(super) fn sentence(run: &RunDone, fault: &Fault) -> String {
    let plan = run.as_done();
    let units = plan.units;
    let mass = |kg: f64| Mass::kg(kg).shown(units, Grain::Coarse);
    let piece = |index: usize| format!("{} (step {})", plan.piece_name(index), run.step_of(index) + 1);
    let weighs = |index: usize| plan.stack.get(index).map_or(0.0, |place| plan.mass_of(place).si());
    let scale = |support: usize| plan.fixture.supports.get(support).map_or("", |s| s.name.as_str());
    match fault {
        Fault::LeftOut { index } => {
            format!("{} is missing: it weighs {}. Look whether it lies there.", piece(*index), mass(weighs(*index)))
        }
        Fault::Twice { index } => format!(
            "A second piece like {} lies there: {} too much. Count what lies there.",
            piece(*index),
            mass(weighs(*index))
        ),
        Fault::WrongSide { index } => {
            format!("{} lies on the wrong side of the centreline. Look where it lies.", piece(*index))
        }
        Fault::OtherPiece { index, lot } => {
            let other =
                plan.ballast.get(*lot).map_or(String::new(), |l| format!("{} of {}", l.name, mass(l.mass.si())));
            format!("A {other} lies in the place of {}. Look at its number.", piece(*index))
        }
        Fault::WrongPlace { index, off_m } => {
            format!("{} lies about {} of its place. Measure where it lies.", piece(*index), off_words(*off_m, units))
        }
        Fault::StrapSlack { strap } => {
            let name = plan.fixture.hold_downs.get(*strap).map_or("", |s| s.name.as_str());
            format!("{name} hangs loose. Look at it from where nothing can fall on you.")
        }
        Fault::ScaleStuck { support } => format!(
            "{} shows the same although load came on: it is stuck, or something holds its platform. Look whether it moves freely.",
            scale(*support)
        ),
        Fault::ScaleOff { support, by_kg } => format!(
            "{} alone shows {} too {}: it was moved, or its zero shifted. Look at its feet, its cable and what leans on it.",
            scale(*support),
            mass(by_kg.abs()),
            if *by_kg < 0.0 { "little" } else { "much" }
        ),
        Fault::Mistyped { support, meant_kg } => format!(
            "{} was not entered as it stands there: it may show {}. Read it again.",
            scale(*support),
            mass(*meant_kg)
        ),
        Fault::TouchesFloor { kg } => format!(
            "About {} goes into the floor past the scales: something touches it, or the article leans on something. Look along its underside.",
            mass(*kg)
        ),
        Fault::MoreOnIt { kg } => format!(
            "About {} more stands on the scales: a tool, a foot, a bag beside the stack. Clear them.",
            mass(*kg)
        ),
    }
}

fn off_words([aft, right]: [f64; 2], units: Units) -> String {
    let told = |m: f64, [more, less]: [&str; 2]| {
        format!("{} {}", Length::m(m.abs()).shown(units, Grain::Fine), if m < 0.0 { less } else { more })
    };
    format!("{} and {}", told(aft, ["aft", "forward"]), told(right, ["right", "left"]))
}
