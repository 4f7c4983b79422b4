//! The four ways to look at the stack, and which of them are large.

use crate::pages::drawing::name;
use drafting::views::View;

/// A way to look at the stack.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Sight {
    /// In the round, turned by hand.
    Turned,
    /// What the page is for: lean and heights are seen here.
    #[default]
    Side,
    Front,
    Above,
}

impl Sight {
    /// In the order of their keys and thumbnails.
    pub(super) const ALL: [Self; 4] = [Self::Turned, Self::Side, Self::Front, Self::Above];

    /// The flat view that it is, if it is one.
    pub(super) fn flat(self) -> Option<View> {
        match self {
            Self::Turned => None,
            Self::Side => Some(View::Side),
            Self::Front => Some(View::Front),
            Self::Above => Some(View::Above),
        }
    }

    /// What its thumbnail is called.
    pub(super) fn name(self) -> &'static str {
        self.flat().map_or("Turned view", name)
    }

    /// The figure of its key.
    pub(super) fn key(self) -> &'static str {
        ["1", "2", "3", "4"][self as usize]
    }
}

/// The views that are large: one, and a second one where there is room for two.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Large {
    first: Sight,
    second: Sight,
}

impl Default for Large {
    fn default() -> Self {
        Self { first: Sight::Side, second: Sight::Turned }
    }
}

impl Large {
    /// Those of so many large views.
    pub(super) fn of(&self, count: usize) -> impl Iterator<Item = Sight> + use<> {
        [self.first, self.second].into_iter().take(count)
    }

    /// Makes a view the first of the large ones; where it was the second, they change places.
    pub(super) fn swap(&mut self, sight: Sight) {
        if sight == self.second {
            self.second = self.first;
        }
        self.first = sight;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_view_is_large_once_only_whichever_is_asked_for() {
        let mut large = Large::default();
        for sight in [Sight::Front, Sight::Above, Sight::Above, Sight::Side, Sight::Turned, Sight::Side] {
            large.swap(sight);
            let [first, second] = [large.of(2).next(), large.of(2).nth(1)];
            assert_eq!(first, Some(sight));
            assert_ne!(first, second, "both large views are {first:?}");
        }
    }
}
