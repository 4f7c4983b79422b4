//! What stops the day by itself: a reading that does not fit, a limit that is passed, a piece that must not
//! be lifted.

use crate::diagnosis::{Cause, diagnose};
use crate::limits::{Passed, limit_read_words, limits_read_now};
use crate::outlook::{Outlook, passed_words};
use crate::top::LeanJudged;
use crate::{Account, Course, Day, Entry, Judged, Next, Stage, StopGround};

/// The stop that is due by itself, if one is. `causes` are those of the last reading.
pub fn stop_due(account: &Account, outlook: Option<&Outlook>, next: &Next, causes: &[Cause]) -> Option<Entry> {
    let day = &account.day;
    if !may_stop(day) {
        return None;
    }
    let of_scales = || by_reading(day, (&account.judged_now()?, account.courses.last()?), || causes.to_vec());
    let of_lean = || by_lean(day, &account.lean_now()?);
    by_limit(day).or_else(of_scales).or_else(of_lean).or_else(|| by_outlook(day, outlook?, next))
}

/// The stop that is due by what was read last, as soon as it is entered: by the limits that nobody can sign away, and
/// by what was known to be due when it was asked for. It takes no solver, so that nothing calm stands on the page
/// meanwhile; what takes one is told by [`stop_due`].
pub fn stop_at_once(known: Option<&Account>, day: &Day) -> Option<Entry> {
    if !may_stop(day) {
        return None;
    }
    let of_scales = || {
        let known = known?;
        let course = known.course_of(day.run())?;
        by_reading(day, (&known.judged_at_once(day)?, course), || diagnose(day.run(), course))
    };
    let of_lean = || by_lean(day, &known?.lean_at_once(day)?);
    by_limit(day).or_else(of_scales).or_else(of_lean)
}

fn may_stop(day: &Day) -> bool {
    let loads = matches!(day.run().stage, Stage::Empty | Stage::Loading);
    loads && day.stopped.is_none() && day.ended.is_none()
}

fn stopped(why: String, ground: StopGround, causes: &[Cause]) -> Entry {
    let causes = causes.iter().map(|cause| cause.sentence.clone()).collect();
    Entry::Stopped { why, causes, ground: Some(ground) }
}

/// Whether this line was answered by a stop of this kind already: the program may have been closed right after
/// it, or a correction may have made it another one.
fn is_answered(day: &Day, line: u64, kind: impl Fn(&StopGround) -> bool) -> bool {
    day.stops.iter().any(|stop| stop.line > line && stop.ground.as_ref().is_some_and(&kind))
}

/// A scale or strap beyond its limit, an article that lifted off, a top piece that leans too far: it stops as long
/// as it is read.
fn by_limit(day: &Day) -> Option<Entry> {
    let run = day.run();
    let limits = limits_read_now(&day.plan, run);
    if limits.is_empty() || day.read_again {
        return None;
    }
    let words: Vec<_> = limits.iter().map(|limit| limit_read_words(&day.plan, limit, run)).collect();
    Some(stopped(words.join("; "), StopGround::BeyondLimit { limits }, &[]))
}

/// So many times as far off as stops loading, a reading is no matter of drift or of a doubtful scale: what lies
/// there is not what is believed, and no name leads on. `common practice, no source`.
const FAR_OFF: f64 = 10.0;

/// Once for each reading: who continues against it has signed for it.
fn by_reading(day: &Day, (judged, course): (&Judged, &Course), causes: impl FnOnce() -> Vec<Cause>) -> Option<Entry> {
    let by = |ground: &StopGround| matches!(ground, StopGround::Reading { .. } | StopGround::FarOff { .. });
    if judged.fits() || is_answered(day, judged.weighing.line, by) {
        return None;
    }
    let scales: Vec<_> = judged.misfits().filter_map(|support| course.scale(support)).map(str::to_owned).collect();
    let far = judged.misfits().any(|support| judged.off_share(support).is_none_or(|share| share.abs() > FAR_OFF));
    let why = format!("a reading does not fit: {}", scales.join(", "));
    let ground = if far { StopGround::FarOff { scales } } else { StopGround::Reading { scales } };
    Some(stopped(why, ground, &causes()))
}

/// Once for each reading, as of the scales.
fn by_lean(day: &Day, judged: &LeanJudged) -> Option<Entry> {
    let by = |ground: &StopGround| matches!(ground, StopGround::Lean);
    if judged.fits() || is_answered(day, judged.read.line, by) {
        return None;
    }
    Some(stopped(format!("the lean does not fit: {}", judged.words()), StopGround::Lean, &[]))
}

/// As often as it comes to that: nobody can sign it away.
fn by_outlook(day: &Day, outlook: &Outlook, next: &Next) -> Option<Entry> {
    let passed: Vec<Passed> = outlook.forbids(day, next);
    let why: Vec<_> = passed.iter().map(|passed| passed_words(day, passed)).collect();
    let softer = outlook.softer().map_or(String::new(), |softer| {
        format!(", with the bags {:.2} times as soft as planned, as the settlements show", softer.factor)
    });
    (!passed.is_empty()).then(|| stopped(why.join("; ") + &softer, StopGround::MustNotLoad { passed }, &[]))
}
