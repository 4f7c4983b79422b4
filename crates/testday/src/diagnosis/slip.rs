//! Slips of the hand: what else the digits of a reading may have been.

use quantity::{Grain, Kind, Units};

/// The readings (kg) from which a slip makes this one: two neighbouring digits changed places, or the
/// decimal mark moved by one place.
pub(super) fn meant_kg(read_kg: f64, units: Units) -> Vec<f64> {
    let unit = units.unit(Kind::Mass, Grain::Coarse).si;
    let typed = written(read_kg / unit);
    let digits: Vec<char> = typed.chars().collect();
    let places: Vec<usize> = (0..digits.len()).filter(|place| digits[*place].is_ascii_digit()).collect();
    let swapped = places.windows(2).filter(|pair| digits[pair[0]] != digits[pair[1]]).filter_map(|pair| {
        let mut other = digits.clone();
        other.swap(pair[0], pair[1]);
        other.into_iter().collect::<String>().parse::<f64>().ok()
    });
    let moved = [0.1, 10.0].map(|factor| factor * read_kg / unit);
    swapped.chain(moved).map(|value| value * unit).collect()
}

/// As it was typed: scales show no more than two decimals, and a whole number may have been meant with one.
fn written(value: f64) -> String {
    let typed = format!("{value:.2}");
    typed.strip_suffix('0').unwrap_or(&typed).to_owned()
}

#[cfg(test)]
mod tests {
    use super::meant_kg;
    use quantity::Units;

    fn has(read: f64, meant: f64) -> bool {
        meant_kg(read, Units::Metric).iter().any(|kg| (kg - meant).abs() < 1e-9)
    }

    #[test]
    fn neighbouring_digits_change_places_and_the_decimal_mark_moves_by_one() {
        // By hand.
        assert!(has(125.4, 215.4) && has(125.4, 152.4), "two digits before the mark");
        assert!(has(125.4, 124.5), "across the mark");
        assert!(has(125.4, 12.54) && has(125.4, 1254.0), "the mark itself");
        assert!(!has(125.4, 521.4) && !has(125.4, 125.4), "no others");
    }

    #[test]
    fn a_slip_is_one_in_the_unit_that_was_typed() {
        let pound = 0.453_592_37;
        let all = meant_kg(215.0 * pound, Units::InchPound);
        assert!(all.iter().any(|kg| (kg - 125.0 * pound).abs() < 1e-9), "{all:?}");
    }
}
