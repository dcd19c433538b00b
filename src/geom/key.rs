//! When two shapes are one shape: their own sizes agree, rounded to the one tolerance.
//!
//! *Units*: counts of 1e-6 mm. Coarser steps would put some 64ths of an inch on the rounding half.

use super::{CenterLine, EndPlane, Shape, Swept, TOLERANCE, Tube};

/// The sizes of a shape, rounded; equal for identical shapes whatever their placement.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct ShapeKey(Vec<i64>);

impl From<&Shape> for ShapeKey {
    fn from(shape: &Shape) -> Self {
        match shape {
            Shape::Swept(swept) => swept_key(swept),
            Shape::Tube(tube) => tube_key(tube),
        }
    }
}

fn swept_key(swept: &Swept) -> ShapeKey {
    let mut sizes = vec![0];
    for corners in swept.profile.loops() {
        sizes.push(count(corners.len()));
        sizes.extend(
            corners
                .iter()
                .flat_map(|corner| [steps(corner.x), steps(corner.y)]),
        );
    }
    for planes in [&swept.bottom, &swept.top] {
        sizes.push(-count(planes.len()));
        sizes.extend(planes.iter().flat_map(|plane| plane_key(swept, plane)));
    }
    for bore in &swept.bores {
        let ends = [bore.start, bore.end].map(|it| it.to_array().map(steps));
        sizes.extend(ends.into_iter().flatten());
        sizes.push(steps(bore.radius));
    }
    ShapeKey(sizes)
}

/// A plane counts by its heights over the corners, since a rounded slope says little about a long edge.
fn plane_key(swept: &Swept, plane: &EndPlane) -> impl Iterator<Item = i64> {
    swept
        .profile
        .outline
        .iter()
        .map(|corner| steps(plane.z(*corner)))
}

fn tube_key(tube: &Tube) -> ShapeKey {
    let (bend, length) = match tube.center_line {
        CenterLine::Segment { length } => (-1, length),
        CenterLine::Arc { radius, .. } => (steps(radius), tube.center_line.length()),
    };
    ShapeKey(vec![
        1,
        bend,
        steps(length),
        steps(tube.outer),
        steps(tube.inner),
    ])
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "a size of 2^63 steps is farther than the moon; the cast saturates"
)]
fn steps(millimetres: f64) -> i64 {
    (millimetres / TOLERANCE).round() as i64
}

fn count(corners: usize) -> i64 {
    i64::try_from(corners).unwrap_or(i64::MAX)
}
