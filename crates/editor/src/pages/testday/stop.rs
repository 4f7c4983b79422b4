//! The day is stopped: why, the likely causes, and the ways on. A remark alone is none of them while a
//! reading does not fit: a cause that was found and put right, a reading that fits again, or a signature. Past
//! a limit that nobody can sign away only keeping it leads on.

use super::desk::Desk;
use super::entry::{Row, field};
use super::large::{big, big_inked, big_size, button, primary};
use super::last_read::{self, Of};
use super::{card, lean, outlook, spare, weigh};
use crate::look::{self, Look};
use drafting::figure::Ink;
use eframe::egui::{self, CollapsingHeader, Color32, Frame, Margin, Sense, Stroke, Ui};
use plan::Plan;
use quantity::{Grain, Mass, Quantity};
use testday::{
    Account, Day, Deviation, Entry, Fault, Ground, Judged, Limit, Next, Stage, StopDone, StopGround, limits_kept,
};

const DONE: &str = "What was done";
const FOUND: &str = "What was found";
const RELEASED: &str = "Released by";

/// How things stand while the day is stopped.
struct Stand {
    /// Scales do not fit, by the last reading.
    misfits: bool,
    /// A reading stopped the day.
    by_reading: bool,
    /// So did the lean, and it does not fit yet.
    leans: bool,
    by_lean: bool,
    /// What was read passes a limit that nobody can sign away.
    beyond: bool,
    /// The checks still forbid the piece that comes next.
    forbidden: bool,
    by_hand: bool,
    is_final: bool,
}

impl Stand {
    fn of(desk: &Desk, day: &Day, stop: &StopDone) -> Self {
        let ground = stop.ground.as_ref();
        let by_lean = ground.is_some_and(StopGround::is_by_lean);
        let lean_fits = || desk.account().and_then(Account::lean_now).is_none_or(|judged| !judged.fits());
        Self {
            // A fixture that was read again may fit by now; what stopped the day is told as it was then.
            misfits: desk.judged_now().is_some_and(|judged| !judged.fits()),
            by_reading: matches!(
                ground,
                Some(
                    StopGround::Reading { .. }
                        | StopGround::FarOff { .. }
                        | StopGround::Lean
                        | StopGround::BeyondLimit { .. }
                )
            ),
            leans: by_lean && lean_fits(),
            by_lean,
            beyond: is_beyond(day, ground),
            forbidden: matches!(ground, Some(StopGround::MustNotLoad { .. })) && desk.is_forbidden(),
            by_hand: matches!(ground, Some(StopGround::ByHand)),
            is_final: ground.is_some_and(StopGround::is_final),
        }
    }

    /// What is read again: the scales, the lean, gauges.
    fn again(&self, day: &Day, ground: Option<&StopGround>) -> Again {
        let loads = day.run().stage == Stage::Loading;
        let scales = self.misfits || !self.by_reading || (self.beyond && is_of_scales(ground));
        Again {
            scales: loads && scales && !self.forbidden,
            lean: loads && (self.leans || (self.beyond && self.by_lean)),
            gauges: if loads && self.beyond { gauges_of(&day.plan, ground) } else { Vec::new() },
        }
    }
}

/// What is read again while the day is stopped.
struct Again {
    scales: bool,
    lean: bool,
    /// By their places in the plan.
    gauges: Vec<usize>,
}

/// Why the day is stopped, in white on the red: what reads wrong, scale by scale.
pub(super) fn why(ui: &mut Ui, desk: &Desk) {
    let Some((day, stop)) = desk.day().and_then(|day| Some((day, day.stopped.as_ref()?))) else {
        return big(ui, "The log could not take the stop. It holds all the same: stand clear, and put nothing on.");
    };
    let stand = Stand::of(desk, day, stop);
    if stand.by_reading && !stand.misfits && !stand.leans && !stand.beyond {
        return big(ui, format!("Stopped because {}.", stop.why));
    }
    match desk.judged_now().filter(|judged| !stand.beyond && !judged.fits()) {
        Some(judged) => misfits(ui, desk, &judged),
        None => {
            let size = 0.8 * super::large::huge_size(ui);
            ui.add(egui::Label::new(look::bold(sentence(&stop.why), size)).wrap());
        }
    }
}

/// The ways on.
pub(super) fn ways(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    let Some(day) = desk.day().cloned() else { return };
    let Some(stop) = &day.stopped else {
        return card(ui, look, |ui| {
            if button(ui, "Enter the stop in the log") {
                desk.stop_by_hand(ui.ctx());
            }
        });
    };
    if desk.next().is_none() {
        big(ui, "Stand clear. Causes and ways on:");
        return big(ui, "Being solved…");
    }
    let stand = Stand::of(desk, &day, stop);
    if stand.misfits && !stand.beyond {
        causes(ui, desk);
    }
    card(ui, look, |ui| {
        ui.set_width(ui.available_width());
        outlook::show(ui, look, desk, &Next::Stopped);
        way(ui, look, desk, (&day, stop, &stand));
        if stand.misfits {
            last_read::show(ui, look, desk, Of::Tare);
        }
        if (stand.misfits || stand.leans) && !stand.is_final {
            ui.add_space(6.0);
            let head = egui::RichText::new("Continue against the stop").size(big_size(ui));
            CollapsingHeader::new(head).show(ui, |ui| against(ui, look, desk, UNCERTAIN));
        }
    });
}

fn way(ui: &mut Ui, look: &Look, desk: &mut Desk, (day, stop, stand): (&Day, &StopDone, &Stand)) {
    match (stand.misfits, stand.by_reading) {
        _ if stand.beyond => beyond_limit(ui, desk, day),
        (true, _) => mended(ui, look, desk),
        (false, true) if stand.leans => {
            big(ui, "Look from a distance for what moved. A lean that was read wrong is read again at the left.");
        }
        (false, true) => {
            let now = if stand.by_lean { "The lean fits now." } else { "Every scale fits now." };
            big_inked(ui, look, now, Ink::Is);
            found(ui, look, desk, Ground::Fits);
        }
        (false, false) if stand.forbidden => outlook::forbidden(ui, desk, &stop.why),
        (false, false) if stand.by_hand => released(ui, look, desk),
        (false, false) => found(ui, look, desk, Ground::Found),
    }
}

/// How much of the left half reading again takes, points.
pub(super) fn again_high(ui: &Ui, desk: &Desk) -> f32 {
    let Some((day, stop)) = desk.day().and_then(|day| Some((day, day.stopped.as_ref()?))) else { return 0.0 };
    let again = Stand::of(desk, day, stop).again(day, stop.ground.as_ref());
    let [huge, big] = [super::large::huge_size(ui), big_size(ui)];
    let rows = day.plan.fixture.supports.iter().filter(|support| support.scale).count() as f32;
    let straps = 2.4 * big * day.plan.fixture.hold_downs.len() as f32;
    let of_scales = if again.scales { rows * (1.5 * huge + 7.0) + 5.2 * big + 34.0 + straps } else { 0.0 };
    let of_lean = if again.lean { 17.0 * big } else { 0.0 };
    let of_gauges = 9.0 * big * again.gauges.len() as f32;
    (of_scales + of_lean + of_gauges).min(0.74 * ui.available_height())
}

/// Fields to read again what stopped the day.
pub(super) fn again(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    let Some(day) = desk.day().cloned() else { return };
    let Some(stop) = &day.stopped else { return };
    let again = Stand::of(desk, &day, stop).again(&day, stop.ground.as_ref());
    if again.lean {
        lean::fields(ui, look, desk);
    }
    for place in again.gauges {
        ui.label(look::bold("Read the gauge again", big_size(ui)));
        weigh::gauge(ui, look, desk, (&day, place, Row::waiting()));
    }
    if again.scales {
        let size = big_size(ui);
        ui.label(look::bold("Read the scales again", size));
        weigh::asked(ui, look, desk, (false, Row::waiting()));
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
    limits.iter().any(|limit| !matches!(limit, Limit::LeansTooFar | Limit::DownOnCatch { .. }))
}

/// The gauges that reached a catch block, by their places in the plan.
fn gauges_of(plan: &Plan, ground: Option<&StopGround>) -> Vec<usize> {
    let Some(StopGround::BeyondLimit { limits }) = ground else { return Vec::new() };
    let is_stopped = |gauge: &plan::Gauge| limits.contains(&Limit::DownOnCatch { gauge: gauge.name.clone() });
    (0..plan.gauges.len()).filter(|place| is_stopped(&plan.gauges[*place])).collect()
}

/// What is said where a limit is passed that nobody can sign away.
const BEYOND: &str = "Put nothing on. No name and no reason leads on from here: take the last piece off, read again, or give up \
                      the test and take everything off. A reading that was typed wrong is read again at the left.";
/// The same where the article gave way as far as a catch block.
const DOWN: &str = "Put nothing on and stay away: what gave way may go on. Look from a distance or by camera, and judge whether \
                    anything can be taken off at all. No name and no reason leads on from here. A gauge that was typed wrong is read \
                    again at the left.";

/// The ways on from such a limit: take the last piece off, or everything.
fn beyond_limit(ui: &mut Ui, desk: &mut Desk, day: &Day) {
    let is_down = day.stopped.as_ref().is_some_and(|stop| !gauges_of(&day.plan, stop.ground.as_ref()).is_empty());
    if is_down {
        // Nobody is sent to what gave way: what is left is to read the gauge again, or to give up.
        return big(ui, DOWN);
    }
    big(ui, BEYOND);
    let run = day.run();
    let Some(last) = run.placed().checked_sub(1) else { return };
    if button(ui, &format!("{} is off again: leave it out", run.as_done().piece_name(last))) {
        let deviation = Deviation::LeftOut { step: run.step_of(last) + 1 };
        let why = day.stopped.as_ref().map(|stop| stop.why.clone()).unwrap_or_default();
        desk.enter(ui.ctx(), Entry::Deviation { deviation, why });
    }
}

/// What was found, where nothing that is read gainsays it.
fn found(ui: &mut Ui, look: &Look, desk: &mut Desk, ground: Ground) {
    let mut row = Row::default();
    let found = row.field(ui, desk, [FOUND, ""], 420.0);
    let entered = row.entered(ui, desk);
    let pressed = primary(ui, look, "Continue", (row.act(ui), false, false));
    if pressed || entered {
        go_on(ui, desk, &found, ground);
    }
}

/// Somebody stopped the day: whoever says that it goes on is named.
fn released(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    let mut row = Row::default();
    let found = row.field(ui, desk, [FOUND, ""], 420.0);
    let name = row.field(ui, desk, [RELEASED, ""], 420.0);
    let entered = row.entered(ui, desk);
    let pressed = primary(ui, look, "Continue", (row.act(ui), false, false));
    if pressed || entered {
        go_on(ui, desk, &found, Ground::Released { name: name.trim().to_owned() });
    }
}

/// A told cause was chosen, and something was done about it. Nothing is pressed before one is chosen.
fn mended(ui: &mut Ui, look: &Look, desk: &mut Desk) {
    let cause = desk.chosen.and_then(|chosen| desk.causes().get(chosen)).map(|cause| cause.sentence.clone());
    let Some(cause) = cause else {
        return big(
            ui,
            "Choose the cause that was found, by its number. If it is none of them, read the scales again at the left.",
        );
    };
    let mut row = Row::default();
    let done = row.field(ui, desk, [DONE, ""], 420.0);
    let entered = row.entered(ui, desk);
    let pressed = primary(ui, look, "Fixed: read the scales again", (row.act(ui), false, false));
    if pressed || entered {
        go_on(ui, desk, &done, Ground::Cause { cause });
    }
    if let Some(number) = desk.chosen {
        stays(ui, desk, number);
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
    let Some(deviation) = deviation.filter(|_| button(ui, word)) else { return };
    let done = desk.typed.get(DONE).map_or("", |done| done.trim()).to_owned();
    let why = if done.is_empty() { format!("found: {}", cause.sentence) } else { done };
    desk.enter(ui.ctx(), Entry::Deviation { deviation, why: why.clone() });
    desk.typed.insert(FOUND.to_owned(), why);
}

/// What going on against a reading means.
const UNCERTAIN: &str = "The reading does not fit, and what is on the seat is not certain: a hold there is not shown. \
                         Whoever continues signs for it by name, and both go onto page 1 of the record.";

fn against(ui: &mut Ui, look: &Look, desk: &mut Desk, warning: &str) {
    big_inked(ui, look, warning, Ink::Wanted);
    let name = field(ui, desk, "Name", "", 260.0);
    let why = field(ui, desk, "Reason", "", 420.0);
    if button(ui, "Continue, signed") {
        go_on(ui, desk, &why, Ground::Against { name: name.trim().to_owned() });
    }
}

fn go_on(ui: &Ui, desk: &mut Desk, why: &str, ground: Ground) {
    let named = !matches!(&ground, Ground::Against { name } | Ground::Released { name } if name.is_empty());
    match (named, why.trim()) {
        (false, _) if matches!(ground, Ground::Released { .. }) => {
            desk.misfit(format!("{RELEASED}: whoever says that the day goes on is named."));
        }
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
            let text = format!("{name} shows {}, due {due}: {off} {way}.", mass(read));
            let size = 0.8 * super::large::huge_size(ui);
            ui.add(egui::Label::new(look::bold(text, size)).wrap());
        }
    }
}

/// The likely causes, none chosen beforehand.
fn causes(ui: &mut Ui, desk: &mut Desk) {
    let size = big_size(ui);
    ui.add(egui::Label::new(look::bold("Look without touching. What is it?", size).color(Color32::WHITE)).wrap());
    if desk.causes().is_empty() {
        big(ui, "None of the known causes fits. Look from a distance for what the numbers do not know.");
    }
    let lines: Vec<_> = (0..desk.causes().len()).filter_map(|number| lines(desk, number)).collect();
    for (number, told) in lines.iter().enumerate() {
        if cause(ui, (number, told), desk.chosen == Some(number)) {
            desk.choose(number);
        }
    }
    ui.add_space(4.0);
}

/// A cause under its number: white where it is chosen, with what else is to be told of it; whether it was pressed.
fn cause(ui: &mut Ui, (number, [head, look_at, would]): (usize, &[String; 3]), chosen: bool) -> bool {
    let size = big_size(ui);
    let (ground, ink) = if chosen { (Color32::WHITE, look::STOP) } else { (look::STOP, Color32::WHITE) };
    let frame = Frame::new().fill(ground).stroke(Stroke::new(1.5, Color32::WHITE)).corner_radius(4);
    let shown = frame.inner_margin(Margin::symmetric(10, 4)).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 1.0;
        let line = |text: egui::RichText| egui::Label::new(text.color(ink)).wrap().selectable(false);
        ui.add(line(look::bold(format!("{}. {head}", number + 1), 0.86 * size)));
        ui.add(line(egui::RichText::new(would).size(0.7 * size)));
        if chosen && !look_at.is_empty() {
            ui.add(line(egui::RichText::new(look_at).size(0.7 * size)));
        }
    });
    let response = ui.interact(shown.response.rect, ui.scope_id().with(("cause", number)), Sense::click());
    let name = format!("{}. {head} {look_at}", number + 1);
    response.widget_info(|| egui::WidgetInfo::selected(egui::Role::RadioButton, true, chosen, name.trim()));
    if response.has_focus() {
        let ring = Stroke::new(3.0, Color32::WHITE);
        ui.painter().rect_stroke(shown.response.rect.expand(2.0), 4.0, ring, egui::StrokeKind::Outside);
    }
    response.clicked()
}

/// A cause, where to look for it, and what it would give.
fn lines(desk: &Desk, number: usize) -> Option<[String; 3]> {
    let (account, cause) = (desk.account()?, desk.causes().get(number)?);
    let course = account.courses.last()?;
    let mass = |kg: f64| Mass::kg(kg).shown(account.day.plan.units, Grain::Coarse);
    let would = cause.would_read_kg.iter().enumerate();
    let would = would.filter_map(|(support, kg)| Some(format!("{} {}", course.scale(support)?, mass((*kg)?))));
    let fits = if cause.fits { "fits" } else { "does not fit" };
    let would = would.collect::<Vec<_>>().join(", ");
    let (head, look_at) = cause.sentence.split_once(". ").unwrap_or((&cause.sentence, ""));
    Some([format!("{}.", head.trim_end_matches('.')), look_at.to_owned(), format!("gives {would}: {fits}")])
}
