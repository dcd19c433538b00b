//! How each framed wall of the chase goes up, and in which order: as one frame, under its top plate, or built in place.
//!
//! A wall that lies on the floor turns about a foot of its sole plate: about the outer one where it lies outside the
//! chase, about the inner one where it lies inside. On the way no corner may meet the ceiling; lying, it needs floor up
//! to the room's wall, and no other wall may stand there yet. Without its top plates it is raised beside them, where
//! only the ceiling is over it, and slid under them; which they allow from the side toward which they do not fall.
//! What neither is possible for is built stick by stick between plates that are fixed.
//!
//! *Frame*: the world's; heights from the bare slab.
//!
//! # Source
//! Arithmetic; that a frame is turned about its foot, or slid under a plate that is nailed up: common practice, no source.

mod floor;
mod order;
mod way;

pub use way::{Lifted, Method, RaisedFrom, Raising, WayUp};

use std::cmp::Reverse;

use glam::DVec3;

use super::part::{Group, Kind, Part, Stage};
use super::{Branch, Design};
use crate::geom::{EndPlane, TOLERANCE, Underside};
use crate::layout::point;
use crate::params::{ChaseWall, Fit};
use crate::units::Length;
use floor::Floor;

/// The walls of a design in the order in which they go up.
pub fn raising(design: &Design) -> Vec<Raising> {
    let allowance = design.params.project.build_allowance;
    let walls = walls(design);
    let options: Vec<(Raising, Vec<Method>)> = walls
        .iter()
        .map(|wall| {
            let raising = wall.raising(design);
            let options = raising.options(allowance);
            (raising, options)
        })
        .collect();
    let places: Vec<_> = walls.iter().map(Wall::footprint).collect();
    let platform = around(design.parts.iter().filter(|it| it.group == Group::Platform));
    let mut settled = order::settle(&options, &places);
    for wall in &mut settled {
        let lies_there = |way: &WayUp| platform.is_some_and(|it| way.lies_over(it));
        wall.before_platform = wall.method.way().is_some_and(lies_there);
    }
    settled
}

/// How the sticks of a wall are cut and nailed; what is no wall of the chase follows the file.
pub fn fit_of(walls: &[Raising], design: &Design, branch: Branch) -> Fit {
    let own = walls.iter().find(|it| Some(it.wall) == branch.wall());
    own.map_or(design.params.chase.fit, |it| it.method.fit())
}

/// Puts plates that are raised with their wall to the stage of the walls.
pub(super) fn stage_plates(design: &mut Design) {
    let walls = raising(design);
    for part in &mut design.parts {
        let with_wall: &[Kind] = match walls.iter().find(|it| part.is_of(it.wall)) {
            Some(wall) => match wall.method.fit() {
                Fit::PlateFirst => &[Kind::SolePlate],
                Fit::InPlace => &[],
                Fit::TiltUp | Fit::FirstThatFits => &[Kind::SolePlate, Kind::TopPlate],
            },
            None => &[],
        };
        if with_wall.contains(&part.kind) {
            part.stage = Stage::Walls;
        }
    }
}

/// The sticks of a wall.
struct Wall<'a> {
    name: ChaseWall,
    /// Top plates, or the ledge.
    tops: Vec<&'a Part>,
    /// Everything between them and the floor.
    rest: Vec<&'a Part>,
    /// Across the wall, from the outside of the chase inward.
    inward: DVec3,
}

fn walls(design: &Design) -> Vec<Wall<'_>> {
    let (parts, layout) = (&design.parts, &design.layout);
    let middle = point(
        layout.site.chase.center(),
        layout.faces.front_back / 2.0,
        layout.slab,
    );
    let mut walls: Vec<Wall<'_>> = Vec::new();
    let framing = |it: &&Part| it.group == Group::Framing && it.kind != Kind::Blocking;
    let is_top = |it: &Part| matches!(it.kind, Kind::TopPlate | Kind::Ledge);
    for top in parts.iter().filter(framing).filter(|it| is_top(it)) {
        let Some(name) = top.branch.wall() else {
            continue;
        };
        match walls.iter_mut().find(|it| it.name == name) {
            Some(wall) => wall.tops.push(top),
            None => walls.push(Wall {
                name,
                tops: vec![top],
                rest: Vec::new(),
                // plates and ledges lie along the wall with x across it
                inward: top.body.frame.x.with_z(0.0).normalize_or_zero(),
            }),
        }
    }
    for wall in &mut walls {
        let (low, high) = wall.footprint();
        // the face of an enclosure's back looks to the unit
        if wall.inward.dot(middle - (low + high) / 2.0) < 0.0 {
            wall.inward = -wall.inward;
        }
    }
    for part in parts.iter().filter(framing).filter(|it| !is_top(it)) {
        if let Some(wall) = walls.iter_mut().find(|it| part.is_of(it.name)) {
            wall.rest.push(part);
        }
    }
    walls
}

fn corners(part: &Part) -> impl Iterator<Item = DVec3> + '_ {
    part.body.pieces.iter().flat_map(|it| &it.vertices).copied()
}

/// The box round parts.
fn around<'a>(parts: impl Iterator<Item = &'a Part>) -> Option<(DVec3, DVec3)> {
    let boxes = parts.map(|it| (it.body.bounds.low, it.body.bounds.high));
    boxes.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))
}

impl<'a> Wall<'a> {
    fn all(&self) -> impl Iterator<Item = &'a Part> {
        self.tops.iter().chain(&self.rest).copied()
    }

    fn footprint(&self) -> (DVec3, DVec3) {
        around(self.all()).unwrap_or_default()
    }

    /// From its outer to its inner foot, along the way inward.
    fn feet(&self) -> (f64, f64) {
        let soles = self.rest.iter().filter(|it| it.kind == Kind::SolePlate);
        let mut soles: Vec<&Part> = soles.copied().collect();
        if soles.is_empty() {
            soles.clone_from(&self.tops);
        }
        let across = soles.into_iter().flat_map(corners);
        across
            .map(|it| it.dot(self.inward))
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), it| {
                (low.min(it), high.max(it))
            })
    }

    fn raising(&self, design: &Design) -> Raising {
        let params = &design.params;
        let asked = params.fit_of_wall(self.name);
        let has_ledge = self.tops.iter().any(|it| it.kind == Kind::Ledge);
        // a track's flanges close the way under it, and a ledge is laid on the frame
        let slides_in = !has_ledge && params.stud_of(self.name).wood().is_some();
        let mut ways = Vec::new();
        for lifted in [Lifted::Whole, Lifted::UnderPlate] {
            if lifted == Lifted::Whole || slides_in {
                let both = [RaisedFrom::Outside, RaisedFrom::Inside];
                ways.extend(
                    both.map(|from| self.way(design, from, lifted))
                        .into_iter()
                        .flatten(),
                );
            }
        }
        let uprights = self.rest.iter().filter(|it| it.kind != Kind::SolePlate);
        let heights = uprights.map(|it| (it.id.clone(), it.heights().size()));
        let longest = heights.max_by(|a, b| a.1.to_mm().total_cmp(&b.1.to_mm()));
        Raising {
            wall: self.name,
            asked,
            method: Method::InPlace,
            ways,
            longest: longest.unwrap_or_default(),
            across: Floor::of_room(design).diagonal(),
            before_platform: false,
        }
    }

    /// Its way up from a side; none where something of it hangs out past the foot.
    fn way(&self, design: &Design, from: RaisedFrom, lifted: Lifted) -> Option<WayUp> {
        let layout = &design.layout;
        let (outer, inner) = self.feet();
        let (out, foot) = match from {
            RaisedFrom::Outside => (-self.inward, -outer),
            RaisedFrom::Inside => (self.inward, inner),
        };
        // beside the plates, so that only the ceiling is over it
        let aside = match lifted {
            Lifted::Whole => 0.0,
            Lifted::UnderPlate => inner - outer,
        };
        let parts: Vec<&Part> = match lifted {
            Lifted::Whole => self.all().collect(),
            Lifted::UnderPlate => self.rest.clone(),
        };
        let ceiling = layout.ceiling_of(self.tops.first()?);
        let floor = Floor::under(design, self.footprint());
        let turn = Turn {
            out,
            foot: foot + aside,
            slab: layout.slab.to_mm(),
        };
        let moved = |part: &&'a Part| {
            let part = *part;
            corners(part).map(move |it| (part, it + out * aside))
        };
        let points: Vec<(&Part, DVec3)> = parts.iter().flat_map(moved).collect();
        if points.iter().any(|(_, it)| turn.behind(*it) < -TOLERANCE) {
            return None;
        }
        let passes = points.iter().flat_map(|(part, it)| {
            let planes = ceiling.planes().iter();
            planes.map(|plane| (*part, turn.nearest(plane, *it)))
        });
        let room = |pass: &Pass| pass.ceiling - pass.height;
        let (part, pass) = passes.min_by(|a, b| room(&a.1).total_cmp(&room(&b.1)))?;
        let lying = points.iter().map(|(_, it)| turn.lying(&floor, *it));
        let (floor, lies, end) = lying.min_by(|a, b| (a.0 - a.1).total_cmp(&(b.0 - b.1)))?;
        let ends = points.iter().flat_map(|(_, it)| {
            let foot = turn.at_foot(*it);
            [foot, foot + out * (it.z - turn.slab)]
        });
        let area = ends.map(|it| (it, it));
        Some(WayUp {
            from,
            lifted,
            part: part.id.clone(),
            place: pass.place,
            height: Length::mm(pass.height),
            ceiling: Length::mm(pass.ceiling),
            floor: Length::mm(floor),
            lies: Length::mm(lies),
            end,
            slides: lifted == Lifted::Whole || self.slides_under(ceiling, out),
            area: area.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))?,
        })
    }

    /// Whether nothing of the top plates hangs lower on this side than over the wall.
    fn slides_under(&self, ceiling: &Underside, out: DVec3) -> bool {
        let mut over = self
            .tops
            .iter()
            .flat_map(|it| corners(it))
            .map(DVec3::truncate);
        over.all(|place| {
            let plane = ceiling.planes().get(ceiling.plane_at(place));
            plane.is_none_or(|it| it.slope.dot(out.truncate()) >= -TOLERANCE)
        })
    }
}

/// A turn about a level foot.
struct Turn {
    /// Level and square to the foot, toward where the frame lies.
    out: DVec3,
    /// Where the foot runs, along `out`.
    foot: f64,
    slab: f64,
}

/// A place on the way, and the ceiling over it; heights over the slab.
struct Pass {
    place: DVec3,
    height: f64,
    ceiling: f64,
}

impl Turn {
    /// How far a point of the plumb frame lies behind the foot.
    fn behind(&self, point: DVec3) -> f64 {
        self.foot - point.dot(self.out)
    }

    /// The point of the foot below it.
    fn at_foot(&self, point: DVec3) -> DVec3 {
        (point + self.out * self.behind(point)).with_z(self.slab)
    }

    /// Where a point comes nearest to a plane of the ceiling, from lying to plumb.
    fn nearest(&self, plane: &EndPlane, point: DVec3) -> Pass {
        let (behind, up) = (self.behind(point), point.z - self.slab);
        // per millimetre toward where it lies
        let rise = plane.slope.dot(self.out.truncate());
        let steep = (1.0 + rise * rise).sqrt();
        let radius = up.hypot(behind);
        // nearest where its circle runs parallel to the ceiling, if that lies on the way
        let parallel = -rise / steep * radius;
        let (along, height) = if parallel <= -behind {
            (-behind, up)
        } else if parallel >= up {
            (up, behind)
        } else {
            (parallel, radius / steep)
        };
        let place = self.at_foot(point) + self.out * along + DVec3::Z * height;
        Pass {
            place,
            height,
            ceiling: plane.z(place.truncate()) - self.slab,
        }
    }

    /// Floor before a point's foot, how much of it the point needs when it lies, and where it lies then.
    fn lying(&self, floor: &Floor, point: DVec3) -> (f64, f64, DVec3) {
        let (foot, up) = (self.at_foot(point), point.z - self.slab);
        (floor.ahead(foot, self.out), up, foot + self.out * up)
    }
}

impl Raising {
    /// The methods that are left to choose from, the first the best.
    fn options(&self, allowance: Length) -> Vec<Method> {
        let class = |way: &WayUp| (way.margin() - allowance).to_mm() >= -TOLERANCE;
        let of = |lifted: Lifted| {
            let ways = self.ways.iter().filter(|it| it.lifted == lifted);
            let mut fit: Vec<&WayUp> = ways.filter(|it| it.has_room()).collect();
            fit.sort_by_key(|it| (Reverse(class(it)), it.from));
            fit
        };
        // what is asked for is shown with what it lacks
        let nearest = |lifted: Lifted| {
            let ways = self.ways.iter().filter(|it| it.lifted == lifted);
            ways.max_by(|a, b| {
                let key = |it: &WayUp| (it.slides, it.margin().to_mm());
                let (a, b) = (key(a), key(b));
                a.0.cmp(&b.0).then(a.1.total_cmp(&b.1))
            })
        };
        let asked = |lifted: Lifted| {
            let fit = of(lifted);
            if fit.is_empty() {
                nearest(lifted).into_iter().collect()
            } else {
                fit
            }
        };
        let ways = match self.asked {
            Fit::FirstThatFits => [of(Lifted::Whole), of(Lifted::UnderPlate)].concat(),
            Fit::TiltUp => asked(Lifted::Whole),
            Fit::PlateFirst => asked(Lifted::UnderPlate),
            Fit::InPlace => Vec::new(),
        };
        let raised = ways.into_iter().cloned().map(Method::Raised);
        raised.chain([Method::InPlace]).collect()
    }
}
