//! Room that is too short for a piece: between what, from where to where, and what the piece needs. Sentences and
//! drawings tell it from the same figures.

use super::clearance::Clearances;
use super::occupant::target_in_floor;
use nalgebra::{Point3, Vector3};
use plan::{Lot, Plan};
use quantity::{Grain, Length, Quantity, Units};
use statics::Body;

/// What stands in the way is looked for in steps of this, m, and then halved until [`SURE_M`]:
const STEP_M: f64 = 0.001;
/// so far from the line of action, m,
const FAR_M: f64 = 1.5;
/// and this near, m.
const SURE_M: f64 = 1e-7;

/// A straight distance that is too short, and what it is too short for.
#[derive(Clone, Debug, PartialEq)]
pub struct Gap {
    /// What stands at either end.
    pub between: [String; 2],
    /// Where it stands, floor frame, m.
    pub faces_in_floor: [Point3<f64>; 2],
    /// Where its clearance ends, floor frame, m: no piece may come nearer.
    pub ends_in_floor: [Point3<f64>; 2],
    /// What is to go in: the name of its lot, and its length along the gap, m. None where nothing is to go in, and the
    /// distance itself is what is wrong.
    pub needed: Option<(String, f64)>,
}

impl Gap {
    /// From face to face, m.
    pub fn between_m(&self) -> f64 {
        (self.faces_in_floor[1] - self.faces_in_floor[0]).norm()
    }

    /// What is left of it with the clearances taken off, m.
    pub fn free_m(&self) -> f64 {
        (self.ends_in_floor[1] - self.ends_in_floor[0]).norm()
    }

    /// What is lacking for the piece, m; 0 without one.
    pub fn lacking_m(&self) -> f64 {
        self.needed.as_ref().map_or(0.0, |(_, needed_m)| (needed_m - self.free_m()).max(0.0))
    }

    /// The gap in words and numbers, in the plan's units; no full stop.
    pub fn words(&self, units: Units) -> String {
        let shown = |m: f64| Length::m(m).shown(units, Grain::Fine);
        let [one, other] = &self.between;
        let mut words = format!("{} between {one} and {other}", shown(self.between_m()));
        if let Some((lot, needed_m)) = &self.needed {
            words += &format!(
                ", clearances taken off: {}; a piece of “{lot}” is {} long",
                shown(self.free_m()),
                shown(*needed_m)
            );
        }
        words
    }
}

/// An end of a gap: which region, where it begins and where its clearance does, m from the line of action.
struct Wall {
    region: usize,
    face_m: f64,
    end_m: f64,
}

/// The gap, along the bed or across it, between two regions that must stay clear, into which a piece of this lot does
/// not go with its length; looked for on the line of action, at the height of a piece on the bearings. None where it
/// goes in both ways.
pub fn gap_for(plan: &Plan, lot: &Lot) -> Option<Gap> {
    [0, 1].into_iter().find_map(|axis| gap_along(plan, lot, axis))
}

/// The same along the bed (0) or across it (1) alone.
pub fn gap_along(plan: &Plan, lot: &Lot, axis: usize) -> Option<Gap> {
    let length_m = lot.size[0].si();
    let probe = Probe::of(plan, lot, axis);
    let (low, high) = (probe.wall(-1.0)?, probe.wall(1.0)?);
    if low.end_m + high.end_m >= length_m {
        return None;
    }
    let name = |wall: &Wall| plan.article.keep_clear[wall.region].name.clone();
    Some(Gap {
        between: [name(&low), name(&high)],
        faces_in_floor: [probe.in_floor(-low.face_m), probe.in_floor(high.face_m)],
        ends_in_floor: [probe.in_floor(-low.end_m), probe.in_floor(high.end_m)],
        needed: Some((lot.name.clone(), length_m)),
    })
}

/// A strip as wide as the piece, a millimetre along the axis, that is pushed away from the line of action.
struct Probe<'p> {
    plan: &'p Plan,
    clearances: Clearances,
    axis: usize,
    from_m: [f64; 2],
    extent_m: [f64; 3],
    underside_m: f64,
}

impl<'p> Probe<'p> {
    fn of(plan: &'p Plan, lot: &Lot, axis: usize) -> Self {
        let underside_m = plan.bed.bearings.iter().map(|bearing| bearing.top.si()).fold(0.0, f64::max);
        let [_, width_m, thickness_m] = lot.size.map(Quantity::si);
        let mut extent_m = [SURE_M, SURE_M, thickness_m];
        extent_m[1 - axis] = width_m;
        let from_m = line_of_action(plan, underside_m);
        let mut probe = Self { plan, clearances: Clearances::of(plan), axis, from_m, extent_m, underside_m };
        if (0..plan.article.keep_clear.len()).any(|region| !probe.is_clear(region, 0.0)) {
            // What stands beside the line of action keeps a piece out, but not along this axis.
            probe.extent_m[1 - axis] = SURE_M;
        }
        probe
    }

    fn body(&self, off_m: f64) -> Body {
        let mut centre_m = self.from_m;
        centre_m[self.axis] += off_m;
        Body { centre_m, extent_m: self.extent_m, mass_kg: 0.0, friction: 0.0, soft: false }
    }

    fn is_clear(&self, region: usize, off_m: f64) -> bool {
        self.clearances.is_clear_of(region, &self.body(off_m), self.underside_m)
    }

    fn touches(&self, region: usize, off_m: f64) -> bool {
        self.clearances.distance_m(region, &self.body(off_m), self.underside_m) <= SURE_M
    }

    /// The first region one way along the axis.
    fn wall(&self, sign: f64) -> Option<Wall> {
        let walls = (0..self.plan.article.keep_clear.len()).filter_map(|region| {
            let end_m = first(0.0, &|off_m| !self.is_clear(region, sign * off_m))?;
            // A region that only comes near is passed by: its clearance alone is in the way.
            let face_m = first(end_m, &|off_m| self.touches(region, sign * off_m)).unwrap_or(end_m);
            Some(Wall { region, face_m, end_m })
        });
        walls.min_by(|a, b| a.end_m.total_cmp(&b.end_m))
    }

    /// A place on the axis, so far from the line of action, on the bearings; floor frame.
    fn in_floor(&self, off_m: f64) -> Point3<f64> {
        let [x, y] = self.body(off_m).centre_m;
        self.plan.floor_from_bed() * Point3::new(x, y, self.underside_m)
    }
}

/// Where the plumb line through the occupant point meets this height of the bed, m, bed frame.
fn line_of_action(plan: &Plan, height_m: f64) -> [f64; 2] {
    let bed_from_floor = plan.floor_from_bed().inverse();
    let target = bed_from_floor * target_in_floor(plan);
    let down = bed_from_floor * Vector3::z();
    let off_m = (height_m - target.z) / down.z;
    [target.x + off_m * down.x, target.y + off_m * down.y]
}

/// The first distance from here at which something is so, m; none as far as one looks.
fn first(from_m: f64, is_so: &dyn Fn(f64) -> bool) -> Option<f64> {
    let steps = ((FAR_M - from_m) / STEP_M).max(0.0);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "some thousand steps")]
    let steps = 0..=steps as u32;
    let high = steps.map(|step| from_m + f64::from(step) * STEP_M).find(|off_m| is_so(*off_m))?;
    let (mut low, mut high) = ((high - STEP_M).max(from_m), high);
    while high - low > SURE_M {
        let middle = f64::midpoint(low, high);
        if is_so(middle) { high = middle } else { low = middle }
    }
    Some(high)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn seat() -> Plan {
        let text = include_str!("../../../arrange/benches/seats/gap-shorter-than-a-bag.ron");
        plan::file::read(text).expect("a seat is a plan")
    }

    fn assert_near(what: &str, got_m: f64, want_m: f64) {
        assert!((got_m - want_m).abs() < 1e-6, "{what}: got {got_m} m, want {want_m} m, difference {}", got_m - want_m);
    }

    #[test]
    fn a_gap_is_measured_from_face_to_face_and_with_its_clearances_taken_off() {
        // Stick up to station 1.88 m, carry-through from 2.38 m, 30 mm each: by the plan's own figures.
        let plan = seat();
        let gap = gap_for(&plan, &plan.ballast[0]).expect("a bag of 0.45 m does not go in");
        assert_near("between", gap.between_m(), 0.500);
        assert_near("free", gap.free_m(), 0.440);
        assert_near("lacking", gap.lacking_m(), 0.010);
        let stations = [gap.faces_in_floor, gap.ends_in_floor].map(|ends| ends.map(|end| end.x));
        for (got, want) in stations.as_flattened().iter().zip([1.88, 2.38, 1.91, 2.35]) {
            assert_near("station", *got, want);
        }
        let want = "500 mm between control stick and spar carry-through, clearances taken off: 440 mm; a piece of \
                    “sand bag” is 450 mm long";
        assert_eq!(gap.words(plan.units), want);
    }

    #[test]
    fn a_piece_that_goes_in_has_no_gap_against_it() {
        let mut plan = seat();
        plan.ballast[0].size[0] = Length::m(0.4399);
        assert_eq!(gap_for(&plan, &plan.ballast[0]), None);
        plan.ballast[0].size[0] = Length::m(0.45);
        plan.article.keep_clear.truncate(1);
        assert_eq!(gap_for(&plan, &plan.ballast[0]), None, "one region leaves the other side open");
    }

    #[test]
    fn a_stick_beside_the_line_of_action_is_met_by_the_width_of_a_piece() {
        // Its nearer side 0.10 m off the line: half a bag's width is 0.15 m.
        let mut plan = seat();
        plan.article.keep_clear[0].y = [0.10, 0.20].map(Length::m);
        let gap = gap_for(&plan, &plan.ballast[0]).expect("it is in the way all the same");
        assert_near("free", gap.free_m(), 0.440);
        plan.article.keep_clear[0].y = [0.19, 0.30].map(Length::m);
        assert_eq!(gap_for(&plan, &plan.ballast[0]), None, "farther off than half a width and the clearance");
    }
}
