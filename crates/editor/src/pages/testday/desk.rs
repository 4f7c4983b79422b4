//! What the page works on: the log that is open, what is reckoned from it beside the window, and what
//! is being typed.

use super::back::Back;
use super::doubt::Doubted;
use super::held::{Heard, Side, Times};
use super::reckoned::Worked;
use crate::clock;
use crate::look::Look;
use crate::signs;
use assess::{Assessment, Closed};
use disk::journal::{Journal, Trouble};
use drafting::figure::{Ink, Sign};
use eframe::egui::{Context, Ui};
use plan::Plan;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::time::{Duration, Instant};
use testday::{Account, Cause, Day, Entry, HoldTimer, Judged, Log, Next, Outlook, Range, stop_at_once, stop_due};

/// What a photograph shows; typed before it is named.
pub(super) const CAPTION: &str = "Caption of a photograph";
/// Asked before a day begins.
pub(super) const PRESENT: &str = "Present";

/// What the page asks the window for.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) enum Asked {
    /// Nothing.
    #[default]
    Nothing,
    /// Where the log of a new day is kept.
    Begin,
    /// A log to go on with.
    GoOn,
    /// Where the record is saved.
    SaveRecord,
    /// A photograph to name.
    Photograph,
    /// A picture of the page.
    SavePicture,
    /// The cautions in full, or put away again.
    Cautions,
    /// The pages of the plan; the day stays open.
    Leave,
    /// The day that was offered, to go on with.
    GoOnOffered(PathBuf),
    /// That the day that was offered is not offered again.
    Forget,
}

/// How often a running hold is looked at.
const LOOK: Duration = Duration::from_millis(50);

/// Said where the work on the day broke down: a bug of ours, and nothing is called good by it.
const NOT_WORKED_OUT: &str = "What comes next could not be worked out, by a fault of this program. Every entry that was taken is in the log. Put nothing more on the seat.";

/// The page's state.
#[derive(Default)]
pub(crate) struct Desk {
    journal: Option<Journal>,
    worked: Option<Worked>,
    working: Option<Receiver<Worked>>,
    timer: HoldTimer,
    clock: Option<Instant>,
    /// What is typed, by the fields' names.
    pub(super) typed: BTreeMap<String, String>,
    pub(super) said: Option<(Sign, String)>,
    asked: Asked,
    /// A day that was left open: its log, and what is said of it.
    pub(super) offered: Option<(PathBuf, String)>,
    /// Which of the told causes was found.
    pub(super) chosen: Option<usize>,
    /// The checks that fall short, by their headings, and why it is loaded all the same; the second line of
    /// the log.
    pub(super) although: Option<(Vec<String>, String)>,
    /// The checks of the stack as done, kept over states of the log.
    outlook: Option<Arc<Outlook>>,
    /// What opens over the picture.
    pub(super) side: Side,
    /// What the keyboard did before the page was shown.
    pub(super) heard: Heard,
    pub(super) times: Times,
    /// Whether a stop could not be written into the log: it holds all the same.
    pub(super) unkept_stop: bool,
    /// A value that was questioned.
    pub(super) doubted: Option<Doubted>,
    /// The field in which Return asked for what was typed to be entered.
    pub(super) entered_from: Option<String>,
    /// The field that takes the keyboard again, since what was typed there was not taken.
    pub(super) refocus: Option<String>,
    /// For how many lines of the log the first field has had the focus.
    pub(super) focused: Option<usize>,
}

impl Desk {
    /// Begins a day with a plan whose assessment is known, its log in this file.
    pub(crate) fn begin(&mut self, ctx: &Context, path: &Path, (plan, assessment): (&Plan, &Assessment)) {
        let started = Entry::Started {
            format: testday::FORMAT,
            fingerprint: plan::file::fingerprint(plan),
            plan: plan::file::write(plan),
            people: self.typed.get(PRESENT).cloned().unwrap_or_default(),
        };
        let although = self.although.take().map(|(checks, why)| Entry::LoadedAlthough { checks, why });
        let journal = Journal::begin(path, &clock::now(), started).and_then(|mut journal| {
            although.map_or(Ok(()), |entry| journal.enter(&clock::now(), entry))?;
            Ok(journal)
        });
        // The stack as done is the plan as the log has it: what is known of the plan is known of it.
        let known = journal.as_ref().ok().filter(|_| assessment.exact.is_some());
        let outlook = known.map(|journal| Arc::new(Outlook::new(journal.day().run().as_done().clone(), assessment)));
        self.take(ctx, path, journal, outlook);
    }

    /// Offers a day that was left open.
    pub(crate) fn offer(&mut self, path: PathBuf, log: &Log) {
        let lines = log.lines();
        let begun = lines.first().map_or("", |line| line.at.as_str());
        let last = lines.last().map_or("", |line| line.at.as_str());
        let lies = Day::of(log)
            .map_or_else(|_| "What lies on the seat is not known".to_owned(), |day| super::begin::lies(&day));
        let said = format!("{lies}. Begun {begun}, last entry {last}, {} lines. Log: {}", lines.len(), path.display());
        self.offered = Some((path, said));
    }

    /// Goes on with a log; whether it could be opened.
    pub(crate) fn go_on(&mut self, ctx: &Context, path: &Path) -> bool {
        // A log that this window has open is locked against itself.
        self.journal = None;
        let journal = Journal::open(path).and_then(|mut journal| {
            journal.enter(&clock::now(), Entry::Resumed)?;
            Ok(journal)
        });
        self.take(ctx, path, journal, None);
        self.is_open()
    }

    fn take(&mut self, ctx: &Context, path: &Path, journal: Result<Journal, Trouble>, outlook: Option<Arc<Outlook>>) {
        match journal {
            Ok(journal) => {
                self.said = match journal.log().torn().len() {
                    0 => None,
                    count => Some((
                        Sign::Near,
                        format!(
                            "{count} line(s) of this log were cut short by a crash and never counted; nothing that was shown as taken is lost."
                        ),
                    )),
                };
                *self = Self { journal: Some(journal), said: self.said.take(), outlook, ..Self::default() };
                self.work(ctx);
            }
            Err(trouble) => self.said = Some((Sign::Fails, format!("{}: {trouble}", path.display()))),
        }
    }

    /// Whether a log is open.
    pub(crate) fn is_open(&self) -> bool {
        self.journal.is_some()
    }

    /// The log that is open.
    pub(crate) fn journal(&self) -> Option<&Journal> {
        self.journal.as_ref()
    }

    pub(super) fn day(&self) -> Option<&Day> {
        self.journal.as_ref().map(Journal::day)
    }

    /// What comes next, once it is worked out for the day as it stands.
    pub(super) fn next(&self) -> Option<Next> {
        self.current().map(|worked| worked.next.clone())
    }

    fn current(&self) -> Option<&Worked> {
        let lines = self.journal.as_ref()?.log().lines().len();
        self.worked.as_ref().filter(|worked| worked.lines == lines)
    }

    /// What is known of the day, of a moment ago at the worst.
    pub(super) fn account(&self) -> Option<&Account> {
        self.worked.as_ref().map(|worked| &worked.account)
    }

    pub(super) fn layout(&self) -> Option<&Closed> {
        self.current().map(|worked| &worked.layout)
    }

    pub(super) fn causes(&self) -> &[Cause] {
        self.current().map_or(&[], |worked| &worked.causes)
    }

    /// The last weighing, where it is of the state in hand: at once, by what was known when it was asked for.
    pub(super) fn judged_now(&self) -> Option<Judged<'_>> {
        self.account()?.judged_at_once(self.day()?)
    }

    /// What the scales should show with what is left, while pieces come off.
    pub(super) fn due_left(&self) -> &[Option<Range>] {
        self.current().map_or(&[], |worked| &worked.due_left)
    }

    /// The last reading while pieces come off, where it is of what lies there now.
    pub(super) fn judged_left_now(&self) -> Option<Judged<'_>> {
        self.current().and_then(|worked| worked.account.judged_left_now())
    }

    /// The record as it stands, for a file of this ending.
    pub(crate) fn record(&self, as_pdf: bool) -> Result<Vec<u8>, String> {
        let log = self.journal.as_ref().ok_or("no log is open")?.log();
        let account = Account::of(log).map_err(|refused| refused.to_string())?;
        match as_pdf {
            true => drafting::record::pdf(log, &account).map_err(|error| error.to_string()),
            false => Ok(drafting::record::csv(log, &account).into_bytes()),
        }
    }

    /// What is typed for a photograph to show.
    pub(crate) fn caption(&self) -> String {
        self.typed.get(CAPTION).map_or("", |text| text.trim()).to_owned()
    }

    pub(super) fn ask(&mut self, asked: Asked) {
        self.asked = asked;
    }

    pub(super) fn asked(&mut self) -> Asked {
        std::mem::take(&mut self.asked)
    }

    /// Takes several entries, as far as they are taken.
    pub(super) fn enter_all(&mut self, ctx: &Context, entries: Vec<Entry>) {
        let (mut entries, open, details) = (entries, self.side.open, self.side.details);
        let Some((last, all)) = entries.split_last_mut() else { return };
        for entry in all {
            let taken = self.journal.as_mut().map(|journal| journal.enter(&clock::now(), entry.clone()));
            if let Some(Err(trouble)) = taken {
                return self.misfit(trouble.to_string());
            }
        }
        self.enter(ctx, last.clone());
        (self.side.open, self.side.details) = (open, details);
    }

    /// Takes an entry; it is on the disk before anything shows it as taken.
    pub(crate) fn enter(&mut self, ctx: &Context, entry: Entry) {
        let Some(journal) = &mut self.journal else { return };
        let holding = matches!(entry, Entry::HoldBegan { .. });
        let stopping = matches!(entry, Entry::Stopped { .. });
        match journal.enter(&clock::now(), entry) {
            Ok(()) => {
                self.said = None;
                self.typed.clear();
                (self.chosen, self.side, self.doubted) = (None, Side::default(), None);
                (self.entered_from, self.refocus) = (None, None);
                if stopping {
                    (self.unkept_stop, self.times.stopped) = (false, Some(Instant::now()));
                }
                if holding {
                    self.timer = HoldTimer::default();
                    self.clock = Some(Instant::now());
                }
                // What reads wrong stops at once; only what takes a solver is waited for.
                if let Some(stop) = self.stop_at_once() {
                    return self.enter(ctx, stop);
                }
                self.work(ctx);
            }
            Err(trouble) => {
                self.unkept_stop |= stopping;
                self.said = Some((Sign::Fails, trouble.to_string()));
            }
        }
    }

    fn stop_at_once(&self) -> Option<Entry> {
        stop_at_once(self.account(), self.day()?)
    }

    /// Goes on with the log in another file, where its own was lost.
    pub(crate) fn keep_in(&mut self, ctx: &Context, path: &Path) {
        let Some(journal) = &mut self.journal else { return };
        self.said = journal.keep_in(path, &clock::now()).err().map(|trouble| (Sign::Fails, trouble.to_string()));
        self.work(ctx);
    }

    /// Looks whether the log is in its place again.
    pub(crate) fn look_again(&mut self) {
        let Some(journal) = &mut self.journal else { return };
        self.said = journal.look().err().map(|trouble| (Sign::Fails, trouble.to_string()));
    }

    /// A text that does not fit its field.
    pub(super) fn misfit(&mut self, sentence: String) {
        self.said = Some((Sign::Fails, sentence));
        self.refocus = self.entered_from.take();
    }

    /// Whether the first field may take the focus: once for every state of the log.
    pub(super) fn wants_focus(&mut self) -> bool {
        // What is still shown of the state before must not take the focus of the one to come.
        if self.is_open() && self.current().is_none() {
            return false;
        }
        let lines = self.journal.as_ref().map_or(0, |journal| journal.log().lines().len());
        self.focused.replace(lines) != Some(lines)
    }

    /// How what lies there comes off.
    pub(super) fn back(&self) -> Option<&Back> {
        self.current()?.back.as_ref()
    }

    /// The hold's timer, looked at just now.
    pub(super) fn timer(&mut self, ctx: &Context) -> HoldTimer {
        let now_s = self.clock.map(|clock| clock.elapsed().as_secs_f64());
        self.timer.look(now_s.unwrap_or(f64::NAN));
        ctx.request_repaint_after(LOOK);
        self.timer
    }

    /// Reckons what the day amounts to, beside the window.
    fn work(&mut self, ctx: &Context) {
        let Some(journal) = &self.journal else { return };
        let (day, lines) = (journal.day().clone(), journal.log().lines().len());
        let before = self.worked.as_ref().map(|worked| worked.account.clone());
        let known = self.outlook.clone();
        let (send, receive) = channel();
        let ctx = ctx.clone();
        let mut way_back = self.worked.as_ref().map(|worked| worked.way_back.clone()).unwrap_or_default();
        std::thread::spawn(move || {
            let back = Back::of(&mut way_back, &day);
            let worked = Worked::of((lines, day), before, known, (way_back, back));
            // The window may be gone by now; then nobody waits for the answer.
            let _ = send.send(worked);
            ctx.request_repaint();
        });
        self.working = Some(receive);
    }

    /// Takes what was reckoned. What stops the day by itself does so by an entry of its own.
    pub(super) fn hear(&mut self, ctx: &Context) {
        let worked = match self.working.as_ref().map(Receiver::try_recv) {
            Some(Ok(worked)) => worked,
            // The thread ended without an answer: what it works out must not be waited for in silence.
            Some(Err(TryRecvError::Disconnected)) => {
                self.working = None;
                return self.misfit(NOT_WORKED_OUT.to_owned());
            }
            _ => return,
        };
        self.working = None;
        self.outlook = worked.outlook.clone().or(self.outlook.take());
        self.worked = Some(worked);
        let due = self
            .current()
            .and_then(|worked| stop_due(&worked.account, worked.outlook.as_deref(), &worked.next, &worked.causes));
        if let Some(stop) = due {
            self.enter(ctx, stop);
        }
    }

    /// Whether the checks of the stack as done still forbid what the day was stopped before.
    pub(super) fn is_forbidden(&self) -> bool {
        let forbids = |day: &Day| Some(self.outlook()?.forbids(day, &Next::Lift { index: day.run().placed() }));
        self.day().and_then(forbids).is_some_and(|passed| !passed.is_empty())
    }

    /// The checks of the stack as done.
    pub(super) fn outlook(&self) -> Option<&Outlook> {
        self.current()?.outlook.as_deref()
    }

    pub(super) fn trouble(&mut self, ui: &mut Ui, look: &Look) {
        self.question(ui, look);
        let Some((sign, text)) = &self.said else { return };
        super::card(ui, look, |ui| {
            ui.horizontal(|ui| {
                signs::sign(ui, look, *sign, Ink::Wanted);
                super::large::big_inked(ui, look, text, Ink::Wanted);
            });
        });
        ui.add_space(6.0);
    }
}
