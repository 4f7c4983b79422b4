//! Keys: how they are written, and how often they were pressed.

use eframe::egui::{Context, Event, InputState, Key, Modifiers};

/// A key with what is held down beside it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Chord {
    modifiers: Modifiers,
    key: Key,
}

/// What gives a command by the keyboard.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Keys {
    /// Any of these; none of them where there are no keys.
    Any(&'static [Chord]),
    /// The four arrows. What is done reads them by itself: it matters which, and how often.
    Arrows,
    /// What the system says of the clipboard. What is done reads it by itself.
    Clipboard,
}

impl Chord {
    /// The key alone.
    pub(crate) const fn bare(key: Key) -> Self {
        Self { modifiers: Modifiers::NONE, key }
    }

    /// With Ctrl.
    pub(crate) const fn ctrl(key: Key) -> Self {
        Self { modifiers: Modifiers::COMMAND, key }
    }

    /// With Ctrl and Shift.
    pub(crate) const fn ctrl_shift(key: Key) -> Self {
        Self { modifiers: Modifiers { shift: true, ..Modifiers::COMMAND }, key }
    }

    /// Whether more is held down than with others of the same key: these are looked for first, since
    /// fewer would match them too.
    pub(crate) fn is_with_shift(self) -> bool {
        self.modifiers.shift
    }

    /// Whether it is a character where a text is being typed.
    pub(crate) fn is_typed(self) -> bool {
        !self.modifiers.command && !matches!(self.key, Key::F1 | Key::F2 | Key::F11)
    }

    /// How often it was pressed in this frame; it is used up then.
    pub(crate) fn presses(self, input: &mut InputState) -> usize {
        input.count_and_consume_key(self.modifiers, self.key)
    }

    fn words(self) -> String {
        let ctrl = if self.modifiers.command { "Ctrl+" } else { "" };
        let shift = if self.modifiers.shift { "Shift+" } else { "" };
        format!("{ctrl}{shift}{}", name(self.key))
    }
}

fn name(key: Key) -> &'static str {
    match key {
        Key::Escape => "Esc",
        Key::PageUp => "Page up",
        Key::PageDown => "Page down",
        Key::OpenBracket => "[",
        Key::CloseBracket => "]",
        Key::Questionmark => "?",
        Key::Plus => "+",
        Key::Minus => "-",
        Key::Equals => "=",
        Key::Comma => ",",
        Key::Period => ".",
        other => other.name(),
    }
}

impl Keys {
    /// One by one.
    pub(crate) fn chords(self) -> &'static [Chord] {
        match self {
            Keys::Any(chords) => chords,
            Keys::Arrows | Keys::Clipboard => &[],
        }
    }

    /// Whether there are none.
    pub(crate) fn are_none(self) -> bool {
        matches!(self, Keys::Any([]))
    }

    /// All of them in words: `Delete, Backspace`.
    pub(crate) fn words(self) -> String {
        match self {
            Keys::Any(chords) => chords.iter().map(|chord| chord.words()).collect::<Vec<_>>().join(", "),
            Keys::Arrows => "arrows".to_owned(),
            Keys::Clipboard => "Ctrl+C, Ctrl+X, Ctrl+V".to_owned(),
        }
    }

    /// The first of them in words, for where one is enough.
    pub(crate) fn first(self) -> String {
        self.chords().first().map_or_else(String::new, |chord| chord.words())
    }

    /// How often they were pressed in this frame. Those of chords are used up then; arrows and
    /// clipboard are left to what is done.
    pub(crate) fn presses(self, ctx: &Context) -> usize {
        let is_arrow = |key: &Key| matches!(key, Key::ArrowUp | Key::ArrowDown | Key::ArrowLeft | Key::ArrowRight);
        let arrow = |event: &Event| matches!(event, Event::Key { key, pressed: true, .. } if is_arrow(key));
        let clipboard = |event: &Event| matches!(event, Event::Copy | Event::Cut | Event::Paste(_));
        ctx.input_mut(|input| match self {
            Keys::Any(chords) => chords.iter().map(|chord| chord.presses(input)).sum(),
            Keys::Arrows => input.events.iter().filter(|event| arrow(event)).count(),
            Keys::Clipboard => input.events.iter().filter(|event| clipboard(event)).count(),
        })
    }
}
