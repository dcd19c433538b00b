//! How far a part that is inside a clearance volume has to move, along one of the volume's own
//! directions, until the two no longer overlap.

use glam::{DVec2, DVec3};

use super::convex::Plane;
use super::nearest::{nearest, tube_to_convex};
use super::outline::edges;
use super::overlap::{axes, overlaps};
use super::{Body, CenterLine, Convex, Direction, Shape, TOLERANCE, Tube};

/// Rates smaller than this are none: the move runs along the face.
const STILL: f64 = 1e-12;
/// Halvings by which the end of a tube's overlap is found.
const HALVINGS: u32 = 48;

/// The smallest move along one of these directions after which part and volume no longer overlap,
/// in millimetres; 0 when they do not overlap now, endless when no direction leads out.
///
/// Exact between swept shapes. With a tube, [`Direction::Along`] finds an end of the overlap to
/// 1e-6 mm, for a bend not always the first. [`Direction::Radial`], which only tubes have, is
/// counted from the centre line, over the part's pieces beside the tube: its radius less the
/// distance of the nearest piece, or, when the line passes through a piece, its radius and the way
/// out of the piece. Where a bend's centre line passes through the part it is the radius, which is
/// the least that the move can be; a tube as a part is judged likewise.
pub fn exit(part: &Body, volume: &Body, directions: &[Direction]) -> f64 {
    if !overlaps(part, volume) {
        return 0.0;
    }
    let moves = directions.iter().map(|direction| match direction {
        Direction::Along(way) => along(part, volume, *way),
        Direction::Radial => radial(part, volume),
    });
    moves.fold(f64::INFINITY, f64::min)
}

fn along(part: &Body, volume: &Body, way: DVec3) -> f64 {
    match (&part.shape, &volume.shape) {
        (Shape::Swept(_), Shape::Swept(_)) => first_free(&blocked(part, volume, way)),
        _ => searched(part, volume, way),
    }
}

/// From where to where, along the way, pieces of the part overlap pieces of the volume.
fn blocked(part: &Body, volume: &Body, way: DVec3) -> Vec<[f64; 2]> {
    let pairs = part
        .pieces
        .iter()
        .flat_map(|a| volume.pieces.iter().map(move |b| (a, b)));
    let mut stretches: Vec<[f64; 2]> = pairs.filter_map(|(a, b)| stretch(a, b, way)).collect();
    stretches.sort_by(|a, b| a[0].total_cmp(&b[0]));
    stretches
}

fn stretch(a: &Convex, b: &Convex, way: DVec3) -> Option<[f64; 2]> {
    let (mut from, mut to) = (f64::NEG_INFINITY, f64::INFINITY);
    for axis in axes(a, b) {
        let ((a_low, a_high), (b_low, b_high)) = (a.interval(axis), b.interval(axis));
        let rate = axis.dot(way);
        let (enter, leave) = (b_low - a_high, b_high - a_low);
        if rate.abs() < STILL {
            if enter >= -TOLERANCE || leave <= TOLERANCE {
                return None;
            }
            continue;
        }
        let (enter, leave) = (enter / rate, leave / rate);
        from = from.max(enter.min(leave));
        to = to.min(enter.max(leave));
    }
    (to - from > TOLERANCE).then_some([from, to])
}

/// The first place from 0 on that lies inside no stretch.
fn first_free(stretches: &[[f64; 2]]) -> f64 {
    let mut place = 0.0;
    for [from, to] in stretches {
        if *from < place - TOLERANCE && *to > place {
            place = *to;
        }
    }
    place
}

fn searched(part: &Body, volume: &Body, way: DVec3) -> f64 {
    let far = way.dot(volume.farthest(way)) - way.dot(part.farthest(-way));
    let (mut inside, mut free) = (0.0, far.max(0.0));
    for _ in 0..HALVINGS {
        if free - inside < TOLERANCE / 4.0 {
            break;
        }
        let middle = f64::midpoint(inside, free);
        if overlaps(&part.moved(way * middle), volume) {
            inside = middle;
        } else {
            free = middle;
        }
    }
    free
}

fn radial(part: &Body, volume: &Body) -> f64 {
    let Shape::Tube(tube) = &volume.shape else {
        return f64::INFINITY;
    };
    if matches!(part.shape, Shape::Tube(_)) {
        let line = Body::new(tube.thread(), volume.frame);
        return (tube.outer - nearest(part, &line).distance).max(0.0);
    }
    let pieces = part.pieces.iter();
    let beside = pieces.filter_map(|piece| beside(tube, &piece.seen_from(&volume.frame)));
    beside
        .map(|piece| match tube.center_line {
            CenterLine::Segment { .. } => tube.outer + beyond_line(&piece),
            CenterLine::Arc { .. } => {
                let thread = tube.thread();
                tube.outer - tube_to_convex(&thread, &piece, f64::INFINITY).distance
            }
        })
        .fold(0.0, f64::max)
}

/// What of a piece lies between the planes of the tube's ends.
fn beside(tube: &Tube, piece: &Convex) -> Option<Convex> {
    let ends = tube.ends();
    let mut planes = ends
        .iter()
        .map(|end| Plane::through(end.center, end.normal));
    planes.try_fold(piece.clone(), |rest, plane| rest.clip(&plane))
}

/// How far the z axis is inside a piece, seen along it: the way to its nearest side, or, negative,
/// how far the piece is from the axis.
fn beyond_line(piece: &Convex) -> f64 {
    let corners = hull(piece.vertices.iter().map(|v| v.truncate()).collect());
    let mut way_out = f64::INFINITY;
    let mut distance = f64::INFINITY;
    for (a, b) in edges(&corners) {
        let along = b - a;
        let height = a.perp_dot(along) / along.length().max(f64::MIN_POSITIVE);
        way_out = way_out.min(height);
        let place = (-a.dot(along) / along.length_squared().max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
        distance = distance.min(a.lerp(b, place).length());
    }
    if way_out > 0.0 { way_out } else { -distance }
}

/// The convex hull of points, counter-clockwise.
fn hull(mut points: Vec<DVec2>) -> Vec<DVec2> {
    points.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    let mut corners = half_hull(points.iter().copied());
    corners.extend(half_hull(points.iter().rev().copied()));
    corners
}

/// One side of the hull, without its last corner.
fn half_hull(points: impl Iterator<Item = DVec2>) -> Vec<DVec2> {
    let mut side: Vec<DVec2> = Vec::new();
    for point in points {
        while let [.., a, b] = side[..]
            && (b - a).perp_dot(point - b) <= 0.0
        {
            side.pop();
        }
        side.push(point);
    }
    side.pop();
    side
}
