//! Layout marks: where sticks stand on their plates, heights for a story pole, and plumb lines on the wall.
//!
//! Every mark counts from one end, never from the mark before it, and stays exact.

use glam::DVec3;

use super::marks::{LevelEdge, LineWhat, PoleWhat, WallSide};
use super::stick_face::StickFace;
use crate::design::{Design, Group, Kind, Part, Span, Stage, crossings};
use crate::geom::{Shape, TOLERANCE};
use crate::params::{Hand, RoomWall};
use crate::units::{Length, Rounding, TapeUnit};

/// The marks of one plate.
#[derive(Debug, Clone)]
pub struct PlateMarks {
    /// The plate's id.
    pub plate: String,
    /// From which end of the plate the marks count.
    pub from: StickFace,
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
    pub what: PoleWhat,
    /// Above the bare slab.
    pub height: Length,
    /// From which stage of the job on it can be measured.
    pub stage: Stage,
    /// Which way it is rounded: the edge of a hole outward.
    pub rounding: Rounding,
}

/// A plumb line on the existing wall.
#[derive(Debug, Clone)]
pub struct PlumbLine {
    /// What it is for.
    pub what: LineWhat,
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
fn start(plate: &Part) -> StickFace {
    StickFace::of(-plate.body.frame.z.with_z(0.0))
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
    let mut mark = |(what, stage): (PoleWhat, Stage), height: f64, rounding: Rounding| {
        let height = Length::mm(height) - slab;
        let known = marks
            .iter()
            .any(|it| it.what == what && (it.height - height).abs().to_mm() <= TOLERANCE);
        if !known && height.is_positive() {
            marks.push(PoleMark {
                what,
                height,
                stage,
                rounding,
            });
        }
    };
    let mut add = |what: (PoleWhat, Stage), height: f64| mark(what, height, Rounding::Nearest);
    for part in &design.parts {
        let (low, high) = (part.body.bounds.low.z, part.body.bounds.high.z);
        let own = |edge| {
            let (branch, kind) = (part.branch, part.kind);
            (PoleWhat::Part { branch, kind, edge }, part.stage)
        };
        if part.kind.is_set_by_both_edges() {
            add(own(LevelEdge::Bottom), low);
            add(own(LevelEdge::Top), high);
        } else if matches!(part.kind, Kind::Sill | Kind::Ledge) {
            add(own(LevelEdge::Top), high);
        } else if part.kind == Kind::PlatformPanel {
            let top = design.layout.heights.platform_top.to_mm();
            add((PoleWhat::Platform, Stage::Platform), top);
        }
    }
    if let Some(recess) = &design.layout.recess {
        let heights = recess.finished_height;
        add((PoleWhat::RecessSill, Stage::Finish), heights.low.to_mm());
        add((PoleWhat::RecessHead, Stage::Finish), heights.high.to_mm());
        add(
            (PoleWhat::RecessMiddle, Stage::Finish),
            heights.center().to_mm(),
        );
    }
    let pass = &design.layout.pass;
    if let Some(wall) = pass.wall {
        let hole = |edge| (PoleWhat::Hole(wall, edge), Stage::WallPass);
        let (low, high) = (pass.heights.low.to_mm(), pass.heights.high.to_mm());
        mark(hole(LevelEdge::Bottom), low, Rounding::Down);
        mark(hole(LevelEdge::Top), high, Rounding::Up);
    }
    marks.sort_by(|a, b| a.height.to_mm().total_cmp(&b.height.to_mm()));
    marks
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
    let depth = design.params.chase.stud.depth();
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
            left(LineWhat::BoardCut(Hand::Left)),
            opens(LineWhat::Opening(Hand::Left)),
            line(RoomWall::Back, LineWhat::UnitCenter, layout.unit_center),
            closes(LineWhat::Opening(Hand::Right)),
            right(LineWhat::BoardCut(Hand::Right)),
        ]);
    }
    if !layout.site.is_turned() && !own_back {
        let line = |what, right| line(behind, what, right);
        let center = if shared {
            LineWhat::UnitAndPipe
        } else {
            LineWhat::UnitCenter
        };
        lines.extend([
            line(
                LineWhat::SideWall(Hand::Left, WallSide::Outside),
                layout.site.chase.low,
            ),
            line(
                LineWhat::SideWall(Hand::Left, WallSide::Inside),
                layout.site.chase.low + depth,
            ),
            line(center, layout.unit_center),
            line(
                LineWhat::SideWall(Hand::Right, WallSide::Inside),
                layout.site.chase.high - depth,
            ),
            line(
                LineWhat::SideWall(Hand::Right, WallSide::Outside),
                layout.site.chase.high,
            ),
        ]);
    }
    if let Some(wall) = pass.wall {
        let [left, right] = edges(wall, pass.sides);
        lines.extend([
            left(LineWhat::Hole(Hand::Left)),
            right(LineWhat::Hole(Hand::Right)),
        ]);
        if !shared {
            lines.push(line(wall, LineWhat::Pipe, pass.inside.0));
        }
    }
    lines.sort_by(|a, b| {
        let along = a.right.to_mm().total_cmp(&b.right.to_mm());
        a.wall.cmp(&b.wall).then(along)
    });
    lines
}

const fn line(wall: RoomWall, what: LineWhat, right: Length) -> PlumbLine {
    PlumbLine {
        what,
        wall,
        right,
        rounding: Rounding::Nearest,
    }
}

/// Makers of the lines at the edges of what is cut: rounded outward.
fn edges(wall: RoomWall, cut: Span) -> [impl Fn(LineWhat) -> PlumbLine; 2] {
    [(cut.low, Rounding::Down), (cut.high, Rounding::Up)].map(|(right, rounding)| {
        move |what| PlumbLine {
            rounding,
            ..line(wall, what, right)
        }
    })
}

/// Whether a part belongs to the new framing.
pub(super) fn is_framing(part: &Part) -> bool {
    matches!(part.group, Group::Framing | Group::Platform)
        || matches!(part.kind, Kind::PassFrame | Kind::Cleat)
}
