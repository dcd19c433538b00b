//! How the recess's wall is held: its top plate under the ceiling and its sole plate on the slab, cut through a stud.
//! The face of a flush chase lies in a wall that stands already, so there it is the back of its enclosure, or a side.

use glam::DVec3;

use crate::catalog::FramingMember;
use crate::design::{Kind, Packed, Part, Span};
use crate::drawing::dimension::{Chain, Side};
use crate::drawing::eye::Eye;
use crate::drawing::figure::Figure;
use crate::drawing::ink::Rect;
use crate::drawing::subject::{Subject, at};
use crate::params::ChaseWall;
use crate::takeoff::Purpose;
use crate::units::Length;

/// How much is shown around the plate.
const AROUND: Length = Length::inches(7.0);
/// A stud whose top lies nearer than this to the ceiling ends under its plates, and one so far from a wall's ends stands
/// clear of the corner; in millimetres.
const UNDER: f64 = 200.0;
const OFF: f64 = 120.0;

/// The wall that is shown, cut across.
struct Shown {
    /// What is said of it.
    what: &'static str,
    /// Which it is, and from where it is looked at.
    wall: ChaseWall,
    eye: Eye,
    /// From one face of its framing to the other, to the right in the view.
    framing: Span,
    /// Its finished face, over the plates and on the slab.
    finished: [Length; 2],
    /// Another stud face that is dimensioned on the slab: of a bump-out.
    before: Length,
}

impl Shown {
    /// Height of the ceiling over a place to the right in the view, in the plane of the cut.
    fn ceiling(&self, subject: &Subject<'_>, cut: DVec3, right: Length) -> Length {
        // a flush chase has its walls behind the one that is opened
        let ceiling = &subject.layout().ceiling_behind;
        if self.eye == Eye::LEFT {
            ceiling.height_at(Length::mm(cut.x), right)
        } else {
            ceiling.height_at(right, Length::mm(-cut.y))
        }
    }
}

/// The wall of the front; of a flush chase, whose front stands already, the back of its enclosure, or a side of it
/// where it has no back.
fn shown(subject: &Subject<'_>) -> Shown {
    let (params, layout) = (subject.params(), subject.layout());
    let stepped = layout.is_stepped();
    if layout.opened.is_none() {
        return Shown {
            what: "Cut across the front",
            wall: if stepped {
                ChaseWall::SetBack
            } else {
                ChaseWall::Front
            },
            eye: Eye::LEFT,
            framing: Span::new(layout.faces.front_back, layout.faces.upper_stud),
            finished: [layout.faces.upper_finished, layout.faces.lower_finished],
            before: layout.faces.lower_stud,
        };
    }
    let stud = params.chase.stud.depth();
    if layout.site.is_enclosed() {
        let face = -layout.site.lining;
        return Shown {
            what: "Cut across the back of the enclosure",
            wall: ChaseWall::Back,
            eye: Eye::LEFT,
            framing: Span::new(face - stud, face),
            finished: [Length::ZERO; 2],
            before: face,
        };
    }
    let face = layout.site.chase.low + stud;
    Shown {
        what: "Cut across the left side of the enclosure, seen from the room",
        wall: ChaseWall::LeftSide,
        eye: Eye::FRONT,
        framing: Span::new(layout.site.chase.low, face),
        finished: [face + layout.site.lining; 2],
        before: face,
    }
}

/// The two details.
pub(in crate::drawing) fn details(subject: &Subject<'_>) -> Vec<Figure> {
    let wall = shown(subject);
    let Some(stud) = tallest(subject, &wall) else {
        return Vec::new();
    };
    let cut = stud.body.bounds.center();
    vec![
        ceiling(subject, &wall, stud, cut),
        slab(subject, &wall, stud, cut),
    ]
}

/// A stud of the wall under the ceiling that is cut: the first that stands off the wall's ends, where no other stick
/// is cut with it; else the tallest.
fn tallest<'a>(subject: &Subject<'a>, wall: &Shown) -> Option<&'a Part> {
    let slab = subject.layout().slab.to_mm();
    let own = subject.design.parts.iter().filter(|part| {
        matches!(part.kind, Kind::Stud | Kind::King)
            && part.is_of(wall.wall)
            && part.body.bounds.low.z < slab + 100.0
    });
    let own: Vec<&Part> = own.collect();
    let along = |part: &Part| {
        let middle = part.body.bounds.center();
        if wall.eye == Eye::LEFT {
            middle.x
        } else {
            -middle.y
        }
    };
    let places = own.iter().map(|it| along(it));
    let ends = (
        places.clone().fold(f64::INFINITY, f64::min),
        places.fold(f64::NEG_INFINITY, f64::max),
    );
    let under = |part: &&&Part| {
        let middle = part.body.bounds.center();
        let ceiling = subject.layout().ceiling_of(part).z(middle.truncate());
        ceiling - part.body.bounds.high.z < UNDER
    };
    let off_ends = |part: &&&Part| along(part) - ends.0 > OFF && ends.1 - along(part) > OFF;
    let first = own.iter().filter(under).filter(off_ends);
    let first = first.min_by(|a, b| along(a).total_cmp(&along(b)));
    let tallest = own
        .iter()
        .max_by(|a, b| a.body.bounds.high.z.total_cmp(&b.body.bounds.high.z));
    first.or(tallest).copied()
}

fn view(
    subject: &Subject<'_>,
    title: &str,
    (wall, cut): (&Shown, DVec3),
    (heights, faces): ((Length, Length), &[Length]),
) -> Figure {
    let front = faces.iter().copied().fold(wall.finished[0], Length::max);
    let mut figure = Figure::new(
        title,
        "Locate cables and pipes before you drill or drive a screw.",
    );
    let plane = wall.eye.plane(cut);
    subject.draw(&mut figure, &wall.eye, Some(&plane), |_| true);
    figure.crop(&Rect {
        low: at(wall.framing.low - AROUND, heights.0),
        high: at(front + AROUND, heights.1),
    });
    let faces = faces.iter().copied();
    figure.chains = vec![Chain::new(
        Side::Below,
        faces.chain([wall.framing.low, wall.framing.high]),
    )];
    figure.notes.push(format!("{}.", wall.what));
    figure
}

fn ceiling(subject: &Subject<'_>, wall: &Shown, stud: &Part, cut: DVec3) -> Figure {
    let params = subject.params();
    let over = |right| wall.ceiling(subject, cut, right);
    let top = over(wall.framing.low - AROUND).max(over(wall.finished[0] + AROUND));
    let stud_top = Length::mm(stud.body.bounds.high.z);
    let mut figure = view(
        subject,
        "Top plate under the ceiling",
        (wall, cut),
        (
            (stud_top - AROUND, top + Length::inches(2.0)),
            &wall.finished[..1],
        ),
    );
    let middle = wall.framing.center();
    let own = params.stud_of(wall.wall);
    let plate = over(middle) - params.ceiling.gap - own.plate() / 2.0;
    figure.call(
        at(wall.framing.high, over(wall.framing.high)),
        format!("ceiling, {} over the plate", gap(subject)),
    );
    let name = match own {
        FramingMember::Wood(_) => "top plate",
        FramingMember::Steel(_) => "top track",
    };
    figure.call(at(middle, plate), name);
    figure.call(at(middle, stud_top - AROUND / 2.0), words(subject, stud));
    figure.notes.extend(fasteners(
        subject,
        &[
            Purpose::StudToTrack,
            Purpose::PlateToStud,
            Purpose::StudToTopPlate,
            Purpose::DoubledPlates,
            Purpose::UnderCeiling,
        ],
    ));
    figure.notes.extend(subject.packed(Packed::is_over));
    figure
}

fn gap(subject: &Subject<'_>) -> String {
    let gap = subject.params().ceiling.gap;
    if subject.params().plates_drop().is_positive() {
        format!("{} and packing", subject.tape(gap))
    } else if gap.is_positive() {
        format!("a gap of {}", subject.tape(gap))
    } else {
        "no gap".to_owned()
    }
}

fn slab(subject: &Subject<'_>, wall: &Shown, stud: &Part, cut: DVec3) -> Figure {
    let (params, layout) = (subject.params(), subject.layout());
    let bottom = Length::mm(stud.body.bounds.low.z);
    let mut figure = view(
        subject,
        "Sole plate on the slab",
        (wall, cut),
        (
            (layout.slab - Length::inches(3.0), layout.slab + AROUND),
            &[wall.before, wall.finished[1]],
        ),
    );
    let middle = wall.framing.center();
    let own = params.stud_of(wall.wall);
    figure.call(
        at(middle, layout.slab + own.plate() / 2.0),
        match own {
            FramingMember::Wood(_) => "sole plate, treated, anchored to the slab",
            FramingMember::Steel(_) => "track, anchored to the slab",
        },
    );
    figure.call(at(middle, layout.slab + AROUND / 2.0), words(subject, stud));
    figure
        .chains
        .push(Chain::new(Side::Left, [layout.slab, bottom]));
    let purposes = [
        Purpose::StudToTrack,
        Purpose::StudToSoleEnd,
        Purpose::StudToSoleToe,
        Purpose::SolePlates,
    ];
    figure.notes.extend(fasteners(subject, &purposes));
    figure.notes.extend(subject.packed(Packed::is_under));
    figure
}

fn words(subject: &Subject<'_>, stud: &Part) -> String {
    let mark = subject.mark(stud).unwrap_or_default();
    format!("{} {mark}", stud.kind.name())
}

/// What the takeoff counts for it in the whole chase.
pub(super) fn fasteners(subject: &Subject<'_>, purposes: &[Purpose]) -> Vec<String> {
    let counted = subject
        .takeoff
        .fasteners
        .iter()
        .filter(|it| purposes.contains(&it.purpose));
    let mut notes: Vec<String> = counted
        .map(|it| {
            format!(
                "{}: {}, {} in the whole chase.",
                it.purpose, it.item, it.count
            )
        })
        .collect();
    if notes.is_empty() {
        notes.push("Fasten as the local code asks.".to_owned());
    }
    notes
}
