//! The table of lowest heights.

use comfy_table::presets;

use super::look::Look;
use crate::check::HeightRow;
use crate::units::{Length, Rounding, TapeUnit};

/// The table; what fits is rounded up where it is a height and down where it is what is left.
pub(super) fn table(rows: &[HeightRow], unit: TapeUnit, look: Look) -> String {
    let headings = [
        "front", "platform", "projects", "shelf", "mantel", "set by", "sill", "set by", "head",
    ];
    let mut table = super::table::table(&headings, look);
    table.load_style(presets::NOTHING);
    let up = |length: Length| length.tape(unit, Rounding::Up);
    let down = |length: Length| length.tape(unit, Rounding::Down);
    for row in rows {
        let head = row.head.map_or_else(String::new, |it| {
            let fit = if it < Length::ZERO { " no" } else { "" };
            format!("{}{fit}", down(it))
        });
        table.add_row([
            row.ledge
                .clone()
                .map_or("one wall".to_owned(), |it| format!("ledge {it}")),
            up(row.platform),
            up(row.projection),
            down(row.shelf),
            row.mantel.map_or("none".to_owned(), up),
            row.mantel_by.to_owned(),
            row.sill.map_or_else(String::new, up),
            row.sill_by.to_owned(),
            head,
        ]);
    }
    let mut text = String::from(
        "Lowest underside of the mantel and lowest sill of the recess over it, and what sets them.\n\
         Head: the room left under the ceiling above the recess; \"no\" where it does not fit.\n",
    );
    for line in table.to_string().lines() {
        text.push_str(line.trim_end());
        text.push('\n');
    }
    text
}
