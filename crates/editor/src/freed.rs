//! Memory that one frame gives back and the next one takes again.

/// How much of it is kept, bytes: what a frame of thousands of pieces takes at the most.
const KEPT: usize = 8 << 20;

/// Has freed memory kept for what is asked for next. An allocator that hands what is freed to the system at once would
/// fetch it anew, page by page, in every frame: a tenth of what a frame costs. That of glibc learns from the blocks that
/// are freed how much to keep (its manual, mallopt(3), on M_MMAP_THRESHOLD); elsewhere nothing comes of this. The block
/// is never written to and so takes no memory.
pub(crate) fn keep() {
    drop(std::hint::black_box(Vec::<u8>::with_capacity(KEPT)));
}
