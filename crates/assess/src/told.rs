//! Quantities in words where the usual rounding would hide what they say.

use quantity::{Grain, Mass, Quantity, Units};

/// A quantity with two significant digits at the least, four decimals at the most.
pub(crate) fn significant<Q: Quantity>(quantity: Q, units: Units, grain: Grain) -> String {
    let unit = units.unit(Q::KIND, grain);
    let value = quantity.si() / unit.si;
    match value.abs() {
        size if !(1e-4..10.0).contains(&size) => quantity.shown(units, grain),
        size if size < 0.001 => format!("{value:.4} {}", unit.symbol),
        size if size < 0.1 => format!("{value:.3} {}", unit.symbol),
        size if size < 1.0 => format!("{value:.2} {}", unit.symbol),
        _ => format!("{value:.1} {}", unit.symbol),
    }
}

/// Two quantities that differ, with the fewest decimals that show it, six at the most.
pub(crate) fn apart<Q: Quantity + Copy>(both: [Q; 2], units: Units, grain: Grain) -> [String; 2] {
    let unit = units.unit(Q::KIND, grain);
    let told = |decimals: usize| both.map(|q| format!("{:.decimals$} {}", q.si() / unit.si, unit.symbol));
    (0..6).map(told).find(|[one, other]| one != other).unwrap_or_else(|| told(6))
}

/// Steps in rising order, those in a row together: `step 4`, `steps 1 to 3, 5 and 9`.
pub(crate) fn steps(steps: &[usize]) -> String {
    let runs = steps.chunk_by(|step, next| step + 1 == *next);
    let words = |run: &[usize]| match run {
        [first, _, .., last] => vec![format!("{first} to {last}")],
        few => few.iter().map(ToString::to_string).collect(),
    };
    let all: Vec<String> = runs.flat_map(words).collect();
    let head = if steps.len() == 1 { "step" } else { "steps" };
    match all.split_last() {
        Some((last, [])) => format!("{head} {last}"),
        Some((last, others)) => format!("{head} {} and {last}", others.join(", ")),
        None => "no step".to_owned(),
    }
}

/// A span of time in the unit in which people say it.
pub(crate) fn span(s: f64) -> String {
    match s {
        s if s < 120.0 => format!("{s:.0} s"),
        s if s < 7200.0 => format!("{:.0} min", s / 60.0),
        _ => format!("{:.0} h", s / 3600.0),
    }
}

/// What a mass is uncertain by: `± 0.6 kg`, or `± less than 0.1 kg` where it would read as nothing.
pub fn plus_minus(kg: f64, units: Units) -> String {
    let shown = Mass::kg(kg).shown(units, Grain::Coarse);
    let none = Mass::kg(0.0).shown(units, Grain::Coarse);
    let least = none.replacen("0.0", "0.1", 1);
    if shown == none { format!("± less than {least}") } else { format!("± {shown}") }
}

#[cfg(test)]
mod tests {
    use super::steps;

    #[test]
    fn steps_in_a_row_are_told_together() {
        let rows: [(&[usize], &str); 5] = [
            (&[], "no step"),
            (&[4], "step 4"),
            (&[4, 5], "steps 4 and 5"),
            (&[1, 2, 3, 5, 9], "steps 1 to 3, 5 and 9"),
            (&[2, 7, 8, 9], "steps 2 and 7 to 9"),
        ];
        for (given, want) in rows {
            assert_eq!(steps(given), want);
        }
    }
}
