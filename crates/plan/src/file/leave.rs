//! From the plan's own types to format 1, in the plan's units.

use super::grain::grain_of;
use super::spared::Spared;
use super::v1;
use super::written::Written;
use crate::StartingValues;
use crate::{
    Allow, Article, Bearing, Bed, Binding, Fixture, Gauge, Handling, Hold, HoldDown, KeepClear, Line, LoadCase, Lot,
};
use crate::{
    CatchBlock, FromRule, Picture, Place, Plan, PreloadSet, Reading, Softness, Support, Weighing, WeighingPoint,
};
use quantity::{Grain, Length, Quantity, Units};

fn not_entered(values: StartingValues) -> Vec<v1::NotEntered> {
    let mass = values.occupant_mass.then_some(v1::NotEntered::OccupantMass);
    mass.into_iter().chain(values.load_factor.then_some(v1::NotEntered::LoadFactor)).collect()
}

/// The plan as format 1 has it.
pub(super) fn plan(plan: &Plan) -> v1::Plan {
    let exit = Exit { units: plan.units };
    v1::Plan {
        format: super::format::NEWEST,
        title: plan.title.clone(),
        units: plan.units.into(),
        load_cases: plan.load_cases.iter().map(|case| exit.load_case(case)).collect(),
        case: plan.case.clone(),
        article: exit.article(&plan.article),
        target: exit.target(&plan.target),
        other_targets: plan.other_targets.iter().map(|target| exit.target(target)).collect(),
        fixture: exit.fixture(&plan.fixture),
        bed: exit.bed(&plan.bed),
        ballast: plan.ballast.iter().map(|lot| exit.lot(lot)).collect(),
        stack: plan.stack.iter().map(|place| exit.place(place)).collect(),
        gauges: plan.gauges.iter().map(|gauge| exit.gauge(gauge)).collect(),
        holds: plan.holds.iter().map(|hold| exit.hold(hold)).collect(),
        allow: exit.allow(&plan.allow),
    }
}

pub(super) struct Exit {
    units: Units,
}

impl Exit {
    pub(super) fn fine(&self, field: &str, quantity: impl Quantity) -> Written {
        Written::Text(quantity.written(self.units, grain_of(field)))
    }

    pub(super) fn coarse(&self, quantity: impl Quantity) -> Written {
        self.fine("", quantity)
    }

    /// A small distance, whatever its field is called.
    fn small(&self, length: Length) -> Written {
        Written::Text(length.written(self.units, Grain::Fine))
    }

    pub(super) fn each<Q: Quantity, const N: usize>(&self, quantities: [Q; N]) -> [Written; N] {
        quantities.map(|quantity| self.coarse(quantity))
    }

    pub(super) fn each_fine<Q: Quantity, const N: usize>(&self, field: &str, quantities: [Q; N]) -> [Written; N] {
        quantities.map(|quantity| self.fine(field, quantity))
    }

    fn load_case(&self, case: &LoadCase) -> v1::LoadCase {
        v1::LoadCase {
            name: case.name.clone(),
            basis: case.basis.clone(),
            occupant_mass: self.coarse(case.occupant_mass),
            load_factor: case.load_factor,
            direction: self.coarse(case.direction),
            safety_factor: case.safety_factor,
            special_factor: case.special_factor,
            from_rule: case.from_rule.as_ref().map(|rule| self.rule(rule)),
            not_entered: Spared::unless(case.starting, StartingValues::untold(case), not_entered),
        }
    }

    fn rule(&self, rule: &FromRule) -> v1::FromRule {
        v1::FromRule {
            rule: rule.rule.clone(),
            occupant_mass: Spared::given(rule.occupant_mass.map(|mass| self.coarse(mass))),
            load_factor: rule.load_factor,
            safety_factor: rule.safety_factor,
            special_factor: rule.special_factor,
        }
    }

    fn article(&self, article: &Article) -> v1::Article {
        v1::Article {
            name: article.name.clone(),
            mass: self.coarse(article.mass),
            centroid: self.each(article.centroid),
            pitch: self.coarse(article.pitch),
            pivot: self.each(article.pivot),
            outline: article.outline.iter().map(|line| self.line(line)).collect(),
            keep_clear: article.keep_clear.iter().map(|region| self.keep_clear(region)).collect(),
            picture: article.picture.as_ref().map(|picture| self.picture(picture)),
            weighings: article.weighings.iter().map(|weighing| self.weighing(weighing)).collect(),
        }
    }

    fn picture(&self, picture: &Picture) -> v1::Picture {
        v1::Picture {
            path: picture.path.clone(),
            at: self.each(picture.at),
            width: self.coarse(picture.width),
            turn: self.coarse(picture.turn),
        }
    }

    fn weighing(&self, weighing: &Weighing) -> v1::Weighing {
        v1::Weighing {
            name: weighing.name.clone(),
            pitch: self.coarse(weighing.pitch),
            points: weighing.points.iter().map(|point| self.weighing_point(point)).collect(),
        }
    }

    fn weighing_point(&self, point: &WeighingPoint) -> v1::WeighingPoint {
        v1::WeighingPoint {
            name: point.name.clone(),
            at: self.each(point.at),
            reading: self.coarse(point.reading),
            tare: self.coarse(point.tare),
            division: point.division.map(|division| self.coarse(division)),
        }
    }

    fn line(&self, line: &Line) -> v1::Line {
        v1::Line { name: line.name.clone(), points: line.points.iter().map(|point| self.each(*point)).collect() }
    }

    fn keep_clear(&self, region: &KeepClear) -> v1::KeepClear {
        v1::KeepClear {
            name: region.name.clone(),
            side: region.side.iter().map(|corner| self.each(*corner)).collect(),
            y: self.each(region.y),
            clearance: self.fine("clearance", region.clearance),
        }
    }

    fn fixture(&self, fixture: &Fixture) -> v1::Fixture {
        v1::Fixture {
            supports: fixture.supports.iter().map(|support| self.support(support)).collect(),
            hold_downs: fixture.hold_downs.iter().map(|strap| self.hold_down(strap)).collect(),
            bindings: fixture.bindings.iter().map(|strap| self.binding(strap)).collect(),
            catch_blocks: fixture.catch_blocks.iter().map(|block| self.catch_block(block)).collect(),
            floor_friction: fixture.floor_friction,
        }
    }

    fn support(&self, support: &Support) -> v1::Support {
        v1::Support {
            name: support.name.clone(),
            at: self.each(support.at),
            capacity: support.capacity.map(|capacity| self.coarse(capacity)),
            scale: support.scale,
            stiffness: support.stiffness.map(|stiffness| self.coarse(stiffness)),
            division: support.division.map(|division| self.coarse(division)),
        }
    }

    fn hold_down(&self, strap: &HoldDown) -> v1::HoldDown {
        v1::HoldDown {
            name: strap.name.clone(),
            on_article: self.each(strap.on_article),
            on_floor: self.each(strap.on_floor),
            preload: self.coarse(strap.preload),
            preload_set: Spared::unless(strap.preload_set, PreloadSet::default(), Into::into),
            working_load: self.coarse(strap.working_load),
            stiffness: self.coarse(strap.stiffness),
        }
    }

    fn binding(&self, strap: &Binding) -> v1::Binding {
        v1::Binding {
            name: strap.name.clone(),
            anchors: strap.anchors.into(),
            at: self.each(strap.at),
            pull: self.coarse(strap.pull),
            width: Spared::unless(strap.width, Binding::WIDTH, |width| self.small(width)),
            after: strap.after,
        }
    }

    fn catch_block(&self, block: &CatchBlock) -> v1::CatchBlock {
        v1::CatchBlock { name: block.name.clone(), at: self.each(block.at), gap: self.small(block.gap) }
    }

    fn bed(&self, bed: &Bed) -> v1::Bed {
        v1::Bed {
            origin: self.each(bed.origin),
            slope: self.coarse(bed.slope),
            friction: bed.friction,
            touch: self.fine("touch", bed.touch),
            touch_hard: Spared::unless(bed.touch_hard, Bed::TOUCH_HARD, |touch| self.small(touch)),
            beside: self.fine("beside", bed.beside),
            bearings: bed.bearings.iter().map(|bearing| self.bearing(bearing)).collect(),
        }
    }

    fn bearing(&self, bearing: &Bearing) -> v1::Bearing {
        v1::Bearing {
            name: bearing.name.clone(),
            x: self.each(bearing.x),
            y: self.each(bearing.y),
            top: self.coarse(bearing.top),
            allowable: bearing.allowable.map(|allowable| self.coarse(allowable)),
        }
    }

    fn lot(&self, lot: &Lot) -> v1::Lot {
        v1::Lot {
            name: lot.name.clone(),
            form: lot.form.into(),
            size: self.each(lot.size),
            mass: self.coarse(lot.mass),
            mass_tolerance: self.coarse(lot.mass_tolerance),
            count: lot.count,
            friction: lot.friction,
            weighed: v1::Weighed(lot.weighed.iter().map(|(item, mass)| (*item, self.coarse(*mass))).collect()),
            grade: lot.grade.clone(),
            strength: lot.strength.map(|strength| v1::Strength {
                bending: self.coarse(strength.bending),
                shear: self.coarse(strength.shear),
                modulus: self.coarse(strength.modulus),
            }),
            softness: lot.softness.as_ref().map(|softness| self.softness(softness)),
        }
    }

    fn softness(&self, softness: &Softness) -> v1::Softness {
        v1::Softness {
            modulus: self.coarse(softness.modulus),
            rim: Spared::given(softness.rim.map(|rim| self.small(rim))),
            shear_ratio: Spared::unless(softness.shear_ratio, Softness::SHEAR_RATIO, |ratio| ratio),
            creep_per_decade: Spared::unless(softness.creep_per_decade, Softness::CREEP_PER_DECADE, |creep| creep),
            from: softness.from.into(),
            readings: softness.readings.iter().map(|reading| self.reading(reading)).collect(),
            flat: Spared::given(softness.flat.map(|sides| self.each(sides))),
        }
    }

    fn reading(&self, reading: &Reading) -> v1::Reading {
        v1::Reading {
            added: self.coarse(reading.added),
            after: self.coarse(reading.after),
            sinks: self.small(reading.sinks),
        }
    }

    fn place(&self, place: &Place) -> v1::Place {
        v1::Place {
            lot: place.lot.clone(),
            item: place.item,
            at: self.each(place.at),
            turn: place.turn.into(),
            locked: place.locked,
        }
    }

    fn gauge(&self, gauge: &Gauge) -> v1::Gauge {
        v1::Gauge {
            name: gauge.name.clone(),
            at: self.each(gauge.at),
            allowed_set: self.fine("allowed_set", gauge.allowed_set),
        }
    }

    fn hold(&self, hold: &Hold) -> v1::Hold {
        let time = Spared::given(hold.time.map(|time| self.coarse(time)));
        let tolerance = Spared::given(hold.tolerance.map(|both| self.each_fine("tolerance", both)));
        v1::Hold { name: hold.name.clone(), at: hold.at, unload: hold.unload, time, tolerance }
    }

    fn allow(&self, allow: &Allow) -> v1::Allow {
        v1::Allow {
            collapse: allow.collapse,
            fixture_push: allow.fixture_push,
            placement_scatter: self.fine("placement_scatter", allow.placement_scatter),
            chance: Spared::unless(allow.chance, Allow::CHANCE, |chance| chance),
            critical: Spared::unless(allow.critical, Allow::CRITICAL, |critical| critical),
            lean: Spared::unless(allow.lean, Allow::LEAN, |lean| self.small(lean)),
            handling: (allow.handling != Handling::default()).then(|| self.handling(&allow.handling)),
        }
    }

    fn handling(&self, handling: &Handling) -> v1::Handling {
        v1::Handling {
            reach: self.coarse(handling.reach),
            pick_up: self.coarse(handling.pick_up),
            twist: self.coarse(handling.twist),
            lifts_per_minute: handling.lifts_per_minute,
            spell: handling.spell.into(),
            grip: handling.grip.into(),
            people: handling.people,
        }
    }
}
