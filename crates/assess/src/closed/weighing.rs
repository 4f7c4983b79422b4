//! The article's mass and centroid from the plan's weighings.

use plan::{Plan, WeighingPoint};
use quantity::{Grain, Length, Mass, Quantity};
use statics::fixture::scale_tolerance_kg;
use statics::weighing::{self, Attitude, Untold, Weighed};

/// What the plan's weighings tell, and what a pitch that is not quite as noted would change.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ArticleWeighed {
    /// Mass, to be taken as the article's.
    pub mass: Mass,
    /// Centroid (station, buttock line, waterline), to be taken as the article's; article frame.
    pub centroid: [Length; 3],
    /// The same with what it is known to.
    pub found: Weighed,
    /// What a tenth of a degree more pitch in the last weighing moves the waterline by, m; none where
    /// the weighings do not tell it.
    pub per_tenth_degree_m: Option<f64>,
}

/// Mass and centroid from the plan's weighings: tare off at each point, what each scale may be off from
/// its division (Source: `nist-hb44`, class III in service). The waterline stays the article's where no
/// second attitude tells it.
///
/// # Errors
/// A sentence that says what is missing.
pub fn article_weighed(plan: &Plan) -> Result<ArticleWeighed, String> {
    let waterline_m = plan.article.centroid[2].si();
    let mut attitudes: Vec<_> = plan.article.weighings.iter().map(attitude).collect();
    let found = weighing::weighed(&attitudes, waterline_m).map_err(|why| sentence(plan, why))?;
    if let Some(last) = attitudes.last_mut() {
        last.pitch_rad += 0.1_f64.to_radians();
    }
    let leant = weighing::weighed(&attitudes, waterline_m).map_err(|why| sentence(plan, why))?;
    let moved_m = (leant.centroid_m[2] - found.centroid_m[2]).abs();
    Ok(ArticleWeighed {
        mass: Mass::kg(found.mass_kg),
        centroid: found.centroid_m.map(Length::m),
        found,
        per_tenth_degree_m: found.tells_waterline.then_some(moved_m),
    })
}

fn attitude(weighing: &plan::Weighing) -> Attitude {
    Attitude { pitch_rad: weighing.pitch.si(), points: weighing.points.iter().map(point).collect() }
}

fn point(point: &WeighingPoint) -> weighing::WeighingPoint {
    weighing::WeighingPoint {
        at_m: point.at.map(Quantity::si),
        net_kg: (point.reading - point.tare).si(),
        within_kg: point.division.and_then(|division| scale_tolerance_kg(division.si(), point.reading.si())),
    }
}

fn sentence(plan: &Plan, why: Untold) -> String {
    let named = |index: usize| plan.article.weighings.get(index).map_or("", |w| w.name.as_str());
    match why {
        Untold::NoWeighing => {
            "No weighing yet: add one with the article level, and one pitched to find the waterline".to_owned()
        }
        Untold::LessThanTare(index) => {
            let zero = Mass::kg(0.0).shown(plan.units, Grain::Coarse);
            format!("Weighing “{}”: a scale shows less than its tare, which leaves below {zero}", named(index))
        }
        Untold::NoMass(index) => {
            format!("Weighing “{}”: the scales show no mass yet; type their readings", named(index))
        }
    }
}
