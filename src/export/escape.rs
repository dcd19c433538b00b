//! Text in, the same text as it may stand in XML and HTML out.

/// The text with everything escaped that could be markup, and without what no such file may hold.
///
/// Source: XML 1.0 (fifth edition), 2.2 for the characters and 2.4 for what is escaped.
pub(super) fn escaped(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    for letter in printed(text) {
        match letter {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            '\'' => safe.push_str("&#39;"),
            _ => safe.push(letter),
        }
    }
    safe
}

/// The letters of a text that are printed: a tab or a new line as a space, and nothing that has no shape at all.
pub(super) fn printed(text: &str) -> impl Iterator<Item = char> {
    text.chars().filter_map(|letter| match letter {
        '\t' | '\n' | '\r' => Some(' '),
        '\u{fffe}' | '\u{ffff}' => None,
        _ if letter.is_control() => None,
        _ => Some(letter),
    })
}
