//! Everything stands still: why, what would explain it, and the way on.

use super::entry::field;
use super::hand::weigh;
use super::{BIG, Desk, big, button};
use crate::look::Look;
use crate::signs;
use drafting::figure::{Ink, Sign};
use eframe::egui::{self, Ui};
use quantity::{Grain, Mass, Quantity};
use testday::Entry;

pub(super) fn show(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    let Some(why) = desk.day().and_then(|day| day.stopped.clone()) else { return };
    ui.horizontal(|ui| {
        signs::sign(ui, look, Sign::Fails, Ink::Wanted);
        ui.label(signs::inked(look, "STOP. Stand clear.", Ink::Wanted).size(super::HUGE).strong());
    });
    big(ui, sentence(&why));
    ui.add_space(6.0);
    misfits(ui, desk);
    causes(ui, look, desk);
    ui.add_space(10.0);
    let found = field(ui, desk, "What was found", "", 420.0);
    ui.horizontal(|ui| {
        if button(ui, "Go on") {
            match found.trim().is_empty() {
                true => desk.misfit("Say first what was found: it goes into the record.".to_owned()),
                false => desk.enter(ui.ctx(), Entry::WentOn { why: found.trim().to_owned() }),
            }
        }
        if button(ui, "Give up, take everything off") {
            desk.enter(ui.ctx(), Entry::Aborted { why });
        }
    });
    ui.add_space(12.0);
    ui.separator();
    if desk.day().is_some_and(|day| day.run().stage == testday::Stage::Loading) {
        weigh(ui, desk, false);
    }
}

fn sentence(why: &str) -> String {
    let mut letters = why.chars();
    let first = letters.next().map(|letter| letter.to_uppercase().collect::<String>()).unwrap_or_default();
    format!("{first}{}.", letters.as_str().trim_end_matches('.'))
}

/// What was read where what was due.
fn misfits(ui: &mut Ui, desk: &Desk) {
    let (Some(judged), Some(account)) = (desk.judged_now(), desk.account()) else { return };
    let Some(course) = account.courses.last() else { return };
    let mass = |kg: f64| Mass::kg(kg).shown(account.day.plan.units, Grain::Coarse);
    for support in judged.misfits() {
        if let (Some(name), Some(range), Some(read)) =
            (course.scale(support), judged.ranges[support], judged.read_kg[support])
        {
            let off = mass((read - range.reading_kg).abs());
            let way = if read > range.reading_kg { "too much" } else { "too little" };
            big(
                ui,
                format!(
                    "{name} shows {}, due {} ± {}: {off} {way}.",
                    mass(read),
                    mass(range.reading_kg),
                    mass(range.stop_kg)
                ),
            );
        }
    }
}

fn causes(ui: &mut Ui, look: &Look, desk: &Desk) {
    let (Some(account), causes) = (desk.account(), desk.causes()) else { return };
    let Some(course) = account.courses.last() else { return };
    if desk.judged_now().is_none_or(|judged| judged.fits()) {
        return;
    }
    ui.add_space(8.0);
    ui.label(crate::look::bold("Likely causes, the likeliest first", BIG));
    if causes.is_empty() {
        big(ui, "None of the known causes fits. Look for what the numbers do not know.");
    }
    let mass = |kg: f64| Mass::kg(kg).shown(account.day.plan.units, Grain::Coarse);
    for (number, cause) in causes.iter().enumerate() {
        let would = cause.would_read_kg.iter().enumerate();
        let would = would.filter_map(|(support, kg)| Some(format!("{} {}", course.scale(support)?, mass((*kg)?))));
        let fits = if cause.miss <= 1.0 { "fits" } else { "does not fit well" };
        let text = format!("{}. {}", number + 1, cause.sentence);
        ui.add(egui::Label::new(egui::RichText::new(text).size(BIG)).wrap());
        let detail = format!(
            "It would give {}: {fits} ({:.1} of the band off).",
            would.collect::<Vec<_>>().join(", "),
            cause.miss
        );
        ui.add(egui::Label::new(crate::look::caption(look, detail)).wrap());
    }
}
