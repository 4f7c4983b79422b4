//! The occupant point between format 1 and the plan's own types, both ways.

use super::enter::Entry;
use super::leave::Exit;
use super::v1;
use crate::{LoadPoint, Path, Posture, Target, Weighed, WeighingScale};

impl Entry {
    pub(super) fn target(&mut self, path: &Path, target: v1::Target) -> Target {
        match target {
            v1::Target::Point { at, tolerance } => Target::Point {
                at: self.each(&path.field("at"), &at),
                tolerance: self.each(&path.field("tolerance"), &tolerance),
            },
            v1::Target::Posture {
                seat_reference,
                recline,
                pan,
                thigh,
                knee,
                arm,
                elbow,
                head,
                pan_cushion,
                back_cushion,
                back_pack,
                stature,
                slump,
                sex,
                table,
                lower_legs,
                tolerance,
            } => Target::Posture(Posture {
                seat_reference: self.each(&path.field("seat_reference"), &seat_reference),
                recline: self.quantity(path.field("recline"), &recline),
                pan: self.quantity(path.field("pan"), &pan),
                thigh: self.optional(path.field("thigh"), thigh.as_ref()),
                knee: self.quantity(path.field("knee"), &knee),
                arm: self.quantity(path.field("arm"), &arm),
                elbow: self.quantity(path.field("elbow"), &elbow),
                head: self.optional(path.field("head"), head.as_ref()),
                pan_cushion: self.quantity(path.field("pan_cushion"), &pan_cushion),
                back_cushion: self.quantity(path.field("back_cushion"), &back_cushion),
                back_pack: self.quantity(path.field("back_pack"), &back_pack),
                stature: self.quantity(path.field("stature"), &stature),
                slump: self.quantity(path.field("slump"), &slump),
                sex: sex.into(),
                table: table.into(),
                lower_legs: lower_legs.into(),
                tolerance: self.each(&path.field("tolerance"), &tolerance),
            }),
            v1::Target::Weighed { scales, reading_within, waterline, tolerance } => Target::Weighed(Weighed {
                scales: self.list(&path.field("scales"), scales, Self::weighing_scale),
                reading_within: self.quantity(path.field("reading_within"), &reading_within),
                waterline: self.quantity(path.field("waterline"), &waterline),
                tolerance: self.each(&path.field("tolerance"), &tolerance),
            }),
            v1::Target::LoadPoint { document, at, tolerance } => Target::LoadPoint(LoadPoint {
                document,
                at: self.each(&path.field("at"), &at),
                tolerance: self.each(&path.field("tolerance"), &tolerance),
            }),
        }
    }

    fn weighing_scale(&mut self, path: &Path, scale: v1::WeighingScale) -> WeighingScale {
        WeighingScale {
            name: scale.name,
            at: self.each(&path.field("at"), &scale.at),
            without: self.quantity(path.field("without"), &scale.without),
            with: self.quantity(path.field("with"), &scale.with),
        }
    }
}

impl Exit {
    pub(super) fn target(&self, target: &Target) -> v1::Target {
        match target {
            Target::Point { at, tolerance } => {
                v1::Target::Point { at: self.each(*at), tolerance: self.each_fine("tolerance", *tolerance) }
            }
            Target::Posture(posture) => self.posture(posture),
            Target::Weighed(weighed) => v1::Target::Weighed {
                scales: weighed.scales.iter().map(|scale| self.weighing_scale(scale)).collect(),
                reading_within: self.coarse(weighed.reading_within),
                waterline: self.coarse(weighed.waterline),
                tolerance: self.each_fine("tolerance", weighed.tolerance),
            },
            Target::LoadPoint(point) => v1::Target::LoadPoint {
                document: point.document.clone(),
                at: self.each(point.at),
                tolerance: self.each_fine("tolerance", point.tolerance),
            },
        }
    }

    fn posture(&self, posture: &Posture) -> v1::Target {
        v1::Target::Posture {
            seat_reference: self.each(posture.seat_reference),
            recline: self.coarse(posture.recline),
            pan: self.coarse(posture.pan),
            thigh: posture.thigh.map(|thigh| self.coarse(thigh)),
            knee: self.coarse(posture.knee),
            arm: self.coarse(posture.arm),
            elbow: self.coarse(posture.elbow),
            head: posture.head.map(|head| self.coarse(head)),
            pan_cushion: self.fine("pan_cushion", posture.pan_cushion),
            back_cushion: self.fine("back_cushion", posture.back_cushion),
            back_pack: self.fine("back_pack", posture.back_pack),
            stature: self.coarse(posture.stature),
            slump: self.fine("slump", posture.slump),
            sex: posture.sex.into(),
            table: posture.table.into(),
            lower_legs: posture.lower_legs.into(),
            tolerance: self.each_fine("tolerance", posture.tolerance),
        }
    }

    fn weighing_scale(&self, scale: &WeighingScale) -> v1::WeighingScale {
        v1::WeighingScale {
            name: scale.name.clone(),
            at: self.each(scale.at),
            without: self.coarse(scale.without),
            with: self.coarse(scale.with),
        }
    }
}
