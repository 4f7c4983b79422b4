//! Why a text is not a plan.

/// Why a text is not a plan: where, and one sentence that says what is wrong and what would fit.
/// Its text is `LINE:COLUMN: sentence`, so that the caller only puts the file's name before it.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{line}:{column}: {sentence}")]
pub struct Unreadable {
    /// Line in the text, from 1.
    pub line: usize,
    /// Column in the line, from 1, counted in characters.
    pub column: usize,
    /// What is wrong and what would fit.
    pub sentence: String,
}

impl Unreadable {
    /// At a byte of the text; a byte within a character counts as that character.
    pub(super) fn at_byte(text: &str, byte: usize, sentence: String) -> Self {
        let before = &text[..text.floor_char_boundary(byte)];
        let line_start = before.rfind('\n').map_or(0, |newline| newline + 1);
        Self {
            line: 1 + before.bytes().filter(|b| *b == b'\n').count(),
            column: 1 + before[line_start..].chars().count(),
            sentence: short(sentence),
        }
    }
}

/// The longest sentence that anybody reads, characters; of a longer one, which quotes what stands in the file, the
/// beginning and the end are kept, where it says what is wrong and what fits. `common practice, no source`.
const LONGEST: [usize; 2] = [500, 250];

fn short(sentence: String) -> String {
    let [head, tail] = LONGEST;
    let Some((cut, _)) = sentence.char_indices().nth(head) else { return sentence };
    let Some((end, _)) = sentence.char_indices().rev().nth(tail - 1).filter(|(end, _)| *end > cut) else {
        return sentence;
    };
    format!("{} … {}", &sentence[..cut], &sentence[end..])
}
