//! Sizes of sticks and layers, out of the words a yard uses.

use super::layer::Layer;
use crate::catalog::{FramingMember, Lumber, Steel, member};
use crate::units::{Length, TapeUnit};

/// A layer of the platform: `2x4 flat`, `2x8 on edge` or `3/4 in panel`; or the steel member that it is of.
pub(super) fn layer(text: &str, unit: TapeUnit) -> Option<Result<Layer, Steel>> {
    let text = text.trim();
    if let Some(size) = text.strip_suffix(" flat") {
        of_wood(size, Layer::Flat)
    } else if let Some(size) = text.strip_suffix(" on edge") {
        of_wood(size, Layer::OnEdge)
    } else {
        let thickness = text.strip_suffix(" panel")?;
        let thickness = Length::parse(thickness, unit).ok()?;
        Some(Ok(Layer::Panel(thickness)))
    }
}

fn of_wood(size: &str, layer: fn(Lumber) -> Layer) -> Option<Result<Layer, Steel>> {
    Some(match stick(size)? {
        FramingMember::Wood(lumber) => Ok(layer(lumber)),
        FramingMember::Steel(steel) => Err(steel),
    })
}

/// A stick's size: `2x4` dressed, `45x95 mm` and `1-1/2 x 5-1/2 in` as they are, or a steel member's designation.
pub(super) fn stick(text: &str) -> Option<FramingMember> {
    let plain = text.trim().replace('\u{d7}', "x");
    let nominal: String = plain.chars().filter(|c| !c.is_whitespace()).collect();
    if let Some(member) = member(&nominal) {
        return Some(member);
    }
    let (smaller, larger) = plain.split_once('x')?;
    let unit = larger.trim_start_matches(|c: char| !c.is_alphabetic() && c != '"');
    let bare = smaller.trim_end().ends_with(|c: char| c.is_ascii_digit());
    let smaller = if bare {
        format!("{smaller}{unit}")
    } else {
        smaller.to_owned()
    };
    if unit.is_empty() {
        return None;
    }
    let stick = Lumber {
        name: plain.clone(),
        thickness: Length::parse(&smaller, TapeUnit::Millimeter).ok()?,
        width: Length::parse(larger, TapeUnit::Millimeter).ok()?,
    };
    Some(stick.into())
}
