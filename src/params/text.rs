//! Lengths and angles as a fault or an example says them.

use crate::units::{Angle, Length, Marks, Rounding, TapeUnit};

/// An angle in degrees, to a thousandth at most.
pub(super) fn angle_text(angle: Angle) -> String {
    let thousandths = (angle.to_degrees() * 1000.0).round() / 1000.0;
    format!("{thousandths} deg")
}

/// A length on the finest marks of the unit's tape.
pub(super) fn length_text(length: Length, unit: TapeUnit) -> String {
    let marks = match unit {
        TapeUnit::Inch => Marks::SixtyFourths,
        TapeUnit::Millimeter => Marks::TenthMillimeters,
    };
    length
        .tape_on(marks, Rounding::Nearest)
        .replace(".0 mm", " mm")
}
