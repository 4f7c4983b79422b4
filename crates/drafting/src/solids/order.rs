//! The order of painting: solids as a graph of what may cover what, farthest first.

use super::circle::{Part, cut_apart};
use super::direction::{Axes, Direction};
use super::facing::{Facing, Sides};
use super::hidden::Cells;
use super::parting::{Cover, Reaches, Tries, cover, cover_of_parts};
use super::solid::Solid;
use super::tangle::Tangle;
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
    let view = View { axes: from.axes(), common };
    let covered = view.covered_by(solids, |_, _| Cover::Tangled);
    let mut sides = Sides::default();
    for circle in circles(&covered) {
        if let [alone] = circle.as_slice() {
            sides.add(&solids[*alone], *alone, &view.axes);
            continue;
        }
        let mut tangle = Tangle::of(circle.iter().map(|of| Part::new(*of, solids[*of].clone())).collect());
        for (a, b) in tangled(&circle, &covered) {
            tangle.take_apart(a, b, |of| !lets_through(of));
        }
        let is_cut = tangle.is_cut();
        let parts = tangle.into_parts();
        match is_cut {
            true => view.add_again(&parts, |a, b| known(&covered, a, b), solids, &mut sides),
            false => view.add_circle(parts, &mut sides),
        }
    }
    Cells::without_hidden(&sides, lets_through)
}

/// The pairs of a circle that lie in one another.
fn tangled(circle: &[usize], covered: &[Vec<usize>]) -> Vec<(usize, usize)> {
    let pairs = circle.iter().flat_map(|a| covered[*a].iter().map(move |b| (*a, *b)));
    pairs.filter(|(a, b)| a < b && covered[*b].contains(a)).collect()
}

/// How two solids were found to cover each other.
fn known(covered: &[Vec<usize>], a: usize, b: usize) -> Cover {
    match (covered[a].contains(&b), covered[b].contains(&a)) {
        // The sides of one convex solid that are seen do not cover each other, nor do those of its parts.
        _ if a == b => Cover::Neither,
        (false, false) => Cover::Neither,
        (true, false) => Cover::SecondOverFirst,
        (false, true) => Cover::FirstOverSecond,
        (true, true) => Cover::Tangled,
    }
}

/// From where solids are looked at, and axes along which many of them lie.
struct View<'a> {
    axes: Axes,
    common: &'a [Vector3<f64>],
}

impl View<'_> {
    /// Adds parts of solids that lay in one another, in their order. A part is open where it was cut, so that fewer
    /// axes are tried of it: then what was `known` of the wholes holds, or their sides tell.
    fn add_again(&self, parts: &[Part], known: impl Fn(usize, usize) -> Cover, wholes: &[Solid], sides: &mut Sides) {
        let solids: Vec<Solid> = parts.iter().map(|part| part.solid.clone()).collect();
        let of_wholes = |a: usize, b: usize| match known(parts[a].of, parts[b].of) {
            Cover::Tangled => {
                let wholes = [a, b].map(|part| &wholes[parts[part].of]);
                cover_of_parts(&self.axes.toward, wholes, [&solids[a], &solids[b]])
            }
            known => known,
        };
        for circle in circles(&self.covered_by(&solids, of_wholes)) {
            self.add_circle(circle.iter().map(|place| parts[*place].clone()).collect(), sides);
        }
    }

    /// Adds one part, or those of a circle, which are cut until none goes round in one.
    fn add_circle(&self, parts: Vec<Part>, sides: &mut Sides) {
        let sorted = if parts.len() > 1 { cut_apart(parts, &self.axes.toward) } else { parts };
        sorted.iter().for_each(|part| sides.add(&part.solid, part.of, &self.axes));
    }

    /// For each solid, the solids that may cover it; what is `tangled` is asked for.
    fn covered_by(&self, solids: &[Solid], tangled: impl Fn(usize, usize) -> Cover) -> Vec<Vec<usize>> {
        let tries = Tries::of(&self.axes, self.common);
        let reaches = Reaches::of(solids, &tries);
        let along = apart(solids.len(), &reaches);
        let reach = |of: usize| reaches.in_picture(of, along);
        let mut from_first: Vec<usize> = (0..solids.len()).collect();
        from_first.sort_by(|a, b| reach(*a)[0].total_cmp(&reach(*b)[0]).then(a.cmp(b)));
        let mut covered = vec![Vec::new(); solids.len()];
        for (place, &a) in from_first.iter().enumerate() {
            let end = reach(a)[1];
            for &b in from_first[place + 1..].iter().take_while(|b| reach(**b)[0] < end) {
                let found = match cover(&tries, &reaches, (a, &solids[a]), (b, &solids[b])) {
                    Cover::Tangled => tangled(a, b),
                    found => found,
                };
                if matches!(found, Cover::SecondOverFirst | Cover::Tangled) {
                    covered[a].push(b);
                }
                if matches!(found, Cover::FirstOverSecond | Cover::Tangled) {
                    covered[b].push(a);
                }
            }
        }
        covered
    }
}

/// To the right (0) or up (1): along which of them so many solids of a picture lie farther apart. Of a tall stack each
/// piece meets all others to the right, and few upwards.
fn apart(count: usize, reaches: &Reaches) -> usize {
    let crowded = |along: usize| {
        let (mut sum, mut low, mut high) = (0.0, f64::INFINITY, f64::NEG_INFINITY);
        for [from, to] in (0..count).map(|of| reaches.in_picture(of, along)) {
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
