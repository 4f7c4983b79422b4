//! What each scale should read after each step, and within what.
//!
//! The band of a reading has four parts, each two standard deviations: the scale (its tolerance
//! taken as a rectangular limit), the pieces (their masses and their places), the preload of the
//! hold-downs, the pull of the binding straps that are tied to the floor. Independent, so their squares add (source key `jcgm-100`, from memory there).

pub use super::lean::{Due, Lean, TAPE_WITHIN_M, lean, sinks_m, softened};

use super::fixture::{fixture, pulls};
use crate::closed::problem::{Problem, article};
use nalgebra::Point3;
use plan::Plan;
use quantity::{Quantity, STANDARD_GRAVITY_M_S2 as GRAVITY};
use statics::Masses;
use statics::fixture::{Carried, Influence, Pull, influence, react, scale_tolerance_kg};
use statics::spread::Doubt;

/// A strap drawn tight by hand, hold-down or binding, may pull this share more or less than asked: `common practice, no
/// source`, a bound read as rectangular.
const PRELOAD_SHARE: f64 = 0.2;

/// What scales and straps should show at one state of the stack.
#[derive(Clone, Debug, PartialEq)]
pub struct Expected {
    /// One for each support of the plan; none where it is no scale.
    pub scales: Vec<Option<Band>>,
    /// Pull of each hold-down strap, N.
    pub straps_n: Vec<f64>,
    /// What each support of the plan carries, scale or not, kg.
    pub supports_kg: Vec<f64>,
    /// How each support answers to a little more mass, or to a strap drawn tighter.
    pub levers: Vec<Influence>,
    /// The point of `levers`, floor frame, m: the stack's centroid, else the article's.
    pub reference_in_floor: Point3<f64>,
}

impl Expected {
    /// By how much each support carries more with a kilogram more at a point (floor frame, m).
    /// Exact while no support lifts off and no strap goes slack.
    pub fn per_kg_at(&self, at_in_floor: &Point3<f64>) -> Vec<f64> {
        let off = at_in_floor - self.reference_in_floor;
        self.levers.iter().map(|lever| lever.at([off.x, off.y])).collect()
    }
}

/// A reading and what it may be off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// The reading, kg.
    pub reading_kg: f64,
    /// Two standard deviations of it, kg: all parts together.
    pub within_kg: f64,
    /// The part of the scale, kg; none where the plan does not know its division, and then the
    /// band is too narrow by it.
    pub of_scale_kg: Option<f64>,
    /// The part of the pieces' masses and places, kg.
    pub of_pieces_kg: f64,
    /// The part of the hold-downs' preload, kg.
    pub of_straps_kg: f64,
    /// The part of the binding straps' pull, kg.
    pub of_bindings_kg: f64,
}

impl Band {
    /// Whether a reading fits.
    pub fn fits(&self, reading_kg: f64) -> bool {
        (reading_kg - self.reading_kg).abs() <= self.within_kg
    }
}

/// Two standard deviations of the pull of a strap that was drawn tight by hand, N.
pub fn strap_within_n(strap: &plan::HoldDown) -> f64 {
    drawn_within_n(strap.preload.si())
}

fn drawn_within_n(pull_n: f64) -> f64 {
    2.0 * PRELOAD_SHARE * pull_n / 3.0_f64.sqrt()
}

/// What is expected after 0, 1, 2, ... placements; none where the fixture is not known to stand.
pub fn expected(plan: &Plan) -> Vec<Option<Expected>> {
    let problem = Problem::of(plan);
    (0..=plan.steps()).map(|placed| state(plan, &problem, placed)).collect()
}

/// What is expected after so many placements; none where the fixture is not known to stand.
pub fn expected_after(plan: &Plan, placed: usize) -> Option<Expected> {
    state(plan, &Problem::of(plan), placed)
}

/// Where each piece of the stack presses, in the placing order: its centre, floor frame, m.
pub fn places_in_floor(plan: &Plan) -> Vec<Point3<f64>> {
    pieces(plan, &Problem::of(plan), plan.steps()).into_iter().map(|piece| piece.at).collect()
}

fn state(plan: &Plan, problem: &Problem, placed: usize) -> Option<Expected> {
    let fixture = fixture(plan);
    let pieces = &pieces(plan, problem, placed);
    let stack = Masses::of(pieces.iter().map(|piece| (piece.mass_kg, piece.at)));
    let carried = Carried { article: article(plan), stack, pulls: pulls(plan, placed) };
    let settled = react(&fixture, &carried);
    let reactions = settled.reactions()?;
    let reference = stack.map_or(carried.article.centroid, |stack| stack.centroid);
    let levers = influence(&fixture, &carried, &reference)?;
    let scales = plan.fixture.supports.iter().zip(&reactions.supports).zip(&levers);
    let scales = scales.map(|((support, force), influence)| {
        support.scale.then(|| {
            let of_scale_kg = scale_part(support, force.reading_kg);
            band(plan, force.reading_kg, of_scale_kg, &Lever { influence, reference, pieces, pulls: &carried.pulls })
        })
    });
    Some(Expected {
        scales: scales.collect(),
        straps_n: reactions.ties.iter().map(|tie| tie.tension_n).collect(),
        supports_kg: reactions.supports.iter().map(|support| support.reading_kg).collect(),
        levers,
        reference_in_floor: reference,
    })
}

/// A placed piece: mass, what is not known of it, where it is (floor frame).
struct Placed {
    mass_kg: f64,
    doubt: Doubt,
    at: Point3<f64>,
}

fn pieces(plan: &Plan, problem: &Problem, placed: usize) -> Vec<Placed> {
    let Problem { floor_from_bed, bodies, pile, scatter, .. } = problem;
    (0..placed.min(plan.steps()))
        .map(|i| Placed {
            mass_kg: bodies[i].mass_kg,
            doubt: scatter.doubts[i],
            at: floor_from_bed * pile.centre(bodies, i),
        })
        .collect()
}

/// Two standard deviations of a scale's tolerance, taken as a rectangular limit: 2/sqrt(3) of it
/// (source key `jcgm-100`).
fn scale_part(support: &plan::Support, reading_kg: f64) -> Option<f64> {
    let tolerance = scale_tolerance_kg(support.division?.si(), reading_kg)?;
    Some(2.0 * tolerance / 3.0_f64.sqrt())
}

/// How one reading hangs on pieces and straps.
struct Lever<'a> {
    influence: &'a Influence,
    reference: Point3<f64>,
    pieces: &'a [Placed],
    pulls: &'a [Pull],
}

impl Lever<'_> {
    /// The reading's answer to what binding straps pull more or less: both legs are one strap.
    fn of_bindings_kg(&self) -> f64 {
        let of = |pull: &Pull| {
            let off = pull.at_in_floor - self.reference;
            self.influence.at([off.x, off.y]) * drawn_within_n(pull.force_n) / GRAVITY
        };
        self.pulls.iter().map(|pull| of(pull).powi(2)).sum::<f64>().sqrt()
    }
}

fn band(plan: &Plan, reading_kg: f64, of_scale_kg: Option<f64>, lever: &Lever) -> Band {
    let placement_sd_m = plan.allow.placement_scatter.si() / 2.0;
    let [aft, right] = lever.influence.per_kg_m;
    let of_piece = |piece: &Placed| {
        let off = piece.at - lever.reference;
        let of_mass = lever.influence.at([off.x, off.y]) * piece.doubt.mass_sd_kg;
        let of_place = piece.mass_kg * aft.hypot(right) * placement_sd_m;
        of_mass * of_mass + of_place * of_place
    };
    let of_pieces_kg = 2.0 * lever.pieces.iter().map(of_piece).sum::<f64>().sqrt();
    let straps = plan.fixture.hold_downs.iter().zip(&lever.influence.per_preload_n);
    let of_strap = |(strap, per_n): (&plan::HoldDown, &f64)| {
        let off = per_n * 0.5 * strap_within_n(strap);
        off * off
    };
    let of_straps_kg = 2.0 * straps.map(of_strap).sum::<f64>().sqrt();
    let of_bindings_kg = lever.of_bindings_kg();
    let within_kg = of_scale_kg.unwrap_or(0.0).hypot(of_pieces_kg).hypot(of_straps_kg).hypot(of_bindings_kg);
    Band { reading_kg, within_kg, of_scale_kg, of_pieces_kg, of_straps_kg, of_bindings_kg }
}
