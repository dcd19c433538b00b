//! Text in, its width out: the measure that every text box is made with.
//!
//! *Units*: millimetres of paper. The face is `DejaVu Sans` 2.37, whose license is that of Bitstream Vera;
//! letters are set without kerning, so a width is the sum of the advances.

use std::sync::LazyLock;

use ttf_parser::Face;

/// The face's name in files.
pub const FACE: &str = "DejaVu Sans";

/// Height of the face's capitals, as a share of the size.
const CAPITAL: f64 = 0.729;

/// Size of letters whose capitals are 2.5 mm high, the smallest on any sheet: a nominal size of ISO 3098-1:2015
/// (its row of nominal sizes, from memory), which a copy at half the area still shows.
pub const SMALLEST: f64 = 2.5 / CAPITAL;

/// From one line of them to the next: letters, what reaches below, and a gap of a third of their size.
pub const LINE: f64 = 1.34 * SMALLEST;

/// What a letter that the face does not have takes up, as a share of the size.
const UNKNOWN: f64 = 0.6;

/// How far letters reach over the line they stand on, as a share of the size.
pub const ASCENT: f64 = 0.77;

/// How far letters reach under the line they stand on, as a share of the size.
pub const DESCENT: f64 = 0.24;

static LETTERS: LazyLock<Option<Face<'static>>> =
    LazyLock::new(|| Face::parse(dejavu::sans::regular(), 0).ok());

/// The face's own file.
pub fn face_bytes() -> &'static [u8] {
    dejavu::sans::regular()
}

/// Width of a text in a size.
pub fn width(text: &str, size: f64) -> f64 {
    text.chars().map(advance).sum::<f64>() * size
}

/// The text in as few lines as a width allows, broken between words; a word that is too wide stands alone.
pub fn wrapped(text: &str, size: f64, room: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in words(text) {
        match lines.last_mut() {
            Some(line) if width(&format!("{line} {word}"), size) <= room => {
                line.push(' ');
                line.push_str(&word);
            }
            _ => lines.push(word),
        }
    }
    lines
}

/// The words of a text; a page stays with its number, and a number with its unit and its fraction.
fn words(text: &str) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        match words.last_mut() {
            Some(last) if belongs(last, word) => {
                last.push(' ');
                last.push_str(word);
            }
            _ => words.push(word.to_owned()),
        }
    }
    words
}

/// Whether a word says no more than a part of what the word before it does: `p. 12`, `450 mm`, `12'-0 1/2"`.
fn belongs(before: &str, word: &str) -> bool {
    let is_number = before.ends_with(|it: char| it.is_ascii_digit());
    let is_unit = word.trim_end_matches(|it: char| ",;:.)".contains(it)) == "mm";
    before == "p." || is_number && (is_unit || before.contains("'-") && word.contains('/'))
}

/// The text, or as much of its beginning as a width allows, with an ellipsis.
pub fn shortened(text: &str, size: f64, room: f64) -> String {
    if width(text, size) <= room {
        return text.to_owned();
    }
    let mut kept = String::new();
    for letter in text.chars() {
        if width(&format!("{kept}{letter}…"), size) > room {
            break;
        }
        kept.push(letter);
    }
    kept.push('…');
    kept
}

/// The number of a letter's shape in the face; 0, the shape of what it does not have, for a letter unknown to it.
pub fn glyph(letter: char) -> u16 {
    let known = LETTERS.as_ref().and_then(|face| face.glyph_index(letter));
    known.map_or(0, |glyph| glyph.0)
}

/// How far a letter takes the next one along, as a share of the size.
pub fn advance(letter: char) -> f64 {
    let known = LETTERS.as_ref().and_then(|face| {
        let glyph = face.glyph_index(letter)?;
        Some(f64::from(face.glyph_hor_advance(glyph)?) / f64::from(face.units_per_em()))
    });
    known.unwrap_or(UNKNOWN)
}
