//! The screws that hold the mantel: where each is driven, what it passes, and how deep the wood is there.
//!
//! In: the finished design, whose wood is looked through along each screw.

use glam::DVec3;

use super::mantel::{mantel_back, mantel_sides};
use super::mantel_hold::{FAR, cleat_height, cleat_sides, is_wood, wall_at};
use super::{Branch, Design, Kind, Part, Stage};
use crate::catalog::Screw;
use crate::geom::{TOLERANCE, merged, stretches};
use crate::layout::point;
use crate::params::{Mantel, MantelHold};
use crate::units::{Length, Span};

/// How far a screw that holds the mantel bites into wood (common practice, no source).
pub const MANTEL_BITE: Length = Length::inches(1.5);
/// How far a screw stays from the edge of a stick (common practice, no source).
const EDGE: Length = Length::inches(0.375);
/// From the ledge's front edge to the screws down into it: the middle of the header's first ply.
const LEDGE_EDGE: Length = Length::inches(0.75);
/// From an end of mantel or cleat to the first screw (common practice, no source).
const END: Length = Length::inches(2.0);
/// From the front of a stud to the first screw of a bar on its side, and from its back to the second: a driver there
/// clears what stands behind the wall.
const BAR_SCREWS: [Length; 2] = [Length::inches(0.75), Length::inches(1.5)];
/// How deep behind a stud face it is looked for wood to screw into.
const INTO: Length = Length::inches(0.75);

/// A screw that holds the mantel, or what holds the mantel.
#[derive(Debug, Clone, PartialEq)]
pub struct MantelFixing {
    /// Where its head lies when it is driven.
    pub head: DVec3,
    /// The way it is driven, a unit vector.
    pub way: DVec3,
    /// What it passes before it comes to wood.
    pub passed: Length,
    /// How thick the wood is there, straight on; zero where there is none.
    pub wood: Length,
    /// At which stage it is driven.
    pub stage: Stage,
    /// The part that is held by it.
    pub part: String,
}

impl MantelFixing {
    /// How long the screw is: the shortest sold that bites far enough, or the longest that is sold.
    pub fn screw(&self) -> Length {
        let wanted = Screw::Wood.at_least(self.passed + MANTEL_BITE);
        wanted.unwrap_or(Screw::Wood.longest())
    }

    /// How far that screw bites.
    pub fn bite(&self) -> Length {
        (self.screw() - self.passed).min(self.wood)
    }
}

/// The screws that hold the mantel, or its cleat or brackets; none where it is not told what does, or where there is
/// no place for any.
pub fn mantel_fixings(design: &Design) -> Vec<MantelFixing> {
    let Some(mantel) = design.params.mantel.as_ref() else {
        return Vec::new();
    };
    let wood: Vec<&Part> = design.parts.iter().filter(|it| is_wood(it)).collect();
    match mantel.held_by {
        Some(MantelHold::Screws) => into_ledge(mantel, design, &wood),
        Some(MantelHold::Cleat) => into_wall(mantel, design, &wood),
        Some(MantelHold::Brackets) => into_studs(design, &wood),
        None => Vec::new(),
    }
}

/// A screw from its head straight on.
fn driven((head, way): (DVec3, DVec3), stage: Stage, part: &Part, wood: &[&Part]) -> MantelFixing {
    let all = wood.iter().flat_map(|it| stretches(&it.body, head, way));
    let all = merged(all.filter(|it| it.1 > TOLERANCE && it.0 < FAR).collect());
    let (passed, thick) = all
        .first()
        .map_or((FAR, 0.0), |it| (it.0.max(0.0), it.1 - it.0.max(0.0)));
    MantelFixing {
        head,
        way,
        passed: Length::mm(passed),
        wood: Length::mm(thick),
        stage,
        part: part.id.clone(),
    }
}

/// Down through the mantel where it lies over the ledge.
fn into_ledge(mantel: &Mantel, design: &Design, wood: &[&Part]) -> Vec<MantelFixing> {
    let layout = &design.layout;
    let out = layout.faces.lower_stud - LEDGE_EDGE;
    let part = design.first(Kind::Mantel);
    let over = mantel_back(mantel, layout);
    let Some(part) = part.filter(|_| layout.is_stepped() && (out - over).is_positive()) else {
        return Vec::new();
    };
    let ends = mantel_sides(mantel, layout, out);
    let framing = layout.site.framing_at(out);
    let sides = Span::new(ends.low.max(framing.low), ends.high.min(framing.high)).grown(-END);
    let sunk = mantel.underside + mantel.thickness - mantel.counterbore;
    let places = spaced(&[sides], mantel.hold_spacing);
    let heads = places.into_iter().map(|it| point(it, out, sunk));
    heads
        .map(|head| driven((head, DVec3::NEG_Z), Stage::Mantel, part, wood))
        .collect()
}

/// Through a cleat, the finish and the board into the wall behind.
fn into_wall(mantel: &Mantel, design: &Design, wood: &[&Part]) -> Vec<MantelFixing> {
    let layout = &design.layout;
    let Some(part) = design.first_on(Branch::Mantel, Kind::Cleat) else {
        return Vec::new();
    };
    let height = cleat_height(mantel);
    let (_, face, _) = wall_at(layout, height);
    let sides = cleat_sides(mantel, layout).grown(-END);
    let line = point(Length::ZERO, face - INTO, height);
    let all = wood
        .iter()
        .flat_map(|it| stretches(&it.body, line, DVec3::X));
    let found = merged(all.collect()).into_iter();
    let allowed = found.filter_map(|(a, b)| {
        let own = Span::new(Length::mm(a), Length::mm(b)).grown(-EDGE);
        let own = Span::new(own.low.max(sides.low), own.high.min(sides.high));
        (own.high >= own.low).then_some(own)
    });
    let allowed: Vec<Span> = allowed.collect();
    let front = mantel_back(mantel, layout) + mantel.cleat.breadth();
    let heads = spaced(&allowed, mantel.hold_spacing).into_iter();
    let heads = heads.map(|it| point(it, front, height));
    heads
        .map(|head| driven((head, DVec3::Y), Stage::Mantel, part, wood))
        .collect()
}

/// Sideways through each bracket into its stud, two screws each.
fn into_studs(design: &Design, wood: &[&Part]) -> Vec<MantelFixing> {
    let brackets = design.parts.iter().filter(|it| it.kind == Kind::Bracket);
    let mut found = Vec::new();
    for bracket in brackets {
        let bounds = &bracket.body.bounds;
        let middle = bounds.center();
        let on_left = |it: &&Part| {
            stretches(&it.body, middle.with_y(bounds.high.y - 1.0), DVec3::NEG_X)
                .iter()
                .any(|it| (it.0 - bounds.size().x / 2.0).abs() <= TOLERANCE)
        };
        let (x, way) = if wood.iter().any(on_left) {
            (bounds.high.x, DVec3::NEG_X)
        } else {
            (bounds.low.x, DVec3::X)
        };
        let (_, face, depth) = wall_at(&design.layout, Length::mm(middle.z));
        for behind in [BAR_SCREWS[0], depth - BAR_SCREWS[1]] {
            let head = DVec3::new(x, (behind - face).to_mm(), middle.z);
            found.push(driven((head, way), Stage::MantelBrackets, bracket, wood));
        }
    }
    found
}

/// Places in these stretches, no farther apart than the spacing where the stretches let them: as far on as they may,
/// and one at the very end.
fn spaced(allowed: &[Span], spacing: Length) -> Vec<Length> {
    let mut places: Vec<Length> = Vec::new();
    let Some(end) = allowed.last().map(|it| it.high) else {
        return places;
    };
    let mut next = allowed.first().map(|it| it.low);
    while let Some(place) = next.filter(|it| it.to_mm() <= end.to_mm() + TOLERANCE) {
        places.push(place);
        let reach = place + spacing;
        let within = allowed.iter().rev().find_map(|it| {
            let farthest = it.high.min(reach);
            (it.low <= farthest && (farthest - place).to_mm() > TOLERANCE).then_some(farthest)
        });
        let beyond = allowed.iter().map(|it| it.low).find(|it| *it > reach);
        next = within.or(beyond);
    }
    places
}
