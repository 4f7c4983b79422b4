//! Where the load must act: the one way from a plan to its occupant point.

use crate::source::{Derivation, Field, Source};
use nalgebra::Point3;
use plan::{Plan, Posture, Target, Weighed, point};
use quantity::{Angle, Grain, Length, Mass, Quantity, Units};
use statics::occupant::{Build, Figure, KNOWN_WITHIN_M, Person, Scale, Sex, Table, seated, weighed};

/// The occupant point with where it comes from.
#[derive(Clone, Debug, PartialEq)]
pub struct OccupantPoint {
    /// The point (station, buttock line, waterline), article frame, m.
    pub in_article: Point3<f64>,
    /// To what it is known, fore-aft and lateral, m; none where nobody says.
    pub within_m: Option<[f64; 2]>,
    /// Where it comes from, in words.
    pub from: String,
    /// What it rests on.
    pub sources: &'static [Source],
    /// The occupant as he sits, where the point comes from a posture.
    pub seated: Option<Seated>,
}

/// The occupant as he sits in the article.
#[derive(Clone, Debug, PartialEq)]
pub struct Seated {
    /// The jointed figure, seat's frame.
    pub figure: Figure,
    /// Links and shares of the body.
    pub build: Build,
    /// The posture's angles and what lies between body and seat.
    pub posture: statics::occupant::Posture,
    /// The seat reference point, article frame, m.
    pub seat_reference: Point3<f64>,
}

impl Seated {
    /// The load case's occupant in a posture. Source: `occupant-model`.
    ///
    /// # Panics
    /// Never on a plan without faults: a load case is in hand.
    pub fn of(plan: &Plan, posture: &Posture) -> Self {
        let build = person(plan, posture).build();
        let angles = angles(posture);
        let seat_reference = point(posture.seat_reference);
        Self { figure: seated(&build, &angles), build, posture: angles, seat_reference }
    }

    /// A point of the seat's frame (ahead, up, m) in the article frame, m: ahead is against the
    /// station.
    pub fn in_article(&self, [ahead, up]: [f64; 2]) -> Point3<f64> {
        let at = self.seat_reference;
        Point3::new(at.x - ahead, at.y, at.z + up)
    }

    /// A point of the article frame in the seat's frame, m.
    pub fn in_seat(&self, in_article: Point3<f64>) -> [f64; 2] {
        [self.seat_reference.x - in_article.x, in_article.z - self.seat_reference.z]
    }

    /// The share of the occupant that shanks and feet are, and what their being carried by floor and
    /// pedals moves the point by: aft and up, m.
    pub fn lower_legs(&self) -> (f64, [f64; 2]) {
        let (share, [ahead, up]) = self.figure.without_lower_legs();
        let whole = self.figure.cg_m();
        (1.0 - share, [whole[0] - ahead, up - whole[1]])
    }

    /// What five degrees more of recline move the point by: aft and up, m.
    pub fn five_degrees_more_recline(&self) -> [f64; 2] {
        let mut leant = self.posture;
        leant.recline_rad += 5_f64.to_radians();
        let (before, after) = (self.figure.cg_m(), seated(&self.build, &leant).cg_m());
        [before[0] - after[0], after[1] - before[1]]
    }
}

/// The occupant point of a plan.
pub fn occupant_point(plan: &Plan) -> OccupantPoint {
    point_of(plan, &plan.target)
}

/// The occupant point that a target gives: the one in force, or another kept beside it.
///
/// # Panics
/// Never on a plan without faults: a load case is in hand, and a weighing finds somebody.
pub fn point_of(plan: &Plan, target: &Target) -> OccupantPoint {
    let stated = |at: [Length; 3], from: String, sources| OccupantPoint {
        in_article: point(at),
        within_m: None,
        from,
        sources,
        seated: None,
    };
    match target {
        Target::Point { at, .. } => stated(*at, "a typed point".to_owned(), &[Source::Builder(Field::OccupantPoint)]),
        Target::LoadPoint(given) => {
            stated(given.at, format!("load point of {}", given.document), &[Source::Builder(Field::Document)])
        }
        Target::Posture(posture) => of_posture(plan, posture),
        Target::Weighed(weighed) => of_weighing(plan, weighed),
    }
}

/// The occupant point of a plan, floor frame, m.
///
/// # Panics
/// Never on a plan without faults, as for [`point_of`].
pub fn target_in_floor(plan: &Plan) -> Point3<f64> {
    plan.floor_from_article() * occupant_point(plan).in_article
}

fn of_posture(plan: &Plan, posture: &Posture) -> OccupantPoint {
    let seated = Seated::of(plan, posture);
    let cg_m = match posture.lower_legs {
        plan::LowerLegs::OnSeat => seated.figure.cg_m(),
        plan::LowerLegs::OnFloor => seated.figure.without_lower_legs().1,
    };
    OccupantPoint {
        in_article: seated.in_article(cg_m),
        within_m: Some([KNOWN_WITHIN_M, LATERAL_M]),
        from: posture_words(plan, posture),
        sources: segments(posture),
        seated: Some(seated),
    }
}

/// Lateral, a person who sits square is alike on both sides: `common practice, no source`.
const LATERAL_M: f64 = 0.010;

fn person(plan: &Plan, posture: &Posture) -> Person {
    Person {
        mass_kg: occupant_mass(plan).si(),
        stature_m: posture.stature.si(),
        sex: match posture.sex {
            plan::Sex::Female => Sex::Female,
            plan::Sex::Male => Sex::Male,
        },
        table: table(posture),
        slump_m: posture.slump.si(),
    }
}

fn occupant_mass(plan: &Plan) -> Mass {
    plan.case_in_hand().expect("a plan without faults has a load case in hand").occupant_mass
}

fn table(posture: &Posture) -> Table {
    match posture.table {
        plan::SegmentTable::DeLeva => Table::DeLeva,
        plan::SegmentTable::Winter => Table::Winter,
        plan::SegmentTable::Dumas => Table::Dumas,
    }
}

fn segments(posture: &Posture) -> &'static [Source] {
    match table(posture) {
        Table::DeLeva => &[Source::Segments(Table::DeLeva)],
        Table::Winter => &[Source::Segments(Table::Winter)],
        Table::Dumas => &[Source::Segments(Table::Dumas)],
    }
}

fn angles(posture: &Posture) -> statics::occupant::Posture {
    statics::occupant::Posture {
        recline_rad: posture.recline.si(),
        pan_rad: posture.pan.si(),
        thigh_rad: posture.thigh.map(Quantity::si),
        knee_rad: posture.knee.si(),
        arm_rad: posture.arm.si(),
        elbow_rad: posture.elbow.si(),
        head_rad: posture.head.map(Quantity::si),
        under_m: posture.pan_cushion.si(),
        behind_m: (posture.back_cushion + posture.back_pack).si(),
    }
}

/// The posture with a figure's angles, for what was dragged.
pub fn with_angles(posture: &Posture, angles: &statics::occupant::Posture) -> Posture {
    Posture {
        recline: Angle::rad(angles.recline_rad),
        pan: Angle::rad(angles.pan_rad),
        thigh: angles.thigh_rad.map(Angle::rad),
        knee: Angle::rad(angles.knee_rad),
        arm: Angle::rad(angles.arm_rad),
        elbow: Angle::rad(angles.elbow_rad),
        head: angles.head_rad.map(Angle::rad),
        ..posture.clone()
    }
}

fn posture_words(plan: &Plan, posture: &Posture) -> String {
    let units: Units = plan.units;
    let mass = occupant_mass(plan).shown(units, Grain::Coarse);
    let stature = posture.stature.shown(units, Grain::Coarse);
    let [recline, pan, knee] = [posture.recline, posture.pan, posture.knee].map(|a| a.shown(units, Grain::Coarse));
    let sex = match posture.sex {
        plan::Sex::Female => "woman",
        plan::Sex::Male => "man",
    };
    let legs = match posture.lower_legs {
        plan::LowerLegs::OnSeat => "",
        plan::LowerLegs::OnFloor => ", lower legs and feet on the floor",
    };
    let table = table(posture).name();
    format!("posture of a {sex} of {mass} and {stature}, back {recline}, pan {pan}, knee {knee}{legs}; {table}")
}

fn of_weighing(plan: &Plan, weighing: &Weighed) -> OccupantPoint {
    let scales: Vec<_> = weighing.scales.iter().map(scale).collect();
    let found = weighed(&scales, weighing.reading_within.si());
    let found = found.expect("a plan without faults has weighed somebody");
    let mass = Mass::kg(found.mass_kg).shown(plan.units, Grain::Coarse);
    OccupantPoint {
        in_article: Point3::new(found.at_m[0], found.at_m[1], weighing.waterline.si()),
        within_m: Some(found.within_m),
        from: format!("weighing with and without an occupant of {mass} on {} scales", scales.len()),
        sources: &[Source::Own(Derivation::Moments)],
        seated: None,
    }
}

fn scale(scale: &plan::WeighingScale) -> Scale {
    Scale { at_m: scale.at.map(Quantity::si), without_kg: scale.without.si(), with_kg: scale.with.si() }
}
