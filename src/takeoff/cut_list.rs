//! The cut list: one row for each different piece of wood, identical pieces counted.
//!
//! In: the design's sticks. Out: rows by wall and from the left, each with its mark, lengths, ends, rip and notes.
//! Lengths stay exact; the way that a row is rounded stands beside them.

use super::shims;
use super::stick::{End, Rip, Stick};
use super::stick_face::faces_text;
use super::wood::{self, Key};
use super::yard::{Board, Yard};
use crate::catalog::{FramingMember, Steel, SteelForm};
use crate::design::{Branch, Design, Kind, fit_of, raising};
use crate::geom::TOLERANCE;
use crate::params::{Fit, Params};
use crate::units::{Angle, Length, Rounding, TapeUnit};

/// One different piece.
#[derive(Debug, Clone)]
pub struct Row {
    /// What is written on the wood; `L` and `R` tell mirror images apart.
    pub mark: String,
    /// The ids of the pieces.
    pub parts: Vec<String>,
    /// What the trade calls them, each word once.
    pub kinds: Vec<Kind>,
    /// Walls and other places, each once, and how many pieces go there.
    pub places: Vec<(Branch, usize)>,
    /// What it is cut from.
    pub board: Board,
    /// Width and thickness of the finished piece.
    pub section: (Length, Length),
    /// From tip to tip along the piece.
    pub long_point: Length,
    /// The shortest of its long edges.
    pub short_point: Length,
    /// The longest of its long edges; below the long point where both ends lean the same way.
    pub longest_edge: Length,
    /// Which way its lengths are rounded on the tape.
    pub rounding: Rounding,
    /// The lower or left end, then the other, as the first of the pieces stands.
    pub ends: [End; 2],
    /// Whether it lies on edge on the saw; flat otherwise.
    pub on_edge: bool,
    /// The rip, if there is one.
    pub rip: Option<Rip>,
    /// Volume of one piece in cubic millimetres.
    pub volume: f64,
    /// Mass of one piece in kilograms.
    pub mass: f64,
    /// What else has to be known.
    pub notes: Vec<String>,
}

/// How long a stick is, exactly, and which way its tape's text goes: wherever a stick's length is written, it is this.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CutLength {
    /// The exact length.
    pub exact: Length,
    /// Which way it is rounded.
    pub rounding: Rounding,
}

impl CutLength {
    /// The length as it is written.
    pub fn tape(self, unit: TapeUnit) -> String {
        self.exact.tape(unit, self.rounding)
    }
}

impl Row {
    /// From tip to tip, as it is cut.
    pub fn long(&self) -> CutLength {
        self.cut_length(self.long_point)
    }

    /// The shortest of its long edges, as it is cut.
    pub fn short(&self) -> CutLength {
        self.cut_length(self.short_point)
    }

    fn cut_length(&self, exact: Length) -> CutLength {
        CutLength {
            exact,
            rounding: self.rounding,
        }
    }

    /// How many pieces.
    pub fn quantity(&self) -> usize {
        self.parts.len()
    }

    /// Turn of the table and tilt of the blade for an end, as the stick lies.
    pub fn setting(&self, end: &End) -> (Angle, Angle) {
        if self.on_edge {
            end.on_edge()
        } else {
            end.flat()
        }
    }
}

/// A row with what distinguishes it from others.
struct Open {
    row: Row,
    key: Key,
    mirror: Key,
    material: &'static str,
}

/// Every stick of the design, by wall and from the left.
pub(super) fn rows(design: &Design, yard: &Yard<'_>) -> Vec<Row> {
    let params = &design.params;
    let walls = raising(design);
    let mut open: Vec<Open> = Vec::new();
    for part in &design.parts {
        let Some(stick) = Stick::new(part, yard) else {
            continue;
        };
        let (key, mirror) = wood::keys(&stick.corners);
        let rounding = rounding(part.kind, fit_of(&walls, design, part.branch));
        let same = open.iter_mut().find(|it| {
            let same_wood = it.material == part.material.name && it.row.board == stick.board;
            it.key == key && same_wood && it.row.rounding == rounding
        });
        if let Some(same) = same {
            add(&mut same.row, &stick);
        } else {
            let row = row(&stick, rounding, params);
            let material = part.material.name;
            open.push(Open {
                row,
                key,
                mirror,
                material,
            });
        }
    }
    for it in &mut open {
        it.row.notes.extend(shims::notes(&it.row.parts, design));
    }
    mark(&mut open);
    open.into_iter().map(|it| it.row).collect()
}

/// Numbers in the order of the rows; a mirror image has the number of the other, with its side.
fn mark(open: &mut [Open]) {
    let mut number = 0;
    for at in 0..open.len() {
        if !open[at].row.mark.is_empty() {
            continue;
        }
        number += 1;
        let other = (at + 1..open.len()).find(|other| {
            let (a, b) = (&open[at], &open[*other]);
            a.key != a.mirror
                && a.mirror == b.key
                && a.material == b.material
                && a.row.board == b.row.board
        });
        if let Some(other) = other {
            open[at].row.mark = format!("S{number}L");
            open[other].row.mark = format!("S{number}R");
            let note = |mark: &str| format!("mirror image of {mark}");
            let (left, right) = (open[at].row.mark.clone(), open[other].row.mark.clone());
            open[at].row.notes.push(note(&right));
            open[other].row.notes.push(note(&left));
        } else {
            open[at].row.mark = format!("S{number}");
        }
    }
}

fn add(row: &mut Row, stick: &Stick<'_>) {
    row.parts.push(stick.part.id.clone());
    let place = stick.part.branch;
    match row.places.iter_mut().find(|it| it.0 == place) {
        Some((_, count)) => *count += 1,
        None => row.places.push((place, 1)),
    }
    if !row.kinds.contains(&stick.part.kind) {
        row.kinds.push(stick.part.kind);
    }
    let same_way = |a: &End, b: &End| a.long_at == b.long_at && a.place == b.place;
    let turned = !row
        .ends
        .iter()
        .zip(&stick.ends)
        .all(|(a, b)| same_way(a, b));
    if turned {
        let long: Vec<String> = stick
            .ends
            .iter()
            .filter(|end| !end.is_square())
            .map(|end| format!("{} end long to the {}", end.place, faces_text(&end.long_at)))
            .collect();
        if !long.is_empty() {
            let note = format!("in {place}: {}", long.join(", "));
            if !row.notes.contains(&note) {
                row.notes.push(note);
            }
        }
    }
}

fn row(stick: &Stick<'_>, rounding: Rounding, params: &Params) -> Row {
    let part = stick.part;
    let volume = part.body.shape.unbored().volume();
    let mut row = Row {
        mark: String::new(),
        parts: Vec::new(),
        kinds: Vec::new(),
        places: Vec::new(),
        board: stick.board.clone(),
        section: stick.section,
        long_point: stick.long_point,
        short_point: stick.short_point,
        longest_edge: stick.longest_edge,
        rounding,
        ends: stick.ends.clone(),
        on_edge: lies_on_edge(stick, params),
        rip: stick.rip,
        volume,
        mass: volume * 1e-9 * part.material.density,
        notes: Vec::new(),
    };
    add(&mut row, stick);
    row.notes.extend(notes(&row, params));
    row
}

/// Between pieces down, openings up; uprights under plates as the wall goes up.
const fn rounding(kind: Kind, fit: Fit) -> Rounding {
    match (kind, fit) {
        // the length of a jack is the height of an opening
        (Kind::Jack, _) | (Kind::Stud | Kind::King, Fit::InPlace) => Rounding::Up,
        (Kind::SolePlate | Kind::TopPlate | Kind::Ledge, _) => Rounding::Nearest,
        _ => Rounding::Down,
    }
}

/// Whether an end is within the saw's range.
pub(super) fn in_range((turn, tilt): (Angle, Angle), params: &Params) -> bool {
    // a degree of the saw's own scale is the least that can be set apart; a nanoradian is arithmetic
    let allowed = |angle: Angle, most: Angle| angle.to_radians() <= most.to_radians() + 1e-9;
    allowed(turn, params.saw.largest_miter) && allowed(tilt, params.saw.largest_bevel)
}

/// Flat, unless only the other way is within the saw's range.
fn lies_on_edge(stick: &Stick<'_>, params: &Params) -> bool {
    let all = |setting: fn(&End) -> (Angle, Angle)| {
        stick.ends.iter().all(|end| in_range(setting(end), params))
    };
    !all(End::flat) && all(End::on_edge)
}

/// What has to be known of a piece of steel.
fn steel_notes(row: &Row, steel: &Steel, params: &Params) -> Vec<String> {
    let mut notes = vec!["snips or cold saw; gloves, the edges cut".to_owned()];
    let section = row.section;
    let unit = params.project.unit;
    let whole = match steel.form {
        SteelForm::Stud => steel.web,
        SteelForm::Track => steel.wall_depth(),
    };
    // of a track under a slope across the wall the section is taller than its flange
    let leans = (section.0 - whole).abs().to_mm() > TOLERANCE;
    let is_half = leans && !row.kinds.contains(&Kind::TopPlate);
    if is_half && steel.form == SteelForm::Track {
        notes.push("half of a track, ripped along its web".to_owned());
    }
    let cut_down = (steel.flange - section.1).to_mm() > TOLERANCE;
    if cut_down && !leans {
        let flange = section.1.tape(unit, Rounding::Down);
        notes.push(format!("flanges cut down to {flange}"));
    }
    if row.kinds.contains(&Kind::TopPlate) {
        if leans || (section.1 - steel.flange).to_mm() > TOLERANCE {
            notes.push("web bent to the slope across the wall: have it formed".to_owned());
        }
        if row.ends.iter().any(|end| !end.is_square()) {
            notes.push("plumb cuts, parallel".to_owned());
        }
    }
    notes
}

fn notes(row: &Row, params: &Params) -> Vec<String> {
    let mut notes = Vec::new();
    if let FramingMember::Steel(steel) = &row.board.size {
        return steel_notes(row, steel, params);
    }
    if row.long_point < params.saw.shortest_piece {
        notes.push("short: clamp it, or cut it off a longer piece".to_owned());
    }
    if row.on_edge {
        notes.push("lies on edge: flat it is past the saw's range".to_owned());
    }
    let within = row
        .ends
        .iter()
        .flat_map(End::cuts)
        .all(|end| in_range(row.setting(&end), params));
    if !within {
        notes.push("past the saw's range: see the saw set-up".to_owned());
    }
    if row.kinds.contains(&Kind::TopPlate) && row.ends.iter().any(|end| !end.is_square()) {
        notes.push("plumb cuts, parallel".to_owned());
    }
    notes
}
