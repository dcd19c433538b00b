//! Points in, the plane of least squares out: heights as they were read, places taken as exact.
//!
//! *Source*: the normal equations of linear regression on two variables, centered on the mean, so that
//! the residuals sum to 0 and are square to x and to y.

use glam::{DVec2, DVec3};

use super::{EndPlane, TOLERANCE};

/// The plane whose heights over the points differ least from theirs, by the sum of the squares.
/// `None` for fewer than three points, or points on one line.
pub fn fitted_plane(points: &[DVec3]) -> Option<EndPlane> {
    let mean = points.iter().sum::<DVec3>() / points.len() as f64;
    let (mut xx, mut xy, mut yy, mut xz, mut yz) = (0.0, 0.0, 0.0, 0.0, 0.0);
    for point in points {
        let from = *point - mean;
        xx += from.x * from.x;
        xy += from.x * from.y;
        yy += from.y * from.y;
        xz += from.x * from.z;
        yz += from.y * from.z;
    }
    let spread = xx * yy - xy * xy;
    // square to a line through the points the spread is that of their distances from it
    if points.len() < 3 || spread <= TOLERANCE * (xx + yy) {
        return None;
    }
    let slope = DVec2::new(xz * yy - yz * xy, yz * xx - xz * xy) / spread;
    Some(EndPlane {
        height: mean.z - slope.dot(mean.truncate()),
        slope,
    })
}
