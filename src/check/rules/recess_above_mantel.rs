//! The recess over the mantel.
//!
//! # What it finds
//! The recess's finished sill against the mantel's top.
//!
//! # Why
//! A mantel that stands up into the recess hides the screen's lower edge and closes its air.
//!
//! # Datum
//! The floor datum of the file.
//!
//! # Source
//! Arithmetic.

use super::ARITHMETIC;
use crate::check::{Numbers, Report, Row, Rule};
use crate::design::{Design, point};

pub(super) const RULE: Rule = Rule {
    name: "recess above the mantel",
    text: include_str!("recess_above_mantel.rs"),
    keys: &["mantel.thickness", "mantel.underside", "recess.sill"],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let params = &design.params;
    let (Some(mantel), Some(recess)) = (&params.mantel, &params.recess) else {
        return;
    };
    let top = mantel.underside + mantel.thickness;
    let row = Row {
        about: "recess's sill over the mantel's top".to_owned(),
        parts: vec!["face/mantel/1".to_owned()],
        location: Some(point(
            design.layout.unit_center,
            design.layout.faces.upper_finished,
            top,
        )),
        source: ARITHMETIC.to_owned(),
        levers: &["recess.sill", "mantel.underside", "mantel.thickness"],
        ..Row::default()
    };
    report.judge(row, Numbers::at_least(recess.sill, top));
}
