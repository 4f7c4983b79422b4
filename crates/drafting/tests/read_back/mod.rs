//! Pages read back with a reader of PDF that is not ours.

use lopdf::Document;

/// The text of each page, as lopdf reads it, white space made single.
pub(crate) fn texts(bytes: &[u8]) -> Vec<String> {
    let document = Document::load_mem(bytes).expect("a PDF that another reader opens");
    let pages = document.get_pages();
    let text = |page: &u32| document.extract_text(&[*page]).expect("a page with text");
    pages.keys().map(|page| text(page).split_whitespace().collect::<Vec<_>>().join(" ")).collect()
}
