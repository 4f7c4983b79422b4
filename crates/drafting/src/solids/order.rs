//! The order of painting: solids as a graph of what may cover what, farthest first.

use super::circle::{Part, cut_apart};
use super::direction::{Axes, Direction};
use super::facing::Facing;
use super::hidden::Cells;
use super::parting::{Cover, Reaches, Tries, cover};
use super::solid::Solid;
use nalgebra::Vector3;

/// The sides that face the viewer, each after all that it may cover. `common` are axes along which
/// many of the solids lie (floor frame): they only make it quicker. Sides of which nothing is seen may
/// be left out where what covers them is `solid`, that is, lets nothing through.
pub fn in_order(
    solids: &[Solid],
    from: Direction,
    common: &[Vector3<f64>],
    lets_through: impl Fn(usize) -> bool,
) -> Vec<Facing> {
    let axes = from.axes();
    let mut facing = Vec::with_capacity(4 * solids.len());
    for circle in circles(&covered_by(solids, &axes, common)) {
        match circle.as_slice() {
            [alone] => faces(&solids[*alone], *alone, &axes, &mut facing),
            _ => {
                let parts = circle.iter().map(|of| Part { of: *of, solid: solids[*of].clone() }).collect();
                for part in cut_apart(parts, &axes.toward) {
                    faces(&part.solid, part.of, &axes, &mut facing);
                }
            }
        }
    }
    Cells::drop_hidden(&mut facing, lets_through);
    facing
}

fn faces(solid: &Solid, of: usize, axes: &Axes, facing: &mut Vec<Facing>) {
    for side in solid.sides.iter() {
        let Some(outward) = solid.outward(side) else { continue };
        let along = outward.dot(&axes.toward);
        let turned = solid.is_sheet() && along < 0.0;
        // Edge on there is nothing to see.
        if along.abs() < 1e-6 || (along < 0.0 && !turned) {
            continue;
        }
        let mut outline: Vec<[f64; 2]> = side.around.iter().map(|i| axes.project(solid.corners[*i])).collect();
        let mut edges = side.edges.clone();
        if turned {
            outline.reverse();
            // Edge i led from i to the next; now it leads to it from there.
            edges.reverse();
            edges.rotate_left(1);
        }
        facing.push(Facing { of, outward: if turned { -outward } else { outward }, outline, edges });
    }
}

/// For each solid, the solids that may cover it.
fn covered_by(solids: &[Solid], axes: &Axes, common: &[Vector3<f64>]) -> Vec<Vec<usize>> {
    let tries = Tries::of(axes, common);
    let reaches: Vec<Reaches> = solids.iter().map(|solid| Reaches::of(solid, &tries)).collect();
    let along = apart(&reaches);
    let reach = |of: usize| reaches[of].in_picture(along);
    let mut from_first: Vec<usize> = (0..solids.len()).collect();
    from_first.sort_by(|a, b| reach(*a)[0].total_cmp(&reach(*b)[0]).then(a.cmp(b)));
    let mut covered = vec![Vec::new(); solids.len()];
    for (place, &a) in from_first.iter().enumerate() {
        let end = reach(a)[1];
        for &b in from_first[place + 1..].iter().take_while(|b| reach(**b)[0] < end) {
            match cover(&tries, (&solids[a], &reaches[a]), (&solids[b], &reaches[b])) {
                Cover::Neither => {}
                Cover::SecondOverFirst => covered[a].push(b),
                Cover::FirstOverSecond => covered[b].push(a),
                Cover::Tangled => {
                    covered[a].push(b);
                    covered[b].push(a);
                }
            }
        }
    }
    covered
}

/// To the right (0) or up (1): along which of them the solids of a picture lie farther apart. Of a tall stack each
/// piece meets all others to the right, and few upwards.
fn apart(reaches: &[Reaches]) -> usize {
    let crowded = |along: usize| {
        let (mut sum, mut low, mut high) = (0.0, f64::INFINITY, f64::NEG_INFINITY);
        for [from, to] in reaches.iter().map(|reach| reach.in_picture(along)) {
            (sum, low, high) = (sum + to - from, f64::min(low, from), f64::max(high, to));
        }
        sum / (high - low)
    };
    usize::from(crowded(1) < crowded(0))
}

/// The solids in an order in which none comes before one that it may cover; those that go round in a
/// circle stand together. Kosaraju's two walks, without recursion.
fn circles(covered_by: &[Vec<usize>]) -> Vec<Vec<usize>> {
    let mut covers = vec![Vec::new(); covered_by.len()];
    for (below, above) in covered_by.iter().enumerate() {
        above.iter().for_each(|above| covers[*above].push(below));
    }
    let mut seen = vec![false; covered_by.len()];
    let mut left = Vec::new();
    (0..covered_by.len()).for_each(|start| walk(covered_by, start, &mut seen, &mut left));
    let mut seen = vec![false; covered_by.len()];
    let mut found = Vec::new();
    for start in left.into_iter().rev() {
        let mut circle = Vec::new();
        walk(&covers, start, &mut seen, &mut circle);
        circle.sort_unstable();
        found.extend((!circle.is_empty()).then_some(circle));
    }
    found
}

/// What is reached from a start and was not seen before, each after all that is reached from it.
fn walk(onward: &[Vec<usize>], start: usize, seen: &mut [bool], left: &mut Vec<usize>) {
    if std::mem::replace(&mut seen[start], true) {
        return;
    }
    let mut path = vec![(start, 0)];
    while let Some((at, next)) = path.last_mut() {
        match onward[*at].get(*next) {
            Some(&to) => {
                *next += 1;
                if !std::mem::replace(&mut seen[to], true) {
                    path.push((to, 0));
                }
            }
            None => {
                left.push(*at);
                path.pop();
            }
        }
    }
}
