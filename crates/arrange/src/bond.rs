//! As many like rectangles in a rectangle as will go: the courses of a stack seen from above.
//!
//! The rectangle is parted into five blocks laid round one another like the sails of a mill (a cut
//! straight through is the case with empty blocks), each block into five again, down to blocks
//! whose pieces all lie one way. Source: `morabito-morales-1998`.

use plan::Turn;
use std::collections::HashMap;

/// A piece of a course: its centre from the least corner, m, and how it lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tile {
    /// Centre, m from the corner of least x and y.
    pub centre_m: [f64; 2],
    /// Lengthwise: the piece's length along x.
    pub turn: Turn,
}

/// Lengths are counted in this, m: a tenth of a millimetre, so that sums are exact.
const COUNT_M: f64 = 1e-4;

/// A rectangle with more pairs of cuts than this is cut straight through only.
const MOST_CUTS: usize = 250_000;

/// The greatest number of pieces of a length and width (m) that five-block parting finds in a
/// rectangle (m), and how they lie. Never more than would go in; a few rectangles of some 100
/// pieces and more hold one more than five-block parting finds.
pub fn most(reach_m: [f64; 2], piece_m: [f64; 2]) -> Vec<Tile> {
    Parting::of(piece_m).most(reach_m)
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "lengths of a bed are below 400 km")]
fn whole(counts: f64) -> u32 {
    counts.clamp(0.0, f64::from(u32::MAX)) as u32
}

/// How a rectangle is filled.
#[derive(Clone, Copy)]
enum Way {
    /// All pieces lie one way.
    Alike(Turn),
    /// Five blocks: the two cuts along x, the two along y.
    Five([u32; 4]),
}

/// Rectangles filled with pieces of one size; what is known of one helps with the next.
pub(crate) struct Parting {
    length: u32,
    width: u32,
    /// The answer for each rectangle that was asked for, by its sides cut down to sums of pieces.
    known: HashMap<[u32; 2], (u32, Way)>,
}

impl Parting {
    /// For pieces of a length and width, m.
    pub(crate) fn of([length_m, width_m]: [f64; 2]) -> Self {
        let up = |m: f64| whole((m / COUNT_M - 1e-6).ceil()).max(1);
        Self { length: up(length_m), width: up(width_m), known: HashMap::new() }
    }

    /// As [`most`].
    pub(crate) fn most(&mut self, reach_m: [f64; 2]) -> Vec<Tile> {
        let [x, y] = reach_m.map(|m| whole((m / COUNT_M + 1e-6).floor()));
        self.best(x, y);
        let mut tiles = Vec::new();
        self.tiles([0, 0], [x, y], &mut tiles);
        tiles
    }

    fn best(&mut self, x: u32, y: u32) -> (u32, Way) {
        let [x, y] = [self.used(x), self.used(y)];
        if let Some(known) = self.known.get(&[x, y]) {
            return *known;
        }
        let mut best = self.alike(x, y);
        let most = self.area_bound([x, y]);
        // Set before the search: a block that is the whole rectangle again must not start it anew.
        self.known.insert([x, y], best);
        if best.0 > 0 && best.0 < most {
            best = self.five(x, y, best);
        }
        self.known.insert([x, y], best);
        best
    }

    /// The better of all lengthwise and all crosswise.
    fn alike(&self, x: u32, y: u32) -> (u32, Way) {
        let along = (x / self.length) * (y / self.width);
        let across = (x / self.width) * (y / self.length);
        if along >= across { (along, Way::Alike(Turn::Lengthwise)) } else { (across, Way::Alike(Turn::Crosswise)) }
    }

    fn five(&mut self, x: u32, y: u32, mut best: (u32, Way)) -> (u32, Way) {
        let (along_x, along_y) = (pairs(&self.sums(x)), pairs(&self.sums(y)));
        let most = self.area_bound([x, y]);
        if along_x.len() * along_y.len() > MOST_CUTS {
            return self.straight(x, y, best);
        }
        let all = along_x.iter().flat_map(|[x1, x2]| along_y.iter().map(|[y1, y2]| [*x1, *x2, *y1, *y2]));
        for cuts in all {
            let blocks = blocks([x, y], cuts).map(|(_, size)| size);
            let bound: u32 = blocks.iter().map(|size| self.area_bound(*size)).sum();
            if bound <= best.0 || blocks.contains(&[x, y]) {
                continue;
            }
            let count = blocks.iter().map(|[x, y]| self.best(*x, *y).0).sum();
            if count > best.0 {
                best = (count, Way::Five(cuts));
            }
            if best.0 == most {
                break;
            }
        }
        best
    }

    /// One cut straight through, for rectangles of so many pieces that all cuts would take too long.
    fn straight(&mut self, x: u32, y: u32, mut best: (u32, Way)) -> (u32, Way) {
        let along_x = self.sums(x).into_iter().map(|cut| [cut, cut, 0, 0]);
        let along_y = self.sums(y).into_iter().map(|cut| [0, 0, cut, cut]);
        for cuts in along_x.chain(along_y) {
            let blocks = blocks([x, y], cuts).map(|(_, size)| size);
            if blocks.contains(&[x, y]) {
                continue;
            }
            let count = blocks.iter().map(|[x, y]| self.best(*x, *y).0).sum();
            if count > best.0 {
                best = (count, Way::Five(cuts));
            }
        }
        best
    }

    fn area_bound(&self, [x, y]: [u32; 2]) -> u32 {
        let area = |x: u32, y: u32| u64::from(x) * u64::from(y);
        u32::try_from(area(x, y) / area(self.length, self.width)).unwrap_or(u32::MAX)
    }

    /// The greatest sum of lengths and widths that goes into a side.
    fn used(&self, side: u32) -> u32 {
        self.sums(side).last().copied().unwrap_or(0)
    }

    /// All sums of lengths and widths up to a side, rising.
    fn sums(&self, side: u32) -> Vec<u32> {
        let lengths = 0..=side / self.length;
        let with = |of_lengths: u32| {
            let left = side - of_lengths * self.length;
            (0..=left / self.width).map(move |of_widths| of_lengths * self.length + of_widths * self.width)
        };
        let mut sums: Vec<u32> = lengths.flat_map(with).collect();
        sums.sort_unstable();
        sums.dedup();
        sums
    }

    fn tiles(&mut self, [from_x, from_y]: [u32; 2], [x, y]: [u32; 2], tiles: &mut Vec<Tile>) {
        let (count, way) = self.best(x, y);
        match way {
            _ if count == 0 => {}
            Way::Alike(turn) => self.row_on_row([from_x, from_y], [x, y], turn, tiles),
            Way::Five(cuts) => {
                let whole = [self.used(x), self.used(y)];
                for ([at_x, at_y], size) in blocks(whole, cuts) {
                    self.tiles([from_x + at_x, from_y + at_y], size, tiles);
                }
            }
        }
    }

    fn row_on_row(&self, [from_x, from_y]: [u32; 2], [x, y]: [u32; 2], turn: Turn, tiles: &mut Vec<Tile>) {
        let [dx, dy] = match turn {
            Turn::Lengthwise => [self.length, self.width],
            Turn::Crosswise => [self.width, self.length],
        };
        let centre =
            |from: u32, index: u32, step: u32| (f64::from(from + index * step) + f64::from(step) / 2.0) * COUNT_M;
        for i in 0..x / dx {
            for j in 0..y / dy {
                tiles.push(Tile { centre_m: [centre(from_x, i, dx), centre(from_y, j, dy)], turn });
            }
        }
    }
}

/// All pairs of cuts, the first at or before the second.
fn pairs(cuts: &[u32]) -> Vec<[u32; 2]> {
    cuts.iter().enumerate().flat_map(|(i, first)| cuts[i..].iter().map(|second| [*first, *second])).collect()
}

/// The five blocks by their least corner and their sides.
fn blocks([x, y]: [u32; 2], [x1, x2, y1, y2]: [u32; 4]) -> [([u32; 2], [u32; 2]); 5] {
    [
        ([0, y1], [x1, y - y1]),
        ([x1, y2], [x - x1, y - y2]),
        ([x1, y1], [x2 - x1, y2 - y1]),
        ([0, 0], [x2, y1]),
        ([x2, 0], [x - x2, y2]),
    ]
}
