//! The shape of the report: SI, stable keys, in the order in which they are written.

use serde::Serialize;

#[derive(Serialize)]
pub(super) struct Report<'a> {
    pub(super) format: u32,
    pub(super) plan: &'a str,
    pub(super) fingerprint: String,
    pub(super) in_order: bool,
    pub(super) load: Option<LoadPart>,
    pub(super) centroid: Option<[f64; 3]>,
    pub(super) offset: Option<OffsetPart>,
    pub(super) occupant: OccupantPart<'a>,
    pub(super) steps: Vec<StepPart<'a>>,
    pub(super) layers: Vec<LayerPart>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) boards: Option<Vec<BoardPart<'a>>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) bearings: Option<Vec<BearingPart<'a>>>,
    /// How each piece moved with all pieces placed, as the bags give.
    pub(super) softness: Vec<SoftnessPart<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) soft_pieces: Option<Vec<SoftPiecePart<'a>>>,
    /// Stacks drawn with masses and places within their tolerances.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) uncertainty: Option<UncertaintyPart>,
    pub(super) findings: Vec<FindingPart<'a>>,
}

#[derive(Serialize)]
pub(super) struct UncertaintyPart {
    pub(super) independent: OutcomePart,
    /// All pieces of a lot off by the same amount.
    pub(super) alike: OutcomePart,
}

#[derive(Serialize)]
pub(super) struct OutcomePart {
    pub(super) applied_kg: SpreadPart,
    pub(super) fore_aft_m: SpreadPart,
    pub(super) lateral_m: SpreadPart,
    pub(super) radial_p95_m: f64,
    /// Of the least tip margin, closed form; null where a piece hangs in the air.
    pub(super) tip: Option<SpreadPart>,
    pub(super) chance_load: f64,
    pub(super) chance_fore_aft: f64,
    pub(super) chance_lateral: f64,
    pub(super) chance_tip: Option<f64>,
    pub(super) chance_any: f64,
}

#[derive(Serialize)]
pub(super) struct SpreadPart {
    pub(super) mean: f64,
    pub(super) deviation: f64,
    pub(super) p5: f64,
    pub(super) p95: f64,
}

#[derive(Serialize)]
pub(super) struct LoadPart {
    pub(super) limit_kg: f64,
    pub(super) ultimate_kg: f64,
    pub(super) applied_kg: f64,
    pub(super) applied_spread_kg: f64,
    pub(super) fraction_of_ultimate: f64,
}

#[derive(Serialize)]
pub(super) struct OffsetPart {
    pub(super) fore_aft_m: f64,
    pub(super) lateral_m: f64,
}

/// Where the load must act, and where that comes from.
#[derive(Serialize)]
pub(super) struct OccupantPart<'a> {
    pub(super) in_article: [f64; 3],
    pub(super) in_floor: [f64; 3],
    /// How far off the line of action may be, fore-aft and lateral.
    pub(super) tolerance_m: [f64; 2],
    /// To what the point itself is known, fore-aft and lateral; null where nobody says.
    pub(super) known_within_m: Option<[f64; 2]>,
    pub(super) from: &'a str,
    pub(super) source: String,
}

#[derive(Serialize)]
pub(super) struct StepPart<'a> {
    pub(super) step: usize,
    pub(super) lot: &'a str,
    pub(super) item: u32,
    pub(super) layer: usize,
    pub(super) rests_on: Vec<String>,
    pub(super) applied_kg: f64,
    pub(super) centroid: [f64; 3],
    pub(super) offset: OffsetPart,
    /// Whether equilibrium exists under gravity; null where that was not decided.
    pub(super) stands: Option<bool>,
    /// The least collapse multiplier; null where there is none to tell.
    pub(super) collapse: Option<CollapsePart>,
    /// Upper bound of the collapse multiplier, closed form at the layers' undersides.
    pub(super) collapse_bound: Option<BoundPart>,
    pub(super) fixture: FixturePart,
    /// How the article moved on its supports since the bare tare; null where it does not stand.
    pub(super) article: Option<ArticlePart>,
    /// As the bags give; null where every piece is rigid.
    pub(super) soft: Option<SoftPart>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) supports: Option<Vec<SupportPart<'a>>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) straps: Option<Vec<StrapPart<'a>>>,
}

#[derive(Serialize)]
pub(super) struct ArticlePart {
    /// Of the occupant point, m.
    pub(super) sink_m: f64,
    pub(super) pitch_deg: f64,
    pub(super) roll_deg: f64,
}

#[derive(Serialize)]
pub(super) struct SoftPart {
    pub(super) modulus_from: &'static str,
    /// Null where that was not decided.
    pub(super) stands: Option<bool>,
    /// How many times its weight it would bear; null where nothing topples it or it does not stand.
    pub(super) critical: Option<f64>,
    pub(super) amplification: Option<f64>,
    /// Shift of the centroid, aft and right, floor frame.
    pub(super) shift_m: Option<[f64; 2]>,
    /// The greatest of all pieces.
    pub(super) settlement_m: Option<f64>,
    pub(super) tilt_rad: Option<f64>,
    /// Null at steps where it was not solved because other steps bear less.
    pub(super) push: Option<SoftPushPart>,
}

#[derive(Serialize)]
pub(super) struct SoftPushPart {
    pub(super) multiplier: f64,
    pub(super) direction_deg: f64,
}

/// How the bags of a lot that is placed give, and by what that is known.
#[derive(Serialize)]
pub(super) struct SoftnessPart<'a> {
    pub(super) lot: &'a str,
    pub(super) modulus_from: &'static str,
    /// Who gave a stated modulus.
    pub(super) source: Option<&'a str>,
    pub(super) modulus_pa: f64,
    pub(super) rim_m: f64,
}

/// How a piece moved with all pieces placed.
#[derive(Serialize)]
pub(super) struct SoftPiecePart<'a> {
    pub(super) lot: &'a str,
    pub(super) item: u32,
    pub(super) settlement_m: f64,
    pub(super) tilt_x_rad: f64,
    pub(super) tilt_y_rad: f64,
}

#[derive(Serialize)]
pub(super) struct CollapsePart {
    pub(super) multiplier: f64,
    pub(super) direction_deg: f64,
    /// Pieces that move, by their steps, and how: `tip` or `slide`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) mechanism: Option<MechanismPart>,
}

#[derive(Serialize)]
pub(super) struct MechanismPart {
    pub(super) steps: Vec<usize>,
    pub(super) layer: usize,
    pub(super) by: &'static str,
}

#[derive(Serialize)]
pub(super) struct SupportPart<'a> {
    pub(super) name: &'a str,
    pub(super) force_n: f64,
    /// Null where the support is no scale.
    pub(super) reading_kg: Option<f64>,
}

#[derive(Serialize)]
pub(super) struct StrapPart<'a> {
    pub(super) name: &'a str,
    pub(super) tension_n: f64,
}

#[derive(Serialize)]
pub(super) struct BoardPart<'a> {
    pub(super) lot: &'a str,
    pub(super) item: u32,
    pub(super) moment_nm: Option<f64>,
    pub(super) bending_pa: Option<f64>,
    pub(super) allowable_pa: Option<f64>,
    pub(super) shear_n: Option<f64>,
    pub(super) deflection_m: Option<f64>,
}

#[derive(Serialize)]
pub(super) struct BearingPart<'a> {
    pub(super) name: &'a str,
    pub(super) force_n: Option<f64>,
    pub(super) allowable_n: Option<f64>,
    /// What the seated occupant would put there at the same load.
    pub(super) occupant_n: Option<f64>,
}

#[derive(Serialize)]
pub(super) struct BoundPart {
    pub(super) multiplier: f64,
    pub(super) direction_deg: f64,
    pub(super) layer: usize,
}

#[derive(Serialize)]
pub(super) struct FixturePart {
    pub(super) edge_m: Option<f64>,
    /// Straps counted up to their working load; null where it was not decided or has no limit.
    pub(super) push_fraction: Option<f64>,
    pub(super) direction_deg: Option<f64>,
}

#[derive(Serialize)]
pub(super) struct LayerPart {
    pub(super) layer: usize,
    pub(super) mass_kg: f64,
    pub(super) centroid: [f64; 3],
    pub(super) edge_m: f64,
    pub(super) tip_deg: f64,
}

#[derive(Serialize)]
pub(super) struct FindingPart<'a> {
    pub(super) check: &'static str,
    pub(super) state: &'static str,
    pub(super) value: Option<f64>,
    pub(super) limit: Option<f64>,
    pub(super) unit: Option<&'static str>,
    #[serde(rename = "where")]
    pub(super) place: String,
    pub(super) text: String,
    pub(super) source: String,
    /// An edit that was tried and mends it, in words.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) remedy: Option<&'a str>,
}
