//! The keys that are heard before any control of the page: STOP, and the number of a cause.

use super::desk::Desk;
use super::large::is_entered;
use eframe::egui::{Context, Event, InputState, Key};
use testday::{Entry, Stage, StopGround};

/// Keys of the causes, in their order.
const NUMBERS: [Key; 5] = [Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5];

impl Desk {
    /// Hears what goes before every control. While something lies over the page only STOP is heard.
    pub(crate) fn hear_keys(&mut self, ctx: &Context, covered: bool) {
        self.heard.before = std::mem::take(&mut self.heard.readings);
        self.heard.free = false;
        if !self.is_open() {
            return;
        }
        // A key that is held down is one press.
        ctx.input_mut(|input| input.events.retain(|event| !is_repeated(event)));
        let focused = ctx.memory(|memory| memory.focused());
        let takes_space = !self.types_words(ctx) && self.hears_space();
        let stop = ctx.input_mut(|input| {
            let space = takes_space && take(input, Key::Space);
            take(input, Key::F12) || space
        });
        if stop {
            self.stop_by_hand(ctx);
        }
        if !covered && focused.is_none() {
            self.heard.free = is_entered(ctx) && !self.side.is_open();
            self.hear_cause(ctx);
        }
    }

    /// Whether words are being typed, in which a space is a space.
    pub(super) fn types_words(&self, ctx: &Context) -> bool {
        let focused = ctx.memory(|memory| memory.focused());
        ctx.text_edit_focused() && !focused.is_some_and(|field| self.heard.before.contains(&field))
    }

    /// From the tare on, or from the first piece where nothing is weighed.
    fn hears_space(&self) -> bool {
        self.day().is_some_and(|day| {
            let run = day.run();
            day.ended.is_none() && (day.runs.len() > 1 || run.tare.is_some() || run.stage != Stage::Empty)
        })
    }

    /// Stops the day, whatever it is at; once it is stopped, and once it is over, nothing more comes of it.
    pub(super) fn stop_by_hand(&mut self, ctx: &Context) {
        if self.day().is_some_and(|day| day.stopped.is_none() && day.ended.is_none()) {
            let why = "stopped by hand".to_owned();
            self.enter(ctx, Entry::Stopped { why, causes: Vec::new(), ground: Some(StopGround::ByHand) });
        }
    }

    /// Whether everything stands still, by the log or by a stop that the log could not take.
    pub(super) fn is_stopped(&self) -> bool {
        self.unkept_stop || self.day().is_some_and(|day| day.stopped.is_some())
    }

    /// Chooses a told cause; what was done about it is typed next.
    pub(super) fn choose(&mut self, cause: usize) {
        self.chosen = Some(cause);
        self.focused = None;
    }

    fn hear_cause(&mut self, ctx: &Context) {
        let causes = self.causes().len();
        let pressed = NUMBERS.iter().take(causes).position(|key| ctx.input_mut(|input| take(input, *key)));
        if let Some(cause) = pressed.filter(|_| self.day().is_some_and(|day| day.stopped.is_some())) {
            self.choose(cause);
        }
    }
}

fn is_repeated(event: &Event) -> bool {
    matches!(event, Event::Key { key: Key::Enter | Key::Space, repeat: true, .. })
}

/// Takes a key out of what was pressed, with the character that it would type.
fn take(input: &mut InputState, wanted: Key) -> bool {
    let is_key = |event: &Event| matches!(event, Event::Key { key, pressed: true, .. } if *key == wanted);
    let pressed = input.events.iter().any(is_key);
    if pressed {
        let types = match wanted {
            Key::Space => " ",
            other => other.symbol_or_name(),
        };
        input.events.retain(|event| !is_key(event) && !matches!(event, Event::Text(text) if text == types));
    }
    pressed
}
