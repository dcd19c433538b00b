//! Layout marks: where sticks stand on their plates, heights for a story pole, and plumb lines on the wall.
//!
//! Every mark counts from one end, never from the mark before it, and stays exact.

use glam::DVec3;

use crate::design::{Design, Group, Kind, Part, crossings};
use crate::geom::{Shape, TOLERANCE};
use crate::params::RoomWall;
use crate::units::Length;

/// The marks of one plate.
#[derive(Debug, Clone)]
pub struct PlateMarks {
    /// The plate's id.
    pub plate: String,
    /// From which end of the plate the marks count.
    pub from: &'static str,
    /// Length of the plate along its edge.
    pub length: Length,
    /// The marks, in order.
    pub marks: Vec<StickMark>,
}

/// Where a stick stands.
#[derive(Debug, Clone)]
pub struct StickMark {
    /// The stick's id.
    pub part: String,
    /// From the end to the stick's nearer edge, along the plate; the stick stands beyond the line.
    pub edge: Length,
    /// The same, level: what a tape held level reads.
    pub level: Length,
}

/// A height on the story pole.
#[derive(Debug, Clone)]
pub struct PoleMark {
    /// What is marked.
    pub what: String,
    /// Above the bare slab.
    pub height: Length,
}

/// A plumb line on the existing wall.
#[derive(Debug, Clone)]
pub struct PlumbLine {
    /// What it is for.
    pub what: &'static str,
    /// The wall that it is snapped on.
    pub wall: RoomWall,
    /// From the wall's left end as seen from the room; on the wall behind the chase that is the left corner of the room.
    pub right: Length,
}

/// Where a stick is bored.
#[derive(Debug, Clone)]
pub struct BoreMark {
    /// The stick's id.
    pub part: String,
    /// What goes through.
    pub service: String,
    /// From the stick's foot up to the middle of the hole.
    pub up: Length,
    /// From the middle of the hole to the nearer edge.
    pub from_edge: Length,
    /// Of the hole.
    pub diameter: Length,
}

/// Every bore that is made.
pub(super) fn bores(design: &Design) -> Vec<BoreMark> {
    let crossings = crossings(&design.parts, design.params.project.unit).into_iter();
    let made = crossings.filter(|(_, stick, it)| stick.body.shape.bores().contains(it.bore()));
    made.map(|(service, stick, it)| BoreMark {
        part: stick.id.clone(),
        service: service.id.clone(),
        up: it.up,
        from_edge: it.from_edge,
        diameter: it.diameter,
    })
    .collect()
}

/// The marks of every plate that sticks stand on or under.
pub(super) fn plates(design: &Design) -> Vec<PlateMarks> {
    let plates = design
        .parts
        .iter()
        .filter(|part| matches!(part.kind, Kind::SolePlate | Kind::TopPlate | Kind::Ledge));
    let marks = plates.filter_map(|plate| {
        let marks = marks_on(plate, design);
        (!marks.is_empty()).then(|| PlateMarks {
            plate: plate.id.clone(),
            from: start(plate),
            length: along(plate).1,
            marks,
        })
    });
    marks.collect()
}

fn is_upright(kind: Kind) -> bool {
    matches!(kind, Kind::Stud | Kind::King | Kind::Jack | Kind::Cripple)
}

/// The level direction of a plate, from its marked end, and its length along its edge.
fn along(plate: &Part) -> (DVec3, Length) {
    let z = plate.body.frame.z;
    let level = DVec3::new(z.x, z.y, 0.0).normalize_or_zero();
    let length = match &plate.body.shape {
        Shape::Swept(swept) => swept.top.first().zip(swept.bottom.first()),
        Shape::Tube(_) => None,
    };
    (
        level,
        length.map_or(Length::ZERO, |(top, bottom)| {
            Length::mm(top.height - bottom.height)
        }),
    )
}

/// The end where the plate's own axis begins.
fn start(plate: &Part) -> &'static str {
    let z = plate.body.frame.z;
    if z.x.abs() >= z.y.abs() {
        if z.x > 0.0 { "left" } else { "right" }
    } else if z.y > 0.0 {
        "room"
    } else {
        "wall"
    }
}

fn marks_on(plate: &Part, design: &Design) -> Vec<StickMark> {
    let (level, length) = along(plate);
    let origin = plate.body.frame.origin;
    // a plate that follows the slope is longer than what lies level under it
    let stretch = 1.0 / plate.body.frame.z.dot(level).max(TOLERANCE);
    let sticks = design.parts.iter().filter(|part| {
        is_upright(part.kind)
            && part.branch == plate.branch
            && part.body.bounds.touches(&plate.body.bounds)
    });
    let mut marks: Vec<StickMark> = sticks
        .map(|part| {
            let near = part.body.farthest(-level);
            let from_start = Length::mm((near - origin).dot(level));
            StickMark {
                part: part.id.clone(),
                edge: from_start * stretch,
                level: from_start,
            }
        })
        .filter(|it| it.edge > Length::mm(-TOLERANCE) && it.edge < length)
        .collect();
    marks.sort_by(|a, b| {
        a.edge
            .to_mm()
            .total_cmp(&b.edge.to_mm())
            .then_with(|| a.part.cmp(&b.part))
    });
    marks
}

/// Heights of everything level that is built to a height, from the slab up; equal heights of one name once.
pub(super) fn story_pole(design: &Design) -> Vec<PoleMark> {
    let slab = design.layout.slab;
    let mut marks: Vec<PoleMark> = Vec::new();
    let mut add = |what: String, height: f64| {
        let height = Length::mm(height) - slab;
        let known = marks
            .iter()
            .any(|it| it.what == what && (it.height - height).abs().to_mm() <= TOLERANCE);
        if !known && height.is_positive() {
            marks.push(PoleMark { what, height });
        }
    };
    for part in &design.parts {
        let (low, high) = (part.body.bounds.low.z, part.body.bounds.high.z);
        let name = format!("{} {}", part.branch, part.kind.name());
        match part.kind {
            Kind::Header | Kind::Mantel | Kind::Screen | Kind::Blocking => {
                add(format!("{name}, bottom"), low);
                add(format!("{name}, top"), high);
            }
            Kind::Sill | Kind::Ledge => add(format!("{name}, top"), high),
            Kind::PlatformPanel => add(
                "platform, top".to_owned(),
                design.layout.platform_top.to_mm(),
            ),
            _ => {}
        }
    }
    if let Some(recess) = &design.layout.recess {
        add(
            "finished recess, sill".to_owned(),
            recess.finished_height.low.to_mm(),
        );
        add(
            "finished recess, head".to_owned(),
            recess.finished_height.high.to_mm(),
        );
        add(
            "finished recess, middle".to_owned(),
            recess.finished_height.center().to_mm(),
        );
    }
    let pass = &design.layout.pass;
    if let Some(wall) = pass.wall {
        let hole = hole_name(wall);
        add(format!("{hole}, bottom"), pass.heights.low.to_mm());
        add(format!("{hole}, top"), pass.heights.high.to_mm());
    }
    marks.sort_by(|a, b| a.height.to_mm().total_cmp(&b.height.to_mm()));
    marks
}

/// What the hole for the vent is called.
fn hole_name(wall: RoomWall) -> String {
    match wall {
        RoomWall::Back | RoomWall::Behind => "hole through the wall".to_owned(),
        RoomWall::Left | RoomWall::Right => format!("hole through the {}", wall.name()),
    }
}

impl PlumbLine {
    /// From where it counts.
    pub const fn from(&self) -> &'static str {
        match self.wall {
            RoomWall::Back => "left corner",
            RoomWall::Behind => "left end of the wall behind the chase",
            RoomWall::Left => "left end of the left wall",
            RoomWall::Right => "left end of the right wall",
        }
    }
}

/// Lines to snap plumb on the existing walls: of the chase where it stands square against the wall behind it, and of the
/// hole in whichever wall it is.
pub(super) fn plumb_lines(design: &Design) -> Vec<PlumbLine> {
    let layout = &design.layout;
    let depth = design.params.chase.stud.width;
    let pass = &layout.pass;
    let mut lines = Vec::new();
    let behind = design.params.wall_behind();
    let own_back = design.params.has_own_back();
    let shared = pass.wall == Some(behind)
        && layout.opened.is_none()
        && !layout.is_across_corner
        && !(pass.inside.0 - layout.unit_center).abs().is_positive();
    if layout.opened.is_some() {
        let line = |what, right| PlumbLine {
            what,
            wall: RoomWall::Back,
            right,
        };
        lines.extend([
            line("old board cut off, left", layout.chase.low),
            line("opening for the unit, left", layout.rough_opening.low),
            line("center of the unit", layout.unit_center),
            line("opening for the unit, right", layout.rough_opening.high),
            line("old board cut off, right", layout.chase.high),
        ]);
    }
    if !layout.is_across_corner && !own_back {
        let line = |what, right| PlumbLine {
            what,
            wall: behind,
            right,
        };
        let center = if shared {
            "center of the unit and of the pipe"
        } else {
            "center of the unit"
        };
        lines.extend([
            line("left side wall, outside", layout.chase.low),
            line("left side wall, inside", layout.chase.low + depth),
            line(center, layout.unit_center),
            line("right side wall, inside", layout.chase.high - depth),
            line("right side wall, outside", layout.chase.high),
        ]);
    }
    if let Some(wall) = pass.wall {
        let line = |what, right| PlumbLine { what, wall, right };
        lines.extend([
            line("hole through the wall, left", pass.sides.low),
            line("hole through the wall, right", pass.sides.high),
        ]);
        if !shared {
            lines.push(line("center of the pipe at the wall's face", pass.inside.0));
        }
    }
    lines.sort_by(|a, b| {
        let along = a.right.to_mm().total_cmp(&b.right.to_mm());
        a.wall.cmp(&b.wall).then(along)
    });
    lines
}

/// Whether a part belongs to the new framing.
pub(super) fn is_framing(part: &Part) -> bool {
    matches!(part.group, Group::Framing | Group::Platform) || part.kind == Kind::PassFrame
}
