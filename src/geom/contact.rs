//! Where two bodies touch, and over how large an area.

use glam::{DVec2, DVec3};
use smallvec::{SmallVec, smallvec};

use super::convex::Face;
use super::disc::{Portion, lens};
use super::outline::below;
use super::overlap::pairs;
use super::round::Disc;
use super::{Body, Bounds, CenterLine, Convex, Frame, Shape, TOLERANCE, Tube};

/// Unit normals whose sum is shorter than this are opposite.
const OPPOSITE: f64 = 1e-9;
/// Planes whose offsets differ by more, in millimetres, are not one, whatever their normals are rounded to.
const FAR: f64 = 1e-3;
/// Corners of a disc where only its outline matters.
const SIDES: u32 = 32;

/// The area over which two bodies touch.
#[derive(Debug, Clone, PartialEq)]
pub struct Contact {
    /// Area in square millimetres, above zero.
    pub area: f64,
    /// Middle of the area.
    pub center: DVec3,
    /// Unit vector out of the first body into the second; of several faces the mean by area.
    pub normal: DVec3,
    /// Smallest coordinates of the area.
    pub low: DVec3,
    /// Largest coordinates of the area.
    pub high: DVec3,
    /// The corners of the area's convex patches; of a round patch points of its rim.
    pub corners: Polygon,
}

/// Corners of a flat polygon.
pub type Polygon = SmallVec<[DVec3; 8]>;

/// A convex part of the common area.
struct Patch {
    area: f64,
    center: DVec3,
    normal: DVec3,
    corners: Polygon,
}

/// The area over which two bodies touch, or `None` when they share no area.
///
/// Flat faces and flat ends of tubes have the area that they share, exactly. The side of a straight
/// tube on a face shares a line; its area is that of the strip which is nearer than the tolerance.
/// A straight tube that fills a bore shares the side. Bends touch with their ends only. Of a flat
/// end the outline, and so its middle against a partial face, is that of a polygon of 32 corners.
pub fn contact(first: &Body, second: &Body) -> Option<Contact> {
    if !first.bounds.meets(&second.bounds) {
        return None;
    }
    let patches = match (&first.shape, &second.shape) {
        (Shape::Swept(_), Shape::Swept(_)) => {
            let mut patches = Vec::new();
            for (a, b) in pairs(first, second, Bounds::meets) {
                between_pieces(a, b, &mut patches);
            }
            patches
        }
        (Shape::Tube(tube), Shape::Swept(_)) => with_tube(tube, first, second),
        (Shape::Swept(_), Shape::Tube(tube)) => {
            let mut patches = with_tube(tube, second, first);
            for patch in &mut patches {
                patch.normal = -patch.normal;
            }
            patches
        }
        (Shape::Tube(a), Shape::Tube(b)) => tubes((a, &first.frame), (b, &second.frame)),
    };
    gathered(patches)
}

fn gathered(patches: Vec<Patch>) -> Option<Contact> {
    let largest = patches.iter().max_by(|a, b| a.area.total_cmp(&b.area))?;
    let area: f64 = patches.iter().map(|patch| patch.area).sum();
    let center: DVec3 = patches.iter().map(|patch| patch.center * patch.area).sum();
    let normal: DVec3 = patches.iter().map(|patch| patch.normal * patch.area).sum();
    let normal = normal.try_normalize().unwrap_or(largest.normal);
    let corners = patches.into_iter().map(|it| it.corners);
    let corners = corners.reduce(|mut all, more| {
        all.extend(more);
        all
    })?;
    let bounds = Bounds::around(corners.iter().copied());
    Some(Contact {
        area,
        center: center / area,
        normal,
        low: bounds.low,
        high: bounds.high,
        corners,
    })
}

fn opposite(first: DVec3, second: DVec3) -> bool {
    (first + second).length_squared() < OPPOSITE * OPPOSITE
}

fn between_pieces(a: &Convex, b: &Convex, patches: &mut Vec<Patch>) {
    for face in &a.faces {
        for other in &b.faces {
            if (face.plane.offset + other.plane.offset).abs() < FAR
                && opposite(face.plane.normal, other.plane.normal)
                && face.plane.height(b.vertices[other.corners[0]]).abs() <= TOLERANCE
            {
                let common = clipped(b.corners(other).collect(), a, face);
                patches.extend(flat_patch(common, face));
            }
        }
    }
}

/// A flat polygon as a patch on a face, if there is anything of it.
fn flat_patch(corners: Polygon, face: &Face) -> Option<Patch> {
    let (area, center) = area_and_center(&corners, face.plane.normal)?;
    Some(Patch {
        area,
        center,
        normal: face.plane.normal,
        corners,
    })
}

/// The part of a polygon in a face's plane that lies within the face.
fn clipped(mut polygon: Polygon, convex: &Convex, face: &Face) -> Polygon {
    for (a, b) in face.sides() {
        let (a, b) = (convex.vertices[a], convex.vertices[b]);
        cut(&mut polygon, a, (b - a).cross(face.plane.normal));
    }
    polygon
}

/// Leaves of a polygon what lies on the inner side of a line; the vector out may have any length.
fn cut(polygon: &mut Polygon, point: DVec3, out: DVec3) {
    let height = |corner: DVec3| out.dot(corner - point);
    if polygon.iter().any(|corner| height(*corner) > 0.0) {
        *polygon = below(polygon, height);
    }
}

/// Area and middle of a flat polygon; `None` when it is no wider than the tolerance.
fn area_and_center(corners: &[DVec3], normal: DVec3) -> Option<(f64, DVec3)> {
    let first = *corners.first()?;
    let (mut area, mut moment, mut longest) = (0.0, DVec3::ZERO, 0.0_f64);
    for pair in corners[1..].windows(2) {
        let (u, v) = (pair[0] - first, pair[1] - first);
        let part = u.cross(v).dot(normal) / 2.0;
        area += part;
        moment += (u + v) * (part / 3.0);
        longest = longest.max(u.length()).max(v.length());
    }
    let wide = area.abs() > TOLERANCE * longest.max(TOLERANCE);
    wide.then(|| (area.abs(), first + moment / area))
}

/// Normals point out of the tube.
fn with_tube(tube: &Tube, placed: &Body, swept: &Body) -> Vec<Patch> {
    let ends = tube.ends().map(|end| end.placed(&placed.frame));
    let mut patches = Vec::new();
    for piece in &swept.pieces {
        for face in &piece.faces {
            let on_ends = ends.iter().filter_map(|end| end_on_face(end, piece, face));
            patches.extend(on_ends);
            patches.extend(side_on_face(tube, &placed.frame, piece, face));
        }
    }
    patches
}

fn end_on_face(end: &Disc, piece: &Convex, face: &Face) -> Option<Patch> {
    if face.plane.height(end.center).abs() > TOLERANCE || !opposite(end.normal, face.plane.normal) {
        return None;
    }
    let (u, v) = end.axes();
    let flat = |p: DVec3| DVec2::new((p - end.center).dot(u), (p - end.center).dot(v));
    let corners: Vec<DVec2> = piece.corners(face).map(flat).collect();
    let ring = Portion::of_polygon(&corners, end.outer).area
        - Portion::of_polygon(&corners, end.inner).area;
    let outline = clipped(outline(end), piece, face);
    let (_, center) = area_and_center(&outline, end.normal)?;
    let area = ring.abs();
    (area > TOLERANCE * end.outer).then_some(Patch {
        area,
        center,
        normal: end.normal,
        corners: outline,
    })
}

fn outline(end: &Disc) -> Polygon {
    let (u, v) = end.axes();
    let turn = std::f64::consts::TAU / f64::from(SIDES);
    let corner = |i| {
        let (sin, cos) = libm::sincos(turn * f64::from(i));
        end.center + (u * cos + v * sin) * end.outer
    };
    (0..SIDES).map(corner).collect()
}

fn side_on_face(tube: &Tube, frame: &Frame, piece: &Convex, face: &Face) -> Option<Patch> {
    let CenterLine::Segment { length } = tube.center_line else {
        return None;
    };
    let out = -face.plane.normal;
    let start = frame.origin + out * tube.outer;
    let end = start + frame.z * length;
    let on_face = |p: DVec3| face.plane.height(p).abs() <= TOLERANCE;
    if !on_face(start) || !on_face(end) {
        return None;
    }
    let line = clipped(smallvec![start, end], piece, face);
    let bounds = Bounds::around(line.iter().copied());
    let shared = bounds.size().length();
    (!line.is_empty() && shared > TOLERANCE).then(|| Patch {
        area: shared * 2.0 * (2.0 * tube.outer * TOLERANCE).sqrt(),
        center: line.iter().sum::<DVec3>() / line.len() as f64,
        normal: out,
        corners: line,
    })
}

fn tubes(first: (&Tube, &Frame), second: (&Tube, &Frame)) -> Vec<Patch> {
    let mut patches = Vec::new();
    for end in first.0.ends().map(|end| end.placed(first.1)) {
        for other in second.0.ends().map(|end| end.placed(second.1)) {
            patches.extend(between_ends(&end, &other));
        }
    }
    patches.extend(in_bore(first, second));
    patches.extend(in_bore(second, first).map(|patch| Patch {
        normal: -patch.normal,
        ..patch
    }));
    patches
}

fn between_ends(end: &Disc, other: &Disc) -> Option<Patch> {
    let apart = other.center - end.center;
    if apart.dot(end.normal).abs() > TOLERANCE || !opposite(end.normal, other.normal) {
        return None;
    }
    let shared = |a: f64, b: f64| lens(a, b, apart.length());
    let area = shared(end.outer, other.outer)
        - shared(end.outer, other.inner)
        - shared(end.inner, other.outer)
        + shared(end.inner, other.inner);
    let mut corners = outline(end);
    let rim = outline(other);
    for (i, a) in rim.iter().enumerate() {
        let side = rim[(i + 1) % rim.len()] - *a;
        cut(&mut corners, *a, side.cross(other.normal));
    }
    let (_, center) = area_and_center(&corners, end.normal)?;
    (area > TOLERANCE * end.outer).then_some(Patch {
        area,
        center,
        normal: end.normal,
        corners,
    })
}

/// A straight tube that fills the bore of another. It is held all round; the normal given is one of
/// the directions square to the axis.
fn in_bore(inside: (&Tube, &Frame), around: (&Tube, &Frame)) -> Option<Patch> {
    let (CenterLine::Segment { length }, CenterLine::Segment { length: other }) =
        (inside.0.center_line, around.0.center_line)
    else {
        return None;
    };
    let local = |z: f64| {
        around
            .1
            .local_point(inside.1.point(DVec3::new(0.0, 0.0, z)))
    };
    let (start, end) = (local(0.0), local(length));
    let off_axis = start.truncate().length().max(end.truncate().length());
    if off_axis > TOLERANCE || (inside.0.outer - around.0.inner).abs() > TOLERANCE {
        return None;
    }
    let low = start.z.min(end.z).max(0.0);
    let high = start.z.max(end.z).min(other);
    let radius = inside.0.outer;
    let at = |z: f64| around.1.point(DVec3::new(0.0, 0.0, z));
    let rim = |z: f64| {
        outline(&Disc {
            center: at(z),
            normal: around.1.z,
            outer: radius,
            inner: 0.0,
        })
    };
    (high - low > TOLERANCE).then(|| Patch {
        area: std::f64::consts::TAU * radius * (high - low),
        center: at(f64::midpoint(low, high)),
        normal: inside.1.x,
        corners: rim(low).into_iter().chain(rim(high)).collect(),
    })
}
