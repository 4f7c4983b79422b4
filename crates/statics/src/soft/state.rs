//! A stack at rest on beds that give, and how the question can end.

use super::critical::{critical, critical_by_springs};
use super::factor::Factored;
use super::given::SoftStack;
use super::joint::{Look, Order};
use super::model::{Load, Model, Motion};
use super::newton::{Reached, TENTHS, first_order, in_parts, second_order};
use crate::equilibrium::block::Wrench;
use nalgebra::Vector3;

/// How the question ends whether a stack of pieces that give stands.
#[derive(Debug, Clone, PartialEq)]
pub enum SoftEnd {
    /// At rest, in balance to a billionth of its weight, and stable.
    Stands(Rest),
    /// It leans over by itself: the balance that there is, is not stable.
    LeansOver {
        /// How many times its weight it would bear: below 1. None: not worked out.
        critical: Option<f64>,
    },
    /// A piece has nothing under it, or nothing but rims.
    Loose,
    /// Not answered. It counts as falling.
    NotDecided {
        /// The worst miss of balance as a part of the load, if it got that far.
        residual: Option<f64>,
    },
}

impl SoftEnd {
    /// Does it stand? `None` where that is not decided.
    pub fn stands(&self) -> Option<bool> {
        match self {
            SoftEnd::Stands(_) => Some(true),
            SoftEnd::LeansOver { .. } | SoftEnd::Loose => Some(false),
            SoftEnd::NotDecided { .. } => None,
        }
    }

    /// The figures, where it stands.
    pub fn rest(&self) -> Option<&Rest> {
        match self {
            SoftEnd::Stands(rest) => Some(rest),
            _ => None,
        }
    }

    /// How many times its weight the stack would bear; below 1 it leans over. Not worked out: `None`;
    /// a stack that no multiple of its weight topples bears infinitely often its weight.
    pub fn critical(&self) -> Option<f64> {
        match self {
            SoftEnd::Stands(rest) => Some(rest.critical),
            SoftEnd::LeansOver { critical } => *critical,
            SoftEnd::Loose | SoftEnd::NotDecided { .. } => None,
        }
    }
}

/// What a stack comes to at rest.
///
/// Limits: springs of one stiffness for each piece, first loading, all loads at once; neighbours that touch
/// do not hold one another; no slip. Source: `own derivation`, see the module.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rest {
    /// The greatest sinking of a piece's centre, m, along the bed's z, down positive.
    pub settlement_m: f64,
    /// The greatest tilt of a piece, rad.
    pub tilt_rad: f64,
    /// Shift of the stack's centroid, m, floor frame: aft, right. It joins the offset.
    pub shift_m: [f64; 2],
    /// The same without the lean's own share: to the first order. None: that does not come to a balance.
    pub shift_first_order_m: Option<[f64; 2]>,
    /// The greatest level shift of a piece's centre, m, and that piece.
    pub lean_m: f64,
    /// The piece that leans so.
    pub leaning: usize,
    /// How many times its weight it would bear before it leans over by itself. Infinite: nothing topples it.
    pub critical: f64,
    /// By how much a small disturbance grows: L/(L - 1).
    pub amplification: f64,
    /// The greatest share of friction in use: shear over friction times pressure.
    pub friction_use: f64,
    /// The least part of a bed that is pressed.
    pub closed: f64,
    /// The worst miss of balance as a part of the load.
    pub residual: f64,
}

/// How one piece moved, bed frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moved {
    /// Shift of its centre, m.
    pub shift_m: [f64; 3],
    /// Turns about the bed's x, y and z, rad, right-handed.
    pub turn_rad: [f64; 3],
}

/// What one bed carries.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BedForce {
    /// Its place in the pile's list of contacts.
    pub contact: usize,
    /// Force across, N.
    pub normal_n: f64,
    /// Force along, N.
    pub shear_n: f64,
    /// The part of it that is pressed.
    pub closed: f64,
    /// The greatest pressure, Pa.
    pub greatest_pa: f64,
}

/// One state in full.
#[derive(Debug, Clone, PartialEq)]
pub struct Solved {
    /// How it ended.
    pub end: SoftEnd,
    /// One a piece; empty where it does not stand.
    pub moved: Vec<Moved>,
    /// One a bed; empty where it does not stand.
    pub beds: Vec<BedForce>,
}

/// The first `step` pieces at rest under their weight and the straps, in full.
pub fn at_rest(given: &SoftStack, step: usize) -> Solved {
    let (end, settled) = settle(given, step);
    let Some(Settled { model, motion, looks }) = settled else {
        return Solved { end, moved: Vec::new(), beds: Vec::new() };
    };
    let moved = motion.iter().map(|&[x, y, z, u, v, w]| Moved { shift_m: [x, y, z], turn_rad: [u, v, w] });
    let beds = model.joints.iter().zip(&looks).map(|(joint, look)| {
        let carried = joint.carried(look);
        BedForce {
            contact: joint.lie.contact,
            normal_n: carried.normal_n,
            shear_n: carried.shear_n,
            closed: carried.closed,
            greatest_pa: carried.greatest_pa,
        }
    });
    Solved { end, moved: moved.collect(), beds: beds.collect() }
}

/// The first `step` pieces to the first order only: how each would move if the lean did not feed on itself.
/// Textbook formulas are of this kind; a verdict never. None: not even that is in balance.
pub fn at_rest_first_order(given: &SoftStack, step: usize) -> Option<Vec<Moved>> {
    let model = Model::new(given, step).filter(|_| given.is_usable())?;
    let reached = first_order(&model, &Load::gravity(1.0)).filter(Reached::is_balanced)?;
    let moved = |&[x, y, z, u, v, w]: &Wrench| Moved { shift_m: [x, y, z], turn_rad: [u, v, w] };
    Some(reached.motion.iter().map(moved).collect())
}

/// The same by another route: the weight brought on in equal parts. A second opinion for tests; slow.
pub fn at_rest_in_parts(given: &SoftStack, step: usize, parts: u32) -> SoftEnd {
    let unseen = SoftEnd::NotDecided { residual: None };
    let Some(model) = Model::new(given, step).filter(|_| given.is_usable()) else { return unseen };
    let first = first_order(&model, &Load::gravity(1.0)).filter(Reached::is_balanced);
    let shift_first = first.map(|first| model.shift(&first.motion));
    let reached = in_parts(&model, parts);
    verdict(&model, reached.filter(|reached| reached.is_whole).as_ref().map(|slow| &slow.reached), shift_first)
}

/// A stable state, for whoever goes on from it.
pub(super) struct Settled {
    pub(super) model: Model,
    pub(super) motion: Motion,
    pub(super) looks: Vec<Look>,
}

pub(super) fn settle(given: &SoftStack, step: usize) -> (SoftEnd, Option<Settled>) {
    settle_with(given, step, verdict)
}

/// The same without its figures, of which the critical load factor costs as much as the balance: for a push.
pub(super) fn settle_for_push(given: &SoftStack, step: usize) -> (SoftEnd, Option<Settled>) {
    settle_with(given, step, |model, reached, _| {
        let Some(reached) = reached.filter(|reached| reached.is_balanced()) else {
            return SoftEnd::NotDecided { residual: None };
        };
        let looks = model.looks(&reached.motion, Order::Second);
        match stable(model, &looks) {
            Some(_) => SoftEnd::Stands(model.rest(reached, &looks, f64::INFINITY, None)),
            None => SoftEnd::LeansOver { critical: None },
        }
    })
}

fn settle_with(
    given: &SoftStack,
    step: usize,
    verdict: impl Fn(&Model, Option<&Reached>, Option<[f64; 2]>) -> SoftEnd,
) -> (SoftEnd, Option<Settled>) {
    if !given.is_usable() {
        return (SoftEnd::NotDecided { residual: None }, None);
    }
    let Some(model) = Model::new(given, step) else { return (SoftEnd::Loose, None) };
    let whole = second_order(&model, &Load::gravity(1.0));
    let (reached, first) = whole.map_or((None, None), |(reached, first)| (Some(reached), Some(first)));
    let shift_first = first.filter(Reached::is_balanced).map(|first| model.shift(&first.motion));
    let mut end = verdict(&model, reached.as_ref(), shift_first);
    let mut motion = reached.map(|reached| reached.motion);
    if end.stands() != Some(true)
        && let Some(slowly) = in_parts(&model, TENTHS).filter(|slowly| slowly.is_whole)
    {
        end = verdict(&model, Some(&slowly.reached), shift_first);
        motion = Some(slowly.reached.motion);
    }
    let stands = end.stands() == Some(true);
    let settled = motion.filter(|_| stands).map(|motion| {
        let looks = model.looks(&motion, Order::Second);
        Settled { model, motion, looks }
    });
    (end, settled)
}

/// What a motion that the search came to is worth.
pub(super) fn verdict(model: &Model, reached: Option<&Reached>, shift_first_order_m: Option<[f64; 2]>) -> SoftEnd {
    let Some(reached) = reached.filter(|reached| reached.is_balanced()) else {
        let residual = reached.map(|reached| reached.miss).filter(|miss| miss.is_finite());
        return SoftEnd::NotDecided { residual };
    };
    let looks = model.looks(&reached.motion, Order::Second);
    let Some(stable) = stable(model, &looks) else {
        return SoftEnd::LeansOver { critical: critical_by_springs(model, &looks) };
    };
    let critical = critical(model, &looks, &stable).unwrap_or(f64::INFINITY);
    SoftEnd::Stands(model.rest(reached, &looks, critical, shift_first_order_m))
}

/// What it bears, factored. None: not positive in every direction.
fn stable<'m>(model: &'m Model, looks: &[Look]) -> Option<Factored<'m>> {
    model.stiffness(looks, true).decompose().filter(|stable| stable.positive)
}

impl Model {
    /// Shift of the centroid, floor frame: aft, right.
    fn shift(&self, motion: &[Wrench]) -> [f64; 2] {
        let whole: f64 = self.weights_n.iter().sum();
        let moments = motion.iter().zip(&self.weights_n).map(|(wrench, weight)| *weight / whole * shift_of(wrench));
        let shift: Vector3<f64> = moments.sum();
        self.level.map(|axis| axis.dot(&shift))
    }

    fn rest(&self, reached: &Reached, looks: &[Look], critical: f64, shift_first_order_m: Option<[f64; 2]>) -> Rest {
        let Reached { motion, miss } = reached;
        let lean = |wrench: &Wrench| {
            let [aft, right] = self.level.map(|axis| axis.dot(&shift_of(wrench)));
            aft.hypot(right)
        };
        let leans = motion.iter().map(lean).enumerate();
        let (leaning, lean_m) = leans.fold((0, 0.0), |most, next| if next.1 > most.1 { next } else { most });
        let (mut friction_use, mut closed) = (0.0_f64, 1.0_f64);
        for (joint, look) in self.joints.iter().zip(looks) {
            let carried = joint.carried(look);
            friction_use = friction_use.max(in_use(carried.shear_n, joint.lie.friction * carried.normal_n));
            closed = closed.min(carried.closed);
        }
        Rest {
            settlement_m: motion.iter().map(|wrench| -wrench[2]).fold(f64::NEG_INFINITY, f64::max),
            tilt_rad: motion.iter().map(|wrench| wrench[3].hypot(wrench[4])).fold(0.0, f64::max),
            shift_m: self.shift(motion),
            shift_first_order_m,
            lean_m,
            leaning,
            critical,
            amplification: if critical.is_finite() { critical / (critical - 1.0) } else { 1.0 },
            friction_use,
            closed,
            residual: *miss,
        }
    }
}

/// A bed that carries nothing uses nothing.
fn in_use(shear_n: f64, allowed_n: f64) -> f64 {
    if shear_n > 0.0 { shear_n / allowed_n.max(0.0) } else { 0.0 }
}

fn shift_of(&[x, y, z, ..]: &Wrench) -> Vector3<f64> {
    Vector3::new(x, y, z)
}
