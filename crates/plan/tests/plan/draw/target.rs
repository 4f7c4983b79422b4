//! The point at which the load is to act, in each way of giving it.

use super::Draw;
use plan::{LoadPoint, LowerLegs, Posture, SegmentTable, Sex, Target, Weighed, WeighingScale};
use quantity::{Angle, Grain, Length, Units};

impl Draw {
    pub(super) fn target(&mut self) -> Target {
        match self.below(4) {
            0 => Target::Point { at: self.point(), tolerance: [self.fine(), self.fine()] },
            1 => Target::Posture(self.posture()),
            2 => Target::Weighed(Weighed {
                scales: self.list(1, Self::weighing_scale),
                reading_within: self.above_zero(),
                waterline: self.signed(),
                tolerance: [self.fine(), self.fine()],
            }),
            _ => Target::LoadPoint(LoadPoint {
                document: self.name(),
                at: self.point(),
                tolerance: [self.fine(), self.fine()],
            }),
        }
    }

    fn weighing_scale(&mut self) -> WeighingScale {
        let without = i64::from(self.below(40_000));
        let with = without + 1 + i64::from(self.below(40_000));
        WeighingScale {
            name: self.name(),
            at: self.point(),
            without: self.steps(without, Grain::Coarse),
            with: self.steps(with, Grain::Coarse),
        }
    }

    /// So many thousandths of a degree, from one bound up.
    fn angle(&mut self, from: i64, below: u32) -> Angle {
        let thousandths = from + i64::from(self.below(below));
        self.steps(thousandths, Grain::Coarse)
    }

    fn posture(&mut self) -> Posture {
        Posture {
            seat_reference: self.point(),
            recline: self.angle(0, 45_000),
            // With a crooked number a quarter more: 45 deg steeper than the back is a fault.
            pan: self.angle(0, 36_000),
            thigh: self.optional(|d| d.angle(0, 60_000)),
            knee: self.angle(30_000, 110_000),
            arm: self.angle(0, 120_000),
            elbow: self.angle(30_000, 110_000),
            head: self.optional(|d| d.angle(0, 40_000)),
            pan_cushion: self.fine(),
            back_cushion: self.fine(),
            back_pack: self.fine(),
            stature: self.stature(),
            slump: self.slump(),
            sex: if self.flip() { Sex::Female } else { Sex::Male },
            table: [SegmentTable::DeLeva, SegmentTable::Winter, SegmentTable::Dumas][self.below(3) as usize],
            lower_legs: if self.flip() { LowerLegs::OnSeat } else { LowerLegs::OnFloor },
            tolerance: [self.fine(), self.fine()],
        }
    }

    fn slump(&mut self) -> Length {
        let thousandths = i64::from(self.below(1000));
        self.steps(thousandths, Grain::Fine)
    }

    fn stature(&mut self) -> Length {
        let (from, room) = if self.units == Units::Metric { (1300, 400) } else { (55_000, 15_000) };
        let thousandths = from + i64::from(self.below(room));
        self.steps(thousandths, Grain::Coarse)
    }
}
