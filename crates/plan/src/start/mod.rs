//! Four shapes of seat and fixture from which a plan begins: five sizes each give outline, supports, bearings, bed,
//! mark A and string. Nothing else is made up: masses, the load case and where the load acts stay as an empty plan has
//! them, and are asked. Timber and sheet that no size names are drawn only.

mod cut;
mod shapes;

use crate::{Fault, Mark, Path, Plan, StringLine};
use quantity::{Grain, Length, Quantity, Units};

/// A shape of seat and fixture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// A seat that bears on two spars, each on two scales.
    Spars,
    /// A bucket in a timber frame on three load cells.
    Bucket,
    /// A pan on two cradle boards, each on two scales.
    Cradle,
    /// A piece of cabin floor on two trestles, each on two scales.
    Trestles,
}

/// A size that a shape asks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Size {
    /// What is measured.
    pub called: &'static str,
    /// What the picture is drawn with until it is entered; never taken as entered.
    pub drawn: Length,
}

/// So many sizes are asked.
pub const SIZES: usize = 5;

const fn size(called: &'static str, drawn_m: f64) -> Size {
    Size { called, drawn: Length::m(drawn_m) }
}

/// Larger is no seat: `common practice, no source`.
const LARGEST: Length = Length::m(5.0);
/// How far beside and beyond the bed mark and string stand, m: `common practice, no source`.
const OFF_M: f64 = 0.10;

impl Shape {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Self; 4] = [Self::Spars, Self::Bucket, Self::Cradle, Self::Trestles];

    /// What it is.
    pub fn name(self) -> &'static str {
        match self {
            Self::Spars => "Seat on two spars",
            Self::Bucket => "Bucket in a frame",
            Self::Cradle => "Pan in a cradle",
            Self::Trestles => "Cabin floor on trestles",
        }
    }

    /// What it stands on.
    pub fn stands_on(self) -> &'static str {
        match self {
            Self::Spars => "running across, four scales",
            Self::Bucket => "three load cells",
            Self::Cradle | Self::Trestles => "four scales",
        }
    }

    /// The sizes that it asks, heights from the tops of scales or cells.
    pub fn sizes(self) -> [Size; SIZES] {
        match self {
            Self::Spars => [
                size("spar distance fore and aft, front to front", 0.42),
                size("spar cap width", 0.06),
                size("bearing breadth", 0.40),
                size("scale distance across", 0.90),
                size("spar top above the scales", 0.40),
            ],
            Self::Bucket => [
                size("cell distance fore and aft", 0.90),
                size("cell distance across", 0.60),
                size("bucket floor above the cells", 0.35),
                size("bucket floor length", 0.45),
                size("bucket floor breadth", 0.38),
            ],
            Self::Cradle => [
                size("cradle board distance", 0.36),
                size("scale distance across", 0.50),
                size("pan length", 0.50),
                size("front edge above the scales", 0.40),
                size("rear edge above the scales", 0.34),
            ],
            Self::Trestles => [
                size("trestle distance", 0.90),
                size("scale distance across", 0.80),
                size("floor length", 1.30),
                size("floor breadth", 1.10),
                size("floor top above the scales", 0.50),
            ],
        }
    }

    /// The plan that begins with it.
    ///
    /// # Errors
    /// A size that does not fit, with a sentence that says what would.
    pub fn plan(self, units: Units, sizes: [Length; SIZES]) -> Result<Plan, Fault> {
        for (asked, size) in self.sizes().iter().zip(sizes) {
            // A hair of room, so that the largest itself fits whatever its unit.
            if !(size.si() > 0.0 && size.si() <= LARGEST.si() * (1.0 + 1e-9)) {
                let [told, most] = [size, LARGEST].map(|size| size.shown(units, Grain::Coarse));
                return Err(unfit(format!("{} is {told}: more than 0 and at most {most} would fit", asked.called)));
            }
        }
        if let Some((part, within)) = self.too_far_apart(sizes.map(Quantity::si)) {
            let [called, bound] = [part, within].map(|i| self.sizes()[i].called);
            let [told, most] = [part, within].map(|i| sizes[i].shown(units, Grain::Coarse));
            return Err(unfit(format!("{called} is {told}: less than the {bound}, {most}, would fit")));
        }
        let mut plan = Plan::blank(units);
        (plan.title, plan.article.name) = (self.name().to_owned(), self.name().to_lowercase());
        let sizes = sizes.map(Quantity::si);
        match self {
            Self::Spars => shapes::spars(&mut plan, sizes),
            Self::Bucket => shapes::bucket(&mut plan, sizes),
            Self::Cradle => shapes::cradle(&mut plan, sizes).map_err(|what| unfit(what.to_owned()))?,
            Self::Trestles => shapes::trestles(&mut plan, sizes),
        }
        datums(&mut plan);
        match crate::faults(&plan).into_iter().next() {
            Some(fault) => Err(fault),
            None => Ok(plan),
        }
    }

    /// The size that must be less than another and is not: caps would lie over one another, or what carries the seat
    /// would stand beyond its ends.
    fn too_far_apart(self, sizes_m: [f64; SIZES]) -> Option<(usize, usize)> {
        let (part, within) = match self {
            Self::Spars => (1, 0),
            Self::Cradle | Self::Trestles => (0, 2),
            // Its floor may reach beyond its cells, or they beyond it.
            Self::Bucket => return None,
        };
        (sizes_m[part] >= sizes_m[within]).then_some((part, within))
    }

    /// From where to where each size is measured, article frame, for the picture; sizes that are not entered as they
    /// are drawn.
    pub fn spans(self, sizes: [Option<Length>; SIZES]) -> [[[Length; 3]; 2]; SIZES] {
        let asked = self.sizes();
        let sizes = std::array::from_fn(|i| sizes[i].unwrap_or(asked[i].drawn).si());
        let spans = match self {
            Self::Spars => shapes::spans_of_spars(sizes),
            Self::Bucket => shapes::spans_of_bucket(sizes),
            Self::Cradle => shapes::spans_of_cradle(sizes),
            Self::Trestles => shapes::spans_of_trestles(sizes),
        };
        spans.map(|span| span.map(|end| end.map(Length::m)))
    }

    /// The same with the sizes that are not entered yet as they are drawn.
    ///
    /// # Errors
    /// As [`Shape::plan`].
    pub fn picture(self, units: Units, sizes: [Option<Length>; SIZES]) -> Result<Plan, Fault> {
        let asked = self.sizes();
        self.plan(units, std::array::from_fn(|i| sizes[i].unwrap_or(asked[i].drawn)))
    }
}

fn unfit(sentence: String) -> Fault {
    Fault { path: Path::of("article"), sentence }
}

/// Mark A beside the bed's front edge on the left, and a string over its axis that reaches beyond it fore and aft.
fn datums(plan: &mut Plan) {
    let bearings = &plan.bed.bearings;
    let ends = |of: fn(&crate::Bearing) -> [Length; 2]| {
        let all = bearings.iter().flat_map(of).map(Quantity::si);
        all.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], at| [low.min(at), high.max(at)])
    };
    let ([front, rear], [left, _]) = (ends(|bearing| bearing.x), ends(|bearing| bearing.y));
    let at = [front, left - OFF_M, 0.0].map(Length::m);
    plan.bed.marks = vec![Mark { name: "A".to_owned(), at }];
    plan.bed.string = Some(StringLine { x: [front - OFF_M, rear + OFF_M].map(Length::m), y: Length::m(0.0) });
}
