//! Stacks laid out on a thread of their own: the best so far is there to be drawn, and what was
//! found is kept when it is stopped.

use arrange::{Heard, Proposal, Wish};
use assess::Gap;
use eframe::egui::Context;
use plan::Plan;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU32, Ordering};
use std::sync::mpsc::{Receiver, Sender, TryRecvError, channel};
use std::time::Duration;

/// How often the window looks at the progress.
const LOOK_AGAIN: Duration = Duration::from_millis(120);

/// What is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Question {
    /// Whole stacks, the same ones for the same seed.
    Propose {
        /// The seed.
        seed: u64,
    },
    /// The plan's own places in a better order.
    Order,
    /// The plan's own stack drawn over the occupant point.
    Trim,
}

/// A stack that was found, with the plan that it makes.
pub(crate) struct Laid {
    pub(crate) proposal: Proposal,
    pub(crate) plan: Plan,
}

enum News {
    Best(Box<Proposal>),
    End(Vec<Proposal>),
}

/// The work on one question about one plan.
pub(crate) struct Arranger {
    pub(crate) question: Question,
    before: Plan,
    news: Receiver<News>,
    stop: Arc<AtomicBool>,
    /// The part that is done, in thousandths.
    done: Arc<AtomicU32>,
    /// The best so far while it works, then all that it found.
    pub(crate) found: Vec<Laid>,
    is_over: bool,
    /// The thread ended without its last word: a bug of ours.
    pub(crate) has_failed: bool,
}

impl Arranger {
    /// Begins.
    ///
    /// # Errors
    /// The system's, where it has no thread to give.
    pub(crate) fn start(ctx: Context, plan: &Plan, question: Question) -> std::io::Result<Self> {
        let (out, news) = channel();
        let (stop, done) = (Arc::new(AtomicBool::new(false)), Arc::new(AtomicU32::new(0)));
        let (stopped, told, given) = (Arc::clone(&stop), Arc::clone(&done), plan.clone());
        std::thread::Builder::new().name("arrangement".into()).spawn(move || {
            let heard = |heard: &Heard| hear(heard, (&out, &ctx), &told, &stopped);
            let found = answer(&given, question, &heard);
            // Nobody listens any more where the window has dropped the question.
            let _ = out.send(News::End(found));
            ctx.request_repaint();
        })?;
        Ok(Self {
            question,
            before: plan.clone(),
            news,
            stop,
            done,
            found: Vec::new(),
            is_over: false,
            has_failed: false,
        })
    }

    /// Stops; what was found so far stays.
    pub(crate) fn stop(&self) {
        self.stop.store(true, Ordering::Relaxed);
    }

    /// Takes in what was found since; asks for another frame while it works.
    pub(crate) fn poll(&mut self, ctx: &Context) {
        loop {
            match self.news.try_recv() {
                Ok(News::Best(best)) => self.found = self.laid(vec![*best]),
                Ok(News::End(found)) => {
                    self.is_over = true;
                    self.found = self.laid(found);
                }
                Err(TryRecvError::Disconnected) if !self.is_over => {
                    (self.is_over, self.has_failed) = (true, true);
                }
                Err(_) => break,
            }
        }
        if !self.is_over {
            ctx.request_repaint_after(LOOK_AGAIN);
        }
    }

    fn laid(&self, proposals: Vec<Proposal>) -> Vec<Laid> {
        let laid = |proposal: Proposal| Some(Laid { plan: proposal.edit().apply(&self.before).ok()?, proposal });
        proposals.into_iter().filter_map(laid).collect()
    }

    /// Whether this is the plan that was asked about.
    pub(crate) fn is_about(&self, plan: &Plan) -> bool {
        self.before == *plan
    }

    /// Whether the search for whole stacks ended with none that meets every check.
    pub(crate) fn is_in_vain(&self) -> bool {
        let is_whole = matches!(self.question, Question::Propose { .. });
        is_whole && self.is_over && !self.found.iter().any(|laid| laid.proposal.in_order())
    }

    /// Why it ended in vain: sentences, and the distances that are too short. None where it did not.
    pub(crate) fn reasons(&self) -> Option<(Vec<String>, Vec<Gap>)> {
        let best = self.found.first().filter(|_| self.is_in_vain())?;
        let shortfalls = &best.proposal.shortfalls;
        let sentences = shortfalls.iter().map(|short| format!("{}: {}", short.check.heading(), short.sentence));
        Some((sentences.collect(), shortfalls.iter().filter_map(|short| short.gap.clone()).collect()))
    }

    /// The part that is done; none once it is over.
    pub(crate) fn progress(&self) -> Option<f32> {
        #[expect(clippy::cast_precision_loss, reason = "thousandths")]
        let part = self.done.load(Ordering::Relaxed) as f32 / 1000.0;
        (!self.is_over).then_some(part)
    }
}

impl Drop for Arranger {
    fn drop(&mut self) {
        self.stop();
    }
}

fn answer(plan: &Plan, question: Question, heard: &arrange::Hearing) -> Vec<Proposal> {
    let wish = Wish::default();
    match question {
        Question::Propose { seed } => arrange::propose(plan, &Wish { seed, ..wish }, heard),
        Question::Order => arrange::order(plan, &wish, heard).into_iter().collect(),
        Question::Trim => arrange::trim(plan, &wish, heard).into_iter().collect(),
    }
}

fn hear(heard: &Heard, (out, ctx): (&Sender<News>, &Context), told: &AtomicU32, stopped: &AtomicBool) -> bool {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "thousandths")]
    told.fetch_max((heard.done.clamp(0.0, 1.0) * 1000.0) as u32, Ordering::Relaxed);
    if let Some(best) = heard.best {
        let is_wanted = out.send(News::Best(Box::new(best.clone()))).is_ok();
        ctx.request_repaint();
        return is_wanted && !stopped.load(Ordering::Relaxed);
    }
    !stopped.load(Ordering::Relaxed)
}
