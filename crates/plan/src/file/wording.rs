//! RON's own errors in words for people who fill in a plan, not a data format.

use super::Unreadable;
use ron::error::{Error, SpannedError};

/// Where reading stopped, and why, in words.
pub(super) fn unreadable(text: &str, error: &SpannedError) -> Unreadable {
    let byte = byte_of(text, error.span.start.line, error.span.start.col);
    if text.trim().is_empty() {
        return Unreadable::at_byte(
            text,
            0,
            "the file is empty: a plan is expected, which begins with Plan(".to_owned(),
        );
    }
    let sentence = match text[byte..].trim_ascii() {
        "" => "the file ends in the middle of the plan".to_owned(),
        _ => sentence(&error.code),
    };
    Unreadable::at_byte(text, byte, sentence)
}

/// The byte at a line and column of RON's count, moved on over blanks and line ends to what stands there.
fn byte_of(text: &str, line: usize, column: usize) -> usize {
    let line_start = text.split_inclusive('\n').take(line - 1).map(str::len).sum::<usize>();
    let rest = &text[line_start..];
    let byte = line_start + rest.char_indices().nth(column - 1).map_or(rest.len(), |(byte, _)| byte);
    byte + text[byte..].bytes().take_while(u8::is_ascii_whitespace).count()
}

fn sentence(error: &Error) -> String {
    match error {
        Error::NoSuchStructField { expected, found, outer } => {
            format!("{} has no field “{found}”: {} fit", named(outer.as_deref()), list(expected, "and"))
        }
        Error::MissingStructField { field, outer } => {
            format!("{} ends here without its field “{field}”: add it", named(outer.as_deref()))
        }
        Error::DuplicateStructField { field, outer } => {
            format!("{} has its field “{field}” twice: keep one of them", named(outer.as_deref()))
        }
        Error::NoSuchEnumVariant { expected, found, .. } => {
            format!("“{found}” does not fit here: {} is expected", list(expected, "or"))
        }
        Error::ExpectedDifferentStructName { expected, found } => {
            format!("“{found}” does not fit here: {expected}(…) is expected")
        }
        Error::ExpectedNamedStructLike(name) => format!("{name}(…) is expected here"),
        Error::InvalidValueForType { expected, found } => format!("{expected} is expected here, not {found}"),
        Error::ExpectedDifferentLength { expected, found } => {
            let due = expected.strip_prefix("an array of length ").unwrap_or(expected);
            format!("{due} values in round brackets are expected here, and {found} stand here")
        }
        Error::SuggestRawIdentifier(found) | Error::InvalidIdentifier(found) => no_name(found),
        Error::UnexpectedChar(found) => unexpected(*found),
        // Our own sentences, from the reading of a part.
        Error::Message(sentence) => sentence.clone(),
        plain => plain_sentence(plain).map_or_else(|| format!("the text cannot be read here: {plain}"), str::to_owned),
    }
}

fn plain_sentence(error: &Error) -> Option<&'static str> {
    Some(match error {
        Error::ExpectedOption => {
            "this value may be left out, so it is written in Some(…), such as Some(\"500 kg\"), or as None where it is left out"
        }
        Error::ExpectedFloat => {
            "a plain number is expected here, such as 1.5, without a unit and without quotation \
                                 marks"
        }
        Error::ExpectedInteger | Error::IntegerOutOfBounds => {
            "a whole number is expected here, such as 3, without a sign and quotation marks; items are numbered \
             from 1"
        }
        Error::ExpectedBoolean => "true or false is expected here",
        Error::ExpectedString => "text in quotation marks is expected here",
        Error::ExpectedArray => "a list in square brackets is expected here",
        Error::ExpectedMap => {
            "weighed masses by item number in curly brackets are expected here, such as {3: \
                               \"24.6 kg\"}"
        }
        Error::ExpectedStructLike => "values in round brackets are expected here",
        Error::ExpectedMapColon => "a colon and the field's value are expected here",
        Error::ExpectedIdentifier => "a name without quotation marks is expected here",
        _ => return bracket_sentence(error),
    })
}

fn bracket_sentence(error: &Error) -> Option<&'static str> {
    Some(match error {
        Error::ExpectedComma => "a comma or a closing bracket is expected here",
        Error::ExpectedStructLikeEnd | Error::ExpectedOptionEnd => "a closing round bracket is expected here",
        Error::ExpectedArrayEnd => "a closing square bracket is expected here",
        Error::ExpectedMapEnd => "a closing curly bracket is expected here",
        Error::ExpectedStringEnd => "the text that begins here has no closing quotation mark",
        Error::UnclosedBlockComment => "this comment is not closed: */ is expected",
        Error::TrailingCharacters => "the plan ends before this: nothing may follow its closing bracket",
        Error::Eof => "the file ends in the middle of the plan",
        Error::ExceededRecursionLimit => "the brackets go deeper here than in any plan",
        _ => return None,
    })
}

fn unexpected(found: char) -> String {
    if "“”„‟«»‘’‚".contains(found) {
        return format!(
            "the quotation mark {found} does not fit here: texts and values stand between two straight ones, \""
        );
    }
    format!("the sign {found} does not fit here")
}

fn no_name(found: &str) -> String {
    if found.starts_with(|c: char| c.is_ascii_digit()) {
        format!("a field is expected here, not “{found}”: a decimal is written with a point")
    } else {
        format!("“{found}” is no name of a field")
    }
}

fn named(outer: Option<&str>) -> &str {
    outer.unwrap_or("this part")
}

fn list(words: &[&str], joint: &str) -> String {
    match words {
        [] => "nothing".to_owned(),
        [only] => (*only).to_owned(),
        [others @ .., last] => format!("{} {joint} {last}", others.join(", ")),
    }
}
