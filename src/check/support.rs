//! A design in, every part out that floats, that is held at one end only, or that is unsupported.
//!
//! What holds is contact: an area above zero, the shims included that fill what square cuts leave. From the room's floor, studs and surfaces outward, a
//! part that touches a held part is held; but framing and platform are held by the room, framing and
//! platform only, never by board, unit or pipe. A stick has to be held at two places: its contacts
//! have to reach over at least half of its length. Plates under the ceiling, headers, sills and
//! ledges carry, so they need, near both ends, an upright, a plate or the room under them: within a
//! quarter of the length, by a contact that faces down, not sideways.
//! A steel stud under a slope is cut square below its track and screwed through the flanges that lap it, so
//! there a lap near its top is as good as something against it, and carries the track.
//! The shelf over the hot top has to lie on something near its two sides.
//! The gas line's end and cables are fixed by their trades and are not looked at.
//! Uprights, headers and sills are cut to fit between others, so they need something against both of
//! their ends.

use std::borrow::Cow;

use glam::DVec3;

use super::sieve;
use crate::design::{Design, Group, Kind, Part, Stock};
use crate::geom::{Body, Bounds, Contact, TOLERANCE, contact};
use crate::units::Length;

/// A contact faces along an axis when its normal has this cosine to it. Plates may follow a ceiling
/// that rises 2 in 1 along both walls, where it is 1/3; the sides of a stick have 0.
const CARRIES: f64 = 0.3;

/// Why a part is not held as it should be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Lack {
    /// No path of contacts leads from it to the room.
    Floats,
    /// What holds it reaches over too little of its length.
    HeldAtOnePlace {
        /// From the first to the last place where it is held.
        held: Length,
        /// The stick's length.
        length: Length,
    },
    /// Nothing is under it near one end.
    NotCarried {
        /// From that end to the nearest thing under it; the stick's length where there is nothing.
        free: Length,
    },
    /// Nothing is against one of its ends: an upright needs what it stands on and what it stands
    /// under, a header or sill an upright at either end.
    EndFree,
}

/// A part that is not held as it should be.
#[derive(Debug, Clone, PartialEq)]
pub struct Unheld {
    /// The part's id.
    pub part: String,
    /// What it lacks.
    pub lack: Lack,
    /// The part's middle, or the end that is free.
    pub location: DVec3,
}

/// A contact, as one of the two parts sees it.
struct Hold<'a> {
    other: usize,
    contact: &'a Contact,
    /// Out of this part.
    normal: DVec3,
}

/// Every part that is not held as it should be, in the order of the design.
pub fn unheld(design: &Design) -> Vec<Unheld> {
    let parts = &design.parts;
    // a wedge that is shimmed is contact
    let bodies: Vec<Cow<'_, Body>> = parts.iter().map(Part::shimmed).collect();
    let bounds: Vec<&Bounds> = bodies.iter().map(|it| &it.bounds).collect();
    let contacts: Vec<(usize, usize, Contact)> = sieve::pairs_within(parts, &bounds)
        .into_iter()
        .filter_map(|(a, b)| Some((a, b, contact(&bodies[a], &bodies[b])?)))
        .collect();
    let mut holds: Vec<Vec<Hold<'_>>> = parts.iter().map(|_| Vec::new()).collect();
    for (a, b, contact) in &contacts {
        let hold = |other, normal| Hold {
            other,
            contact,
            normal,
        };
        holds[*a].push(hold(*b, contact.normal));
        holds[*b].push(hold(*a, -contact.normal));
    }
    let held = reached(parts, &holds);
    let mut found = Vec::new();
    for (i, part) in parts.iter().enumerate() {
        if is_tied_by_its_trade(part) {
            continue;
        }
        if held[i] {
            holds[i].retain(|hold| {
                let other = &parts[hold.other];
                held[hold.other] && can_hold(other, part) && !is_end_of_block(other, hold)
            });
            found.extend(lack(part, &holds[i], design));
        } else {
            found.push(unheld_part(part, Lack::Floats, part.body.bounds.center()));
        }
    }
    found
}

fn unheld_part(part: &Part, lack: Lack, location: DVec3) -> Unheld {
    Unheld {
        part: part.id.clone(),
        lack,
        location,
    }
}

/// Which parts a path of contacts connects to the room.
fn reached(parts: &[Part], holds: &[Vec<Hold<'_>>]) -> Vec<bool> {
    let mut held: Vec<bool> = parts
        .iter()
        .map(|part| part.group.stands_already())
        .collect();
    let mut open: Vec<usize> = (0..parts.len()).filter(|i| held[*i]).collect();
    while let Some(part) = open.pop() {
        for hold in &holds[part] {
            let end_on = is_end_of_block(&parts[part], hold);
            if !held[hold.other] && can_hold(&parts[part], &parts[hold.other]) && !end_on {
                held[hold.other] = true;
                open.push(hold.other);
            }
        }
    }
    held
}

/// What fitter and electrician fix with pipe and staples that are not drawn.
fn is_tied_by_its_trade(part: &Part) -> bool {
    matches!(part.kind, Kind::GasStub | Kind::Shutoff | Kind::Cable)
}

fn is_structure(part: &Part) -> bool {
    matches!(part.group, Group::Framing | Group::Platform)
}

/// Whether one part may hold another that it touches.
fn can_hold(part: &Part, other: &Part) -> bool {
    part.group == Group::Room || is_structure(part) || !is_structure(other)
}

/// Whether what touches a block touches one of its ends: a block cut between two uprights hangs on them
/// and does not hold them.
fn is_end_of_block(part: &Part, hold: &Hold<'_>) -> bool {
    part.kind == Kind::Blocking && hold.normal.dot(part.body.frame.z).abs() > 0.9
}

/// Whether a stick may rest on a part near one of its ends.
fn bears(part: &Part) -> bool {
    use Kind::{
        Cleat, Cripple, Header, Jack, King, Ledge, Return, Sill, SolePlate, Stud, TopPlate,
    };
    let stick = matches!(
        part.kind,
        Cleat
            | Cripple
            | Header
            | Jack
            | King
            | Ledge
            | Return
            | Sill
            | SolePlate
            | Stud
            | TopPlate
    );
    stick || part.group == Group::Room
}

fn is_stick(kind: Kind) -> bool {
    use Kind::{
        Blocking, Cripple, Header, HeaderSpacer, Jack, King, Ledge, PassFrame, RecessFraming,
        Return, Sill, Sleeper, SolePlate, Stud, TopPlate,
    };
    matches!(
        kind,
        SolePlate
            | TopPlate
            | Stud
            | King
            | Jack
            | Cripple
            | Header
            | HeaderSpacer
            | Sill
            | Ledge
            | Return
            | Blocking
            | RecessFraming
            | Sleeper
            | PassFrame
    )
}

fn carries(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::TopPlate | Kind::Header | Kind::Sill | Kind::Ledge
    )
}

/// Whether a stick is cut to fit between two others, end to end.
fn ends_against(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Stud | Kind::King | Kind::Jack | Kind::Cripple | Kind::Header | Kind::Sill
    )
}

/// Whether a part is a top track of steel, and another a stud of steel, which its flanges lap.
fn laps(track: &Part, stud: &Part) -> bool {
    let is_steel = |part: &Part| matches!(part.stock, Stock::Steel(_));
    track.kind == Kind::TopPlate
        && is_steel(track)
        && is_steel(stud)
        && matches!(
            stud.kind,
            Kind::Stud | Kind::King | Kind::Jack | Kind::Cripple
        )
}

/// Whether a contact reaches right to the end of a part.
fn reaches(part: &Part, hold: &Hold<'_>, end: DVec3) -> bool {
    let tip = end.dot(part.body.farthest(end));
    let corners = hold.contact.corners.iter();
    corners
        .map(|it| end.dot(*it))
        .fold(f64::NEG_INFINITY, f64::max)
        >= tip - TOLERANCE
}

/// From where to where along an axis contacts reach, counted from the part's first end, and how long
/// the part is that way.
fn reach<'a>(
    part: &Part,
    axis: DVec3,
    holds: &mut dyn Iterator<Item = &'a Hold<'a>>,
) -> (f64, f64, f64) {
    let start = axis.dot(part.body.farthest(-axis));
    let length = axis.dot(part.body.farthest(axis)) - start;
    let mut range = (length, 0.0_f64);
    for corner in holds.flat_map(|hold| &hold.contact.corners) {
        let place = axis.dot(*corner) - start;
        range = (range.0.min(place), range.1.max(place));
    }
    (range.0, range.1, length)
}

/// What a held part lacks, if it is a stick; its long axis is that of the sweep.
fn lack(part: &Part, holds: &[Hold<'_>], design: &Design) -> Option<Unheld> {
    if part.kind == Kind::CableShelf {
        return not_carried(part, holds, design, DVec3::X);
    }
    if !is_stick(part.kind) {
        return None;
    }
    let axis = part.body.frame.z;
    let (low, high, length) = reach(part, axis, &mut holds.iter());
    if high - low < length / 2.0 - TOLERANCE {
        let lack = Lack::HeldAtOnePlace {
            held: Length::mm((high - low).max(0.0)),
            length: Length::mm(length),
        };
        let free = if low < length - high { axis } else { -axis };
        return Some(unheld_part(part, lack, part.body.farthest(free)));
    }
    if ends_against(part.kind) {
        for end in [axis, -axis] {
            let against = |hold: &Hold<'_>| {
                let track = &design.parts[hold.other];
                hold.normal.dot(end) >= CARRIES
                    || (end.z > 0.0 && laps(track, part) && reaches(part, hold, end))
            };
            if !holds.iter().any(against) {
                return Some(unheld_part(part, Lack::EndFree, part.body.farthest(end)));
            }
        }
    }
    if !carries(part.kind) {
        return None;
    }
    // along the level, in which the plumb ends of a plate on a slope have no length of their own
    not_carried(part, holds, design, axis.with_z(0.0).normalize_or(axis))
}

/// What is not under a part near one of its ends along an axis.
fn not_carried(part: &Part, holds: &[Hold<'_>], design: &Design, axis: DVec3) -> Option<Unheld> {
    let under = |hold: &&Hold<'_>| {
        let other = &design.parts[hold.other];
        (hold.normal.z <= -CARRIES || laps(part, other)) && bears(other)
    };
    let (low, high, length) = reach(part, axis, &mut holds.iter().filter(under));
    let (free, end) = if low > length - high {
        (low, -axis)
    } else {
        (length - high, axis)
    };
    let lack = Lack::NotCarried {
        free: Length::mm(free),
    };
    // a short plate beside a ridge may reach past what is under it by a stud's thickness
    let allowed = if part.kind == Kind::TopPlate {
        part.branch.stud(&design.params).breadth().to_mm()
    } else {
        0.0
    };
    (free > allowed.max(length / 4.0) + TOLERANCE)
        .then(|| unheld_part(part, lack, part.body.farthest(end)))
}
