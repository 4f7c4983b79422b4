//! What stops the day by itself: a reading that does not fit, a limit that is passed, a piece that must not
//! be lifted.

use crate::diagnosis::Cause;
use crate::limits::{Passed, limit_read_words, limits_read_now};
use crate::outlook::{Outlook, passed_words};
use crate::{Account, Day, Entry, Next, Stage, StopGround};

/// The stop that is due by itself, if one is. `causes` are those of the last reading.
pub fn stop_due(account: &Account, outlook: Option<&Outlook>, next: &Next, causes: &[Cause]) -> Option<Entry> {
    let day = &account.day;
    let loads = matches!(day.run().stage, Stage::Empty | Stage::Loading);
    if day.stopped.is_some() || day.ended.is_some() || !loads {
        return None;
    }
    let read = by_limit(day).or_else(|| by_reading(account, causes)).or_else(|| by_lean(account));
    read.or_else(|| by_outlook(day, outlook?, next))
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
fn by_reading(account: &Account, causes: &[Cause]) -> Option<Entry> {
    let judged = account.judged_now()?;
    let by = |ground: &StopGround| matches!(ground, StopGround::Reading { .. } | StopGround::FarOff { .. });
    if is_answered(&account.day, judged.weighing.line, by) {
        return None;
    }
    let course = account.courses.last()?;
    let scales: Vec<_> = judged.misfits().filter_map(|support| course.scale(support)).map(str::to_owned).collect();
    let far = judged.misfits().any(|support| judged.off_share(support).is_none_or(|share| share.abs() > FAR_OFF));
    let why = format!("a reading does not fit: {}", scales.join(", "));
    let ground = if far { StopGround::FarOff { scales: scales.clone() } } else { StopGround::Reading { scales } };
    judged.misfits().next().is_some().then(|| stopped(why, ground, causes))
}

/// Once for each reading, as of the scales.
fn by_lean(account: &Account) -> Option<Entry> {
    let judged = account.lean_now()?;
    let by = |ground: &StopGround| matches!(ground, StopGround::Lean);
    if judged.fits() || is_answered(&account.day, judged.read.line, by) {
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
