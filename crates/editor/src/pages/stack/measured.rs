//! What is measured between two clicks.

use drafting::views::View;

/// What is measured; nothing yet where no point was clicked.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Measure {
    /// The view and the first point in its plane, m.
    pub(super) from: Option<(View, [f64; 2])>,
    /// The second point, m.
    pub(super) to: Option<[f64; 2]>,
}

impl Measure {
    /// Begun at a point of a view.
    pub(super) fn begun(view: View, at: [f64; 2]) -> Self {
        Self { from: Some((view, at)), to: None }
    }

    /// The first click begins, the second one ends, the third begins anew; so does one in another view.
    pub(super) fn clicked(self, view: View, at: [f64; 2]) -> Self {
        match self {
            Self { from: Some((of, from)), to: None } if of == view => Self { from: Some((of, from)), to: Some(at) },
            _ => Self::begun(view, at),
        }
    }

    /// The first of its points.
    #[cfg(test)]
    pub(super) fn ends(self) -> Option<[[f64; 2]; 2]> {
        Some([self.from?.1, self.to?])
    }
}
