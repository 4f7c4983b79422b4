//! A cell of a table for a spreadsheet: text stays text there.

/// What a spreadsheet takes for the beginning of a formula, wide forms too: `common practice, no source`.
const FORMULA: [char; 10] = ['=', '+', '-', '@', '\t', '\r', '＝', '＋', '－', '＠'];

/// A cell as it is written: one that would be reckoned as a formula begins with an apostrophe, also where a
/// program that opens it takes blanks and line breaks off first. A number stays as it is, with its sign.
pub(crate) fn cell(text: &str) -> String {
    let begins = text.starts_with(FORMULA) || text.trim_start().starts_with(FORMULA);
    let is_number = || text.parse::<f64>().is_ok_and(f64::is_finite);
    if begins && !is_number() { format!("'{text}") } else { text.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::cell;

    #[test]
    fn a_name_that_a_spreadsheet_would_reckon_stays_text_and_a_number_stays_one() {
        for name in [
            "=1+1",
            "+bag",
            "-bag",
            "@bag",
            "=HYPERLINK(\"x\")",
            "\t=1",
            "-1 mm",
            "＝1",
            "\n=1",
            " =1",
            "\u{a0}@x",
            "-inf",
        ] {
            assert_eq!(cell(name), format!("'{name}"));
        }
        for plain in ["-0.25", "+3", "-1e-3", "sand bag", "", "a=b", "0", " bag"] {
            assert_eq!(cell(plain), plain);
        }
    }
}
