//! Where wood lies behind a face, and where it does not.
//!
//! In: a design and a band of a wall. Out: the longest stretch of the band, along the wall, without framing
//! that stands behind the face over the whole height of the band: one stick, or several that lie on one another.
//! Level framing is seen by its boxes.

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
        .filter_map(|part| reach(part, band, nested))
        .filter(|it| it.upward.overlaps(heights));
    let behind = backed(&behind.collect::<Vec<_>>(), heights);
    let gaps = band
        .along
        .gaps(behind.into_iter().chain(openings.iter().copied()));
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

/// A stick right behind a face: from where to where along the wall, and up.
struct Stick {
    along: Span,
    upward: Span,
}

/// Where sticks together stand behind the face over all these heights.
fn backed(sticks: &[Stick], heights: Span) -> Vec<Span> {
    let mut edges: Vec<Length> = sticks
        .iter()
        .flat_map(|it| [it.along.low, it.along.high])
        .collect();
    edges.sort_by(|a, b| a.to_mm().total_cmp(&b.to_mm()));
    let between = edges.iter().zip(edges.iter().skip(1));
    let between = between.map(|(low, high)| Span::new(*low, *high));
    between
        .filter(|part| {
            let there = sticks.iter().filter(|it| it.along.overlaps(*part));
            heights.gaps(there.map(|it| it.upward)).is_empty()
        })
        .collect()
}

/// A stick as it stands right behind the face; nothing of one that does not.
fn reach(part: &Part, band: &Band, nested: Length) -> Option<Stick> {
    let bounds = &part.body.bounds;
    let [a, b] = [bounds.low, bounds.high].map(|it| band.frame.local_point(it));
    let (low, high) = (a.min(b), a.max(b));
    let stands_back = low.y > TOLERANCE;
    let depth = if stands_back { nested } else { Length::ZERO };
    let along = section(part, &band.frame, depth)?;
    let upward = Span::new(Length::mm(low.z), Length::mm(high.z));
    (low.y <= depth.to_mm() + TOLERANCE).then_some(Stick { along, upward })
}
