//! European strength classes: characteristic value x k_mod / gamma_M, raised for small depth, and
//! divided by the partial factor of the load as well, so that the plain weight may be compared.
//!
//! f_d = k_mod k_h f_k / gamma_M against gamma_G times the stress under the plain weight (source
//! key `en-1995-1-1`; source key `en-1990`). The weight of a stack is known from scales, so it
//! counts as a permanent action by its size, and by `duration` for how long it stands.
//!
//! Across the grain no bending strength is published. The tension strength across the grain
//! stands in for it: that is on the safe side, since a bent face is stressed over less wood.

use crate::timber::allowables::{Allowables, Factor, On, System};
use crate::timber::lie::{Lie, NoAllowable};
use crate::timber::table::{Class, DepthFactor, Duration, European, lasting, table};

pub(super) fn european(class: &'static Class, lie: Lie, duration: Duration) -> Result<Allowables, NoAllowable> {
    let rules = &table().european;
    Ok(characteristic(class, rules)
        .with(Factor::of("k_mod", "duration of load, dry service", On::Strength, lasting(&rules.duration, duration)))
        .with(depth(&rules.depth, lie.depth_m))
        .with(Factor::of("k_cr", "cracks, in shear", On::Shear, &rules.cracks))
        .with(Factor::below("1/gamma_M", "partial factor of solid timber", &rules.material))
        .with(Factor::below("1/gamma_G", "partial factor of a weight", &rules.load)))
}

fn characteristic(class: &'static Class, rules: &'static European) -> Allowables {
    Allowables {
        grade: &class.name,
        system: System::European,
        bending_pa: class.bending.value.pa,
        shear_pa: class.shear.value.pa,
        modulus_pa: class.modulus.value.pa,
        across_bending_pa: Some(class.across.value.pa),
        across_modulus_pa: Some(class.modulus.value.pa * rules.modulus_across.value),
        factors: Vec::new(),
        references: [
            (&class.bending.source, class.bending.status),
            (&class.shear.source, class.shear.status),
            (&class.modulus.source, class.modulus.status),
        ],
    }
}

/// k_h for the depth in bending, which of a board that lies flat is its thickness.
fn depth(rule: &'static DepthFactor, depth_m: f64) -> Factor {
    let value = (1e-3 * rule.reference_mm / depth_m).powf(rule.exponent).clamp(1.0, rule.ceiling);
    Factor {
        symbol: "k_h",
        meaning: "small depth, in bending",
        value,
        on: On::Bending,
        source: &rule.source,
        status: rule.status,
    }
}
