//! The sheets of the drawing room as files: bound, each by itself, and those of what is cut from sheets.

use super::format::Write;
use super::pdf::DRAWINGS;
use super::svg::column_svg;
use super::{Format, Set, drawings_pdf};
use crate::drawing;

/// All of them as one PDF.
pub(super) const BOUND: Format = Format::new(Set::Drawings, DRAWINGS, |products, _| {
    drawings_pdf(products.sheets(), &products.design.params.project.name)
});

/// Each by itself.
pub(super) const SINGLE: Format = Format {
    file: "sheet-*.svg",
    set: Set::Sheets,
    write: Write::Many(|products| {
        let drawings = products.drawings().iter().zip(1..);
        let file = |((_, svg), number): (&(String, String), u32)| {
            (format!("sheet-{number:02}.svg"), svg.clone().into_bytes())
        };
        Ok(drawings.map(file).collect())
    }),
};

/// What is cut from sheets of board and panel, one drawing under the other.
pub(super) const CUT_SHEETS: Format = Format::new(Set::Takeoff, "sheets.svg", |products, _| {
    let sheets = drawing::cut_sheets(products.design, products.takeoff(), products.paper);
    Ok(column_svg(&sheets, "Sheets").into_bytes())
});
