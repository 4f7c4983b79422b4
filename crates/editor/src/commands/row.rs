//! A line of the table of commands, and the macro that makes the table and its identities of such lines.

use super::keys::Keys;

/// A line of the table.
pub(crate) struct Row<A: Stated> {
    /// Which command it is.
    pub(crate) act: A,
    /// As a menu or a button names it.
    pub(crate) name: &'static str,
    pub(crate) keys: Keys,
    /// When it can be given.
    pub(crate) when: fn(&A::State) -> bool,
    /// Where the help tells it.
    pub(crate) part: Part,
    /// What it does, for the help.
    pub(crate) does: &'static str,
}

/// What has a table of commands.
pub(crate) trait Stated: Copy + PartialEq + 'static {
    /// What decides which of them can be given.
    type State;
    /// All of them.
    const TABLE: &'static [Row<Self>];

    /// Its line.
    fn row(self) -> &'static Row<Self> {
        let line = Self::TABLE.iter().find(|row| row.act == self);
        line.expect("the macro writes a line for each")
    }

    /// Its keys in words.
    fn keys(self) -> String {
        self.row().keys.words()
    }

    /// What it does, with the first of its keys, for under the pointer: `A copy beside it: Ctrl+D`.
    fn hint(self, about: &str) -> String {
        format!("{about}: {}", self.row().keys.first())
    }
}

/// A part of the help on keys.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Part {
    Placing,
    Selecting,
    Changing,
    Order,
    Looking,
    Fixture,
    TestDay,
    Window,
}

impl Part {
    /// In the order in which they are shown.
    pub(crate) const ALL: [Part; 8] = [
        Part::Placing,
        Part::Selecting,
        Part::Changing,
        Part::Order,
        Part::Looking,
        Part::Fixture,
        Part::TestDay,
        Part::Window,
    ];

    /// Its head.
    pub(crate) fn head(self) -> &'static str {
        match self {
            Part::Placing => "Placing",
            Part::Selecting => "Selecting",
            Part::Changing => "Changing what is selected",
            Part::Order => "Steps and order",
            Part::Looking => "Looking",
            Part::Fixture => "Fixture page",
            Part::TestDay => "Test day page",
            Part::Window => "Plan and window",
        }
    }
}

/// Commands of one place, a line each: identity, name, keys, when it can be given, part of the help,
/// what it does.
macro_rules! commands {
    ($(#[$about:meta])* $place:ident of $state:ty { $($act:ident: $name:expr, $keys:expr, $when:expr, $part:ident, $does:expr;)* }) => {
        $(#[$about])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub(crate) enum $place { $($act),* }

        impl Stated for $place {
            type State = $state;
            const TABLE: &'static [Row<Self>] = &[$(Row {
                act: $place::$act,
                name: $name,
                keys: $keys,
                when: $when,
                part: Part::$part,
                does: $does,
            }),*];
        }
    };
}

pub(super) use commands;
