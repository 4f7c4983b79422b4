//! Causes in one sentence each, with what to look at.

use super::Fault;
use crate::RunDone;
use plan::Plan;
use quantity::frame::side;
use quantity::{Grain, Length, Mass, Quantity, Units};

pub(super) fn sentence(run: &RunDone, fault: &Fault) -> String {
    let plan = run.as_done();
    let units = plan.units;
    let mass = |kg: f64| Mass::kg(kg).shown(units, Grain::Coarse);
    let piece = |index: usize| format!("{} (step {})", plan.piece_name(index), run.step_of(index) + 1);
    let weighs = |index: usize| plan.stack.get(index).map_or(0.0, |place| plan.mass_of(place).si());
    match fault {
        Fault::LeftOut { index } => {
            format!(
                "{} is missing: it weighs {}. Count the pieces from a distance.",
                piece(*index),
                mass(weighs(*index))
            )
        }
        Fault::Twice { index } => format!(
            "An extra piece like {} is in place: {} too much. Count the pieces from a distance.",
            piece(*index),
            mass(weighs(*index))
        ),
        Fault::WrongSide { index } => {
            format!("{} is on the wrong side of the centerline. Look from a distance.", piece(*index))
        }
        Fault::OtherPiece { index, lot } => {
            let other =
                plan.ballast.get(*lot).map_or(String::new(), |l| format!("{} of {}", l.name, mass(l.mass.si())));
            format!("A {other} is in the place of {}. Read its number from a distance or by camera.", piece(*index))
        }
        Fault::WrongPlace { index, off_m } => {
            format!(
                "{} is about {} of its place. Look from a distance or by camera; to measure, take the load off first.",
                piece(*index),
                off_words(*off_m, units)
            )
        }
        Fault::StrapSlack { strap } => {
            let name = plan.fixture.hold_downs.get(*strap).map_or("", |s| s.name.as_str());
            format!(
                "{name} is slack. Look from a distance: a strap may still be under tension. Do not tighten it under load."
            )
        }
        Fault::ScaleStuck { .. }
        | Fault::ScaleOff { .. }
        | Fault::Mistyped { .. }
        | Fault::Exchanged { .. }
        | Fault::TareExchanged { .. } => of_scale(plan, fault),
        Fault::TouchesFloor { .. } | Fault::MoreOnIt { .. } | Fault::GoesOver { .. } | Fault::LostContact { .. } => {
            of_load(plan, fault)
        }
    }
}

/// Causes that lie in where the load goes.
fn of_load(plan: &Plan, fault: &Fault) -> String {
    let mass = |kg: f64| Mass::kg(kg).shown(plan.units, Grain::Coarse);
    match fault {
        Fault::TouchesFloor { kg } => format!(
            "About {} bypasses the scales: the article touches or leans on something. Look from a distance or by camera, never from under it.",
            mass(*kg)
        ),
        Fault::GoesOver { moment_kg_m } => format!(
            "The load has gone over {}, and nothing was added: the article tips, or something slides. Stand clear. Look from a distance at supports, catch blocks and the top of the stack.",
            toward(*moment_kg_m)
        ),
        Fault::LostContact { support } => format!(
            "{} lost contact or has settled: the others carry what it carried. Look at its foot from a distance or by camera, never from under it.",
            plan.fixture.supports.get(*support).map_or("", |s| s.name.as_str())
        ),
        Fault::MoreOnIt { kg } => format!(
            "About {} extra stands on the scales: a tool, a foot, a bag beside the stack. Look from a distance what it is.",
            mass(*kg)
        ),
        _ => String::new(),
    }
}

/// Causes that lie in a scale or in what was entered for it.
fn of_scale(plan: &Plan, fault: &Fault) -> String {
    let mass = |kg: f64| Mass::kg(kg).shown(plan.units, Grain::Coarse);
    let scale = |support: usize| plan.fixture.supports.get(support).map_or("", |s| s.name.as_str());
    match fault {
        Fault::ScaleStuck { support } => format!(
            "{} shows the same although load came on: it is stuck, or something holds its platform. Look from a distance or by camera; to free it, take the load off first.",
            scale(*support)
        ),
        Fault::ScaleOff { support, by_kg } => format!(
            "{} alone shows {} too {}: it was moved, its zero shifted, or its tare was entered wrong. Look from a distance or by camera at its feet, its cable and what leans on it; a wrong tare is corrected under “Lines of the log”.",
            scale(*support),
            mass(by_kg.abs()),
            if *by_kg < 0.0 { "little" } else { "much" }
        ),
        Fault::Mistyped { support, meant_kg } => {
            format!("{} was entered wrong: it may show {}. Read it again.", scale(*support), mass(*meant_kg))
        }
        Fault::Exchanged { supports: [one, other] } => {
            format!("{} and {} were entered in each other's place. Read both again.", scale(*one), scale(*other))
        }
        Fault::TareExchanged { supports: [one, other] } => format!(
            "{} and {} were entered in each other's place at the tare. Correct that line.",
            scale(*one),
            scale(*other)
        ),
        _ => String::new(),
    }
}

/// A part of a moment that is smaller beside the other one is no direction of its own.
const BESIDE: f64 = 0.4;

/// `to the right`, `aft and to the left`.
fn toward(moment_kg_m: [f64; 2]) -> String {
    let most = moment_kg_m.iter().fold(0.0_f64, |most, part| most.max(part.abs()));
    let told = |axis: usize| {
        let word = side(axis, moment_kg_m[axis]);
        if axis == 1 { format!("to the {word}") } else { word.to_owned() }
    };
    let counts = |axis: &usize| moment_kg_m[*axis].abs() > BESIDE * most;
    [0, 1].into_iter().filter(counts).map(told).collect::<Vec<_>>().join(" and ")
}

fn off_words([aft, right]: [f64; 2], units: Units) -> String {
    let told = |axis: usize, m: f64| format!("{} {}", Length::m(m.abs()).shown(units, Grain::Fine), side(axis, m));
    format!("{} and {}", told(0, aft), told(1, right))
}
