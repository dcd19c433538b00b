//! A tube and a convex body with flat faces, in the tube's own frame.
//!
//! The tube is cut square to its centre line; of each cut the part of the body's cross-section that
//! lies in the ring is known in closed form, and the cuts are summed by Gauss's rule. A bend's cuts
//! are weighted by their distance from the bend's axis (second theorem of Pappus).

use glam::{DVec2, DVec3};

use crate::geom::disc::Portion;
use crate::geom::numeric::integral;
use crate::geom::outline::crossing;
use crate::geom::{CenterLine, Convex, Face, TOLERANCE, Tube};

/// Vectors shorter than this are rounding errors without a direction.
const SHORT: f64 = 1e-9;
/// The widest step of a bend's cuts, in radians.
const STEP: f64 = std::f64::consts::PI / 48.0;

/// The smallest move, of those along faces, ends and edges, that parts the two; not above the
/// tolerance when they touch or are apart along one of these.
pub(super) fn depth(tube: &Tube, piece: &Convex) -> f64 {
    let mut depth = f64::INFINITY;
    for axis in parting_axes(tube, piece) {
        let (low, high) = piece.interval(axis);
        let far = axis.dot(tube.farthest(axis));
        let near = axis.dot(tube.farthest(-axis));
        depth = depth.min(high - near).min(far - low);
        if depth <= TOLERANCE {
            break;
        }
    }
    depth
}

fn parting_axes(tube: &Tube, piece: &Convex) -> Vec<DVec3> {
    let mut axes = piece.normals.clone();
    axes.extend(tube.ends().map(|end| end.normal));
    match tube.center_line {
        CenterLine::Segment { .. } => {
            axes.extend(piece.directions.iter().map(|edge| edge.cross(DVec3::Z)));
            axes.extend(piece.vertices.iter().map(|v| v.with_z(0.0)));
        }
        CenterLine::Arc { .. } => axes.push(DVec3::Y),
    }
    units(&axes).collect()
}

/// The vectors as unit vectors, without those too short to have a direction.
pub(super) fn units(axes: &[DVec3]) -> impl Iterator<Item = DVec3> {
    let long = axes.iter().filter(|axis| axis.length() > SHORT);
    long.map(|axis| axis.normalize())
}

/// The volume that the tube's wall and the body share, in cubic millimetres.
pub(super) fn common_volume(tube: &Tube, piece: &Convex) -> f64 {
    volume_up_to(tube, piece, f64::INFINITY)
}

/// Whether the tube's wall and the body share more than the tolerance.
pub(super) fn shares(tube: &Tube, piece: &Convex) -> bool {
    volume_up_to(tube, piece, TOLERANCE) > TOLERANCE
}

/// The volume that they share, or the first sum of its parts that is over the limit.
fn volume_up_to(tube: &Tube, piece: &Convex, limit: f64) -> f64 {
    match tube.center_line {
        CenterLine::Segment { length } => straight_volume(tube, length, piece, limit),
        CenterLine::Arc { radius, angle } => bend_volume(tube, (radius, angle), piece, limit),
    }
}

fn straight_volume(tube: &Tube, length: f64, piece: &Convex, limit: f64) -> f64 {
    let (low, high) = piece.interval(DVec3::Z);
    let mut cuts = vec![0.0, length];
    cuts.extend(piece.vertices.iter().map(|vertex| vertex.z));
    for radius in [tube.outer, tube.inner].into_iter().filter(|r| *r > 0.0) {
        cuts.extend(piece.segments().flat_map(|(a, b)| crossings(a, b, radius)));
        cuts.extend(piece.faces.iter().flat_map(|face| tangents(face, radius)));
    }
    let range = [low.max(0.0), high.min(length)];
    sum_between(cuts, range, limit, |z| {
        let center = DVec3::new(0.0, 0.0, z);
        portion(
            piece,
            center,
            [DVec3::X, DVec3::Y],
            [tube.outer, tube.inner],
        )
        .area
    })
}

fn bend_volume(tube: &Tube, (radius, angle): (f64, f64), piece: &Convex, limit: f64) -> f64 {
    let mut cuts = vec![0.0, angle];
    cuts.extend(
        piece
            .vertices
            .iter()
            .map(|v| libm::atan2(v.z, radius - v.x)),
    );
    let mut turn = STEP;
    while turn < angle {
        cuts.push(turn);
        turn += STEP;
    }
    let outward = |turn: f64| {
        let (sin, cos) = libm::sincos(turn);
        DVec3::new(-cos, 0.0, sin)
    };
    let middle = |out: DVec3| DVec3::new(radius, 0.0, 0.0) + out * radius;
    // most of a bend lies beyond one of the body's faces as a whole, where nothing has to be summed
    let is_beyond = |from: f64, to: f64| {
        let ends = [from, to].map(|turn| middle(outward(turn)));
        let half = (to - from) / 2.0;
        let bulge = radius * (1.0 - libm::cos(half));
        let (sin, cos) = libm::sincos(f64::midpoint(from, to));
        let along = DVec3::new(sin, 0.0, cos);
        piece.faces.iter().any(|face| {
            let normal = face.plane.normal;
            let nearest = ends.map(|it| normal.dot(it));
            // each cut lies square to the bend, and reaches the less toward a face the more it faces it
            let tilt = (normal.dot(along).abs() - half).max(0.0);
            let reach = tube.outer * (1.0 - tilt * tilt).max(0.0).sqrt() + bulge;
            nearest[0].min(nearest[1]) - reach > face.plane.offset
        })
    };
    sum_of(cuts, [0.0, angle], limit, is_beyond, |turn| {
        let out = outward(turn);
        let center = middle(out);
        let found = portion(piece, center, [out, DVec3::Y], [tube.outer, tube.inner]);
        found.area * radius + found.moment.x
    })
}

/// Sums an integral over every stretch between cuts, until the sum is over the limit.
fn sum_between(cuts: Vec<f64>, range: [f64; 2], limit: f64, value: impl Fn(f64) -> f64) -> f64 {
    sum_of(cuts, range, limit, |_, _| false, value)
}

/// The same, without the stretches that are left out.
fn sum_of(
    mut cuts: Vec<f64>,
    [low, high]: [f64; 2],
    limit: f64,
    is_left_out: impl Fn(f64, f64) -> bool,
    value: impl Fn(f64) -> f64,
) -> f64 {
    cuts.retain(|cut| low <= *cut && *cut <= high);
    cuts.sort_by(f64::total_cmp);
    let mut sum = 0.0;
    for pair in cuts.windows(2).filter(|pair| pair[1] > pair[0]) {
        if !is_left_out(pair[0], pair[1]) {
            sum += integral(pair[0], pair[1], &value);
        }
        if sum > limit {
            break;
        }
    }
    sum
}

/// Where a segment passes through the cylinder round z, as heights.
fn crossings(a: DVec3, b: DVec3, radius: f64) -> Vec<f64> {
    let along = b - a;
    let (flat, start) = (along.truncate(), a.truncate());
    let square = flat.length_squared();
    let half = start.dot(flat);
    let root = half * half - square * (start.length_squared() - radius * radius);
    if root < 0.0 || square <= 0.0 {
        return Vec::new();
    }
    let roots = [-half - root.sqrt(), root.sqrt() - half].map(|t| t / square);
    let within = roots.into_iter().filter(|t| (0.0..=1.0).contains(t));
    within.map(|t| a.z + along.z * t).collect()
}

/// Heights at which the cut through a face's plane is tangent to the circle.
fn tangents(face: &Face, radius: f64) -> Vec<f64> {
    let normal = face.plane.normal;
    let flat = normal.truncate().length() * radius;
    if normal.z.abs() < TOLERANCE {
        return Vec::new();
    }
    vec![
        (face.plane.offset - flat) / normal.z,
        (face.plane.offset + flat) / normal.z,
    ]
}

/// What the cross-section of a convex body has of a ring with two radii round a point, in the plane
/// of two perpendicular unit vectors, which are the axes of the moment.
fn portion(piece: &Convex, center: DVec3, plane: [DVec3; 2], radii: [f64; 2]) -> Portion {
    let normal = plane[0].cross(plane[1]);
    let mut found = Portion::default();
    for face in &piece.faces {
        if let Some([a, b]) = cut(piece, face, center, normal) {
            let flat =
                |p: DVec3| DVec2::new((p - center).dot(plane[0]), (p - center).dot(plane[1]));
            let (a, b) = (flat(a), flat(b));
            found += Portion::of_side(a, b, radii[0]);
            if radii[1] > 0.0 {
                found -= Portion::of_side(a, b, radii[1]);
            }
        }
    }
    found
}

/// The line along which a plane cuts a face, the body to its left as seen against the normal.
fn cut(piece: &Convex, face: &Face, center: DVec3, normal: DVec3) -> Option<[DVec3; 2]> {
    let (mut down, mut up) = (None, None);
    for (a, b) in face.sides() {
        let (a, b) = (piece.vertices[a], piece.vertices[b]);
        let (from, to) = (normal.dot(a - center), normal.dot(b - center));
        if from <= 0.0 && to > 0.0 {
            up = Some(crossing([a, b], [from, to]));
        } else if from > 0.0 && to <= 0.0 {
            down = Some(crossing([a, b], [from, to]));
        }
    }
    Some([down?, up?])
}
