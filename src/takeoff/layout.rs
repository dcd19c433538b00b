//! Layout marks: where sticks stand on their plates, heights for a story pole, and plumb lines on the wall.
//!
//! Every mark counts from one end, never from the mark before it, and stays exact.

use glam::DVec3;

use crate::design::{Design, Group, Kind, Part, Span, crossings};
use crate::geom::{Shape, TOLERANCE};
use crate::params::RoomWall;
use crate::units::{Length, Rounding, TapeUnit};

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
    /// Which way it is rounded: the edge of a hole outward.
    pub rounding: Rounding,
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
    /// Which way it is rounded: the edge of what is cut outward.
    pub rounding: Rounding,
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
    let mut mark = |what: String, height: f64, rounding: Rounding| {
        let height = Length::mm(height) - slab;
        let known = marks
            .iter()
            .any(|it| it.what == what && (it.height - height).abs().to_mm() <= TOLERANCE);
        if !known && height.is_positive() {
            marks.push(PoleMark {
                what,
                height,
                rounding,
            });
        }
    };
    let mut add = |what: String, height: f64| mark(what, height, Rounding::Nearest);
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
                design.layout.heights.platform_top.to_mm(),
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
        let (low, high) = (pass.heights.low.to_mm(), pass.heights.high.to_mm());
        mark(format!("{hole}, bottom"), low, Rounding::Down);
        mark(format!("{hole}, top"), high, Rounding::Up);
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

impl PoleMark {
    /// The height as it is written.
    pub fn tape(&self, unit: TapeUnit) -> String {
        self.height.tape(unit, self.rounding)
    }
}

impl PlumbLine {
    /// The place as it is written.
    pub fn tape(&self, unit: TapeUnit) -> String {
        self.right.tape(unit, self.rounding)
    }

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
    let behind = design.layout.site.behind;
    let own_back = design.layout.site.is_enclosed();
    let shared = pass.wall == Some(behind)
        && layout.opened.is_none()
        && !layout.site.is_turned()
        && !(pass.inside.0 - layout.unit_center).abs().is_positive();
    if layout.opened.is_some() {
        let (old, opening) = (layout.site.chase, layout.rough_opening);
        let [left, right] = edges(RoomWall::Back, old);
        let [opens, closes] = edges(RoomWall::Back, opening);
        lines.extend([
            left("old board cut off, left"),
            opens("opening for the unit, left"),
            line(RoomWall::Back, "center of the unit", layout.unit_center),
            closes("opening for the unit, right"),
            right("old board cut off, right"),
        ]);
    }
    if !layout.site.is_turned() && !own_back {
        let line = |what, right| line(behind, what, right);
        let center = if shared {
            "center of the unit and of the pipe"
        } else {
            "center of the unit"
        };
        lines.extend([
            line("left side wall, outside", layout.site.chase.low),
            line("left side wall, inside", layout.site.chase.low + depth),
            line(center, layout.unit_center),
            line("right side wall, inside", layout.site.chase.high - depth),
            line("right side wall, outside", layout.site.chase.high),
        ]);
    }
    if let Some(wall) = pass.wall {
        let [left, right] = edges(wall, pass.sides);
        lines.extend([
            left("hole through the wall, left"),
            right("hole through the wall, right"),
        ]);
        if !shared {
            let center = "center of the pipe at the wall's face";
            lines.push(line(wall, center, pass.inside.0));
        }
    }
    lines.sort_by(|a, b| {
        let along = a.right.to_mm().total_cmp(&b.right.to_mm());
        a.wall.cmp(&b.wall).then(along)
    });
    lines
}

const fn line(wall: RoomWall, what: &'static str, right: Length) -> PlumbLine {
    PlumbLine {
        what,
        wall,
        right,
        rounding: Rounding::Nearest,
    }
}

/// Makers of the lines at the edges of what is cut: rounded outward.
fn edges(wall: RoomWall, cut: Span) -> [impl Fn(&'static str) -> PlumbLine; 2] {
    [(cut.low, Rounding::Down), (cut.high, Rounding::Up)].map(|(right, rounding)| {
        move |what| PlumbLine {
            rounding,
            ..line(wall, what, right)
        }
    })
}

/// Whether a part belongs to the new framing.
pub(super) fn is_framing(part: &Part) -> bool {
    matches!(part.group, Group::Framing | Group::Platform) || part.kind == Kind::PassFrame
}
