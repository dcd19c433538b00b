//! Points in, the plane or the line out that is laid through or under them: heights as they were read, places
//! taken as exact.
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

/// The straight line of least squares through points (place, height): its height over 0, and its slope.
/// `None` for fewer than two places.
pub fn fitted_line(points: &[DVec2]) -> Option<DVec2> {
    let mean = points.iter().sum::<DVec2>() / points.len() as f64;
    let (mut xx, mut xy) = (0.0, 0.0);
    for point in points {
        let from = *point - mean;
        xx += from.x * from.x;
        xy += from.x * from.y;
    }
    (points.len() > 1 && xx > TOLERANCE).then(|| {
        let slope = xy / xx;
        DVec2::new(mean.y - slope * mean.x, slope)
    })
}

/// The straight line between two places that is nowhere over 0 nor over a point (place, height), and nowhere
/// under the lowest of them; of all such lines the highest in the middle, and of those the least steep. Its height
/// over 0, and its slope.
///
/// Such a line touches two of the points, of the ends at 0, or of the ends at the lowest height.
pub fn line_under(points: &[DVec2], ends: (f64, f64)) -> DVec2 {
    let limits = points.iter().map(|it| it.with_y(it.y.min(0.0)));
    let mut over: Vec<DVec2> = limits.collect();
    let lowest = over.iter().fold(0.0, |low: f64, it| low.min(it.y));
    let at = |height: f64| [ends.0, ends.1].map(|end| DVec2::new(end, height));
    over.extend(at(0.0));
    let under = at(lowest);
    let touched: Vec<DVec2> = over.iter().copied().chain(under).collect();
    let z = |line: DVec2, place: f64| line.x + line.y * place;
    let fits = |line: DVec2| {
        over.iter().all(|it| it.y - z(line, it.x) > -TOLERANCE)
            && under.iter().all(|it| z(line, it.x) - it.y > -TOLERANCE)
    };
    let middle = f64::midpoint(ends.0, ends.1);
    let mut best = DVec2::new(lowest, 0.0);
    for (index, a) in touched.iter().enumerate() {
        for b in &touched[index + 1..] {
            if (b.x - a.x).abs() <= TOLERANCE {
                continue;
            }
            let slope = (b.y - a.y) / (b.x - a.x);
            let line = DVec2::new(a.y - slope * a.x, slope);
            let higher = z(line, middle) - z(best, middle);
            let flatter = best.y.abs() - line.y.abs() > f64::EPSILON;
            let better = higher > TOLERANCE || (higher > -TOLERANCE && flatter);
            if better && fits(line) {
                best = line;
            }
        }
    }
    best
}
