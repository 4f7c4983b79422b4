//! The full assessment on a thread of its own. An answer to an older question is dropped: nothing
//! stale is shown as fresh.

use assess::{Assessment, Reach};
use eframe::egui::Context;
use plan::Plan;
use std::sync::mpsc::{Receiver, Sender, channel};

struct Job {
    generation: u64,
    plan: Plan,
}

struct Done {
    generation: u64,
    assessment: Assessment,
}

/// A thread that assesses the newest plan it was asked about.
pub struct Worker {
    jobs: Sender<Job>,
    done: Receiver<Done>,
    generation: u64,
    waiting: bool,
}

impl Worker {
    /// Starts the thread; it ends with the window.
    ///
    /// # Errors
    /// The system's, where it has no thread to give.
    pub fn start(ctx: Context) -> std::io::Result<Self> {
        let ((jobs, inbox), (out, done)) = (channel::<Job>(), channel());
        std::thread::Builder::new().name("assessment".into()).spawn(move || {
            while let Ok(mut job) = inbox.recv() {
                // Only the newest question matters.
                while let Ok(newer) = inbox.try_recv() {
                    job = newer;
                }
                let assessment = assess::assess(&job.plan, Reach::Full);
                if out.send(Done { generation: job.generation, assessment }).is_err() {
                    return;
                }
                ctx.request_repaint();
            }
        })?;
        Ok(Self { jobs, done, generation: 0, waiting: false })
    }

    /// Asks for the full assessment of a plan; whatever was asked before is forgotten.
    pub fn ask(&mut self, plan: &Plan) {
        self.generation += 1;
        self.waiting = self.jobs.send(Job { generation: self.generation, plan: plan.clone() }).is_ok();
    }

    /// Forgets the question in hand.
    pub fn forget(&mut self) {
        self.generation += 1;
        self.waiting = false;
    }

    /// Whether an answer is due.
    pub fn is_waiting(&self) -> bool {
        self.waiting
    }

    /// The answer to the newest question, once it is there.
    pub fn poll(&mut self) -> Option<Assessment> {
        let newest = self.done.try_iter().filter(|d| d.generation == self.generation).last()?;
        self.waiting = false;
        Some(newest.assessment)
    }
}
