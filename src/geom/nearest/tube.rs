//! Least distance between a solid tube and a convex body with flat faces, in the tube's own frame.
//!
//! The body's nearest point lies on an edge, or inside a face; inside a face the tube's nearest
//! point is the one farthest toward the face, of the whole tube or of one of its ends.

use glam::DVec3;

use super::Nearest;
use crate::geom::numeric::{dips, least};
use crate::geom::outline::crossing;
use crate::geom::{CenterLine, Convex, Face, Frame, TOLERANCE, Tube};

/// Steps along an edge that is held against a bend.
const STEPS: u32 = 24;

/// Not nearer than the limit when they are at least as far apart.
pub(crate) fn nearest_within(tube: &Tube, piece: &Convex, limit: f64) -> Nearest {
    if piece.contains(tube.center_line.at(0.0).0) {
        return Nearest::touching(tube.center_line.at(0.0).0);
    }
    let mut found = Nearest {
        distance: limit,
        ..Nearest::NOWHERE
    };
    for vertex in &piece.vertices {
        found.keep_nearer(Nearest::between(tube.nearest(*vertex), *vertex));
    }
    for face in &piece.faces {
        to_face(tube, piece, face, &mut found);
    }
    let bounds = tube.bounds(&Frame::WORLD);
    for (a, b) in piece.segments() {
        // nothing of an edge is nearer than what was found but where it runs by the tube's box
        let Some((from, to)) = bounds.within(found.distance, a, b) else {
            continue;
        };
        let (a, b) = (a.lerp(b, from), a.lerp(b, to));
        let ends = tube.distance(a) + tube.distance(b) - a.distance(b);
        if ends / 2.0 < found.distance {
            along_edge(tube, a, b, &mut found);
        }
    }
    found
}

fn to_face(tube: &Tube, piece: &Convex, face: &Face, found: &mut Nearest) {
    let toward = -face.plane.normal;
    let ends = tube.ends().map(|end| end.farthest(toward));
    for point in [tube.farthest(toward), ends[0], ends[1]] {
        let height = face.plane.height(point);
        let foot = point + toward * height;
        if height >= 0.0 && height < found.distance && piece.covers(face, foot) {
            found.keep_nearer(Nearest::between(point, foot));
        }
    }
    if let Some(point) = pierced(tube, piece, face) {
        *found = Nearest::touching(point);
    }
}

/// Where the tube passes through the inside of a face, if its centre line or an end shows it.
fn pierced(tube: &Tube, piece: &Convex, face: &Face) -> Option<DVec3> {
    let normal = face.plane.normal;
    let low = tube.farthest(-normal);
    let high = tube.farthest(normal);
    if face.plane.height(low) > 0.0 || face.plane.height(high) < 0.0 {
        return None;
    }
    let mut points = Vec::new();
    let mut between = |a: DVec3, b: DVec3| {
        let (from, to) = (face.plane.height(a), face.plane.height(b));
        if (from > 0.0) != (to > 0.0) {
            points.push(crossing([a, b], [from, to]));
        }
    };
    match tube.center_line {
        CenterLine::Segment { .. } => between(low, high),
        CenterLine::Arc { radius, angle } => {
            for end in tube.ends() {
                between(end.center, end.farthest(normal));
                between(end.center, end.farthest(-normal));
            }
            for point in [low, high] {
                between(point, nearest_center(radius, angle, point));
            }
            points.extend(arc_through(radius, angle, normal, face.plane.offset));
        }
    }
    points.into_iter().find(|point| piece.covers(face, *point))
}

/// The centre of the cross-section of a bend in which a point of the bend lies.
fn nearest_center(radius: f64, angle: f64, point: DVec3) -> DVec3 {
    let turn = libm::atan2(point.z, radius - point.x).max(0.0).min(angle);
    on_arc(radius, turn)
}

fn on_arc(radius: f64, turn: f64) -> DVec3 {
    let (sin, cos) = libm::sincos(turn);
    DVec3::new(radius - radius * cos, 0.0, radius * sin)
}

/// Where a bend's centre line passes through a plane.
fn arc_through(radius: f64, angle: f64, normal: DVec3, offset: f64) -> Vec<DVec3> {
    let reach = radius * normal.with_y(0.0).length();
    let height = offset - radius * normal.x;
    if height.abs() > reach || reach <= TOLERANCE {
        return Vec::new();
    }
    let middle = libm::atan2(normal.z, -normal.x);
    let half = libm::acos(height / reach);
    [middle - half, middle + half]
        .into_iter()
        .filter(|turn| *turn >= 0.0 && *turn <= angle)
        .map(|turn| on_arc(radius, turn))
        .collect()
}

fn along_edge(tube: &Tube, a: DVec3, b: DVec3, found: &mut Nearest) {
    let distance = |t: f64| tube.distance(a.lerp(b, t));
    let places = match tube.center_line {
        CenterLine::Segment { length } => {
            let stretches = stretches(tube.outer, length, a, b);
            let mut places = stretches.clone();
            for pair in stretches.windows(2) {
                places.extend(
                    beyond_rim(tube, length, a, b, pair)
                        .filter(|(from, to)| {
                            let way = (to - from) * a.distance(b);
                            (distance(*from) + distance(*to) - way) / 2.0 < found.distance
                        })
                        .map(|(from, to)| least(from, to, distance).0),
                );
            }
            places
        }
        CenterLine::Arc { .. } => dips(STEPS, a.distance(b), found.distance, distance)
            .into_iter()
            .map(|(t, _)| t)
            .collect(),
    };
    for place in places {
        let point = a.lerp(b, place);
        found.keep_nearer(Nearest::between(tube.nearest(point), point));
    }
}

/// The places, as parts of an edge from 0 to 1, between which its nearest point of a straight tube
/// stays on the same side, end or rim; and the place nearest to the centre line.
fn stretches(radius: f64, length: f64, a: DVec3, b: DVec3) -> Vec<f64> {
    let along = b - a;
    let mut places = vec![0.0, 1.0];
    if along.z.abs() > 0.0 {
        places.extend([-a.z / along.z, (length - a.z) / along.z]);
    }
    let (flat, start) = (along.truncate(), a.truncate());
    let square = flat.length_squared();
    if square > 0.0 {
        let half = start.dot(flat);
        places.push(-half / square);
        let root = half * half - square * (start.length_squared() - radius * radius);
        if root > 0.0 {
            places.extend([
                (-half - root.sqrt()) / square,
                (root.sqrt() - half) / square,
            ]);
        }
    }
    places.retain(|place| (0.0..=1.0).contains(place));
    places.sort_by(f64::total_cmp);
    places
}

/// The stretch itself when it lies beyond an end and outside the side, where the rim is nearest
/// and the least distance has no closed form.
fn beyond_rim(
    tube: &Tube,
    length: f64,
    a: DVec3,
    b: DVec3,
    pair: &[f64],
) -> impl Iterator<Item = (f64, f64)> + use<> {
    let middle = a.lerp(b, f64::midpoint(pair[0], pair[1]));
    let beyond = middle.z < 0.0 || middle.z > length;
    let outside = middle.truncate().length() > tube.outer;
    (beyond && outside)
        .then_some((pair[0], pair[1]))
        .into_iter()
}
