//! The day is stopped: why, the likely causes, and the ways on. A remark alone is none of them while a
//! reading does not fit: a cause that was found and put right, a reading that fits again, or a signature. Past
//! a limit that nobody can sign away only keeping it leads on.

use super::desk::Desk;
use super::entry::{Row, field};
use super::large::{BIG, HUGE, big, button};
use super::{lean, outlook, spare, weigh};
use crate::look::{self, Look};
use crate::signs;
use drafting::figure::{Ink, Sign};
use eframe::egui::{self, CollapsingHeader, Ui};
use quantity::{Grain, Mass, Quantity};
use testday::{Account, Day, Deviation, Entry, Fault, Ground, Judged, Limit, Stage, StopGround, limits_kept};

const DONE: &str = "What was done";
const FOUND: &str = "What was found";

pub(super) fn show(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    let Some(day) = desk.day().cloned() else { return };
    let Some(stop) = &day.stopped else { return };
    let why = &stop.why;
    ui.horizontal(|ui| {
        signs::sign(ui, look, Sign::Fails, Ink::Wanted);
        ui.label(signs::inked(look, "STOP. Stand clear.", Ink::Wanted).size(HUGE).strong());
    });
    // A fixture that was read again may fit by now; what stopped the day is told as it was then.
    let misfits = desk.judged_now().is_some_and(|judged| !judged.fits());
    let by_lean = stop.ground.as_ref().is_some_and(StopGround::is_by_lean);
    let leans = by_lean && desk.account().and_then(Account::lean_now).is_none_or(|judged| !judged.fits());
    let by_reading =
        matches!(stop.ground, Some(StopGround::Reading { .. } | StopGround::Lean | StopGround::BeyondLimit { .. }));
    let forbidden = matches!(stop.ground, Some(StopGround::MustNotLoad { .. })) && desk.is_forbidden();
    let beyond = is_beyond(&day, stop.ground.as_ref());
    match (misfits, by_reading) {
        _ if beyond => {
            big(ui, sentence(why));
            beyond_limit(ui, desk, &day);
        }
        (true, _) => {
            big(ui, sentence(why));
            ui.add_space(6.0);
            told(ui, desk);
            causes(ui, look, desk);
            mended(ui, desk);
        }
        (false, true) if leans => {
            big(ui, sentence(why));
            big(ui, "Look from a distance for what moved. A lean that was read wrong is read again below.");
        }
        (false, true) => {
            big(ui, format!("Stopped because {why}."));
            let now = if by_lean { "The lean fits now." } else { "Every scale fits now." };
            ui.label(signs::inked(look, now, Ink::Is).size(BIG));
            found(ui, desk, Ground::Fits);
        }
        (false, false) if forbidden => {
            big(ui, sentence(why));
            outlook::forbidden(ui, desk, why);
        }
        (false, false) => {
            big(ui, sentence(why));
            found(ui, desk, Ground::Found);
        }
    }
    if day.run().stage == Stage::Loading && (leans || (beyond && by_lean)) {
        ui.add_space(8.0);
        ui.separator();
        lean::fields(ui, look, desk);
    }
    let of_scales = misfits || !by_reading || (beyond && is_of_scales(stop.ground.as_ref()));
    if day.run().stage == Stage::Loading && !forbidden && of_scales {
        ui.add_space(8.0);
        ui.separator();
        weigh::scales(ui, desk, false);
    }
    if (misfits || leans) && !stop.ground.as_ref().is_some_and(StopGround::is_final) {
        ui.add_space(8.0);
        CollapsingHeader::new("Continue against the stop").show(ui, |ui| against(ui, look, desk, UNCERTAIN));
    }
}

/// Whether what was read last still passes a limit that nobody can sign away.
fn is_beyond(day: &Day, ground: Option<&StopGround>) -> bool {
    let Some(StopGround::BeyondLimit { limits }) = ground else { return false };
    !limits_kept(&day.plan, day.run(), limits)
}

/// Whether a scale or a strap passed such a limit.
fn is_of_scales(ground: Option<&StopGround>) -> bool {
    let Some(StopGround::BeyondLimit { limits }) = ground else { return false };
    limits.iter().any(|limit| *limit != Limit::LeansTooFar)
}

/// The ways on from such a limit: take the last piece off, or everything.
fn beyond_limit(ui: &mut Ui, desk: &mut Desk, day: &Day) {
    big(
        ui,
        "Put nothing on. No name and no reason leads on from here: take the last piece off, read again, or give up \
         the test and take everything off. A reading that was typed wrong is read again below.",
    );
    let run = day.run();
    let Some(last) = run.placed().checked_sub(1) else { return };
    if button(ui, &format!("{} is off again: leave it out", run.as_done().piece_name(last))) {
        let deviation = Deviation::LeftOut { step: run.step_of(last) + 1 };
        let why = day.stopped.as_ref().map(|stop| stop.why.clone()).unwrap_or_default();
        desk.enter(ui.ctx(), Entry::Deviation { deviation, why });
    }
}

/// What was found, where nothing that is read gainsays it.
fn found(ui: &mut Ui, desk: &mut Desk, ground: Ground) {
    ui.add_space(6.0);
    let mut row = Row::default();
    let found = row.field(ui, desk, [FOUND, ""], 420.0);
    let entered = row.entered(ui, desk);
    if button(ui, "Continue") || entered {
        go_on(ui, desk, &found, ground);
    }
}

/// A told cause was chosen, and something was done about it.
fn mended(ui: &mut Ui, desk: &mut Desk) {
    ui.add_space(6.0);
    let done = field(ui, desk, DONE, "", 420.0);
    if button(ui, "Fixed: read the scales again") {
        let cause = desk.chosen.and_then(|chosen| desk.causes().get(chosen)).map(|cause| cause.sentence.clone());
        match cause {
            Some(cause) => go_on(ui, desk, &done, Ground::Cause { cause }),
            None => desk.misfit(
                "Choose the cause that was found. If it is none of them, read the scales again below: only a reading that \
                 fits, or a signature, leads on."
                    .to_owned(),
            ),
        }
    }
}

/// A cause as it stands: what is there now is what counts from here on.
fn stays(ui: &mut Ui, desk: &mut Desk, number: usize) {
    let cause = desk.causes().get(number).cloned();
    let (Some(cause), Some(run)) = (cause, desk.day().map(|day| day.run().clone())) else { return };
    let (word, deviation) = match cause.fault {
        Fault::LeftOut { index } => {
            ("Leave it out: count without it", Some(Deviation::LeftOut { step: run.step_of(index) + 1 }))
        }
        Fault::Twice { index } => {
            ("Leave it in place: count it as an extra piece", spare::like(&run, index).map(Deviation::Added))
        }
        _ => return,
    };
    let Some(deviation) = deviation.filter(|_| ui.button(word).clicked()) else { return };
    let done = desk.typed.get(DONE).map_or("", |done| done.trim()).to_owned();
    let why = if done.is_empty() { format!("found: {}", cause.sentence) } else { done };
    desk.enter(ui.ctx(), Entry::Deviation { deviation, why: why.clone() });
    desk.typed.insert(FOUND.to_owned(), why);
}

/// What going on against a reading means.
const UNCERTAIN: &str = "The reading does not fit, and what is on the seat is not certain: a hold there is not shown. \
                         Whoever continues signs for it by name, and both go onto page 1 of the record.";

fn against(ui: &mut Ui, look: &Look, desk: &mut Desk, warning: &str) {
    ui.add(egui::Label::new(signs::inked(look, warning, Ink::Wanted)).wrap());
    let name = field(ui, desk, "Name", "", 260.0);
    let why = field(ui, desk, "Reason", "", 420.0);
    if button(ui, "Continue, signed") {
        go_on(ui, desk, &why, Ground::Against { name: name.trim().to_owned() });
    }
}

fn go_on(ui: &Ui, desk: &mut Desk, why: &str, ground: Ground) {
    let named = !matches!(&ground, Ground::Against { name } if name.is_empty());
    match (named, why.trim()) {
        (false, _) => desk.misfit("Name: who continues against the stop signs for it by name.".to_owned()),
        (_, "") => desk.misfit("Say what was found or done: it goes into the record.".to_owned()),
        (_, why) => desk.enter(ui.ctx(), Entry::WentOn { why: why.to_owned(), ground: Some(ground) }),
    }
}

fn sentence(why: &str) -> String {
    let mut letters = why.chars();
    let first = letters.next().map(|letter| letter.to_uppercase().collect::<String>()).unwrap_or_default();
    format!("{first}{}.", letters.as_str().trim_end_matches('.'))
}

/// What was read where what was due.
fn told(ui: &mut Ui, desk: &Desk) {
    if let Some(judged) = desk.judged_now() {
        misfits(ui, desk, &judged);
    }
}

/// Every scale that does not fit, and by how much.
pub(super) fn misfits(ui: &mut Ui, desk: &Desk, judged: &Judged) {
    let Some(account) = desk.account() else { return };
    let Some(course) = account.courses.last() else { return };
    let mass = |kg: f64| Mass::kg(kg).shown(account.day.plan.units, Grain::Coarse);
    for support in judged.misfits() {
        if let (Some(name), Some(range), Some(read)) =
            (course.scale(support), judged.ranges[support], judged.read_kg[support])
        {
            let off = mass((read - range.reading_kg).abs());
            let way = if read > range.reading_kg { "too much" } else { "too little" };
            let due = format!("{} ± {}", mass(range.reading_kg), mass(range.stop_kg));
            big(ui, format!("{name} shows {}, due {due}: {off} {way}.", mass(read)));
        }
    }
}

/// The likely causes; the one that was found is chosen.
fn causes(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    ui.add_space(8.0);
    ui.label(look::bold(
        "Likely causes, the likeliest first: choose the one that was found, without going to the load",
        BIG,
    ));
    if desk.causes().is_empty() {
        big(ui, "None of the known causes fits. Look from a distance for what the numbers do not know.");
    }
    let lines: Vec<_> = (0..desk.causes().len()).filter_map(|number| lines(desk, number)).collect();
    for (number, [sentence, detail]) in lines.into_iter().enumerate() {
        let text = egui::RichText::new(format!("{}. {sentence}", number + 1)).size(BIG);
        if ui.radio(desk.chosen == Some(number), text).clicked() {
            desk.chosen = Some(number);
        }
        ui.add(egui::Label::new(look::caption(look, detail)).wrap());
        stays(ui, desk, number);
    }
}

/// A cause, and what it would give.
fn lines(desk: &Desk, number: usize) -> Option<[String; 2]> {
    let (account, cause) = (desk.account()?, desk.causes().get(number)?);
    let course = account.courses.last()?;
    let mass = |kg: f64| Mass::kg(kg).shown(account.day.plan.units, Grain::Coarse);
    let would = cause.would_read_kg.iter().enumerate();
    let would = would.filter_map(|(support, kg)| Some(format!("{} {}", course.scale(support)?, mass((*kg)?))));
    let fits = if cause.miss <= 1.0 { "fits" } else { "does not fit well" };
    let would = would.collect::<Vec<_>>().join(", ");
    Some([cause.sentence.clone(), format!("It would give {would}: {fits} ({:.1} of the band off).", cause.miss)])
}
