//! What a disc and a polygon have in common: area and first moment, in closed form.
//!
//! By Green's theorem the part of a polygon inside a disc is the sum, over the polygon's directed
//! sides, of what lies between the side and the disc's centre: a triangle where the side is inside
//! the disc, a sector of the disc where it is outside.

use glam::DVec2;

/// Area and first moment about the disc's centre, in mm² and mm³.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Portion {
    /// Area.
    pub(crate) area: f64,
    /// The integral of the position over the area.
    pub(crate) moment: DVec2,
}

impl Portion {
    fn triangle(a: DVec2, b: DVec2) -> Self {
        let area = a.perp_dot(b) / 2.0;
        Self {
            area,
            moment: (a + b) * (area / 3.0),
        }
    }

    fn sector(a: DVec2, b: DVec2, radius: f64) -> Self {
        let (from, to) = (a.normalize_or_zero(), b.normalize_or_zero());
        let turn = libm::atan2(from.perp_dot(to), from.dot(to));
        Self {
            area: radius * radius * turn / 2.0,
            moment: -(to - from).perp() * (radius * radius * radius / 3.0),
        }
    }

    /// What one directed side of a polygon, its inside to the left, adds to the polygon's portion
    /// of the disc with this radius round the origin.
    pub(crate) fn of_side(a: DVec2, b: DVec2, radius: f64) -> Self {
        let [from, to] = inside(a, b, radius);
        if to <= from {
            return Self::sector(a, b, radius);
        }
        let (enter, leave) = (a.lerp(b, from), a.lerp(b, to));
        let mut portion = Self::triangle(enter, leave);
        if from > 0.0 {
            portion += Self::sector(a, enter, radius);
        }
        if to < 1.0 {
            portion += Self::sector(leave, b, radius);
        }
        portion
    }

    /// A polygon's portion of a disc round the origin; counter-clockwise counts positive.
    pub(crate) fn of_polygon(corners: &[DVec2], radius: f64) -> Self {
        let mut portion = Self::default();
        for (a, b) in super::outline::edges(corners) {
            portion += Self::of_side(a, b, radius);
        }
        portion
    }
}

impl std::ops::AddAssign for Portion {
    fn add_assign(&mut self, other: Self) {
        self.area += other.area;
        self.moment += other.moment;
    }
}

impl std::ops::SubAssign for Portion {
    fn sub_assign(&mut self, other: Self) {
        self.area -= other.area;
        self.moment -= other.moment;
    }
}

/// From where to where, as parts of its length, a side is inside the disc; equal when nowhere.
fn inside(a: DVec2, b: DVec2, radius: f64) -> [f64; 2] {
    let along = b - a;
    let square = along.length_squared();
    let half = a.dot(along);
    let root = half * half - square * (a.length_squared() - radius * radius);
    if root <= 0.0 || square <= 0.0 {
        return [0.0, 0.0];
    }
    let root = root.sqrt();
    [-half - root, root - half].map(|t| (t / square).clamp(0.0, 1.0))
}

/// The area that two discs have in common.
pub(crate) fn lens(first: f64, second: f64, distance: f64) -> f64 {
    if distance >= first + second {
        return 0.0;
    }
    let small = first.min(second);
    if distance <= (first - second).abs() {
        return std::f64::consts::PI * small * small;
    }
    let cap = |radius: f64, other: f64| {
        let offset = (distance * distance + radius * radius - other * other) / (2.0 * distance);
        let half_angle = libm::acos((offset / radius).clamp(-1.0, 1.0));
        radius * radius * half_angle - offset * (radius * radius - offset * offset).max(0.0).sqrt()
    };
    cap(first, second) + cap(second, first)
}
