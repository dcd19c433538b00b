//! The walls of the room that stand: where they are, what they consist of, and what is cut into them.
//!
//! *Wall frame*: u along the wall from its left end as seen from the room, v from its finished face
//! inward, w up from the bare slab. One code serves the wall behind the chase and the walls to its
//! left and right, so a hole, its framing and a stud headed off for it are the same in each of them.

mod described;

use glam::{DVec2, DVec3};

use described::{centers, described, framed_centers};

use super::builder::{Builder, Make};
use super::layout::WallLayout;
use super::span::Span;
use super::span::rectangle;
use super::{Branch, Group, Kind, Part, Stage, Stock};
use crate::catalog::{Lumber, Material};
use crate::geom::{EndPlane, Frame, Profile, Shape, Swept, TOLERANCE, Underside, roofline};
use crate::params::{Bearing, Params, RoomWall, wall_frame};
use crate::units::Length;

/// What lies so near to the face, in millimetres, lies against it: walls at an angle are rounded.
const AGAINST: f64 = 1e-3;

/// A wall of the room whose layers and studs are known.
#[derive(Debug, Clone, PartialEq)]
pub struct StandingWall {
    /// Which wall it is.
    pub place: RoomWall,
    /// Where it stands; see the frame above.
    pub frame: Frame,
    /// Its length along u.
    pub length: Length,
    /// Depths of its layers from the finished face.
    pub depths: WallLayout,
    /// Its studs.
    pub stud: Lumber,
    /// Centers of its studs along u, from the left.
    pub centers: Vec<Length>,
    /// Whether it carries load.
    pub bearing: Bearing,
    /// The ceiling at its top, over (u, v).
    pub top: Underside,
}

/// A rectangular hole square through a standing wall, in the wall's own frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WallHole {
    /// Its sides along u.
    pub sides: Span,
    /// Its bottom and top along w, from the bare slab.
    pub heights: Span,
}

impl StandingWall {
    /// Every wall that the parameters describe; the one behind the chase always, and first.
    pub(super) fn all(params: &Params, slab: Length) -> Vec<Self> {
        let behind = params.is_flush().then_some(RoomWall::Behind);
        [RoomWall::Back, RoomWall::Left, RoomWall::Right]
            .into_iter()
            .chain(behind)
            .filter_map(|place| Self::new(params, slab, place))
            .collect()
    }

    /// The wall at a side of the room; `None` where the parameters do not describe it.
    fn new(params: &Params, slab: Length, place: RoomWall) -> Option<Self> {
        let wall = described(params, place)?;
        let (frame, length) = wall_frame(params, place);
        let frame = Frame {
            origin: frame.origin + DVec3::Z * slab.to_mm(),
            ..frame
        };
        let (board, stud, sheathing) = wall.layers;
        Some(Self {
            place,
            frame,
            length,
            depths: WallLayout {
                studs: board,
                sheathing: board + stud.width,
                outside: board + stud.width + sheathing,
            },
            stud: stud.clone(),
            centers: match place {
                RoomWall::Behind if params.has_own_back() => framed_centers(&wall, length),
                _ => centers(&wall, length),
            },
            bearing: wall.bearing,
            top: match place {
                RoomWall::Behind => params.underside_behind(),
                _ => params.underside(),
            }
            .seen_from(&frame),
        })
    }

    /// A point of the world.
    pub fn point(&self, u: Length, v: Length, w: Length) -> DVec3 {
        self.frame
            .point(DVec3::new(u.to_mm(), v.to_mm(), w.to_mm()))
    }

    /// Height of the ceiling over a place of the finished face, from the bare slab.
    pub fn top_at(&self, u: Length) -> Length {
        Length::mm(self.top.z(DVec2::new(u.to_mm(), 0.0)))
    }

    fn stud_at(&self, center: Length) -> Span {
        Span::about(center, self.stud.thickness)
    }

    /// Centers of the studs that a hole would cut.
    pub fn cut_studs(&self, hole: Span) -> Vec<Length> {
        let studs = self.centers.iter().copied();
        studs
            .filter(|center| self.stud_at(*center).overlaps(hole))
            .collect()
    }

    /// The space between the studs that stay whole beside a hole, or up to the wall's ends.
    pub fn clear_span(&self, hole: Span) -> Span {
        let mut clear = Span::new(Length::ZERO, self.length);
        for center in &self.centers {
            let stud = self.stud_at(*center);
            if !stud.overlaps(hole) {
                if stud.high <= hole.center() {
                    clear.low = clear.low.max(stud.high);
                } else {
                    clear.high = clear.high.min(stud.low);
                }
            }
        }
        clear
    }

    /// The clear space between the two studs next to a place, or between a stud and an end of the wall.
    pub fn bay(&self, u: Length) -> Span {
        let mut bay = Span::new(Length::ZERO, self.length);
        for center in &self.centers {
            let stud = self.stud_at(*center);
            if *center <= u {
                bay.low = bay.low.max(stud.high);
            } else {
                bay.high = bay.high.min(stud.low);
            }
        }
        bay
    }

    /// Its outline up to the ceiling, without a hole: along it, and up from the bare slab.
    pub fn outline(&self) -> Vec<DVec2> {
        self.profile(None).outline
    }

    /// From where to where along it an upright lies flat against one of its faces; `None` where it does not.
    pub fn against(&self, part: &Part) -> Option<Span> {
        let Shape::Swept(swept) = &part.body.shape else {
            return None;
        };
        let outside = self.depths.outside.to_mm();
        let corners = swept.profile.outline.iter();
        let placed = corners.map(|it| part.body.frame.point(it.extend(0.0)));
        let local = placed.map(|it| self.frame.local_point(it));
        let at_face: Vec<f64> = local
            .filter(|it| it.y.abs().min((it.y - outside).abs()) <= AGAINST)
            .map(|it| it.x)
            .collect();
        let low = at_face.iter().copied().fold(f64::INFINITY, f64::min);
        let high = at_face.into_iter().fold(f64::NEG_INFINITY, f64::max);
        (high - low > TOLERANCE).then(|| Span::new(Length::mm(low), Length::mm(high)))
    }

    /// Whether a part stands in it.
    pub fn holds(&self, part: &Part) -> bool {
        let middle = self.frame.local_point(part.body.bounds.center());
        let along = 0.0..=self.length.to_mm();
        let deep = 0.0..=self.depths.outside.to_mm();
        deep.contains(&middle.y) && along.contains(&middle.x)
    }

    /// How much of one of its studs lies behind a stretch of its face.
    pub fn stud_behind(&self, stretch: Span) -> Length {
        let studs = self.centers.iter().map(|center| self.stud_at(*center));
        studs
            .map(|it| it.high.min(stretch.high) - it.low.max(stretch.low))
            .fold(Length::ZERO, Length::max)
    }

    /// Builds board and sheathing, with the hole if there is one.
    pub(super) fn build_layers(&self, hole: Option<WallHole>, builder: &mut Builder) {
        let profile = self.profile(hole);
        let layers = [
            (
                Span::new(Length::ZERO, self.depths.studs),
                Material::DRYWALL,
            ),
            (
                Span::new(self.depths.sheathing, self.depths.outside),
                Material::PANEL,
            ),
        ];
        for (behind, material) in layers {
            if behind.size().is_positive() {
                let back = DVec3::new(0.0, behind.high.to_mm(), 0.0);
                builder.add_next(
                    Branch::Room,
                    existing(Kind::WallLayer, material),
                    Swept::square(profile.clone(), behind.size()),
                    self.frame.place(&Frame::new(back, DVec3::X, DVec3::Z)),
                );
            }
        }
    }

    /// The wall up to the ceiling without a hole; a hole that runs past the ceiling leaves a notch.
    fn profile(&self, hole: Option<WallHole>) -> Profile {
        let right = self.length.to_mm();
        let roof = |u: f64| self.top_at(Length::mm(u)).to_mm();
        let above = |corner: DVec2| corner.y - roof(corner.x);
        let lines = self.top.lines(DVec2::ZERO, DVec2::new(right, 0.0));
        let mut top = roofline(&lines.collect::<Vec<_>>(), (0.0, right));
        top.reverse();
        let mut outline = vec![DVec2::ZERO, DVec2::new(right, 0.0)];
        let Some(hole) = hole.map(|hole| rectangle(hole.sides, hole.heights)) else {
            outline.extend(top);
            return Profile::polygon(outline);
        };
        if hole.iter().all(|corner| above(*corner) < -TOLERANCE) {
            outline.extend(top);
            return Profile::polygon(outline).with_opening(hole);
        }
        let notch = notch(&hole, above);
        let beside =
            |it: &DVec2, side: f64| notch.iter().all(|corner| (it.x - corner.x) * side > 0.0);
        outline.extend(top.iter().filter(|it| beside(it, 1.0)));
        outline.extend(&notch);
        outline.extend(top.iter().filter(|it| !beside(it, 1.0) && beside(it, -1.0)));
        Profile::polygon(outline)
    }

    /// Builds the studs; one that stands in the hole is headed off above and below it.
    pub(super) fn build_studs(&self, hole: Option<WallHole>, builder: &mut Builder) {
        let thickness = self.stud.thickness;
        let cut = hole.map_or_else(Vec::new, |hole| self.cut_studs(hole.sides));
        for center in &self.centers {
            let left = *center - thickness / 2.0;
            let roof = |bottom: Length| self.over_stud(left, bottom);
            let pieces = match hole {
                Some(hole) if cut.contains(center) => {
                    let sill = hole.heights.low - thickness;
                    let head = hole.heights.high + thickness;
                    vec![
                        (Length::ZERO, vec![EndPlane::level(sill)]),
                        (head, roof(head)),
                    ]
                }
                _ => vec![(Length::ZERO, roof(Length::ZERO))],
            };
            for (bottom, top) in pieces {
                let shape = Swept {
                    profile: Profile::rectangle(thickness, self.stud.width),
                    bottom: vec![EndPlane::level(Length::ZERO)],
                    top,
                    bores: Vec::new(),
                };
                let place = Frame::at(DVec3::new(
                    left.to_mm(),
                    self.depths.studs.to_mm(),
                    bottom.to_mm(),
                ));
                let make = existing(Kind::ExistingStud, Material::LUMBER);
                builder.add_next(Branch::Room, make, shape, self.frame.place(&place));
            }
        }
    }

    /// What a stud with this left side ends under, from its bottom: level across the wall.
    fn over_stud(&self, left: Length, bottom: Length) -> Vec<EndPlane> {
        let level = |plane: &EndPlane| EndPlane {
            height: plane.z(DVec2::new(left.to_mm(), 0.0)) - bottom.to_mm(),
            slope: DVec2::new(plane.slope.x, 0.0),
        };
        let planes = self.top.planes().iter().map(level).collect();
        let section = Profile::rectangle(self.stud.thickness, self.stud.width).outline;
        Underside::new(planes).planes_over(&section)
    }

    /// Adds a stick that runs along the wall.
    pub(super) fn add_along(
        &self,
        branch: Branch,
        make: Make,
        (along, inward, upward): (Span, Span, Span),
        builder: &mut Builder,
    ) {
        let low = DVec3::new(along.low.to_mm(), inward.low.to_mm(), upward.low.to_mm());
        let place = Frame::new(low, DVec3::Y, DVec3::Z);
        builder.add_next(
            branch,
            make,
            Swept::square(
                Profile::rectangle(inward.size(), upward.size()),
                along.size(),
            ),
            self.frame.place(&place),
        );
    }

    /// Adds a block of the wall's own frame.
    pub(super) fn add_block(
        &self,
        branch: Branch,
        make: Make,
        (along, inward, upward): (Span, Span, Span),
        builder: &mut Builder,
    ) {
        let low = DVec3::new(along.low.to_mm(), inward.low.to_mm(), upward.low.to_mm());
        builder.add_next(
            branch,
            make,
            Swept::block(along.size(), inward.size(), upward.size()),
            self.frame.place(&Frame::at(low)),
        );
    }
}

/// What stands already.
pub(super) fn existing(kind: Kind, material: Material) -> Make {
    Make {
        kind,
        group: Group::Room,
        material,
        stock: Stock::Existing,
        stage: Stage::Existing,
    }
}

/// The part of a counter-clockwise hole under a line, from its right end on the line round to its
/// left; nothing when the hole lies over the line.
fn notch(hole: &[DVec2], above: impl Fn(DVec2) -> f64) -> Vec<DVec2> {
    let under = |corner: DVec2| above(corner) < -TOLERANCE;
    let count = hole.len();
    let Some(first) = (0..count).find(|i| !under(hole[*i]) && under(hole[(i + 1) % count])) else {
        return Vec::new();
    };
    let crossing = |a: DVec2, b: DVec2| a.lerp(b, above(a) / (above(a) - above(b)));
    let mut found = Vec::new();
    for step in 0..count {
        let (a, b) = (
            hole[(first + step) % count],
            hole[(first + step + 1) % count],
        );
        if under(a) != under(b) {
            found.push(crossing(a, b));
        }
        if under(b) {
            found.push(b);
        }
    }
    found.reverse();
    found
}
