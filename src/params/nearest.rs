//! The valid key nearest to one that is not.

use super::list::{GROUPS, PARAMETERS};
use super::table::Parameter;

/// How many letters may be off before a key is no likely slip of another: 2, or a third of its letters.
fn likely(letters: usize) -> usize {
    (letters / 3).max(2)
}

/// The parameter whose name is nearest to `name`, one of the same group before others; `None` if none is near.
pub(super) fn parameter(group: &str, name: &str) -> Option<&'static Parameter> {
    PARAMETERS
        .iter()
        .map(|parameter| {
            (
                distance(name, parameter.name),
                parameter.group != group,
                parameter,
            )
        })
        .min_by_key(|(distance, other_group, _)| (*distance, *other_group))
        .filter(|(distance, ..)| *distance <= likely(name.chars().count()))
        .map(|(.., parameter)| parameter)
}

/// The parameter whose dotted key is nearest to `key`.
pub(super) fn dotted(key: &str) -> Option<&'static Parameter> {
    PARAMETERS
        .iter()
        .min_by_key(|parameter| distance(key, parameter.key))
}

/// The name of the group nearest to `name`; `None` if none is near.
pub(super) fn group(name: &str) -> Option<&'static str> {
    word(name, GROUPS.iter().map(|group| group.name))
}

/// The word nearest to `written`; `None` if none is near.
pub(super) fn word<'a>(written: &str, words: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    words
        .map(|word| (distance(written, word), word))
        .min_by_key(|(distance, _)| *distance)
        .filter(|(distance, _)| *distance <= likely(written.chars().count()))
        .map(|(_, word)| word)
}

/// Fewest letters to add, drop, change, or swap with their neighbour, capitals and the kind of dash aside.
fn distance(a: &str, b: &str) -> usize {
    strsim::osa_distance(&folded(a), &folded(b))
}

/// As two keys are compared; what is far longer than any key is not read to its end.
fn folded(text: &str) -> String {
    let letters = text.chars().take(64).flat_map(char::to_lowercase);
    letters
        .map(|it| if matches!(it, '-' | ' ') { '_' } else { it })
        .collect()
}
