//! A beam under forces that are all given: no support is asked, the forces must close.

use crate::beam::misstated::{laid, sized};
use crate::beam::{Bending, Closing, CrossSection, Datum, Diagram, End, Load, Misstated};

/// All that presses on a beam.
#[derive(Debug, Clone, PartialEq)]
pub struct Pressed {
    /// The beam, m.
    pub length_m: f64,
    /// Its section.
    pub section: CrossSection,
    /// What pushes down.
    pub above: Vec<Load>,
    /// What pushes up.
    pub below: Vec<Load>,
    /// How far the forces may miss balance, N, and the moments by this times the length.
    pub closes_within_n: f64,
}

/// Bends a beam under forces that balance one another, as those from the equilibrium of a stack
/// do. Deflection is measured from the chord between the outermost ends of what pushes up, since
/// nothing says how far these sink.
///
/// What the forces leave over is reported in [`Bending::closing`]. Summed up from the left end and from the right the
/// moments differ by as much, and the true one lies between: the diagram is the mean of both, the greatest moment that
/// of the worse. Beyond `closes_within_n` the answer is [`End::NotDecided`].
///
/// # Errors
/// A size, place or force that no beam can have.
pub fn bend_given(pressed: &Pressed) -> Result<End, Misstated> {
    let length_m = pressed.length_m;
    sized(length_m, &pressed.section)?;
    let above = laid(&pressed.above, length_m)?;
    let below = laid(&pressed.below, length_m)?;
    let mut down = above;
    down.extend(below.iter().map(Load::reversed));
    let rigidity_n_m2 = pressed.section.rigidity_n_m2();
    let from_left = Diagram::of(length_m, rigidity_n_m2, &down);
    let closing = closing(&from_left);
    if !closes(&closing, pressed.closes_within_n, length_m) {
        return Ok(End::NotDecided { residual: residual(&closing, &down, length_m) });
    }
    let half = [-0.5 * closing.force_n, 0.25 * length_m * closing.force_n - 0.5 * closing.moment_n_m];
    let diagram = Diagram::from_left(length_m, rigidity_n_m2, &down, half);
    let datum = datum(&below, length_m);
    Ok(End::Balanced(Bending::of(&pressed.section, measured(diagram, datum), datum, closing)))
}

/// What is left over, moments about the middle of the beam.
pub(super) fn closing(diagram: &Diagram) -> Closing {
    let [force_n, about_right_n_m] = diagram.left_over();
    Closing { force_n, moment_n_m: about_right_n_m - 0.5 * diagram.length_m() * force_n }
}

fn closes(closing: &Closing, within_n: f64, length_m: f64) -> bool {
    closing.force_n.abs() <= within_n && closing.moment_n_m.abs() <= within_n * length_m
}

/// The worse miss as a fraction of all that presses.
fn residual(closing: &Closing, down: &[Load], length_m: f64) -> Option<f64> {
    let all_n: f64 = down.iter().map(Load::strength_n).sum();
    let miss = closing.force_n.abs().max(closing.moment_n_m.abs() / length_m) / all_n;
    miss.is_finite().then_some(miss)
}

/// The outermost ends of what pushes up; one place only where all of it stands there.
fn datum(below: &[Load], length_m: f64) -> Datum {
    let carrying = || below.iter().filter(|load| load.force_n().abs() > 0.0);
    let from_m = carrying().map(|load| load.ends_m()[0]).fold(f64::INFINITY, f64::min);
    let to_m = carrying().map(|load| load.ends_m()[1]).fold(f64::NEG_INFINITY, f64::max);
    if to_m - from_m > 1e-6 * length_m {
        Datum::Chord { from_m, to_m }
    } else if from_m.is_finite() {
        Datum::Tangent { at_m: from_m }
    } else {
        Datum::Nothing
    }
}

fn measured(diagram: Diagram, datum: Datum) -> Diagram {
    let (at_m, slope) = match datum {
        Datum::Chord { from_m, to_m } => {
            let rise_m = diagram.deflection_m(to_m) - diagram.deflection_m(from_m);
            (from_m, rise_m / (to_m - from_m))
        }
        Datum::Tangent { at_m } => (at_m, diagram.slope(at_m)),
        Datum::Supports | Datum::Nothing => return diagram,
    };
    let sunk_m = diagram.deflection_m(at_m);
    diagram.moved(slope * at_m - sunk_m, -slope)
}
