//! Random plans without faults, drawn from random numbers.

mod target;

use plan::{Allow, Anchors, Article, Bearing, Bed, Binding, Fixture, Form, Gauge, Hold, HoldDown, KeepClear, Line};
use plan::{
    CatchBlock, FromRule, Instrument, Mark, PreloadSet, Reading, Softness, SoftnessFrom, StartingValues, StringLine,
    Stuff,
};
use plan::{Grip, Handling, Picture, Spell, Strength, Weighing, WeighingPoint};
use plan::{LoadCase, Lot, Place, Plan, Support, Turn};
use proptest::prelude::*;
use quantity::{Angle, Grain, Length, Quantity, Units};

/// Plans in either unit system. `typed`: every value is a short decimal of its unit, as a person
/// types it; else an arbitrary number.
pub(crate) fn plans(typed: bool) -> impl Strategy<Value = Plan> {
    let numbers = prop::collection::vec(any::<u32>(), 1..400);
    let names = prop::collection::vec(any::<String>(), 1..12);
    (numbers, names, any::<bool>()).prop_map(move |(numbers, names, metric)| {
        let units = if metric { Units::Metric } else { Units::InchPound };
        Draw { numbers, names, used: 0, named: 0, units, typed }.plan()
    })
}

struct Draw {
    numbers: Vec<u32>,
    names: Vec<String>,
    used: usize,
    named: usize,
    units: Units,
    typed: bool,
}

impl Draw {
    fn below(&mut self, bound: u32) -> u32 {
        self.used += 1;
        // The count makes even a single repeated number yield many.
        let number = self.numbers[self.used % self.numbers.len()].wrapping_add(u32::try_from(self.used).unwrap_or(0));
        number % bound
    }

    fn flip(&mut self) -> bool {
        self.below(2) == 0
    }

    /// Differs from all others by its number.
    fn name(&mut self) -> String {
        self.named += 1;
        format!("{} {}", self.names[self.named % self.names.len()], self.named)
    }

    fn list<T>(&mut self, at_least: u32, mut one: impl FnMut(&mut Self) -> T) -> Vec<T> {
        let count = at_least + self.below(3);
        (0..count).map(|_| one(self)).collect()
    }

    /// So many thousandths of the plan's unit, or of something crooked near it.
    fn steps<Q: Quantity>(&self, thousandths: i64, grain: Grain) -> Q {
        #[expect(clippy::cast_precision_loss, reason = "some millions")]
        let number = thousandths as f64;
        let unit = self.units.unit(Q::KIND, grain);
        if self.typed {
            Q::parse(&format!("{} {}", number / 1000.0, unit.symbol)).expect("a typed quantity")
        } else {
            Q::from_si(number * 0.001_234_567_890_123 * unit.si)
        }
    }

    fn at_least<Q: Quantity>(&mut self, thousandths: i64, grain: Grain) -> Q {
        let more = i64::from(self.below(40_000));
        self.steps(thousandths + more, grain)
    }

    fn above_zero<Q: Quantity>(&mut self) -> Q {
        self.at_least(1, Grain::Coarse)
    }

    fn fine(&mut self) -> Length {
        self.at_least(1, Grain::Fine)
    }

    fn signed<Q: Quantity>(&mut self) -> Q {
        let thousandths = i64::from(self.below(80_000)) - 40_000;
        self.steps(thousandths, Grain::Coarse)
    }

    fn point<const N: usize>(&mut self) -> [Length; N] {
        std::array::from_fn(|_| self.signed())
    }

    fn tilt(&mut self) -> Angle {
        let thousandths = i64::from(self.below(90_000)) - 45_000;
        self.steps(thousandths, Grain::Coarse)
    }

    fn low_and_high(&mut self) -> [Length; 2] {
        let low = i64::from(self.below(4000)) - 2000;
        let high = low + 1 + i64::from(self.below(2000));
        [self.steps(low, Grain::Coarse), self.steps(high, Grain::Coarse)]
    }

    fn line(&mut self) -> Line {
        let mut line = Line::new(self.name(), self.list(2, Self::point));
        line.half_breadth = self.optional(Self::above_zero);
        line.width = line.half_breadth.filter(|_| self.flip());
        line.stuff = if self.flip() { Stuff::Metal } else { Stuff::Timber };
        line
    }

    fn factor(&mut self) -> f64 {
        let number = f64::from(1 + self.below(9000)) / 1000.0;
        if self.typed { number } else { number.sqrt() }
    }

    fn optional<T>(&mut self, one: impl FnOnce(&mut Self) -> T) -> Option<T> {
        self.flip().then(|| one(self))
    }

    fn plan(&mut self) -> Plan {
        let load_cases = self.list(1, Self::load_case);
        let ballast = self.list(0, Self::lot);
        Plan {
            title: self.name(),
            units: self.units,
            case: load_cases[0].name.clone(),
            load_cases,
            article: self.article(),
            target: self.target(),
            other_targets: self.list(0, Self::target),
            fixture: self.fixture(),
            bed: self.bed(),
            stack: self.stack(&ballast),
            ballast,
            gauges: self.list(0, Self::gauge),
            holds: self.holds(),
            instruments: self.list(0, Self::instrument),
            allow: self.allow(),
        }
    }

    fn gauge(&mut self) -> Gauge {
        let plain = Gauge::at(&self.name(), self.point(), self.fine());
        let [expected_at_limit, expected_at_ultimate, expected_within] = [(); 3].map(|()| self.optional(Self::fine));
        Gauge { expected_at_limit, expected_at_ultimate, expected_within, ..plain }
    }

    fn allow(&mut self) -> Allow {
        Allow {
            collapse: self.factor(),
            fixture_push: self.factor(),
            placement_scatter: self.fine(),
            chance: if self.flip() { Allow::CHANCE } else { f64::from(self.below(1001)) / 1000.0 },
            critical: if self.flip() { Allow::CRITICAL } else { self.factor() },
            lean: if self.flip() { Allow::LEAN } else { self.fine() },
            handling: if self.flip() { Handling::default() } else { self.handling() },
        }
    }

    fn handling(&mut self) -> Handling {
        Handling {
            reach: self.above_zero(),
            pick_up: self.above_zero(),
            twist: Angle::rad(self.tilt().si().abs()),
            lifts_per_minute: self.factor(),
            spell: [Spell::OneHour, Spell::TwoHours, Spell::EightHours][self.below(3) as usize],
            grip: [Grip::Good, Grip::Fair, Grip::Poor][self.below(3) as usize],
            people: 1 + self.below(2),
            two_people_from_layer: self.optional(|d| 1 + d.below(9)),
        }
    }

    fn instrument(&mut self) -> Instrument {
        Instrument {
            name: self.name(),
            number: if self.flip() { String::new() } else { self.name() },
            range: if self.flip() { String::new() } else { self.name() },
            calibrated_until: self.optional(|d| {
                let [year, month, day] = [2020 + d.below(40), 1 + d.below(12), 1 + d.below(28)];
                format!("{year}-{month:02}-{day:02}").parse().expect("a day of the calendar")
            }),
            check_mass: self.optional(Self::above_zero),
        }
    }

    /// Rising throughout, so that they rise within every run.
    fn holds(&mut self) -> Vec<Hold> {
        let mut holds = self.list(0, |d| Hold {
            name: d.name(),
            at: f64::from(1 + d.below(1000)) / 1000.0,
            unload: d.flip(),
            tolerance: d.optional(|d| [d.fine(), d.fine()]),
            time: d.optional(Self::above_zero),
        });
        holds.sort_by(|one, other| one.at.total_cmp(&other.at));
        holds
    }

    fn load_case(&mut self) -> LoadCase {
        LoadCase {
            name: self.name(),
            basis: self.name(),
            occupant_mass: self.above_zero(),
            load_factor: self.factor(),
            direction: self.tilt(),
            safety_factor: self.factor(),
            special_factor: self.factor(),
            from_rule: self.optional(|d| FromRule {
                rule: d.name(),
                occupant_mass: d.optional(Self::above_zero),
                load_factor: d.factor(),
                safety_factor: d.factor(),
                special_factor: d.factor(),
            }),
            starting: StartingValues { occupant_mass: self.flip(), load_factor: self.flip() },
        }
    }

    fn article(&mut self) -> Article {
        Article {
            name: self.name(),
            mass: self.above_zero(),
            centroid: self.point(),
            pitch: self.tilt(),
            pivot: self.point(),
            outline: self.list(0, Self::line),
            keep_clear: self.list(0, Self::keep_clear),
            picture: self.optional(|d| Picture {
                path: d.name(),
                at: d.point(),
                width: d.above_zero(),
                turn: d.tilt(),
            }),
            weighings: self.list(0, |d| Weighing {
                name: d.name(),
                pitch: d.tilt(),
                points: d.list(0, Self::weighing_point),
            }),
        }
    }

    fn weighing_point(&mut self) -> WeighingPoint {
        WeighingPoint {
            name: self.name(),
            at: self.point(),
            reading: self.above_zero(),
            tare: self.above_zero(),
            division: self.optional(Self::above_zero),
        }
    }

    fn keep_clear(&mut self) -> KeepClear {
        KeepClear {
            name: self.name(),
            side: self.list(3, Self::point),
            y: self.low_and_high(),
            y_known: [self.flip(), self.flip()],
            clearance: self.fine(),
        }
    }

    fn fixture(&mut self) -> Fixture {
        Fixture {
            supports: self.list(0, Self::support),
            hold_downs: self.list(0, Self::hold_down),
            bindings: self.list(0, Self::binding),
            catch_blocks: self.list(0, |d| CatchBlock { name: d.name(), at: d.point(), gap: d.fine() }),
            floor_friction: self.factor(),
            floor: self.optional(Self::signed),
        }
    }

    fn support(&mut self) -> Support {
        Support {
            name: self.name(),
            at: self.point(),
            capacity: self.optional(Self::above_zero),
            scale: self.flip(),
            stiffness: self.optional(Self::above_zero),
            division: self.optional(Self::above_zero),
        }
    }

    fn hold_down(&mut self) -> HoldDown {
        HoldDown {
            name: self.name(),
            on_article: self.point(),
            on_floor: self.point(),
            preload: self.above_zero(),
            preload_set: if self.flip() { PreloadSet::Before } else { PreloadSet::After },
            working_load: self.above_zero(),
            stiffness: self.above_zero(),
        }
    }

    fn binding(&mut self) -> Binding {
        let anchors = if self.flip() { Anchors::Article } else { Anchors::Floor };
        let width = if self.flip() { Binding::WIDTH } else { self.fine() };
        Binding { name: self.name(), anchors, at: self.point(), pull: self.above_zero(), width, after: self.below(90) }
    }

    fn bed(&mut self) -> Bed {
        Bed {
            origin: self.point(),
            slope: self.tilt(),
            friction: self.factor(),
            touch: self.fine(),
            touch_hard: if self.flip() { Bed::TOUCH_HARD } else { self.fine() },
            beside: self.fine(),
            bearings: self.list(0, Self::bearing),
            marks: self.list(0, |d| Mark { name: d.name(), at: d.point() }),
            string: self.optional(|d| StringLine { x: d.low_and_high(), y: d.signed() }),
        }
    }

    fn bearing(&mut self) -> Bearing {
        Bearing {
            name: self.name(),
            x: self.low_and_high(),
            y: self.low_and_high(),
            top: self.signed(),
            allowable: self.optional(Self::above_zero),
        }
    }

    fn lot(&mut self) -> Lot {
        let form = [Form::Bag, Form::Board, Form::Solid][self.below(3) as usize];
        Lot {
            name: self.name(),
            form,
            size: std::array::from_fn(|_| self.above_zero()),
            mass: self.above_zero(),
            mass_tolerance: self.above_zero(),
            count: 3 + self.below(30),
            friction: self.factor(),
            weighed: (1..=self.below(4)).map(|item| (item, self.above_zero())).collect(),
            grade: self.optional(Self::name),
            strength: self.optional(|draw| Strength {
                bending: draw.above_zero(),
                shear: draw.above_zero(),
                modulus: draw.above_zero(),
            }),
            softness: if form == Form::Bag { self.optional(Self::softness) } else { None },
        }
    }

    /// Without a rim of its own, which must fit the bag's size.
    fn softness(&mut self) -> Softness {
        Softness {
            modulus: self.above_zero(),
            rim: self.optional(|_| Length::m(0.0)),
            shear_ratio: if self.flip() { Softness::SHEAR_RATIO } else { self.factor() },
            creep_per_decade: if self.flip() { Softness::CREEP_PER_DECADE } else { self.factor() },
            from: if self.flip() { SoftnessFrom::Measured } else { SoftnessFrom::Stated },
            source: if self.flip() { String::new() } else { self.name() },
            readings: self.list(0, |d| Reading { added: d.above_zero(), after: d.above_zero(), sinks: d.fine() }),
            flat: self.optional(|d| [d.above_zero(), d.above_zero()]),
        }
    }

    fn stack(&mut self, lots: &[Lot]) -> Vec<Place> {
        let pieces = lots.iter().flat_map(|lot| (1..=3).map(|item| (lot.name.clone(), item)));
        pieces.map(|(lot, item)| self.place(lot, item)).collect()
    }

    fn place(&mut self, lot: String, item: u32) -> Place {
        let turn = if self.flip() { Turn::Lengthwise } else { Turn::Crosswise };
        Place { lot, item, at: self.point(), turn, locked: self.flip() }
    }
}
