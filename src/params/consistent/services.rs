//! Whether the ways of cables can be built, and openings outside have a size.

use super::Rule;
use crate::geom::TOLERANCE;
use crate::params::fault::Fault;
use crate::params::list::Params;
use crate::units::Length;

pub(super) static RULES: &[Rule] = &[legs_of_cables, openings_with_size];

/// Each leg of the way runs right, out or up, and is longer than the bundle is thick twice over, so
/// that there is something left of it between its bends.
fn legs_of_cables(params: &Params) -> Vec<Fault> {
    let Some(cables) = &params.cables else {
        return Vec::new();
    };
    let corners = &cables.route.0;
    let mut before: Option<(usize, bool)> = None;
    for (number, (from, to)) in corners.iter().zip(corners.iter().skip(1)).enumerate() {
        let moved: Vec<(usize, Length)> = from
            .iter()
            .zip(to)
            .map(|(from, to)| *to - *from)
            .enumerate()
            .filter(|(_, by)| by.to_mm().abs() > TOLERANCE)
            .collect();
        let found = match moved.as_slice() {
            [(axis, by)] if (by.abs() - cables.diameter * 2.0).is_positive() => {
                let turned = before.is_none_or(|(last, _)| last != *axis);
                before = Some((*axis, by.is_positive()));
                if turned {
                    continue;
                }
                "a leg that goes on, or back, along the leg before it"
            }
            [_] => "a leg no longer than twice the thickness of the bundle",
            [] => "a corner that is listed twice",
            _ => "a leg that runs diagonally",
        };
        return vec![
            Fault::new("cables.route", "the cables' route cannot be built")
                .found(format!("{found}, from row {}", number + 1))
                .expected("legs that run right, out or up, each another way than the last")
                .way_out("write a corner wherever the cables turn"),
        ];
    }
    Vec::new()
}

fn openings_with_size(params: &Params) -> Vec<Fault> {
    let openings = params.outside.iter().flat_map(|it| &it.openings);
    let openings = openings.flat_map(|it| &it.0);
    let empty = openings
        .enumerate()
        .find(|(_, [left, bottom, right, top])| right <= left || top <= bottom);
    let fault = empty.map(|(number, _)| {
        Fault::new("outside.openings", "an opening outside has no size")
            .found(format!("row {}", number + 1))
            .expected("left, bottom, right, top, with right beyond left and top above bottom")
            .way_out("write the four edges in that order")
    });
    fault.into_iter().collect()
}
