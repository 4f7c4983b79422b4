//! What stops the day by itself: a reading that does not fit, a limit that is passed, a piece that must not
//! be lifted.

use crate::diagnosis::Cause;
use crate::limits::{Passed, limit_read_words, limits_read};
use crate::outlook::{Outlook, passed_words};
use crate::{Account, Day, Entry, Next, Stage, StopGround};

/// The stop that is due by itself, if one is. `causes` are those of the last reading.
pub fn stop_due(account: &Account, outlook: Option<&Outlook>, next: &Next, causes: &[Cause]) -> Option<Entry> {
    let day = &account.day;
    let loads = matches!(day.run().stage, Stage::Empty | Stage::Loading);
    if day.stopped.is_some() || day.ended.is_some() || !loads {
        return None;
    }
    by_limit(day).or_else(|| by_reading(account, causes)).or_else(|| by_outlook(day, outlook?, next))
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

/// A scale or strap beyond its limit, or an article that lifted off: it stops as long as it is read.
fn by_limit(day: &Day) -> Option<Entry> {
    let (run, weighing) = (day.run(), day.run().weighing_now()?);
    let tare = run.tare.as_ref().map(|tare| &tare.reading);
    let limits = limits_read(&day.plan, tare, &weighing.reading);
    if limits.is_empty() || day.read_again {
        return None;
    }
    let words: Vec<_> = limits.iter().map(|limit| limit_read_words(&day.plan, limit, weighing)).collect();
    Some(stopped(words.join("; "), StopGround::BeyondLimit { limits }, &[]))
}

/// Once for each reading: who continues against it has signed for it.
fn by_reading(account: &Account, causes: &[Cause]) -> Option<Entry> {
    let judged = account.judged_now()?;
    let by = |ground: &StopGround| matches!(ground, StopGround::Reading { .. });
    if is_answered(&account.day, judged.weighing.line, by) {
        return None;
    }
    let course = account.courses.last()?;
    let scales: Vec<_> = judged.misfits().filter_map(|support| course.scale(support)).map(str::to_owned).collect();
    let why = format!("a reading does not fit: {}", scales.join(", "));
    (!scales.is_empty()).then(|| stopped(why, StopGround::Reading { scales }, causes))
}

/// As often as it comes to that: nobody can sign it away.
fn by_outlook(day: &Day, outlook: &Outlook, next: &Next) -> Option<Entry> {
    let passed: Vec<Passed> = outlook.forbids(day, next);
    let why: Vec<_> = passed.iter().map(|passed| passed_words(day, passed)).collect();
    (!passed.is_empty()).then(|| stopped(why.join("; "), StopGround::MustNotLoad { passed }, &[]))
}
