//! What every view is drawn from: the design, the marks on its sticks, and its bodies as solids.

use std::collections::BTreeMap;

use glam::{DVec2, DVec3};

use super::cut;
use super::eye::Eye;
use super::figure::{Figure, Hatch, Label};
use super::hidden;
use super::ink::{Pen, Rect};
use super::paper::Paper;
use super::solid::Solid;
use crate::design::{
    Clearance, ClearanceKind, Design, Group, Kind, Layout, Packed, Packing, Part, Whence,
};
use crate::geom::{Direction, Plane, edges};
use crate::params::Params;
use crate::takeoff::Takeoff;
use crate::units::{Length, Rounding, TapeUnit};

/// The design while it is drawn.
pub(super) struct Subject<'a> {
    pub(super) design: &'a Design,
    pub(super) takeoff: &'a Takeoff,
    /// The paper that was asked for.
    pub(super) paper: Paper,
    /// What is written on the sticks, by part.
    marks: BTreeMap<&'a str, &'a str>,
    solids: Vec<Solid>,
}

impl<'a> Subject<'a> {
    pub(super) fn new(design: &'a Design, takeoff: &'a Takeoff, paper: Paper) -> Self {
        let solid = |part: &Part| Solid::new(&part.body, DVec3::ZERO);
        let rows = takeoff.cut_list.iter();
        let marks = rows.flat_map(|row| {
            let parts = row.parts.iter();
            parts.map(|part| (part.as_str(), row.mark.as_str()))
        });
        Self {
            design,
            takeoff,
            paper,
            marks: marks.collect(),
            solids: design.parts.iter().map(solid).collect(),
        }
    }

    pub(super) fn params(&self) -> &'a Params {
        &self.design.params
    }

    pub(super) fn layout(&self) -> &'a Layout {
        &self.design.layout
    }

    /// The tape that the drawings speak of.
    pub(super) fn unit(&self) -> TapeUnit {
        self.params().project.unit
    }

    /// A length as the tape shows it.
    pub(super) fn tape(&self, length: Length) -> String {
        length.tape(self.unit(), Rounding::Nearest)
    }

    /// What some of the packing says, one line for each thing that is packed.
    pub(super) fn packed(&self, which: impl Fn(Packed) -> bool) -> Vec<String> {
        let own = self.design.packing.iter().filter(|it| which(it.of));
        let mut own: Vec<&Packing> = own.collect();
        own.sort_by(|a, b| {
            let names = a.of.to_string().cmp(&b.of.to_string());
            names.then(a.at.to_mm().total_cmp(&b.at.to_mm()))
        });
        let mut lines: Vec<(Packed, Whence, Vec<String>)> = Vec::new();
        for it in own {
            let text = format!("{} at {}", self.tape(it.thickness), self.tape(it.at));
            match lines.last_mut() {
                Some((of, _, texts)) if *of == it.of => texts.push(text),
                _ => lines.push((it.of, it.from, vec![text])),
            }
        }
        let line = |(of, from, mut texts): (Packed, Whence, Vec<String>)| {
            texts.dedup();
            format!("Packed, {of}, from the {from}: {}.", texts.join(", "))
        };
        lines.into_iter().map(line).collect()
    }

    /// What is written on a stick.
    pub(super) fn mark(&self, part: &Part) -> Option<&'a str> {
        self.marks.get(part.id.as_str()).copied()
    }

    /// The parts that are wanted, with their solids.
    pub(super) fn parts(&self, wanted: impl Fn(&Part) -> bool) -> Vec<(&'a Part, &Solid)> {
        let all = self.design.parts.iter().zip(&self.solids);
        all.filter(|(part, _)| wanted(part)).collect()
    }

    /// The clearance volumes of a kind.
    pub(super) fn volumes(&self, kind: ClearanceKind) -> impl Iterator<Item = &'a Clearance> {
        self.design
            .clearances
            .iter()
            .filter(move |it| it.kind == kind)
    }

    /// Draws what is seen of the wanted parts, and what the section cuts.
    pub(super) fn draw(
        &self,
        figure: &mut Figure,
        eye: &Eye,
        section: Option<&Plane>,
        wanted: impl Fn(&Part) -> bool,
    ) {
        let parts = self.parts(wanted);
        let solids: Vec<&Solid> = parts.iter().map(|it| it.1).collect();
        let lines = hidden::visible(&solids, eye, section);
        let in_room = |place: &usize| parts[*place].0.group.stands_already();
        let (room, own): (Vec<_>, Vec<_>) =
            lines.into_iter().partition(|(place, _)| in_room(place));
        for (pen, lines) in [(Pen::Context, room), (Pen::Edge, own)] {
            let lines = hidden::merged(lines.into_iter().map(|it| it.1).collect());
            figure.lines.extend(lines.into_iter().map(|it| (pen, it)));
        }
        let Some(plane) = section else { return };
        let mut cut: Vec<(Rect, Hatch)> = Vec::new();
        for (part, solid) in parts {
            let loops = cut::outlines(solid, plane, eye);
            if loops.is_empty() {
                continue;
            }
            let around = Rect::around(loops.iter().flatten().copied());
            let hatch = hatch_of(part).map(|hatch| told_apart(hatch, &around, &cut));
            cut.extend(hatch.map(|hatch| (around, hatch)));
            figure.area(Pen::Cut, hatch, loops);
        }
    }

    /// Draws the wanted parts as if they could be seen through everything, dashed.
    pub(super) fn draw_hidden(
        &self,
        figure: &mut Figure,
        eye: &Eye,
        pen: Pen,
        wanted: impl Fn(&Part) -> bool,
    ) {
        let parts = self.parts(wanted);
        let solids: Vec<&Solid> = parts.iter().map(|it| it.1).collect();
        let lines = hidden::all(&solids, eye, None).into_iter().map(|it| it.1);
        let lines = hidden::merged(lines.collect()).into_iter();
        figure.lines.extend(lines.map(|it| (pen, it)));
    }

    /// Draws where a plane cuts a clearance volume, and calls out its number and page.
    pub(super) fn draw_volume(
        &self,
        figure: &mut Figure,
        eye: &Eye,
        plane: &Plane,
        volume: &Clearance,
    ) {
        let solid = Solid::new(&volume.body, DVec3::ZERO);
        let loops = cut::outlines(&solid, plane, eye);
        let around = Rect::around(loops.iter().flatten().copied());
        if loops.is_empty() {
            return;
        }
        // the pipe itself lies in the middle of what is kept clear round it
        let place = if is_round_pipe(volume.kind) {
            outer_side(&loops, around.center())
        } else {
            around.center()
        };
        figure.area(Pen::Clearance, None, loops);
        figure.call(place, self.clearance_words(volume));
    }

    /// The numbers of a clearance volume, each with its way, and their pages, each once.
    pub(super) fn clearance_words(&self, volume: &Clearance) -> String {
        let mut pages: Vec<(&str, Vec<String>)> = Vec::new();
        for reach in &volume.reaches {
            let way = way_of(reach.direction, volume.kind);
            let number = format!("{} {way}", self.tape(reach.required));
            match pages.iter_mut().find(|it| it.0 == reach.source) {
                Some((_, numbers)) if numbers.contains(&number) => {}
                Some((_, numbers)) => numbers.push(number),
                None => pages.push((&reach.source, vec![number])),
            }
        }
        let pages: Vec<String> = pages
            .into_iter()
            .map(|(page, numbers)| format!("{}, {page}", numbers.join(", ")))
            .collect();
        format!("{}: {}", volume.kind.name(), pages.join("; "))
    }

    /// Labels sticks with their marks; those of one mark that lie behind one another are counted.
    pub(super) fn label(&self, figure: &mut Figure, eye: &Eye, wanted: impl Fn(&Part) -> bool) {
        let mut found: Vec<(&str, Rect, usize)> = Vec::new();
        for (part, solid) in self.parts(wanted) {
            let Some(mark) = self.mark(part) else {
                continue;
            };
            let around = eye.around(&solid.vertices);
            let behind = |other: &Rect| other.grown(0.5).contains(&around);
            match found.iter_mut().find(|it| it.0 == mark && behind(&it.1)) {
                Some(same) => same.2 += 1,
                None => found.push((mark, around, 1)),
            }
        }
        let labels = found.into_iter().map(|(mark, around, count)| Label {
            text: if count > 1 {
                format!("{count} × {mark}")
            } else {
                mark.to_owned()
            },
            short: None,
            around,
        });
        figure.labels.extend(labels);
    }
}

fn is_round_pipe(kind: ClearanceKind) -> bool {
    matches!(
        kind,
        ClearanceKind::VerticalPipe
            | ClearanceKind::Bend
            | ClearanceKind::HorizontalPipe
            | ClearanceKind::WallPass
    )
}

/// The middle of the side of an outline that lies farthest to the upper right.
fn outer_side(loops: &[Vec<DVec2>], center: DVec2) -> DVec2 {
    let sides = loops.iter().flat_map(|corners| edges(corners));
    let sides = sides.map(|(a, b)| (a + b) / 2.0);
    let out = |point: &DVec2| (*point - center).dot(DVec2::new(1.0, 0.8));
    sides
        .max_by(|a, b| out(a).total_cmp(&out(b)))
        .unwrap_or(center)
}

/// The trade's word for a way out of a clearance volume.
fn way_of(direction: Direction, kind: ClearanceKind) -> &'static str {
    match direction {
        Direction::Radial => "all round",
        Direction::Along(way) if way.z > 0.5 && kind == ClearanceKind::UnitFront => "high",
        Direction::Along(way) if way.z > 0.5 => "above",
        Direction::Along(way) if way.z < -0.5 => "below",
        Direction::Along(way) if way.y < -0.7 => "in front",
        Direction::Along(way) if way.y > 0.7 => "behind",
        Direction::Along(_) => "beside",
    }
}

/// A hatch that fewer of the parts beside it have.
fn told_apart(hatch: Hatch, around: &Rect, cut: &[(Rect, Hatch)]) -> Hatch {
    let near = cut.iter().filter(|it| it.0.grown(1.0).overlaps(around));
    let near: Vec<Hatch> = near.map(|it| it.1).collect();
    let count = |wanted: Hatch| near.iter().filter(|it| **it == wanted).count();
    if count(hatch) > count(hatch.beside()) {
        hatch.beside()
    } else {
        hatch
    }
}

/// How what is cut of a part is hatched.
fn hatch_of(part: &Part) -> Option<Hatch> {
    let of_metal = part.group == Group::Unit
        || part.group == Group::Vent && !part.material.combustible
        || part.kind == Kind::Screen;
    if of_metal {
        None
    } else if part.kind.is_sheet() {
        Some(Hatch::Sheet)
    } else {
        Some(Hatch::Wood)
    }
}

/// Pages of the manual, each once.
pub(super) fn pages(pages: &[&str]) -> String {
    let mut once: Vec<&str> = Vec::new();
    for page in pages {
        if !once.contains(page) {
            once.push(page);
        }
    }
    format!("manual p. {}", once.join(" and "))
}

/// A point of a view from two lengths.
pub(super) fn at(x: Length, y: Length) -> DVec2 {
    DVec2::new(x.to_mm(), y.to_mm())
}
