//! What several rules share: how sources are cited, and the ids of what is concerned.

use crate::design::{Branch, ClearanceKind, Design, Kind, Packing};
use crate::params::{Manual, Params};
use crate::units::{Length, Rounding, TapeUnit};

/// A plain consequence of sizes, with no number from outside.
pub(super) const ARITHMETIC: &str = "arithmetic";
/// Source of what the trade does and nobody has written down.
pub(super) const COMMON_PRACTICE: &str = "common practice, no source";

/// What is packed, and where: "1/8 in at 4 in, ...".
pub(super) fn packed_at<'a>(
    packed: impl IntoIterator<Item = &'a Packing>,
    unit: TapeUnit,
) -> String {
    let mut packed: Vec<&Packing> = packed.into_iter().collect();
    packed.sort_by(|a, b| a.at.to_mm().total_cmp(&b.at.to_mm()));
    let tape = |it: Length| it.tape(unit, Rounding::Nearest);
    let texts = packed.iter();
    let mut texts: Vec<String> = texts
        .map(|it| format!("{} at {}", tape(it.thickness), tape(it.at)))
        .collect();
    texts.dedup();
    texts.join(", ")
}

/// What a row says that governs how deep the chase has to be: the other asks for no more.
pub(super) fn governs_depth(least: Length, other: Length, params: &Params) -> Option<String> {
    let least = (least >= other).then(|| least.tape(params.project.unit, Rounding::Up));
    least.map(|it| format!("this governs the depth of the chase: at least {it}"))
}

/// Ids of every part of a kind.
pub(super) fn parts_of(design: &Design, kind: Kind) -> Vec<String> {
    let parts = design.parts.iter().filter(|it| it.kind == kind);
    parts.map(|it| it.id.clone()).collect()
}

/// The id of the first part of a kind, if it was made.
pub(super) fn first_of(design: &Design, kind: Kind) -> Vec<String> {
    let first = design.first(kind);
    first.map(|it| it.id.clone()).into_iter().collect()
}

/// Ids of the first stud of each of these walls.
pub(super) fn first_studs<T: Into<Branch>>(
    design: &Design,
    walls: impl IntoIterator<Item = T>,
) -> Vec<String> {
    let studs = walls
        .into_iter()
        .filter_map(|wall| design.first_on(wall, Kind::Stud));
    studs.map(|it| it.id.clone()).collect()
}

/// Ids of every clearance volume of these kinds.
pub(super) fn clearances_of(design: &Design, kinds: &[ClearanceKind]) -> Vec<String> {
    let volumes = design.clearances.iter();
    let volumes = volumes.filter(|it| kinds.contains(&it.kind));
    volumes.map(|it| it.id.clone()).collect()
}

/// How a page of the unit's manual is cited.
pub(super) fn page<T>(number: &Manual<T>) -> String {
    format!("manual p. {}", number.page)
}
