//! The distance that keeps a stack from being laid out, drawn in the views.

use super::{both, close};
use drafting::figure::{Figure, Mark};
use drafting::views::{self, View};
use quantity::Units;

/// A bag of 450 mm for half a metre less two clearances of 30 mm: three lengths to the same scale, one over the other.
#[test]
fn a_gap_is_drawn_with_its_three_lengths_where_it_is_seen_and_not_end_on() {
    let at = |x: f64| nalgebra::Point3::new(x, 0.1, 0.45);
    let gap = assess::Gap {
        between: ["stick", "spar"].map(str::to_owned),
        faces_in_floor: [at(1.88), at(2.38)],
        ends_in_floor: [at(1.91), at(2.35)],
        needed: Some(("sand bag".to_owned(), 0.45)),
    };
    let longest_level = |figure: &Figure, text: &str| {
        let label = figure.marks.iter().find_map(|mark| match mark {
            Mark::Text(label) if label.text == text => Some(label.at),
            _ => None,
        });
        let [middle, height] = label.unwrap_or_else(|| panic!("{text} is not written"));
        let lines = figure.marks.iter().filter_map(|mark| match mark {
            Mark::Shape(shape) => {
                let ends = shape.points.iter().filter(|p| (p[1] - height).abs() < 0.02).map(|p| p[0]);
                Some(ends.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], u| [low.min(u), high.max(u)]))
            }
            _ => None,
        });
        let longest = lines.max_by(|a, b| (a[1] - a[0]).total_cmp(&(b[1] - b[0]))).expect("a line");
        close(f64::midpoint(longest[0], longest[1]), middle, "the value stands in the middle");
        longest
    };
    for view in [View::Side, View::Above] {
        let figure = views::gap(&gap, Units::Metric, view);
        both(longest_level(&figure, "500 mm"), [1.88, 2.38], "from face to face");
        both(longest_level(&figure, "440 mm free"), [1.91, 2.35], "clearances taken off");
        both(longest_level(&figure, "“sand bag” 450 mm"), [1.905, 2.355], "the piece");
    }
    let end_on = views::gap(&gap, Units::Metric, View::Front);
    assert!(end_on.marks.is_empty(), "{:?}", end_on.marks);
    let bare = assess::Gap { needed: None, ends_in_floor: gap.faces_in_floor, ..gap };
    both(longest_level(&views::gap(&bare, Units::Metric, View::Side), "500 mm"), [1.88, 2.38], "nothing is to go in");
}
