//! What square cuts leave between a stick and what it stands against: said with its side and thickness, and bought.

use glam::DVec3;

use super::stick_face::{StickFace, faces_text};
use crate::design::{Design, Kind, Left, Part, Wedge};
use crate::params::Params;
use crate::units::{Length, Rounding};

/// What the buy list calls one.
pub(super) const SHIM: &str = "tapered wood shim";

/// Whether a stick bears on its ends: the wedge there is shimmed, at any other end it stays open.
fn bears(kind: Kind) -> bool {
    use Kind::{Cripple, Jack, King, Stud};
    matches!(kind, Stud | King | Jack | Cripple)
}

/// How many shims go to the ends of sticks.
pub(super) fn count(design: &Design) -> usize {
    let uprights = design.parts.iter().filter(|it| bears(it.kind));
    uprights.map(|it| it.wedges().len()).sum()
}

/// The notes of a row for each of its parts, said once: where only some of them have one, it names them.
pub(super) fn notes(ids: &[String], design: &Design) -> Vec<String> {
    let mut found: Vec<(String, Vec<&str>)> = Vec::new();
    for part in design.parts.iter().filter(|it| ids.contains(&it.id)) {
        for note in part_notes(part, design) {
            match found.iter_mut().find(|it| it.0 == note) {
                Some((_, parts)) => parts.push(&part.id),
                None => found.push((note, vec![&part.id])),
            }
        }
    }
    let said = found.into_iter().map(|(note, parts)| {
        if parts.len() == ids.len() {
            note
        } else {
            format!("{note} ({})", parts.join(", "))
        }
    });
    said.collect()
}

fn part_notes(part: &Part, design: &Design) -> Vec<String> {
    let wedges = part.wedges().into_iter();
    let mut notes: Vec<String> = wedges
        .map(|it| wedge_note(part, &it, &design.params))
        .collect();
    notes.extend(over_plate(part, design));
    notes
}

/// What is left out at an end, and what fills it; "square" where the end has no other angle.
fn wedge_note(part: &Part, wedge: &Wedge, params: &Params) -> String {
    let sides: Vec<StickFace> = wedge.thick_at.iter().map(|it| StickFace::of(*it)).collect();
    let (end, sides) = (StickFace::of(wedge.end), faces_text(&sides));
    let thickness = wedge.thickness.tape(params.project.unit, Rounding::Up);
    let cut = match wedge.left {
        Left::Nothing => "square",
        Left::Miter => "no bevel",
        Left::Bevel => "no miter",
    };
    if bears(part.kind) {
        format!("{end} end: {cut}; shim {thickness} at the {sides}, the side that is short")
    } else {
        format!("{end} end: {cut}; {thickness} open at the {sides}")
    }
}

/// A plate that lies level across where the ceiling hardly falls: what is left over it.
fn over_plate(part: &Part, design: &Design) -> Option<String> {
    let params = &design.params;
    let stud = part.branch.stud(params);
    if part.kind != Kind::TopPlate || part.group.stands_already() || stud.wood().is_none() {
        return None;
    }
    let ceiling = design.layout.ceiling_of(part);
    let over = part.body.bounds.center().truncate();
    let plane = ceiling.planes().get(ceiling.plane_at(over))?;
    let across = DVec3::Z.cross(part.body.frame.z.with_z(0.0).normalize_or_zero());
    let rise = plane.slope.dot(across.truncate());
    let wedge = stud.depth() * rise.abs();
    let is_left = wedge.to_mm() > crate::geom::TOLERANCE;
    (is_left && (params.saw.tolerance - wedge).is_positive()).then(|| {
        let thickness = wedge.tape(params.project.unit, Rounding::Up);
        let side = StickFace::of(across * rise);
        format!("level across; shim {thickness} over it at the {side}, beyond the gap")
    })
}

/// How thick the thickest is.
pub(super) fn thickest(design: &Design) -> Length {
    let uprights = design.parts.iter().filter(|it| bears(it.kind));
    let wedges = uprights.flat_map(Part::wedges);
    wedges.fold(Length::ZERO, |most, it| most.max(it.thickness))
}
