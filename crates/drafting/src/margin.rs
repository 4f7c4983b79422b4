//! Labels in two columns beside what is drawn, with straight leaders: where each comes to lie.
//!
//! In: points to be named, how large their texts are, the box of what is drawn, the area. Out: for each label that
//! finds room its box and its leader. Labels stand at the heights of their points as far as they can, none covers
//! another nor what is drawn, and no leader crosses another one. The columns take the points left and right of one
//! upright line, so that leaders of one column never meet those of the other; within a column two that cross change
//! places, which makes both shorter, so that it comes to an end. Source: `own derivation` (one-sided boundary
//! labelling with straight leaders; heights by pooling neighbours that are too close).

/// Left, top, right, bottom; device units, y downwards.
pub type Area = [f64; 4];

/// A point with a name.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Named {
    /// The point.
    pub at: [f64; 2],
    /// How wide its text is.
    pub wide: f64,
    /// Whether it has room before all others, over what is drawn where there is no other place.
    pub first: bool,
}

/// Where a label lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placed {
    /// Which of the points it names.
    pub named: usize,
    /// The box of its text.
    pub text: Area,
    /// From the point to the text.
    pub leader: [[f64; 2]; 2],
    /// Whether it stands in the left column: its text then ends at the leader.
    pub left: bool,
}

/// Where the labels go.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Room {
    /// The area in which everything lies.
    pub area: Area,
    /// What is drawn; the points lie within it.
    pub drawn: Area,
    /// Height of a line of text.
    pub line: f64,
}

/// From one label to the next, lines.
const PITCH: f64 = 1.3;
/// Between what is drawn and the texts, lines.
const GAP: f64 = 0.8;

/// The labels that find room.
pub fn placed(named: &[Named], room: &Room) -> Vec<Placed> {
    let pitch = PITCH * room.line;
    let fits = |height: f64| if height < room.line { 0 } else { ((height - room.line) / pitch).floor() as usize + 1 };
    let most = fits(room.area[3] - room.area[1]);
    let mut kept = split(named, room, most);
    kept.iter_mut().flat_map(|(left, indices)| column(named, room, (*left, std::mem::take(indices)))).collect()
}

/// Which points each column names: those of the left one lie left of all of the right one.
fn split(named: &[Named], room: &Room, most: usize) -> [(bool, Vec<usize>); 2] {
    let mut across: Vec<usize> = (0..named.len()).collect();
    across.sort_by(|a, b| named[*a].at[0].total_cmp(&named[*b].at[0]).then(a.cmp(b)));
    let middle = f64::midpoint(room.drawn[0], room.drawn[2]);
    // A column without room for any of its names leaves all of them to the other one.
    let left_mm = room.drawn[0] - GAP * room.line - room.area[0];
    let fits_left = |index: &usize| named[*index].first || named[*index].wide <= left_mm;
    let left_of = across.iter().filter(|index| named[**index].at[0] < middle).count();
    let left_of = if across[..left_of].iter().any(fits_left) { left_of } else { 0 };
    // Where one column has too many, those nearest to the other one go there.
    let at = left_of.min(most).max(across.len().saturating_sub(most).min(most));
    let right = across.split_off(at.min(across.len()));
    [(true, across), (false, right)].map(|(left, indices)| (left, chosen(named, room, (left, indices), most)))
}

/// Those that fit the column's width, first ones first, in their own order, as many as there is room for.
fn chosen(named: &[Named], room: &Room, (left, mut indices): (bool, Vec<usize>), most: usize) -> Vec<usize> {
    let gap = GAP * room.line;
    let wide = if left { room.drawn[0] - gap - room.area[0] } else { room.area[2] - room.drawn[2] - gap };
    let whole = room.area[2] - room.area[0];
    indices.retain(|index| named[*index].wide <= if named[*index].first { whole } else { wide });
    indices.sort_by_key(|index| (!named[*index].first, *index));
    indices.truncate(most);
    indices
}

/// The labels of one column.
fn column(named: &[Named], room: &Room, (left, mut indices): (bool, Vec<usize>)) -> Vec<Placed> {
    indices.sort_by(|a, b| named[*a].at[1].total_cmp(&named[*b].at[1]).then(a.cmp(b)));
    let heights: Vec<f64> = indices.iter().map(|index| named[*index].at[1]).collect();
    let slots = spread(&heights, room);
    let gap = GAP * room.line;
    let edge = if left { room.drawn[0] - gap } else { room.drawn[2] + gap };
    let leader = |index: usize, slot: f64| [named[index].at, [end(&named[index], room, (left, edge)), slot]];
    let mut leaders: Vec<_> = indices.iter().zip(&slots).map(|(index, slot)| leader(*index, *slot)).collect();
    uncross(&mut leaders, &mut indices, leader);
    let text = |(index, leader): (&usize, &[[f64; 2]; 2])| {
        let (x, y, wide) = (leader[1][0], leader[1][1], named[*index].wide);
        let [from, to] = if left { [x - wide, x] } else { [x, x + wide] };
        let text = [from, y - 0.5 * room.line, to, y + 0.5 * room.line];
        Placed { named: *index, text, leader: *leader, left }
    };
    indices.iter().zip(&leaders).map(text).collect()
}

/// Where a text ends towards what is drawn: at the column's edge; farther in where it would leave the area.
fn end(named: &Named, room: &Room, (left, edge): (bool, f64)) -> f64 {
    match left {
        true => edge.max(room.area[0] + named.wide),
        false => edge.min(room.area[2] - named.wide),
    }
}

/// Heights one pitch apart at least, within the area, as near to the wanted ones as that allows: neighbours that are
/// too close are pooled and share the difference.
fn spread(wanted: &[f64], room: &Room) -> Vec<f64> {
    let pitch = PITCH * room.line;
    let shift = |index: usize| pitch * to_f64(index);
    let mut pools: Vec<(f64, usize)> = Vec::new();
    for (index, height) in wanted.iter().enumerate() {
        let mut pool = (height - shift(index), 1);
        while let Some(before) = pools.pop_if(|before| before.0 > pool.0) {
            let count = before.1 + pool.1;
            pool = ((before.0 * to_f64(before.1) + pool.0 * to_f64(pool.1)) / to_f64(count), count);
        }
        pools.push(pool);
    }
    let low = room.area[1] + 0.5 * room.line;
    let high = (room.area[3] - 0.5 * room.line - shift(wanted.len().saturating_sub(1))).max(low);
    let levels = pools.iter().flat_map(|(level, count)| std::iter::repeat_n(level.clamp(low, high), *count));
    levels.enumerate().map(|(index, level)| level + shift(index)).collect()
}

fn to_f64(count: usize) -> f64 {
    u32::try_from(count).map_or(f64::from(u32::MAX), f64::from)
}

/// Two leaders that cross change their places until none does; every change makes them shorter.
fn uncross(leaders: &mut [[[f64; 2]; 2]], indices: &mut [usize], leader: impl Fn(usize, f64) -> [[f64; 2]; 2]) {
    let pairs = leaders.len() * leaders.len();
    for _ in 0..pairs {
        let crossing = (0..leaders.len())
            .flat_map(|one| (one + 1..leaders.len()).map(move |other| (one, other)))
            .find(|(one, other)| cross(leaders[*one], leaders[*other]));
        let Some((one, other)) = crossing else { return };
        indices.swap(one, other);
        for place in [one, other] {
            leaders[place] = leader(indices[place], leaders[place][1][1]);
        }
    }
}

/// Whether two straight lines cross within both; those that meet in an end do not.
pub(crate) fn cross([a, b]: [[f64; 2]; 2], [c, d]: [[f64; 2]; 2]) -> bool {
    let side = |p: [f64; 2], q: [f64; 2], r: [f64; 2]| (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
    side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const AREA: Area = [0.0, 0.0, 900.0, 600.0];
    const DRAWN: Area = [220.0, 60.0, 680.0, 560.0];

    fn room(line: f64) -> Room {
        Room { area: AREA, drawn: DRAWN, line }
    }

    fn overlap(a: Area, b: Area) -> bool {
        a[0] < b[2] - 1e-9 && b[0] < a[2] - 1e-9 && a[1] < b[3] - 1e-9 && b[1] < a[3] - 1e-9
    }

    /// Up to 60 points anywhere in what is drawn, many of them close together.
    fn points() -> impl Strategy<Value = Vec<Named>> {
        let anywhere = (220.0..680.0_f64, 60.0..560.0_f64);
        let crowded = (400.0..440.0_f64, 300.0..330.0_f64);
        let at = prop_oneof![anywhere, crowded];
        let named = (at, 20.0..190.0_f64, prop::bool::weighted(0.1));
        let named = named.prop_map(|((x, y), wide, first)| Named { at: [x, y], wide, first });
        prop::collection::vec(named, 0..=60)
    }

    proptest! {
        #[test]
        fn no_label_covers_another_nor_what_is_drawn_and_no_leaders_cross(named in points(), line in 8.0..16.0_f64) {
            let room = room(line);
            let got = placed(&named, &room);
            for (number, one) in got.iter().enumerate() {
                prop_assert!(!overlap(one.text, DRAWN), "{one:?} covers what is drawn");
                prop_assert!(one.text[0] >= AREA[0] - 1e-9 && one.text[2] <= AREA[2] + 1e-9, "{one:?} leaves the area");
                prop_assert!(one.text[1] >= AREA[1] - 1e-9 && one.text[3] <= AREA[3] + 1e-9, "{one:?} leaves the area");
                for other in &got[number + 1..] {
                    prop_assert!(!overlap(one.text, other.text), "{one:?} covers {other:?}");
                    prop_assert!(!cross(one.leader, other.leader), "{one:?} crosses {other:?}");
                    if one.left == other.left {
                        let apart = (one.leader[1][1] - other.leader[1][1]).abs();
                        prop_assert!(apart >= PITCH * line - 1e-6, "{apart} apart, want {}", PITCH * line);
                    }
                }
            }
        }

        #[test]
        fn first_ones_always_have_room_and_all_have_where_there_is_enough(named in points()) {
            let room = room(10.0);
            let got = placed(&named, &room);
            for (index, one) in named.iter().enumerate().filter(|(_, one)| one.first) {
                prop_assert!(got.iter().any(|placed| placed.named == index), "{one:?} has no room");
            }
            // 600 high, 13 from one to the next: 46 in each column.
            prop_assert_eq!(got.len(), named.len());
        }
    }

    #[test]
    fn a_label_stands_level_with_its_point_where_nothing_else_does() {
        let named = [Named { at: [300.0, 200.0], wide: 80.0, first: false }];
        let got = placed(&named, &room(10.0));
        let [at, end] = got[0].leader;
        assert!((at[0] - 300.0).abs() < 1e-9 && (end[0] - 212.0).abs() < 1e-9, "a gap beside what is drawn: {end:?}");
        assert!((end[1] - 200.0).abs() < 1e-9, "level with its point: {end:?}");
        let off = got[0].text.iter().zip([132.0, 195.0, 212.0, 205.0]).map(|(got, want)| (got - want).abs());
        assert!(off.fold(0.0, f64::max) < 1e-9, "got {:?}", got[0].text);
    }

    #[test]
    fn what_finds_no_room_is_left_out_and_first_ones_lie_over_the_drawing_if_need_be() {
        let tight = Room { drawn: [10.0, 0.0, 890.0, 600.0], ..room(10.0) };
        let named = [false, true].map(|first| Named { at: [300.0, 200.0], wide: 80.0, first });
        let got = placed(&named, &tight);
        assert_eq!(got.iter().map(|placed| placed.named).collect::<Vec<_>>(), [1]);
        assert!(got[0].text[0].abs() < 1e-9, "got {}, want the edge of the area, 0", got[0].text[0]);
    }

    /// By hand: the second point is beside the column, and a leader of the first one that is pushed down by a crowd
    /// would run through its own.
    #[test]
    fn labels_whose_leaders_would_cross_change_places() {
        let crowd = (0..20).map(|_| Named { at: [450.0, 65.0], wide: 50.0, first: false });
        let near = Named { at: [678.0, 66.0], wide: 50.0, first: false };
        let named: Vec<_> = crowd.chain([near]).collect();
        let got = placed(&named, &room(10.0));
        let of_near = got.iter().find(|placed| placed.named == 20).expect("placed");
        let lowest = got.iter().map(|placed| placed.leader[1][1]).fold(0.0, f64::max);
        assert!(of_near.leader[1][1] < lowest, "its point is lowest, and its label is not");
        assert!(got.iter().all(|placed| !cross(placed.leader, of_near.leader)));
    }
}
