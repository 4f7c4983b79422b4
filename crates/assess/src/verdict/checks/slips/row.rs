//! One line of the table of usual figures: a field of the plan, its range, and what hangs on it.

use crate::{Source, Where};
use plan::{
    Allow, Article, Bearing, Bed, Binding, CatchBlock, Fixture, Gauge, Hold, HoldDown, Instrument, KeepClear, Line,
    LoadCase, Lot, Mark, Picture, Place, Plan, Support, Target, WeighingPoint,
};
use quantity::{Angle, Force, Grain, Length, Mass, Pressure, Quantity, Stiffness, Time, Units};

/// A field of the plan with the range in which it is meant.
pub(super) struct Row {
    /// Its name for people.
    pub(super) called: &'static str,
    /// In what it is shown.
    pub(super) unit: Shown,
    /// From here to there, SI.
    pub(super) fits: [f64; 2],
    /// Whether a figure beyond it can make a stack pass that does not hold, or a reading fit that does not:
    /// then it fails, else it is a caution.
    pub(super) decides: bool,
    /// What hangs on it and what helps.
    pub(super) reason: &'static str,
    /// On what the range rests.
    pub(super) sources: &'static [Source],
    /// Where it stands in the plan.
    pub(super) of: Of,
}

/// In what unit a figure is shown; small distances in the unit of small distances.
#[derive(Clone, Copy)]
pub(super) enum Shown {
    Place,
    Small,
    Mass,
    Force,
    Stiffness,
    Pressure,
    Angle,
    Time,
    Factor,
}

impl Shown {
    pub(super) fn words(self, si: f64, units: Units) -> String {
        match self {
            Shown::Place => Length::m(si).in_field(units, Grain::Coarse),
            Shown::Small => Length::m(si).in_field(units, Grain::Fine),
            Shown::Mass => Mass::kg(si).in_field(units, Grain::Coarse),
            Shown::Force => Force::n(si).in_field(units, Grain::Coarse),
            Shown::Stiffness => Stiffness::n_per_m(si).in_field(units, Grain::Coarse),
            Shown::Pressure => Pressure::pa(si).in_field(units, Grain::Coarse),
            Shown::Angle => Angle::rad(si).in_field(units, Grain::Coarse),
            Shown::Time => Time::s(si).in_field(units, Grain::Coarse),
            Shown::Factor => quantity::number_in_field(si),
        }
    }
}

/// The figures of a field in one thing, SI; none where it is left out.
type Figures<T> = fn(&T) -> Vec<f64>;

/// The things of a plan that have the field.
pub(super) enum Of {
    Case(Figures<LoadCase>),
    Article(Figures<Article>),
    Line(Figures<Line>),
    KeepClear(Figures<KeepClear>),
    Picture(Figures<Picture>),
    WeighingPoint(Figures<WeighingPoint>),
    Target(Figures<Target>),
    Fixture(Figures<Fixture>),
    Support(Figures<Support>),
    HoldDown(Figures<HoldDown>),
    Binding(Figures<Binding>),
    CatchBlock(Figures<CatchBlock>),
    Bed(Figures<Bed>),
    Bearing(Figures<Bearing>),
    Mark(Figures<Mark>),
    Lot(Figures<Lot>),
    Place(Figures<Place>),
    Gauge(Figures<Gauge>),
    Hold(Figures<Hold>),
    Instrument(Figures<Instrument>),
    Allow(Figures<Allow>),
}

/// Every figure with the number of its thing.
fn listed<T>(things: &[T], figures: Figures<T>) -> Vec<(usize, f64)> {
    things.iter().enumerate().flat_map(|(index, thing)| figures(thing).into_iter().map(move |si| (index, si))).collect()
}

fn single<T>(thing: &T, figures: Figures<T>) -> Vec<(usize, f64)> {
    listed(std::slice::from_ref(thing), figures)
}

fn points(plan: &Plan) -> impl Iterator<Item = &WeighingPoint> {
    plan.article.weighings.iter().flat_map(|weighing| &weighing.points)
}

impl Of {
    /// Every figure of the field, with the number of the thing that has it.
    pub(super) fn figures(&self, plan: &Plan) -> Vec<(usize, f64)> {
        let (article, fixture) = (&plan.article, &plan.fixture);
        match self {
            Of::Case(of) => listed(&plan.load_cases, *of),
            Of::Article(of) => single(article, *of),
            Of::Line(of) => listed(&article.outline, *of),
            Of::KeepClear(of) => listed(&article.keep_clear, *of),
            Of::Picture(of) => article.picture.as_ref().map_or_else(Vec::new, |picture| single(picture, *of)),
            Of::WeighingPoint(of) => {
                points(plan).enumerate().flat_map(|(i, point)| of(point).into_iter().map(move |si| (i, si))).collect()
            }
            Of::Target(of) => single(&plan.target, *of),
            Of::Fixture(of) => single(fixture, *of),
            Of::Support(of) => listed(&fixture.supports, *of),
            Of::HoldDown(of) => listed(&fixture.hold_downs, *of),
            Of::Binding(of) => listed(&fixture.bindings, *of),
            Of::CatchBlock(of) => listed(&fixture.catch_blocks, *of),
            Of::Bed(of) => single(&plan.bed, *of),
            Of::Bearing(of) => listed(&plan.bed.bearings, *of),
            Of::Mark(of) => listed(&plan.bed.marks, *of),
            Of::Lot(of) => listed(&plan.ballast, *of),
            Of::Place(of) => listed(&plan.stack, *of),
            Of::Gauge(of) => listed(&plan.gauges, *of),
            Of::Hold(of) => listed(&plan.holds, *of),
            Of::Instrument(of) => listed(&plan.instruments, *of),
            Of::Allow(of) => single(&plan.allow, *of),
        }
    }

    /// The thing of this number, as it follows the name of the field: ` of the bed`; nothing for what is asked
    /// of the whole plan.
    pub(super) fn whose(&self, plan: &Plan, index: usize) -> String {
        let (article, fixture) = (&plan.article, &plan.fixture);
        let of = |kind: &str, name: Option<&str>| format!(" of {kind} “{}”", name.unwrap_or_default());
        match self {
            Of::Case(_) => of("load case", plan.load_cases.get(index).map(|case| case.name.as_str())),
            Of::Article(_) => " of the article".to_owned(),
            Of::Line(_) => of("line", article.outline.get(index).map(|line| line.name.as_str())),
            Of::KeepClear(_) => of("keep-clear region", article.keep_clear.get(index).map(|r| r.name.as_str())),
            Of::Picture(_) => " of the picture".to_owned(),
            Of::WeighingPoint(_) => of("weighing point", points(plan).nth(index).map(|p| p.name.as_str())),
            Of::Target(_) => " of the occupant point".to_owned(),
            Of::Fixture(_) => " of the floor".to_owned(),
            Of::Support(_) => of("support", fixture.supports.get(index).map(|s| s.name.as_str())),
            Of::HoldDown(_) => of("hold-down strap", fixture.hold_downs.get(index).map(|s| s.name.as_str())),
            Of::Binding(_) => of("binding strap", fixture.bindings.get(index).map(|s| s.name.as_str())),
            Of::CatchBlock(_) => of("catch block", fixture.catch_blocks.get(index).map(|b| b.name.as_str())),
            Of::Bed(_) => " of the bed".to_owned(),
            Of::Mark(_) => of("mark", plan.bed.marks.get(index).map(|mark| mark.name.as_str())),
            Of::Bearing(_) => of("bearing", plan.bed.bearings.get(index).map(|b| b.name.as_str())),
            Of::Lot(_) => of("lot", plan.ballast.get(index).map(|lot| lot.name.as_str())),
            Of::Place(_) => format!(" of step {}", index + 1),
            Of::Gauge(_) => of("gauge", plan.gauges.get(index).map(|gauge| gauge.name.as_str())),
            Of::Hold(_) => of("hold", plan.holds.get(index).map(|hold| hold.name.as_str())),
            Of::Instrument(_) => of("instrument", plan.instruments.get(index).map(|i| i.name.as_str())),
            Of::Allow(_) => String::new(),
        }
    }

    /// Where a finding of it points.
    pub(super) fn place(&self, index: usize) -> Where {
        match self {
            Of::Case(_) => Where::LoadCase,
            Of::Place(_) => Where::Pieces(vec![index]),
            Of::Article(_)
            | Of::Line(_)
            | Of::KeepClear(_)
            | Of::Picture(_)
            | Of::WeighingPoint(_)
            | Of::Fixture(_)
            | Of::Support(_)
            | Of::HoldDown(_)
            | Of::CatchBlock(_)
            | Of::Mark(_) => Where::Fixture,
            _ => Where::Stack,
        }
    }
}
