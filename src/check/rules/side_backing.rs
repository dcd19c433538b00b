//! Stone on the sides.
//!
//! # What it finds
//! Stone, tile or brick on the sides of the chase, or on a divider's back, whose board is gypsum board all the way
//! up: whether the maker of stone or mortar allows it to be adhered to that.
//!
//! # Why
//! Gypsum board's paper peels from under wet mortar and weight; many makers want cement board or lath there.
//!
//! # Source
//! The sheet of the stone's or the mortar's maker, `skins.side_on_gypsum`.

use super::parts_of;
use crate::check::{Concern, Measure, Numbers, Quantity, Report, Row, Rule};
use crate::design::{Branch, ChaseFace, Design, Kind, is_veneer};
use crate::params::Permission;

pub(super) const RULE: Rule = Rule {
    name: "stone on the sides",
    concern: Concern::FireAndGas,
    text: include_str!("side_backing.rs"),
    keys: &[
        "skins.side_finish",
        "skins.side_material",
        "skins.side_on_gypsum",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let skins = &design.params.skins;
    let stuck = is_veneer(skins.side_material);
    let on_side = parts_of(design, Kind::Finish).into_iter().filter(|id| {
        let mut parts = design.parts.iter();
        parts.any(|it| {
            it.id == *id && (it.branch.is_side_face() || it.is_of(Branch::Face(ChaseFace::Back)))
        })
    });
    let on_side: Vec<String> = on_side.collect();
    if !stuck || on_side.is_empty() {
        return;
    }
    let row = Row {
        subject: Measure("sides whose stone is adhered to gypsum board").into(),
        location: design
            .parts
            .iter()
            .find(|it| on_side.contains(&it.id))
            .map(|it| it.body.bounds.center()),
        parts: on_side.clone(),
        source: "the sheet of the stone's maker".to_owned(),
        levers: &["skins.side_finish"],
        ..Row::default()
    };
    let Some(answer) = &skins.side_on_gypsum else {
        let question = "Does the maker of the stone, or of its mortar, allow it to be adhered to gypsum board (skins.side_on_gypsum)?";
        report.ask_for(row, None, question, vec!["skins.side_on_gypsum"]);
        return;
    };
    let source = format!("the sheet of the stone's maker, p. {}", answer.page);
    let against = match answer.value {
        Permission::Yes => 0.0,
        Permission::No => on_side.len() as f64,
    };
    report.limit(
        Row { source, ..row },
        Numbers::none(Quantity::Count, against),
    );
}
