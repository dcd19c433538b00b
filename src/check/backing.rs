//! Where wood lies behind a face, and where it does not.
//!
//! In: a design and a band of a wall. Out: the longest stretch of the band, along the wall, without framing
//! that stands behind the face over the whole height of the band. Level framing is seen by its boxes.

use glam::DVec3;

use crate::design::{Band, Design, Group, Kind, Part, Span, section};
use crate::geom::TOLERANCE;
use crate::units::Length;

/// A stretch without wood behind it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Bare {
    /// From where to where along the wall.
    pub(super) along: Span,
    /// Its middle, on the face.
    pub(super) location: DVec3,
}

/// The longest stretch of a band, from `heights.low` to `heights.high`, that has no wood behind it;
/// `None` where there is wood everywhere. Openings in the face need none.
pub(super) fn longest_bare(
    design: &Design,
    band: &Band,
    heights: Span,
    openings: &[Span],
) -> Option<Bare> {
    // steel studs stand back behind the flanges of their tracks; the board is drawn up to them
    let nested = band.wall.stud(&design.params).nested();
    let behind = design
        .parts
        .iter()
        .filter(|part| part.group == Group::Framing || part.kind == Kind::ExistingStud)
        .filter(|part| part.is_of(band.wall))
        .filter_map(|part| reach(part, band, heights, nested));
    let gaps = band.along.gaps(behind.chain(openings.iter().copied()));
    let longest = gaps.into_iter().reduce(
        |kept, gap| {
            if gap.size() > kept.size() { gap } else { kept }
        },
    );
    longest.map(|along| Bare {
        along,
        location: band.frame.point(DVec3::new(
            along.center().to_mm(),
            0.0,
            heights.center().to_mm(),
        )),
    })
}

/// From where to where a stick stands right behind the face, if it does so over all these heights.
fn reach(part: &Part, band: &Band, heights: Span, nested: Length) -> Option<Span> {
    let bounds = &part.body.bounds;
    let [a, b] = [bounds.low, bounds.high].map(|it| band.frame.local_point(it));
    let (low, high) = (a.min(b), a.max(b));
    let over_all =
        low.z <= heights.low.to_mm() + TOLERANCE && high.z >= heights.high.to_mm() - TOLERANCE;
    let stands_back = low.y > TOLERANCE;
    let depth = if stands_back { nested } else { Length::ZERO };
    let span = section(part, &band.frame, depth)?;
    (low.y <= depth.to_mm() + TOLERANCE && over_all).then_some(span)
}
