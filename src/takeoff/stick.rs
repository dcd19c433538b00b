//! One stick as the saw sees it: its axis, its lengths, its two ends and its rip.
//!
//! In: a part's exact shape. Out: the same in the board's own frame: x across the wide face, y through the
//! thickness, z along the stick. Everything is read from the profile and the end planes; nothing is rounded.

use glam::{DVec2, DVec3};

use super::stick_face::StickFace;
use super::yard::{Board, Yard};
use crate::catalog::{FramingMember, Lumber, Material};
use crate::design::{Part, Stock};
use crate::geom::{EndPlane, Faceted, Profile, Shape, Swept, TOLERANCE, edges};
use crate::units::{Angle, Length};

/// A slope below this is none: over the widest board it makes less than the tolerance.
const NO_SLOPE: f64 = 1e-9;

/// One stick of the design.
#[derive(Debug, Clone)]
pub(super) struct Stick<'a> {
    pub(super) part: &'a Part,
    pub(super) board: Board,
    /// Corners in the board's own frame.
    pub(super) corners: Vec<DVec3>,
    /// Width and thickness of the finished stick, square to its length.
    pub(super) section: (Length, Length),
    /// From tip to tip along the stick.
    pub(super) long_point: Length,
    /// The shortest of its long edges.
    pub(super) short_point: Length,
    /// The longest of its long edges.
    pub(super) longest_edge: Length,
    /// The lower or left end, then the other.
    pub(super) ends: [End; 2],
    pub(super) rip: Option<Rip>,
}

/// One end of a stick.
#[derive(Debug, Clone, PartialEq)]
pub struct End {
    /// Where it is on the wall.
    pub place: StickFace,
    /// How far the end plane runs along the stick for each step across the wide face.
    pub across: f64,
    /// The same for each step through the thickness.
    pub through: f64,
    /// Where the long point is on the wide face and through the thickness; empty for a square end.
    pub long_at: Vec<StickFace>,
    /// The second of two cuts that meet in a peak, under a ridge.
    pub second: Option<SecondCut>,
}

/// A second cut of one end; the first lies on the side that it is measured from.
#[derive(Debug, Clone, PartialEq)]
pub struct SecondCut {
    /// As [`End::across`].
    pub across: f64,
    /// As [`End::through`].
    pub through: f64,
    /// The face that the line where both meet is measured from.
    pub from: StickFace,
    /// How far the line lies from that face, in the middle of the other width.
    pub at: Length,
}

/// How a stick is ripped out of its board.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rip {
    /// Width of board that it takes.
    pub width: Length,
    /// Its thickness.
    pub thickness: Length,
    /// Tilt of the blade for the long edges.
    pub edge: Angle,
    /// Whether it is thinner than the board.
    pub thinned: bool,
}

/// Directions of the board's own frame, in the shape's frame.
#[derive(Debug, Clone, Copy)]
struct Axes {
    across: DVec3,
    through: DVec3,
    along: DVec3,
}

impl End {
    /// Whether the cut is square.
    pub fn is_square(&self) -> bool {
        self.across.abs() <= NO_SLOPE && self.through.abs() <= NO_SLOPE
    }

    /// Every cut of this end by itself.
    pub fn cuts(&self) -> Vec<Self> {
        let first = Self {
            second: None,
            ..self.clone()
        };
        let second = self.second.as_ref().map(|it| Self {
            across: it.across,
            through: it.through,
            ..first.clone()
        });
        std::iter::once(first).chain(second).collect()
    }

    /// Turn of the table and tilt of the blade with the wide face down.
    pub fn flat(&self) -> (Angle, Angle) {
        setting(self.across, self.through)
    }

    /// The same with the stick on edge.
    pub fn on_edge(&self) -> (Angle, Angle) {
        setting(self.through, self.across)
    }
}

/// Turn and tilt for a plane that rises so much across the face on the table and up from it.
fn setting(across: f64, up: f64) -> (Angle, Angle) {
    let turn = Angle::radians(libm::atan(across.abs()));
    let tilt = Angle::radians(libm::atan(up.abs() * turn.cos()));
    let plain = |angle: Angle| {
        if angle.to_radians() <= NO_SLOPE {
            Angle::default()
        } else {
            angle
        }
    };
    (plain(turn), plain(tilt))
}

impl<'a> Stick<'a> {
    /// A part as a stick; `None` for what is no stick.
    pub(super) fn new(part: &'a Part, yard: &Yard<'_>) -> Option<Self> {
        let (Stock::Stick(name) | Stock::Rip(name) | Stock::Steel(name)) = &part.stock else {
            return None;
        };
        let Shape::Swept(swept) = &part.body.shape else {
            return None;
        };
        let size = yard.size(name)?;
        let axes = axes(swept, &size);
        let corners: Vec<DVec3> = Faceted::new(swept)
            .vertices
            .iter()
            .map(|it| axes.local(*it))
            .collect();
        let extent = |direction: DVec3| extent(&corners, direction);
        let section = (extent(DVec3::X), extent(DVec3::Y));
        let thick = (section.1 - size.breadth()).is_positive();
        let board = match &size {
            FramingMember::Wood(lumber) if !thick => yard.wide_enough(lumber, section.0).into(),
            FramingMember::Wood(_) | FramingMember::Steel(_) => size,
        };
        let (shortest, longest) = edges_along(swept, &axes);
        Some(Self {
            part,
            board: Board {
                size: board.clone(),
                treated: part.material == Material::TREATED,
            },
            section,
            long_point: extent(DVec3::Z),
            short_point: shortest,
            longest_edge: longest,
            ends: ends(part, swept, &axes),
            rip: board
                .wood()
                .and_then(|it| rip(&swept.profile, &axes, section, it)),
            corners,
        })
    }
}

impl Axes {
    fn local(&self, point: DVec3) -> DVec3 {
        DVec3::new(
            point.dot(self.across),
            point.dot(self.through),
            point.dot(self.along),
        )
    }
}

fn extent(corners: &[DVec3], direction: DVec3) -> Length {
    let values = || corners.iter().map(|it| it.dot(direction));
    let high = values().fold(f64::NEG_INFINITY, f64::max);
    Length::mm(high - values().fold(f64::INFINITY, f64::min))
}

fn same(a: Length, b: Length) -> bool {
    (a - b).abs().to_mm() <= TOLERANCE
}

/// How the stick lies in its board. A plain block may run along any of its sides; every other
/// shape runs along its sweep, with the wide face along the longest side of its profile, unless
/// only the other way round fits the board's thickness.
fn axes(swept: &Swept, size: &FramingMember) -> Axes {
    let candidates = if is_block(swept) {
        block_axes()
    } else {
        profile_axes(&swept.profile)
    };
    let corners = Faceted::new(swept).vertices;
    let sizes = |axes: &Axes| {
        (
            extent(&corners, axes.across),
            extent(&corners, axes.through),
        )
    };
    let ranks: [&dyn Fn(&Axes) -> bool; 3] = [
        &|axes| same(sizes(axes).0, size.depth()) && same(sizes(axes).1, size.breadth()),
        &|axes| same(sizes(axes).1, size.breadth()),
        &|axes| {
            same(sizes(axes).0, size.depth()) && !(sizes(axes).1 - size.breadth()).is_positive()
        },
    ];
    let found = ranks
        .iter()
        .find_map(|fits| candidates.iter().find(|it| fits(it)));
    found.copied().unwrap_or(candidates[0])
}

fn is_block(swept: &Swept) -> bool {
    let level = |planes: &[EndPlane]| planes.len() == 1 && planes[0].slope == DVec2::ZERO;
    let outline = &swept.profile.outline;
    let upright =
        |a: DVec2, b: DVec2| (a.x - b.x).abs() <= TOLERANCE || (a.y - b.y).abs() <= TOLERANCE;
    level(&swept.bottom)
        && level(&swept.top)
        && swept.profile.is_convex()
        && outline.len() == 4
        && (0..4).all(|i| upright(outline[i], outline[(i + 1) % 4]))
}

fn block_axes() -> Vec<Axes> {
    let (x, y, z) = (DVec3::X, DVec3::Y, DVec3::Z);
    [
        (x, y, z),
        (y, -x, z),
        (y, z, x),
        (z, -y, x),
        (z, x, y),
        (x, -z, y),
    ]
    .map(|(across, through, along)| Axes {
        across,
        through,
        along,
    })
    .to_vec()
}

fn profile_axes(profile: &Profile) -> Vec<Axes> {
    let sides = sides(profile);
    let longest = sides
        .into_iter()
        .max_by(|a, b| a.length().total_cmp(&b.length()))
        .unwrap_or(DVec2::X)
        .normalize();
    // always toward +x, or toward +y where it runs straight up, so that equal profiles lie alike
    let toward = if longest.x.abs() > TOLERANCE {
        longest.x
    } else {
        longest.y
    };
    let across = longest * toward.signum();
    [across, across.perp()]
        .map(|across| Axes {
            across: across.extend(0.0),
            through: across.perp().extend(0.0),
            along: DVec3::Z,
        })
        .to_vec()
}

fn sides(profile: &Profile) -> Vec<DVec2> {
    edges(&profile.outline).map(|(a, b)| b - a).collect()
}

/// The shortest and the longest of the edges that run along the stick.
fn edges_along(swept: &Swept, axes: &Axes) -> (Length, Length) {
    if axes.along != DVec3::Z {
        let length = extent(&Faceted::new(swept).vertices, axes.along);
        return (length, length);
    }
    let lengths = || {
        swept.profile.outline.iter().map(|corner| {
            let top = swept
                .top
                .iter()
                .map(|it| it.z(*corner))
                .fold(f64::INFINITY, f64::min);
            let bottom = swept.bottom.iter().map(|it| it.z(*corner));
            top - bottom.fold(f64::NEG_INFINITY, f64::max)
        })
    };
    (
        Length::mm(lengths().fold(f64::INFINITY, f64::min)),
        Length::mm(lengths().fold(f64::NEG_INFINITY, f64::max)),
    )
}

/// The lower, left or room-side end first.
fn ends(part: &Part, swept: &Swept, axes: &Axes) -> [End; 2] {
    let on_board = |slope: DVec2| {
        let slope = slope.extend(0.0);
        if axes.along == DVec3::Z {
            (slope.dot(axes.across), slope.dot(axes.through))
        } else {
            (0.0, 0.0)
        }
    };
    let world = |direction: DVec3| part.body.frame.vector(direction);
    let end = |planes: &[EndPlane], outward: f64| {
        let (first, peak) = peak(planes, &swept.profile.outline);
        let (across, through) = on_board(first);
        // the long point lies where the end plane reaches farthest outward
        let mut long_at = Vec::new();
        for (slope, direction) in [(across, axes.across), (through, axes.through)] {
            if slope.abs() > NO_SLOPE {
                long_at.push(StickFace::of(world(direction) * (slope * outward)));
            }
        }
        End {
            place: StickFace::of(world(axes.along) * outward),
            across,
            through,
            long_at,
            second: peak.map(|(slope, from, at)| SecondCut {
                across: on_board(slope).0,
                through: on_board(slope).1,
                from: StickFace::of(world(from.extend(0.0))),
                at: Length::mm(at),
            }),
        }
    };
    let first = end(&swept.bottom, -1.0);
    let second = end(&swept.top, 1.0);
    if first.place.is_last() {
        [second, first]
    } else {
        [first, second]
    }
}

/// The slope of an end's cut; where two planes close it, the slope of the second, the side of the
/// profile that the first lies on, and how far from it both meet.
fn peak(planes: &[EndPlane], outline: &[DVec2]) -> (DVec2, Option<(DVec2, DVec2, f64)>) {
    let (Some(first), second) = (planes.first(), planes.get(1)) else {
        return (DVec2::ZERO, None);
    };
    let Some(second) = second else {
        return (first.slope, None);
    };
    let low = outline.iter().fold(DVec2::INFINITY, |low, it| low.min(*it));
    let high = outline
        .iter()
        .fold(DVec2::NEG_INFINITY, |high, it| high.max(*it));
    let turn = first.slope - second.slope;
    let axis = if turn.x.abs() >= turn.y.abs() {
        DVec2::X
    } else {
        DVec2::Y
    };
    // on the middle line of the profile along that axis: where both are equally high
    let middle = (low + high) / 2.0;
    let apart = second.z(middle) - first.z(middle);
    let meet = middle.dot(axis) + apart / turn.dot(axis);
    // the lower plane counts, so the one that rises more along the axis closes the near side
    let (first, second) = if turn.dot(axis) > 0.0 {
        (first, second)
    } else {
        (second, first)
    };
    (
        first.slope,
        Some((second.slope, -axis, meet - low.dot(axis))),
    )
}

fn rip(profile: &Profile, axes: &Axes, section: (Length, Length), board: &Lumber) -> Option<Rip> {
    let edge = if axes.along == DVec3::Z {
        let across = axes.across.truncate();
        let through = axes.through.truncate();
        let tilt = |side: &DVec2| {
            let (run, rise) = (side.dot(across).abs(), side.dot(through).abs());
            (rise > TOLERANCE).then(|| libm::atan2(run, rise))
        };
        sides(profile).iter().filter_map(tilt).fold(0.0, f64::max)
    } else {
        0.0
    };
    let thinned = (board.thickness - section.1).is_positive();
    let whole = same(section.0, board.width) && !thinned && edge <= NO_SLOPE;
    (!whole).then_some(Rip {
        width: section.0,
        thickness: section.1,
        edge: Angle::radians(edge),
        thinned,
    })
}
