//! A cell of a table for a spreadsheet: text stays text there.

/// What a spreadsheet takes for the beginning of a formula, wide forms too: `common practice, no source`.
const FORMULA: [char; 10] = ['=', '+', '-', '@', '\t', '\r', '＝', '＋', '－', '＠'];

/// A cell as it is written: one that would be reckoned as a formula begins with an apostrophe. A number
/// stays as it is, with its sign.
pub(crate) fn cell(text: &str) -> String {
    let is_number = || text.parse::<f64>().is_ok();
    if text.starts_with(FORMULA) && !is_number() { format!("'{text}") } else { text.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::cell;

    #[test]
    fn a_name_that_a_spreadsheet_would_reckon_stays_text_and_a_number_stays_one() {
        for name in ["=1+1", "+bag", "-bag", "@bag", "=HYPERLINK(\"x\")", "\t=1", "-1 mm", "＝1"] {
            assert_eq!(cell(name), format!("'{name}"));
        }
        for plain in ["-0.25", "+3", "-1e-3", "sand bag", "", "a=b", "0"] {
            assert_eq!(cell(plain), plain);
        }
    }
}
