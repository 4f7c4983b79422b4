//! A binding strap that goes on over the stack, and is released before pieces come off.

use super::desk::Desk;
use super::entry::{Row, read};
use super::large::{Act, big, huge, primary, quiet};
use crate::look::Look;
use drafting::sheet::binding_words;
use eframe::egui::Ui;
use plan::Binding;
use quantity::{Force, Grain, Kind, Quantity, Units};
use testday::Entry;

const LEFT: &str = "Pull, left leg";
const RIGHT: &str = "Pull, right leg";
/// How far the pull of a leg may be from the plan's, part of it: a strap is tightened until it fits. As much as it may
/// lose by creeping (`common practice, no source`).
const WITHIN: f64 = 0.1;

fn strap(desk: &Desk, binding: usize) -> Option<Binding> {
    desk.day()?.plan.fixture.bindings.get(binding).cloned()
}

/// It goes on before the scales are read.
pub(super) fn put_on(ui: &mut Ui, look: &Look, desk: &mut Desk, binding: usize) {
    let Some((strap, day)) = strap(desk, binding).zip(desk.day().cloned()) else { return };
    let units = day.plan.units;
    huge(ui, format!("Put on the binding strap “{}”", strap.name));
    big(ui, binding_words(day.run().as_done(), &strap));
    big(
        ui,
        "Its ends lead out of the fall zone: tighten it from there, slowly, by turns on either side. Where they do not, STOP. Nobody stands in its line, and nobody reaches under the load.",
    );
    ui.add_space(6.0);
    let unit = units.unit(Kind::Force, Grain::Coarse).symbol;
    let mut row = Row::default();
    let texts = [LEFT, RIGHT].map(|name| row.optional(ui, desk, [name, unit], 110.0));
    let [from, to] = fits_n(&strap).map(|n| Force::n(n).shown(units, Grain::Coarse));
    quiet(
        ui,
        look,
        format!("{from} to {to} fits. Without a gauge leave both empty: the record says that the pull was not read."),
    );
    let entered = row.entered(ui, desk);
    if primary(ui, look, "The strap is on", (row.act(ui), desk.heard.free, false)) || entered {
        match pulls(units, &strap, [&texts[0], &texts[1]]) {
            Ok(pulls_n) => desk.enter(ui.ctx(), Entry::StrapOn { binding: strap.name, pulls_n }),
            Err(sentence) => desk.misfit(sentence),
        }
    }
}

/// It comes off before anything that it lies on.
pub(super) fn release(ui: &mut Ui, look: &Look, desk: &mut Desk, binding: usize) {
    let Some(strap) = strap(desk, binding) else { return };
    huge(ui, format!("Release the binding strap “{}”", strap.name));
    big(
        ui,
        "Slacken it slowly from outside the fall zone, by turns on either side. It is under tension: nobody stands in its line.",
    );
    big(ui, "Nobody reaches under the load.");
    ui.add_space(8.0);
    if primary(ui, look, "Released", (Act::Protected, desk.heard.free, false)) {
        desk.enter(ui.ctx(), Entry::StrapOff { binding: strap.name });
    }
}

fn fits_n(strap: &Binding) -> [f64; 2] {
    [1.0 - WITHIN, 1.0 + WITHIN].map(|part| part * strap.pull.si())
}

/// The pulls of both legs, or none where neither was read.
fn pulls(units: Units, strap: &Binding, texts: [&str; 2]) -> Result<Option<[f64; 2]>, String> {
    if texts.iter().all(|text| text.trim().is_empty()) {
        return Ok(None);
    }
    let [from_n, to_n] = fits_n(strap);
    let one = |(name, text): (&str, &str)| {
        if text.trim().is_empty() {
            return Err(format!("{name}: type what its gauge shows, or leave both empty."));
        }
        let pull_n = read::<Force>(text, units, Grain::Coarse).map_err(|why| format!("{name}: {why}"))?.si();
        let [is, from, to] = [pull_n, from_n, to_n].map(|n| Force::n(n).shown(units, Grain::Coarse));
        match (from_n..=to_n).contains(&pull_n) {
            true => Ok(pull_n),
            false => Err(format!(
                "{name}: {is} does not fit; {from} to {to} does. Tighten or slacken it from outside the fall zone and read it again; where that cannot be done, STOP."
            )),
        }
    };
    Ok(Some([one((LEFT, texts[0]))?, one((RIGHT, texts[1]))?]))
}
