//! Closed outlines in, the lines that hatch what is inside out.
//!
//! *Units*: millimetres of paper. Lines of one kind lie on one grid of the whole sheet, so that neighbors match.

use glam::DVec2;

use super::figure::Hatch;
use crate::geom::{crossing, edges};

impl Hatch {
    /// Directions of the lines and the distance between them.
    fn ways(self) -> (&'static [DVec2], f64) {
        const UP: DVec2 = DVec2::new(
            std::f64::consts::FRAC_1_SQRT_2,
            std::f64::consts::FRAC_1_SQRT_2,
        );
        const DOWN: DVec2 = DVec2::new(
            std::f64::consts::FRAC_1_SQRT_2,
            -std::f64::consts::FRAC_1_SQRT_2,
        );
        match self {
            Self::Wood => (&[UP], 1.0),
            Self::WoodBeside => (&[DOWN], 1.4),
            Self::Sheet => (&[DOWN], 0.7),
            Self::SheetBeside => (&[UP], 0.7),
            Self::Zone => (&[UP, DOWN], 4.0),
        }
    }

    /// The lines inside closed outlines.
    pub(super) fn lines(self, loops: &[Vec<DVec2>]) -> Vec<[DVec2; 2]> {
        let (ways, apart) = self.ways();
        ways.iter()
            .flat_map(|way| lines_along(loops, *way, apart))
            .collect()
    }
}

fn lines_along(loops: &[Vec<DVec2>], way: DVec2, apart: f64) -> Vec<[DVec2; 2]> {
    let across = way.perp();
    let heights = || loops.iter().flatten().map(|it| across.dot(*it));
    let low = heights().fold(f64::INFINITY, f64::min);
    let high = heights().fold(f64::NEG_INFINITY, f64::max);
    let mut found = Vec::new();
    // a corner never lies on the grid by design: half a step off the origin
    let mut level = ((low / apart).floor() + 0.5) * apart;
    while level < high {
        let mut crossings: Vec<f64> = loops
            .iter()
            .flat_map(|corners| {
                edges(corners).filter_map(|(a, b)| {
                    let (over, after) = (across.dot(a) - level, across.dot(b) - level);
                    ((over >= 0.0) != (after >= 0.0))
                        .then(|| way.dot(crossing([a, b], [over, after])))
                })
            })
            .collect();
        crossings.sort_by(f64::total_cmp);
        for pair in crossings.chunks_exact(2) {
            found.push([
                way * pair[0] + across * level,
                way * pair[1] + across * level,
            ]);
        }
        level += apart;
    }
    found
}
