//! How the page is parted at each size of the window: columns, views and timeline, points.

/// How much room there is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Room {
    /// One view; the tray is a column of pictures.
    Small,
    /// One view with narrow thumbnails.
    Middle,
    /// One view with thumbnails.
    Usual,
    /// Two views, and every chart at once.
    Wide,
}

impl Room {
    /// Of a page as wide as this.
    pub(super) fn of(width: f32) -> Self {
        match width {
            w if w < 1200.0 => Self::Small,
            w if w < 1400.0 => Self::Middle,
            w if w < 2200.0 => Self::Usual,
            _ => Self::Wide,
        }
    }

    /// Width of the column of tray and steps.
    pub(super) fn left(self) -> f32 {
        [56.0, 186.0, 216.0, 280.0][self as usize]
    }

    /// Width of the column of findings.
    pub(super) fn right(self) -> f32 {
        [232.0, 270.0, 316.0, 400.0][self as usize]
    }

    /// Width of the column of thumbnails; none where there is one view alone.
    pub(super) fn thumbs(self) -> Option<f32> {
        [None, Some(150.0), Some(176.0), Some(320.0)][self as usize]
    }

    /// Height of the timeline.
    pub(super) fn timeline(self) -> f32 {
        [96.0, 126.0, 146.0, 168.0][self as usize]
    }
}
