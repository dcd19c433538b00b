//! How much larger than needed an opening is framed where the file does not say: as much as a careful builder may be
//! off on each side, and never beyond what the unit's flange covers.

use super::manual::Manual;
use super::table::Values;
use super::value::Value;
use crate::units::{Length, TapeUnit};

/// The largest ease that may be written.
const LARGEST: Length = Length::mm(50.0);

impl Values {
    /// Adds the eases that are not written.
    pub(super) fn add_eases(&mut self, unit: TapeUnit) {
        let usual = match unit {
            TapeUnit::Inch => Length::inches(0.25),
            TapeUnit::Millimeter => Length::mm(6.0),
        };
        let allowance = self.field("project.build_allowance").unwrap_or(usual);
        let beside = allowance.min(self.covered().unwrap_or(allowance));
        for (key, ease) in [
            ("front.opening_ease", beside * 2.0),
            ("front.header_ease", allowance),
            ("vent.pass_ease", allowance),
        ] {
            self.held
                .entry(key)
                .or_insert(Value::Length(ease.min(LARGEST)));
        }
    }

    /// How much of the gap at a side the flange covers beyond the clearance that is there anyway.
    fn covered(&self) -> Option<Length> {
        let flange: Manual<Length> = self.field::<Option<Manual<Length>>>("appliance.flange")??;
        let clearance: Manual<Length> = self.field("appliance.side_clearance")?;
        Some((flange.value - clearance.value).max(Length::ZERO))
    }
}
