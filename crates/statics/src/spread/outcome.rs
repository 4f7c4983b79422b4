//! What many drawn stacks come to.

use super::model::Drawn;
use super::normal::one_sided;

/// What a check allows. A margin or load below, an offset beyond, is a failure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Mass that has to be applied, kg.
    pub ultimate_kg: f64,
    /// Greatest fore-aft offset, m.
    pub fore_aft_m: f64,
    /// Greatest lateral offset, m.
    pub lateral_m: f64,
    /// Least tip margin: push as a fraction of the weight above.
    pub tip: f64,
}

/// The distribution of one value over the draws, in its own unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread {
    /// Mean.
    pub mean: f64,
    /// Standard deviation; infinite where a value is.
    pub deviation: f64,
    /// Five in a hundred lie below.
    pub p5: f64,
    /// Five in a hundred lie above.
    pub p95: f64,
}

/// An offset along one axis, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Offset {
    /// Signed, line of action minus target.
    pub signed_m: Spread,
    /// What its size stays within in 95 of a hundred.
    pub size_p95_m: f64,
}

/// How often a check fails.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Chance {
    /// Draws in which it fails.
    pub fails: usize,
    /// All draws.
    pub draws: usize,
}

/// How often each check fails.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Failures {
    /// Less applied than has to be.
    pub load: Chance,
    /// Too far fore or aft.
    pub fore_aft: Chance,
    /// Too far left or right.
    pub lateral: Chance,
    /// Too small a tip margin; none where there is no margin, and then never to be read as safe.
    pub tip: Option<Chance>,
    /// Any of these.
    pub any: Chance,
}

/// Distributions and chances.
#[derive(Debug, Clone, PartialEq)]
pub struct Outcome {
    /// Mass of all pieces, kg.
    pub applied_kg: Spread,
    /// Fore-aft offset.
    pub fore_aft: Offset,
    /// Lateral offset.
    pub lateral: Offset,
    /// What the offset in any direction stays within in 95 of a hundred, m.
    pub radial_p95_m: f64,
    /// The least tip multiplier over the cuts of the finished stack, of the weight above; none where
    /// a body hangs in the air.
    pub tip: Option<Spread>,
    /// How often the checks fail.
    pub failures: Failures,
}

impl Chance {
    #[expect(clippy::cast_precision_loss, reason = "a count of draws is far below 2^52")]
    fn counts(&self) -> (f64, f64) {
        (self.fails as f64, self.draws as f64)
    }

    /// The share of draws in which it fails, of 1.
    pub fn share(&self) -> f64 {
        let (fails, draws) = self.counts();
        fails / draws
    }

    /// What the share is at most, at 95 % confidence for so many draws, of 1. Source:
    /// `wilson-1927` (`from memory`), the upper end of the score interval.
    pub fn at_most(&self) -> f64 {
        let (_, draws) = self.counts();
        let (share, square) = (self.share(), one_sided().powi(2));
        let root = (share * (1.0 - share) / draws + square / (4.0 * draws * draws)).sqrt();
        ((share + square / (2.0 * draws) + one_sided() * root) / (1.0 + square / draws)).min(1.0)
    }
}

impl Spread {
    fn of(mut values: Vec<f64>) -> Spread {
        let mean = mean_of(&values, |value| value);
        let variance = mean_of(&values, |value| (value - mean) * (value - mean));
        let deviation = if variance.is_finite() { variance.sqrt() } else { f64::INFINITY };
        Spread { mean, deviation, p5: quantile(&mut values, 0.05), p95: quantile(&mut values, 0.95) }
    }
}

#[expect(clippy::cast_precision_loss, reason = "a count of draws is far below 2^52")]
fn mean_of(values: &[f64], of: impl Fn(f64) -> f64) -> f64 {
    values.iter().map(|value| of(*value)).sum::<f64>() / values.len() as f64
}

/// The value below which a share of all lies: the nearest rank.
fn quantile(values: &mut [f64], share: f64) -> f64 {
    #[expect(clippy::cast_precision_loss, clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a rank")]
    let rank = (share * values.len() as f64) as usize;
    let rank = rank.min(values.len() - 1);
    *values.select_nth_unstable_by(rank, f64::total_cmp).1
}

impl Outcome {
    /// Of at least one draw.
    pub(super) fn of(drawn: &[Drawn], limits: &Limits, has_margins: bool) -> Outcome {
        let all = |of: &dyn Fn(&Drawn) -> f64| drawn.iter().map(of).collect::<Vec<f64>>();
        let offset = |axis: usize| Offset {
            signed_m: Spread::of(all(&|drawn| drawn.offset_m[axis])),
            size_p95_m: quantile(&mut all(&|drawn| drawn.offset_m[axis].abs()), 0.95),
        };
        Outcome {
            applied_kg: Spread::of(all(&|drawn| drawn.mass_kg)),
            fore_aft: offset(0),
            lateral: offset(1),
            radial_p95_m: quantile(&mut all(&|drawn| drawn.offset_m[0].hypot(drawn.offset_m[1])), 0.95),
            tip: has_margins.then(|| Spread::of(all(&|drawn| drawn.tip))),
            failures: Failures::of(drawn, limits, has_margins),
        }
    }
}

impl Failures {
    fn of(drawn: &[Drawn], limits: &Limits, has_margins: bool) -> Failures {
        let load = |drawn: &Drawn| falls_short(drawn.mass_kg, limits.ultimate_kg);
        let fore_aft = |drawn: &Drawn| falls_short(limits.fore_aft_m, drawn.offset_m[0].abs());
        let lateral = |drawn: &Drawn| falls_short(limits.lateral_m, drawn.offset_m[1].abs());
        let tip = |drawn: &Drawn| falls_short(drawn.tip, limits.tip);
        let any = |drawn: &Drawn| load(drawn) || fore_aft(drawn) || lateral(drawn) || tip(drawn);
        let chance = |fails: &dyn Fn(&Drawn) -> bool| Chance {
            fails: drawn.iter().filter(|drawn| fails(drawn)).count(),
            draws: drawn.len(),
        };
        Failures {
            load: chance(&load),
            fore_aft: chance(&fore_aft),
            lateral: chance(&lateral),
            tip: has_margins.then(|| chance(&tip)),
            any: chance(&any),
        }
    }
}

/// What cannot be compared counts as falling short.
fn falls_short(value: f64, needed: f64) -> bool {
    value < needed || value.is_nan() || needed.is_nan()
}
