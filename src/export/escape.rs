//! Text in, the same text as it may stand in XML and HTML out.

/// The text with everything escaped that could be markup, and without what no such file may hold.
///
/// Source: XML 1.0 (fifth edition), 2.2 for the characters and 2.4 for what is escaped.
pub(super) fn escaped(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            '\'' => safe.push_str("&#39;"),
            '\t' | '\n' | '\r' => safe.push(' '),
            '\u{fffe}' | '\u{ffff}' => {}
            _ if letter.is_control() => {}
            _ => safe.push(letter),
        }
    }
    safe
}
