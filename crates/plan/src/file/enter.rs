//! From format 1 into the plan's own types, collecting every value that is no quantity.

use super::spared::Spared;
use super::v1;
use super::written::Written;
use crate::{
    Allow, Bearing, CatchBlock, KeepClear, Line, Picture, Reading, Softness, Support, Way, Weighing, WeighingPoint,
};
use crate::{
    Article, Bed, Binding, Fault, Fixture, FromRule, Gauge, Handling, Hold, HoldDown, LoadCase, Lot, Path, Place, Plan,
    PreloadSet, StartingValues, Strength,
};
use quantity::Quantity;

/// The plan, or every value that is not the quantity which is due there.
pub(super) fn plan(file: v1::Plan) -> Result<Plan, Vec<Fault>> {
    let mut entry = Entry { faults: Vec::new() };
    let plan = entry.plan(file);
    if entry.faults.is_empty() { Ok(plan) } else { Err(entry.faults) }
}

pub(super) struct Entry {
    faults: Vec<Fault>,
}

impl Entry {
    /// Zero stands in for what is no quantity: with a fault at hand the plan is thrown away.
    pub(super) fn quantity<Q: Quantity>(&mut self, path: Path, written: &Written) -> Q {
        written.quantity().unwrap_or_else(|error| {
            let sentence = format!("{}: {error}", field_words(&path));
            self.faults.push(Fault { path, sentence });
            Q::from_si(0.0)
        })
    }

    pub(super) fn optional<Q: Quantity>(&mut self, path: Path, written: Option<&Written>) -> Option<Q> {
        written.map(|written| self.quantity(path, written))
    }

    /// What is written, else the default of format 1.
    fn spared<Q: Quantity>(&mut self, path: Path, written: &Spared<Written>, default: Q) -> Q {
        self.optional(path, written.as_ref()).unwrap_or(default)
    }

    pub(super) fn each<Q: Quantity, const N: usize>(&mut self, path: &Path, written: &[Written; N]) -> [Q; N] {
        std::array::from_fn(|i| self.quantity(path.index(i), &written[i]))
    }

    pub(super) fn list<A, B>(&mut self, path: &Path, from: Vec<A>, enter: fn(&mut Self, &Path, A) -> B) -> Vec<B> {
        from.into_iter().enumerate().map(|(i, entry)| enter(self, &path.index(i), entry)).collect()
    }

    fn plan(&mut self, file: v1::Plan) -> Plan {
        Plan {
            title: file.title,
            units: file.units.into(),
            load_cases: self.list(&Path::of("load_cases"), file.load_cases, Self::load_case),
            case: file.case,
            article: self.article(&Path::of("article"), file.article),
            target: self.target(&Path::of("target"), file.target),
            other_targets: self.list(&Path::of("other_targets"), file.other_targets, Self::target),
            fixture: self.fixture(&Path::of("fixture"), file.fixture),
            bed: self.bed(&Path::of("bed"), file.bed),
            ballast: self.list(&Path::of("ballast"), file.ballast, Self::lot),
            stack: self.list(&Path::of("stack"), file.stack, Self::place),
            gauges: self.list(&Path::of("gauges"), file.gauges, Self::gauge),
            holds: self.list(&Path::of("holds"), file.holds, Self::hold),
            allow: self.allow(&Path::of("allow"), file.allow),
        }
    }

    fn load_case(&mut self, path: &Path, case: v1::LoadCase) -> LoadCase {
        let not_entered = case.not_entered.as_ref().cloned();
        let entered = LoadCase {
            name: case.name,
            basis: case.basis,
            occupant_mass: self.quantity(path.field("occupant_mass"), &case.occupant_mass),
            load_factor: case.load_factor,
            direction: self.quantity(path.field("direction"), &case.direction),
            safety_factor: case.safety_factor,
            special_factor: case.special_factor,
            from_rule: case.from_rule.map(|rule| self.rule(&path.field("from_rule"), rule)),
            starting: StartingValues::default(),
        };
        let starting = not_entered.map_or_else(|| StartingValues::untold(&entered), |values| starting(&values));
        LoadCase { starting, ..entered }
    }

    fn rule(&mut self, path: &Path, rule: v1::FromRule) -> FromRule {
        FromRule {
            rule: rule.rule,
            occupant_mass: self.optional(path.field("occupant_mass"), rule.occupant_mass.as_ref()),
            load_factor: rule.load_factor,
            safety_factor: rule.safety_factor,
            special_factor: rule.special_factor,
        }
    }

    fn article(&mut self, path: &Path, article: v1::Article) -> Article {
        Article {
            name: article.name,
            mass: self.quantity(path.field("mass"), &article.mass),
            centroid: self.each(&path.field("centroid"), &article.centroid),
            pitch: self.quantity(path.field("pitch"), &article.pitch),
            pivot: self.each(&path.field("pivot"), &article.pivot),
            outline: self.list(&path.field("outline"), article.outline, Self::line),
            keep_clear: self.list(&path.field("keep_clear"), article.keep_clear, Self::keep_clear),
            picture: article.picture.map(|picture| self.picture(&path.field("picture"), picture)),
            weighings: self.list(&path.field("weighings"), article.weighings, Self::weighing),
        }
    }

    fn picture(&mut self, path: &Path, picture: v1::Picture) -> Picture {
        Picture {
            at: self.each(&path.field("at"), &picture.at),
            width: self.quantity(path.field("width"), &picture.width),
            turn: self.quantity(path.field("turn"), &picture.turn),
            path: picture.path,
        }
    }

    fn weighing(&mut self, path: &Path, weighing: v1::Weighing) -> Weighing {
        Weighing {
            name: weighing.name,
            pitch: self.quantity(path.field("pitch"), &weighing.pitch),
            points: self.list(&path.field("points"), weighing.points, Self::weighing_point),
        }
    }

    fn weighing_point(&mut self, path: &Path, point: v1::WeighingPoint) -> WeighingPoint {
        WeighingPoint {
            name: point.name,
            at: self.each(&path.field("at"), &point.at),
            reading: self.quantity(path.field("reading"), &point.reading),
            tare: self.quantity(path.field("tare"), &point.tare),
            division: self.optional(path.field("division"), point.division.as_ref()),
        }
    }

    fn line(&mut self, path: &Path, line: v1::Line) -> Line {
        let points = self.list(&path.field("points"), line.points, |entry, path, point| entry.each(path, &point));
        Line { name: line.name, points }
    }

    fn keep_clear(&mut self, path: &Path, region: v1::KeepClear) -> KeepClear {
        KeepClear {
            name: region.name,
            side: self.list(&path.field("side"), region.side, |entry, path, corner| entry.each(path, &corner)),
            y: self.each(&path.field("y"), &region.y),
            clearance: self.quantity(path.field("clearance"), &region.clearance),
        }
    }

    fn fixture(&mut self, path: &Path, fixture: v1::Fixture) -> Fixture {
        Fixture {
            supports: self.list(&path.field("supports"), fixture.supports, Self::support),
            hold_downs: self.list(&path.field("hold_downs"), fixture.hold_downs, Self::hold_down),
            bindings: self.list(&path.field("bindings"), fixture.bindings, Self::binding),
            catch_blocks: self.list(&path.field("catch_blocks"), fixture.catch_blocks, Self::catch_block),
            floor_friction: fixture.floor_friction,
        }
    }

    fn support(&mut self, path: &Path, support: v1::Support) -> Support {
        Support {
            name: support.name,
            at: self.each(&path.field("at"), &support.at),
            capacity: self.optional(path.field("capacity"), support.capacity.as_ref()),
            scale: support.scale,
            stiffness: self.optional(path.field("stiffness"), support.stiffness.as_ref()),
            division: self.optional(path.field("division"), support.division.as_ref()),
        }
    }

    fn hold_down(&mut self, path: &Path, strap: v1::HoldDown) -> HoldDown {
        HoldDown {
            name: strap.name,
            on_article: self.each(&path.field("on_article"), &strap.on_article),
            on_floor: self.each(&path.field("on_floor"), &strap.on_floor),
            preload: self.quantity(path.field("preload"), &strap.preload),
            preload_set: strap.preload_set.or(PreloadSet::default()),
            working_load: self.quantity(path.field("working_load"), &strap.working_load),
            stiffness: self.quantity(path.field("stiffness"), &strap.stiffness),
        }
    }

    fn binding(&mut self, path: &Path, strap: v1::Binding) -> Binding {
        Binding {
            name: strap.name,
            anchors: strap.anchors.into(),
            at: self.each(&path.field("at"), &strap.at),
            pull: self.quantity(path.field("pull"), &strap.pull),
            width: self.spared(path.field("width"), &strap.width, Binding::WIDTH),
            after: strap.after,
        }
    }

    fn catch_block(&mut self, path: &Path, block: v1::CatchBlock) -> CatchBlock {
        CatchBlock {
            name: block.name,
            at: self.each(&path.field("at"), &block.at),
            gap: self.quantity(path.field("gap"), &block.gap),
        }
    }

    fn bed(&mut self, path: &Path, bed: v1::Bed) -> Bed {
        Bed {
            origin: self.each(&path.field("origin"), &bed.origin),
            slope: self.quantity(path.field("slope"), &bed.slope),
            friction: bed.friction,
            touch: self.quantity(path.field("touch"), &bed.touch),
            touch_hard: self.spared(path.field("touch_hard"), &bed.touch_hard, Bed::TOUCH_HARD),
            beside: self.quantity(path.field("beside"), &bed.beside),
            bearings: self.list(&path.field("bearings"), bed.bearings, Self::bearing),
        }
    }

    fn bearing(&mut self, path: &Path, bearing: v1::Bearing) -> Bearing {
        Bearing {
            name: bearing.name,
            x: self.each(&path.field("x"), &bearing.x),
            y: self.each(&path.field("y"), &bearing.y),
            top: self.quantity(path.field("top"), &bearing.top),
            allowable: self.optional(path.field("allowable"), bearing.allowable.as_ref()),
        }
    }

    fn lot(&mut self, path: &Path, lot: v1::Lot) -> Lot {
        let weighed = path.field("weighed");
        Lot {
            name: lot.name,
            form: lot.form.into(),
            size: self.each(&path.field("size"), &lot.size),
            mass: self.quantity(path.field("mass"), &lot.mass),
            mass_tolerance: self.quantity(path.field("mass_tolerance"), &lot.mass_tolerance),
            count: lot.count,
            friction: lot.friction,
            weighed: lot
                .weighed
                .0
                .iter()
                .map(|(item, mass)| (*item, self.quantity(weighed.key(*item), mass)))
                .collect(),
            grade: lot.grade,
            strength: lot.strength.map(|strength| self.strength(&path.field("strength"), &strength)),
            softness: lot.softness.map(|softness| self.softness(&path.field("softness"), softness)),
        }
    }

    fn softness(&mut self, path: &Path, softness: v1::Softness) -> Softness {
        let flat = path.field("flat");
        Softness {
            modulus: self.quantity(path.field("modulus"), &softness.modulus),
            rim: self.optional(path.field("rim"), softness.rim.as_ref()),
            shear_ratio: softness.shear_ratio.or(Softness::SHEAR_RATIO),
            creep_per_decade: softness.creep_per_decade.or(Softness::CREEP_PER_DECADE),
            from: softness.from.into(),
            readings: self.list(&path.field("readings"), softness.readings, Self::reading),
            flat: softness.flat.as_ref().map(|sides| self.each(&flat, sides)),
        }
    }

    fn reading(&mut self, path: &Path, reading: v1::Reading) -> Reading {
        Reading {
            added: self.quantity(path.field("added"), &reading.added),
            after: self.quantity(path.field("after"), &reading.after),
            sinks: self.quantity(path.field("sinks"), &reading.sinks),
        }
    }

    fn strength(&mut self, path: &Path, strength: &v1::Strength) -> Strength {
        Strength {
            bending: self.quantity(path.field("bending"), &strength.bending),
            shear: self.quantity(path.field("shear"), &strength.shear),
            modulus: self.quantity(path.field("modulus"), &strength.modulus),
        }
    }

    fn place(&mut self, path: &Path, place: v1::Place) -> Place {
        Place {
            lot: place.lot,
            item: place.item,
            at: self.each(&path.field("at"), &place.at),
            turn: place.turn.into(),
            locked: place.locked,
        }
    }

    fn gauge(&mut self, path: &Path, gauge: v1::Gauge) -> Gauge {
        Gauge {
            name: gauge.name,
            at: self.each(&path.field("at"), &gauge.at),
            allowed_set: self.quantity(path.field("allowed_set"), &gauge.allowed_set),
        }
    }

    fn hold(&mut self, path: &Path, hold: v1::Hold) -> Hold {
        let time = self.optional(path.field("time"), hold.time.as_ref());
        let tolerance = hold.tolerance.as_ref().map(|tolerance| self.each(&path.field("tolerance"), tolerance));
        Hold { name: hold.name, at: hold.at, unload: hold.unload, time, tolerance }
    }

    fn allow(&mut self, path: &Path, allow: v1::Allow) -> Allow {
        Allow {
            collapse: allow.collapse,
            fixture_push: allow.fixture_push,
            placement_scatter: self.quantity(path.field("placement_scatter"), &allow.placement_scatter),
            chance: allow.chance.or(Allow::CHANCE),
            critical: allow.critical.or(Allow::CRITICAL),
            lean: self.spared(path.field("lean"), &allow.lean, Allow::LEAN),
            handling: allow.handling.as_ref().map_or_else(Handling::default, |handling| self.handling(path, handling)),
        }
    }

    fn handling(&mut self, path: &Path, handling: &v1::Handling) -> Handling {
        let path = path.field("handling");
        Handling {
            reach: self.quantity(path.field("reach"), &handling.reach),
            pick_up: self.quantity(path.field("pick_up"), &handling.pick_up),
            twist: self.quantity(path.field("twist"), &handling.twist),
            lifts_per_minute: handling.lifts_per_minute,
            spell: handling.spell.into(),
            grip: handling.grip.into(),
            people: handling.people,
        }
    }
}

fn starting(values: &[v1::NotEntered]) -> StartingValues {
    StartingValues {
        occupant_mass: values.contains(&v1::NotEntered::OccupantMass),
        load_factor: values.contains(&v1::NotEntered::LoadFactor),
    }
}

/// The last field on the way, in words: `mass tolerance`.
fn field_words(path: &Path) -> String {
    let field = path.0.iter().rev().find_map(|way| match way {
        Way::Field(name) => Some(name.replace('_', " ")),
        Way::Index(_) | Way::Key(_) => None,
    });
    field.unwrap_or_default()
}
