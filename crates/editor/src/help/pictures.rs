//! Pictures of this window, one for each job. A test takes them: they show the window as it is.

use super::job::Job;
use crate::pages::fixture::decode;
use eframe::egui::{Context, Id, TextureHandle, TextureOptions};

/// The picture of a job, decoded once; none that cannot be decoded.
pub(super) fn texture(ctx: &Context, job: Job) -> Option<TextureHandle> {
    let id = Id::unique("help picture").with(job.file());
    if let Some(kept) = ctx.data(|data| data.get_temp::<TextureHandle>(id)) {
        return Some(kept);
    }
    let image = decode(bytes(job)).ok()?.image;
    let texture = ctx.load_texture(job.file(), image, TextureOptions::LINEAR);
    ctx.data_mut(|data| data.insert_temp(id, texture.clone()));
    Some(texture)
}

fn bytes(job: Job) -> &'static [u8] {
    match job {
        Job::Begin => include_bytes!("../../../../assets/pictures/help/begin.png"),
        Job::LoadCase => include_bytes!("../../../../assets/pictures/help/load-case.png"),
        Job::Fixture => include_bytes!("../../../../assets/pictures/help/fixture.png"),
        Job::Ballast => include_bytes!("../../../../assets/pictures/help/ballast.png"),
        Job::Bags => include_bytes!("../../../../assets/pictures/help/bags.png"),
        Job::Stack => include_bytes!("../../../../assets/pictures/help/stack.png"),
        Job::Propose => include_bytes!("../../../../assets/pictures/help/propose.png"),
        Job::Findings => include_bytes!("../../../../assets/pictures/help/findings.png"),
        Job::Sheet => include_bytes!("../../../../assets/pictures/help/sheet.png"),
        Job::TestDay => include_bytes!("../../../../assets/pictures/help/test-day.png"),
    }
}
