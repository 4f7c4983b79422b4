//! The full assessment on a thread of its own, with progress. A question that is no longer the newest
//! is stopped, an answer to it dropped: nothing stale is shown as fresh.

use crate::lately::{Known, LATELY, Lately};
use assess::{Ask, Assessment, Recall};
use eframe::egui::Context;
use plan::Plan;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::atomic::{AtomicU32, AtomicU64, Ordering};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, LazyLock};
use std::time::Duration;

struct Job {
    generation: u64,
    plan: Plan,
}

struct Done {
    generation: u64,
    answer: Answer,
}

/// How the work on a question ended.
pub enum Answer {
    /// It is worked out.
    Done(Box<Assessment>),
    /// The work broke down: a bug of ours. The question stays undecided.
    Failed,
}

/// What works a plan out: it tells the part that is done and hears whether to go on. What comes of work that
/// was stopped is not read.
pub type Work = fn(&Plan, &(dyn Fn(f64) -> bool + Sync)) -> Assessment;

/// A thread that assesses the newest plan it was asked about.
pub struct Worker {
    jobs: Sender<Job>,
    done: Receiver<Done>,
    /// The question that is wanted; the thread stops any other.
    wanted: Arc<AtomicU64>,
    /// The part that is done, in thousandths.
    progress: Arc<AtomicU32>,
    waiting: bool,
}

/// With the window goes the question: its thread must not work on for nobody.
impl Drop for Worker {
    fn drop(&mut self) {
        self.forget();
    }
}

/// What the thread has at hand.
struct Desk {
    out: Sender<Done>,
    wanted: Arc<AtomicU64>,
    progress: Arc<AtomicU32>,
    work: Work,
    lately: Option<&'static Lately>,
    ctx: Context,
}

/// Nobody listens any more.
struct Gone;

impl Desk {
    fn serve(&self, inbox: &Receiver<Job>) {
        while let Ok(mut job) = inbox.recv() {
            // Only the newest question matters.
            while let Ok(newer) = inbox.try_recv() {
                job = newer;
            }
            if self.answer(&job).is_err() {
                return;
            }
        }
    }

    /// Whether a question is still wanted, which hears how far it got.
    fn heard(&self, job: &Job, part: f64) -> bool {
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "thousandths")]
        self.progress.store((part.clamp(0.0, 1.0) * 1000.0) as u32, Ordering::Relaxed);
        self.wanted.load(Ordering::Relaxed) == job.generation
    }

    fn answer(&self, job: &Job) -> Result<(), Gone> {
        if let Some(known) = self.lately.and_then(|lately| lately.of(&job.plan)) {
            self.send(job, Answer::Done(Box::new(known.assessment.clone())))?;
            return if known.mended { Ok(()) } else { self.mend(job, known.assessment) };
        }
        // A plan that breaks the work down must not take the window with it.
        let work = AssertUnwindSafe(|| (self.work)(&job.plan, &|part| self.heard(job, part)));
        let Ok(assessment) = catch_unwind(work) else { return self.send(job, Answer::Failed) };
        self.send(job, Answer::Done(Box::new(assessment.clone())))?;
        self.keep(job, &assessment, false);
        self.mend(job, assessment)
    }

    /// What mends the findings comes after them: each try is an assessment of its own.
    fn mend(&self, job: &Job, mut assessment: Assessment) -> Result<(), Gone> {
        let work = AssertUnwindSafe(|| assess::mend(&job.plan, &mut assessment, &|| self.heard(job, 1.0)));
        if catch_unwind(work).is_err() {
            return Ok(());
        }
        self.keep(job, &assessment, true);
        if assessment.remedies.iter().all(Option::is_none) {
            return Ok(());
        }
        self.send(job, Answer::Done(Box::new(assessment)))
    }

    /// Keeps what nothing stopped.
    fn keep(&self, job: &Job, assessment: &Assessment, mended: bool) {
        if let Some(lately) = self.lately.filter(|_| self.heard(job, 1.0)) {
            lately.keep(&job.plan, Known { assessment: assessment.clone(), mended });
        }
    }

    fn send(&self, job: &Job, answer: Answer) -> Result<(), Gone> {
        self.out.send(Done { generation: job.generation, answer }).or(Err(Gone))?;
        self.ctx.request_repaint();
        Ok(())
    }
}

/// What the solvers found of the plans that this program assessed lately: an edit leaves most of it as it was.
static RECALL: LazyLock<Recall> = LazyLock::new(Recall::default);

/// What is kept of stacks of no more pieces: a greater one holds too much memory.
const MOST_PIECES: usize = 150;

fn asked<'a>(plan: &Plan, heard: &'a (dyn Fn(f64) -> bool + Sync)) -> Ask<'a> {
    let recall = (plan.steps() <= MOST_PIECES).then(|| &*RECALL);
    Ask { progress: heard, recall, ..Ask::full() }
}

/// How often the window looks at the progress.
const LOOK_AGAIN: Duration = Duration::from_millis(120);

impl Worker {
    /// Starts the thread; it ends with the window.
    ///
    /// # Errors
    /// The system's, where it has no thread to give.
    pub fn start(ctx: Context) -> std::io::Result<Self> {
        Self::recalling(ctx, |plan, heard| assess::assess(plan, asked(plan, heard)), Some(&LATELY))
    }

    /// The same with other work: for tests.
    ///
    /// # Errors
    /// The system's, where it has no thread to give.
    pub fn working(ctx: Context, work: Work) -> std::io::Result<Self> {
        Self::recalling(ctx, work, None)
    }

    fn recalling(ctx: Context, work: Work, lately: Option<&'static Lately>) -> std::io::Result<Self> {
        let ((jobs, inbox), (out, done)) = (channel::<Job>(), channel());
        let (wanted, progress) = (Arc::new(AtomicU64::new(0)), Arc::new(AtomicU32::new(0)));
        let desk = Desk { out, wanted: Arc::clone(&wanted), progress: Arc::clone(&progress), work, lately, ctx };
        std::thread::Builder::new().name("assessment".into()).spawn(move || desk.serve(&inbox))?;
        Ok(Self { jobs, done, wanted, progress, waiting: false })
    }

    /// Asks for the full assessment of a plan; whatever was asked before is forgotten.
    pub fn ask(&mut self, plan: &Plan) {
        let generation = self.wanted.fetch_add(1, Ordering::Relaxed) + 1;
        self.progress.store(0, Ordering::Relaxed);
        self.waiting = self.jobs.send(Job { generation, plan: plan.clone() }).is_ok();
    }

    /// Forgets the question in hand.
    pub fn forget(&mut self) {
        self.wanted.fetch_add(1, Ordering::Relaxed);
        self.waiting = false;
    }

    /// The part of the work that is done, while an answer is due; asks for another frame to show more.
    pub fn progress(&self, ctx: &Context) -> Option<f32> {
        if self.waiting {
            ctx.request_repaint_after(LOOK_AGAIN);
        }
        #[expect(clippy::cast_precision_loss, reason = "thousandths")]
        self.waiting.then(|| self.progress.load(Ordering::Relaxed) as f32 / 1000.0)
    }

    /// The answer to the newest question, once it is there.
    pub fn poll(&mut self) -> Option<Answer> {
        let wanted = self.wanted.load(Ordering::Relaxed);
        let newest = self.done.try_iter().filter(|d| d.generation == wanted).last()?;
        self.waiting = false;
        Some(newest.answer)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn answer(worker: &mut Worker) -> Answer {
        loop {
            if let Some(answer) = worker.poll() {
                return answer;
            }
            std::thread::yield_now();
        }
    }

    #[test]
    fn work_that_breaks_down_is_told_and_the_next_question_is_answered() {
        let work: Work = |plan, _| {
            assert_ne!(plan.title, "broken", "as a bug of ours would");
            assess::assess(plan, Ask::closed())
        };
        let mut worker = Worker::working(Context::default(), work).expect("a thread");
        let mut plan = Plan::blank(quantity::Units::Metric);
        plan.title = "broken".to_owned();
        worker.ask(&plan);
        assert!(matches!(answer(&mut worker), Answer::Failed));
        assert!(worker.progress(&Context::default()).is_none(), "nothing is waited for");
        plan.title = "sound".to_owned();
        worker.ask(&plan);
        assert!(matches!(answer(&mut worker), Answer::Done(_)));
    }

    #[test]
    fn answers_are_kept_of_stacks_up_to_a_size() {
        let mut plan = Plan::blank(quantity::Units::Metric);
        let at = [quantity::Length::m(0.0); 2];
        let place = |item: usize| plan::Place {
            lot: "bag".to_owned(),
            item: u32::try_from(item).expect("few"),
            at,
            turn: plan::Turn::Lengthwise,
            locked: false,
        };
        plan.stack = (1..=MOST_PIECES).map(place).collect();
        assert!(asked(&plan, &|_| true).recall.is_some(), "{MOST_PIECES} pieces");
        plan.stack.push(place(MOST_PIECES + 1));
        assert!(asked(&plan, &|_| true).recall.is_none(), "one more");
    }
}
