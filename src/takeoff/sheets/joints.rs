//! Where the pieces of board on a face meet: on sticks, and away from the corners of openings.

use super::face::{Face, limits};
use crate::design::{Design, Kind, Part};
use crate::geom::{Profile, TOLERANCE};
use crate::takeoff::layout::is_framing;
use crate::units::Length;

/// How far a joint stays from an opening's corner (common practice, no source).
const FROM_CORNER: Length = Length::inches(2.0);
/// What each of two edges gets of a stick behind a joint (common practice, no source).
const BEARING: Length = Length::inches(0.75);

/// A joint between two pieces: where, and whether a stick carries it.
#[derive(Clone, Copy)]
pub(super) struct Joint {
    pub(super) at: f64,
    pub(super) on_stick: bool,
    pub(super) at_corner: bool,
}

/// Places along one way, from and to.
pub(super) type Places = Vec<(f64, f64)>;

/// Where sticks behind the part allow a joint: across and up the part's own frame. A stick's middle, and of one that is
/// wide enough everywhere that leaves both edges their bearing.
pub(super) fn backing(part: &Part, face: &Face, design: &Design) -> (Places, Places) {
    let frame = &part.body.frame;
    let mut found = (Vec::new(), Vec::new());
    let sticks = design
        .parts
        .iter()
        .filter(|it| is_framing(it) && it.id != part.id);
    for stick in sticks.filter(|it| it.body.bounds.touches(&part.body.bounds)) {
        let middle = frame.local_point(stick.body.bounds.center());
        let size = frame.local_vector(stick.body.bounds.size()).abs();
        let (along, way) = if size.dot(face.up.abs()) > size.dot(face.across.abs()) {
            (&mut found.0, face.across)
        } else {
            (&mut found.1, face.up)
        };
        let half = size.dot(way.abs()) / 2.0;
        // a stick that is not square to the face has a box that says nothing of its width
        let spare = if stick.kind == Kind::Header {
            (half - BEARING.to_mm()).max(0.0)
        } else {
            0.0
        };
        along.push((middle.dot(way) - spare, middle.dot(way) + spare));
    }
    for places in [&mut found.0, &mut found.1] {
        places.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
        places.dedup();
    }
    found
}

/// Where corners of openings and notches lie: across and up.
pub(super) fn inner_corners(profile: &Profile) -> (Vec<f64>, Vec<f64>) {
    let (low, high) = limits(&profile.outline);
    let inner = profile.loops().flatten();
    let mut found = (Vec::new(), Vec::new());
    for corner in inner {
        if corner.x > low.x + TOLERANCE && corner.x < high.x - TOLERANCE {
            found.0.push(corner.x);
        }
        if corner.y > low.y + TOLERANCE && corner.y < high.y - TOLERANCE {
            found.1.push(corner.y);
        }
    }
    found
}

/// Joints from one end to the other, each as far on as sheet, sticks and corners allow; a stick that would leave
/// less than half of the sheet is no place for one.
pub(super) fn joints(
    (from, to): (f64, f64),
    most: f64,
    sticks: &[(f64, f64)],
    corners: &[f64],
) -> Vec<Joint> {
    let mut joints = vec![Joint {
        at: from,
        on_stick: true,
        at_corner: false,
    }];
    let mut at = from;
    while to - at > most + TOLERANCE {
        let free = |place: f64| {
            corners
                .iter()
                .all(|it| (it - place).abs() >= FROM_CORNER.to_mm())
        };
        let reach = |place: &f64| *place > at + most / 2.0 && *place <= at + most + TOLERANCE;
        let before = corners.iter().map(|it| it - FROM_CORNER.to_mm());
        let wanted: Vec<f64> = before.chain([at + most]).collect();
        // the ends of a stick's places, and what lies between them
        let on_sticks = sticks.iter().flat_map(|(low, high)| {
            let within = wanted.iter().filter(move |it| *it > low && *it < high);
            within.chain([low, high])
        });
        let on_stick = on_sticks.copied().filter(|it| reach(it) && free(*it));
        let joint = on_stick.max_by(f64::total_cmp).map_or_else(
            || {
                let place = clear_of(at, most, corners);
                Joint {
                    at: place,
                    on_stick: false,
                    at_corner: !free(place + TOLERANCE) && !free(place - TOLERANCE),
                }
            },
            |it| Joint {
                at: it,
                on_stick: true,
                at_corner: false,
            },
        );
        at = joint.at;
        joints.push(joint);
    }
    joints.push(Joint {
        at: to,
        on_stick: true,
        at_corner: false,
    });
    joints
}

/// A whole sheet on, or short of the corner that lies there.
fn clear_of(at: f64, most: f64, corners: &[f64]) -> f64 {
    let near = |place: f64| {
        corners
            .iter()
            // exactly so far is far enough, whatever the rounding
            .find(|it| (**it - place).abs() < FROM_CORNER.to_mm() - TOLERANCE)
    };
    let mut place = at + most;
    while let Some(corner) = near(place) {
        let shorter = corner - FROM_CORNER.to_mm();
        // a corner right at the last joint leaves nothing to choose
        if shorter <= at + FROM_CORNER.to_mm() || shorter >= place {
            return at + most;
        }
        place = shorter;
    }
    place
}
