//! The recess over the mantel.
//!
//! # What it finds
//! The recess's finished sill against the mantel's top.
//!
//! # Why
//! A mantel that reaches up into the recess hides the screen's lower edge and blocks its air.
//!
//! # Datum
//! The floor datum of the file.
//!
//! # Source
//! Arithmetic.

use super::ARITHMETIC;
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, Kind, point};

pub(super) const RULE: Rule = Rule {
    name: "recess above the mantel",
    concern: Concern::Heat,
    text: include_str!("recess_above_mantel.rs"),
    keys: &["mantel.thickness", "mantel.underside", "recess.sill"],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let Some(part) = design.first(Kind::Mantel) else {
        return;
    };
    let params = &design.params;
    let (Some(mantel), Some(recess)) = (&params.mantel, &params.recess) else {
        return;
    };
    let top = mantel.underside + mantel.thickness;
    let row = Row {
        subject: Measure("recess's sill over the mantel's top").into(),
        parts: vec![part.id.clone()],
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
