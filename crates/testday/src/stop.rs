//! How wide a band must be so that a day without a fault is seldom stopped.

/// The chance that a day without any fault is stopped by a reading once or more.
pub const FALSE_STOP_CHANCE: f64 = 0.01;

/// How many standard deviations a reading may be off, where so many readings are taken on the day.
///
/// The chances of single false stops add to no less than the chance of one or more (Boole), and the
/// normal tail is no more than density / k (integration by parts), so that the chance is kept
/// whatever the readings have in common. Source: `own derivation`.
pub fn stop_factor(readings: usize) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "readings are few")]
    let each = FALSE_STOP_CHANCE / readings.max(1) as f64;
    let (mut low, mut high) = (1.0, 40.0);
    for _ in 0..80 {
        let middle = 0.5 * (low + high);
        if both_tails(middle) > each { low = middle } else { high = middle }
    }
    high
}

/// Upper bound of the chance that a normal value is more than k deviations off, either way.
fn both_tails(k: f64) -> f64 {
    2.0 * (-0.5 * k * k).exp() / (k * (2.0 * std::f64::consts::PI).sqrt())
}
