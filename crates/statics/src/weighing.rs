//! Mass and centroid of an article from scales under it, in one or more attitudes.
//!
//! A weighing tells where the centroid's plumb line passes in the frame of the article: level, that
//! is its station; pitched, a slanting line. Two lines that cross tell station and waterline.

/// A place at which a scale carries the article.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeighingPoint {
    /// Where it carries (station, buttock line, waterline), article frame, m: turns with the article.
    pub at_m: [f64; 3],
    /// What the scale shows less tare, kg.
    pub net_kg: f64,
    /// How far that may be off, either way, kg; none where it is not known.
    pub within_kg: Option<f64>,
}

/// One weighing.
#[derive(Debug, Clone, PartialEq)]
pub struct Attitude {
    /// Nose-up turn against the floor, rad.
    pub pitch_rad: f64,
    /// What the scales show.
    pub points: Vec<WeighingPoint>,
}

/// What weighings tell of the article.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weighed {
    /// Mass, kg: the mean of the weighings.
    pub mass_kg: f64,
    /// How far the totals of the weighings lie apart, kg.
    pub apart_kg: f64,
    /// Centroid (station, buttock line, waterline), article frame, m.
    pub centroid_m: [f64; 3],
    /// Whether the attitudes differ enough to tell the waterline; else it is the one given.
    pub tells_waterline: bool,
    /// To what mass (kg) and centroid (m) are known from the scales alone; none where a scale's
    /// error is not known. The waterline has none where the weighings do not tell it.
    pub within: Option<Within>,
}

/// To what mass and centroid are known: roots of the sums of squares of what each scale may be off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Within {
    /// Mass, kg.
    pub mass_kg: f64,
    /// Station, buttock line, m.
    pub level_m: [f64; 2],
    /// Waterline, m.
    pub waterline_m: Option<f64>,
}

/// Why weighings tell nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Untold {
    /// There is none.
    NoWeighing,
    /// One has less on a scale than its tare; which, from 0.
    LessThanTare(usize),
    /// One has no mass on its scales; which, from 0.
    NoMass(usize),
}

/// Attitudes that differ by less than this tell no waterline: a pitch is hardly measured better than
/// to a tenth of it. `common practice, no source`.
const LEAST_TURN_RAD: f64 = 1.0 / 180.0 * std::f64::consts::PI;

/// What one weighing tells: total, lateral place, and the level distance of the plumb line from the
/// article's origin.
struct Line {
    pitch_rad: f64,
    mass_kg: f64,
    right_m: f64,
    level_m: f64,
    /// Squares of what mass, lateral place and level distance may be off.
    variances: Option<[f64; 3]>,
}

/// Mass and centroid from weighings; `waterline_m` stands in where they do not tell it.
///
/// In an attitude of pitch a, a point lies level at h = x cos a + z sin a
/// (`quantity::frame::nose_up_about`). Moments about the origin: h = sum n_i h_i / sum n_i with n the
/// net readings, tare taken off at each point; level this is the handbook's sum of moments over sum of
/// weights (Source: `faa-balance-handbook`, chapter on weighing, `from memory`; tare at each weighing
/// point, Source: `ac-43-13-1b`, paragraph 10-2r). The waterline from a second attitude is
/// `own derivation`: x cos a + z sin a = h for each, solved by least squares weighed by what the scales
/// may be off. A reading that is off by e moves h by (h_i - h) e / sum n.
///
/// Limits: the points turn with the article and the scales push straight up; what the pitch and the
/// places are off is not in the answer.
///
/// # Errors
/// Why nothing is told.
pub fn weighed(attitudes: &[Attitude], waterline_m: f64) -> Result<Weighed, Untold> {
    if attitudes.is_empty() {
        return Err(Untold::NoWeighing);
    }
    let lines = attitudes.iter().enumerate().map(line).collect::<Result<Vec<_>, _>>()?;
    let count = lines.iter().map(|_| 1.0).sum::<f64>();
    let masses = || lines.iter().map(|l| l.mass_kg);
    let (most, least) = (masses().fold(f64::NEG_INFINITY, f64::max), masses().fold(f64::INFINITY, f64::min));
    let cross = crossing(&lines, waterline_m);
    let right_m = lines.iter().map(|l| l.right_m).sum::<f64>() / count;
    let spread = |which: usize| {
        let squares: Option<f64> = lines.iter().map(|l| l.variances.map(|v| v[which])).sum();
        squares.map(|s| s.sqrt() / count)
    };
    let within = spread(0).zip(spread(1)).zip(cross.within_m).map(|((mass_kg, right_m), [x, z])| Within {
        mass_kg,
        level_m: [x, right_m],
        waterline_m: cross.told.then_some(z),
    });
    let mass_kg = masses().sum::<f64>() / count;
    let centroid_m = [cross.at_m[0], right_m, cross.at_m[1]];
    Ok(Weighed { mass_kg, apart_kg: most - least, centroid_m, tells_waterline: cross.told, within })
}

fn line((index, attitude): (usize, &Attitude)) -> Result<Line, Untold> {
    let points = &attitude.points;
    if points.iter().any(|p| p.net_kg < 0.0) {
        return Err(Untold::LessThanTare(index));
    }
    let mass_kg: f64 = points.iter().map(|p| p.net_kg).sum();
    if mass_kg <= 0.0 {
        return Err(Untold::NoMass(index));
    }
    let (sin, cos) = attitude.pitch_rad.sin_cos();
    let level = |p: &WeighingPoint| p.at_m[0] * cos + p.at_m[2] * sin;
    let mean = |of: &dyn Fn(&WeighingPoint) -> f64| points.iter().map(|p| p.net_kg * of(p)).sum::<f64>() / mass_kg;
    let (level_m, right_m) = (mean(&level), mean(&|p| p.at_m[1]));
    let squares = |arm: &dyn Fn(&WeighingPoint) -> f64| {
        points.iter().map(|p| p.within_kg.map(|e| (arm(p) * e).powi(2))).sum::<Option<f64>>()
    };
    let of_mass = squares(&|_| 1.0);
    let of_right = squares(&|p| (p.at_m[1] - right_m) / mass_kg);
    let of_level = squares(&|p| (level(p) - level_m) / mass_kg);
    let variances = of_mass.zip(of_right).zip(of_level).map(|((mass, right), level)| [mass, right, level]);
    Ok(Line { pitch_rad: attitude.pitch_rad, mass_kg, right_m, level_m, variances })
}

/// Where the plumb lines of the weighings cross.
struct Crossing {
    /// Station and waterline, m.
    at_m: [f64; 2],
    /// Whether the lines are slanted enough against each other to tell the waterline.
    told: bool,
    within_m: Option<[f64; 2]>,
}

fn crossing(lines: &[Line], waterline_m: f64) -> Crossing {
    let pitches = || lines.iter().map(|l| l.pitch_rad);
    let turn = pitches().fold(f64::NEG_INFINITY, f64::max) - pitches().fold(f64::INFINITY, f64::min);
    let told = turn >= LEAST_TURN_RAD;
    // Lines that are known exactly would weigh infinitely; alike ones all weigh one.
    let known = lines.iter().map(|l| l.variances.map(|v| v[2]).filter(|v| *v > 0.0)).collect::<Option<Vec<_>>>();
    let weight = |i: usize| known.as_ref().map_or(1.0, |v| 1.0 / v[i]);
    let (mut a, mut b, mut c) = (0.0, 0.0, 0.0);
    for (i, line) in lines.iter().enumerate() {
        let (sin, cos) = line.pitch_rad.sin_cos();
        (a, b, c) = (a + weight(i) * cos * cos, b + weight(i) * cos * sin, c + weight(i) * sin * sin);
    }
    let determinant = a * c - b * b;
    // Station and waterline are sums of the level distances, each with its share.
    let shares = |i: usize, line: &Line| {
        let (sin, cos) = line.pitch_rad.sin_cos();
        let w = weight(i);
        if told {
            [w * (c * cos - b * sin) / determinant, w * (a * sin - b * cos) / determinant]
        } else {
            [w * cos / a, 0.0]
        }
    };
    let mut at_m = if told { [0.0, 0.0] } else { [-waterline_m * b / a, waterline_m] };
    let mut squares = Some([0.0, 0.0]);
    for (i, line) in lines.iter().enumerate() {
        let [x, z] = shares(i, line);
        at_m = [at_m[0] + x * line.level_m, at_m[1] + z * line.level_m];
        squares = squares.zip(line.variances).map(|([sx, sz], v)| [sx + x * x * v[2], sz + z * z * v[2]]);
    }
    Crossing { at_m, told, within_m: squares.map(|s| s.map(f64::sqrt)) }
}
