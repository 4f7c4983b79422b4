//! What was read, as changes from one weighing to the next, and how likely a cause makes them.

use crate::{Course, Range, RunDone, Weighing};
use nalgebra::{DMatrix, DVector};

/// From one weighing to the next.
pub(super) struct Change {
    /// How many pieces lay there before and after.
    pub(super) placed: [usize; 2],
    /// For each support: what it showed more than it should have, and one standard deviation, kg;
    /// none for what is no scale or was not read both times.
    pub(super) off_kg: Vec<Option<[f64; 2]>>,
    /// For each support: how much more it showed, kg, read as it stands there.
    pub(super) moved_kg: Vec<f64>,
}

/// All changes of a run up to its last weighing.
pub(super) struct Changes {
    pub(super) list: Vec<Change>,
    /// What each support should show at the last weighing.
    ranges: Vec<Option<Range>>,
    pub(super) read_kg: Vec<Option<f64>>,
    /// What each support showed at the tare.
    pub(super) tare_kg: Vec<Option<f64>>,
}

impl Changes {
    pub(super) fn of(run: &RunDone, course: &Course) -> Option<Self> {
        let (tare, last) = (run.tare.as_ref()?, run.weighings.last()?);
        let placed = |weighing: &Weighing| run.count_to(weighing.last_on);
        let mut states: Vec<&Weighing> = vec![tare];
        for weighing in &run.weighings {
            // The last weighing of a state counts.
            if states.len() > 1 && states.last().is_some_and(|before| placed(before) == placed(weighing)) {
                states.pop();
            }
            states.push(weighing);
        }
        let list = states.windows(2).map(|pair| change(course, pair, [placed(pair[0]), placed(pair[1])])).collect();
        let read = |weighing: &Weighing, support| weighing.reading.scale_kg(course.scale(support)?);
        Some(Self {
            list,
            ranges: course.ranges(&tare.reading, [placed(tare), placed(last)]),
            read_kg: (0..course.supports()).map(|support| read(last, support)).collect(),
            tare_kg: (0..course.supports()).map(|support| read(tare, support)).collect(),
        })
    }

    /// What a scale showed at the last weighing and what it should have shown, where that does not fit.
    pub(super) fn misfit(&self, support: usize) -> Option<(f64, Range)> {
        let read_kg = self.read_kg.get(support).copied().flatten()?;
        let range = self.ranges.get(support).copied().flatten()?;
        (!range.fits(read_kg)).then_some((read_kg, range))
    }

    /// What the scales would show with so much added to what is expected, kg a support.
    pub(super) fn would_read(&self, added_kg: &[f64]) -> Vec<Option<f64>> {
        self.ranges.iter().zip(added_kg).map(|(range, added)| range.map(|range| range.reading_kg + added)).collect()
    }

    /// Whether every scale that was read is as near to what it would show as lets loading go on.
    pub(super) fn all_fit(&self, would_read_kg: &[Option<f64>]) -> bool {
        let scales = self.ranges.iter().zip(&self.read_kg).zip(would_read_kg);
        scales
            .filter_map(|((range, read), would)| {
                Some((read.as_ref()? - would.as_ref()?).abs() <= range.as_ref()?.stop_kg)
            })
            .all(|fits| fits)
    }

    pub(super) fn worst_miss(&self, would_read_kg: &[Option<f64>]) -> f64 {
        let misses = self.ranges.iter().zip(&self.read_kg).zip(would_read_kg);
        misses
            .filter_map(|((range, read), would)| {
                Some((read.as_ref()? - would.as_ref()?).abs() / range.as_ref()?.within_kg)
            })
            .fold(0.0, f64::max)
    }
}

fn change(course: &Course, pair: &[&Weighing], placed: [usize; 2]) -> Change {
    let moved = |support: usize| {
        let name = course.scale(support)?;
        Some(pair[1].reading.scale_kg(name)? - pair[0].reading.scale_kg(name)?)
    };
    let off = |support: usize| {
        let due = course.band(placed[1], support)?.reading_kg - course.band(placed[0], support)?.reading_kg;
        Some([moved(support)? - due, 0.5 * course.change_spread_kg(support, placed)])
    };
    Change {
        placed,
        off_kg: (0..course.supports()).map(off).collect(),
        moved_kg: (0..course.supports()).map(|support| moved(support).unwrap_or_default()).collect(),
    }
}

impl Change {
    /// How much likelier these additions (kg a support) make the change than chance does.
    pub(super) fn weight_of(&self, added_kg: &[f64]) -> f64 {
        let one = |(off, added): (&Option<[f64; 2]>, &f64)| {
            off.map_or(0.0, |[off, sd]| 0.5 * (off * off - (off - added) * (off - added)) / (sd * sd))
        };
        self.off_kg.iter().zip(added_kg).map(one).sum()
    }

    /// The same for additions that are linear in free numbers, each normal about 0 with its own
    /// deviation: `per` holds for each number what it adds a unit, kg a support. With it the numbers
    /// that fit best.
    pub(super) fn weight_of_free(&self, per: &[(Vec<f64>, f64)]) -> (f64, Vec<f64>) {
        self.weight_about(&vec![0.0; self.off_kg.len()], per)
    }

    /// The same about additions that are certain.
    pub(super) fn weight_about(&self, added_kg: &[f64], per: &[(Vec<f64>, f64)]) -> (f64, Vec<f64>) {
        let seen: Vec<(usize, [f64; 2])> =
            self.off_kg.iter().enumerate().filter_map(|(support, off)| Some((support, (*off)?))).collect();
        let off = DVector::from_iterator(seen.len(), seen.iter().map(|(_, [off, _])| *off));
        let left = DVector::from_iterator(seen.len(), seen.iter().map(|(support, [off, _])| off - added_kg[*support]));
        let noise =
            DMatrix::from_diagonal(&DVector::from_iterator(seen.len(), seen.iter().map(|(_, [_, sd])| sd * sd)));
        // Each column is what one deviation of its number adds.
        let columns = DMatrix::from_fn(seen.len(), per.len(), |row, column| {
            let (adds, deviation) = &per[column];
            adds[seen[row].0] * deviation
        });
        let whole = &noise + &columns * columns.transpose();
        let (Some(chance), Some(with)) = (noise.cholesky(), whole.cholesky()) else {
            return (f64::NEG_INFINITY, vec![0.0; per.len()]);
        };
        let solved = with.solve(&left);
        let half_log_det = |l: &DMatrix<f64>| l.diagonal().iter().map(|d| d.ln()).sum::<f64>();
        let narrower = half_log_det(&chance.l()) - half_log_det(&with.l());
        let weight = 0.5 * (off.dot(&chance.solve(&off)) - left.dot(&solved)) + narrower;
        let units = columns.transpose() * solved;
        (weight, units.iter().zip(per).map(|(unit, (_, deviation))| unit * deviation).collect())
    }
}
