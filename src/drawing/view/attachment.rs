//! How the recess's wall is held: its top plate under the ceiling and its sole plate on the slab, cut through a stud.
//! The face of a flush chase lies in a wall that stands already, so there it is the back of its enclosure.

use glam::DVec3;

use crate::design::{Kind, Packing, Part, Span};
use crate::drawing::dimension::{Chain, Side};
use crate::drawing::eye::Eye;
use crate::drawing::figure::Figure;
use crate::drawing::ink::Rect;
use crate::drawing::subject::{Subject, at};
use crate::units::Length;

/// How much is shown around the plate.
const AROUND: Length = Length::inches(7.0);

/// The wall that is shown, out from the wall behind the chase.
struct Shown {
    /// The back and the front of its framing.
    framing: Span,
    /// Its finished face, over the plates and on the slab.
    finished: [Length; 2],
    /// Another stud face that is dimensioned on the slab: of a bump-out.
    before: Length,
}

/// The wall of the front, or the back of a flush chase; `None` where an existing wall stands in both places.
fn shown(subject: &Subject<'_>) -> Option<Shown> {
    let (params, layout) = (subject.params(), subject.layout());
    if layout.opened.is_none() {
        return Some(Shown {
            framing: Span::new(layout.front_back, layout.upper_stud_face),
            finished: [layout.upper_finished, layout.lower_finished],
            before: layout.lower_stud_face,
        });
    }
    let face = -layout.lining;
    params.has_own_back().then(|| Shown {
        framing: Span::new(face - params.chase.stud.width, face),
        finished: [Length::ZERO; 2],
        before: face,
    })
}

/// The two details.
pub(in crate::drawing) fn details(subject: &Subject<'_>) -> Vec<Figure> {
    let Some(wall) = shown(subject) else {
        return Vec::new();
    };
    let Some(stud) = tallest(subject, &wall) else {
        return Vec::new();
    };
    let bounds = stud.body.bounds;
    let right = Length::mm(bounds.center().x);
    vec![
        ceiling(subject, &wall, stud, right),
        slab(subject, &wall, stud, right),
    ]
}

/// The tallest stud of the wall under the ceiling.
fn tallest<'a>(subject: &Subject<'a>, wall: &Shown) -> Option<&'a Part> {
    let layout = subject.layout();
    let middle = wall.framing.center();
    let own = subject.design.parts.iter().filter(|part| {
        let bounds = part.body.bounds;
        matches!(part.kind, Kind::Stud | Kind::King)
            && bounds.low.y < -middle.to_mm()
            && bounds.high.y > -middle.to_mm()
            && bounds.low.z < layout.slab.to_mm() + 100.0
    });
    own.max_by(|a, b| a.body.bounds.high.z.total_cmp(&b.body.bounds.high.z))
}

fn view(
    subject: &Subject<'_>,
    title: &str,
    (wall, right): (&Shown, Length),
    (heights, faces): ((Length, Length), &[Length]),
) -> Figure {
    let front = faces.iter().copied().fold(wall.finished[0], Length::max);
    let mut figure = Figure::new(
        title,
        "Find out about cables and pipes before you drill or drive a screw.",
    );
    let eye = Eye::LEFT;
    let plane = eye.plane(DVec3::X * right.to_mm());
    subject.draw(&mut figure, &eye, Some(&plane), |_| true);
    figure.crop(&Rect {
        low: at(wall.framing.low - AROUND, heights.0),
        high: at(front + AROUND, heights.1),
    });
    let faces = faces.iter().copied();
    figure.chains = vec![Chain::new(
        Side::Below,
        faces.chain([wall.framing.low, wall.framing.high]),
    )];
    figure
}

fn ceiling(subject: &Subject<'_>, wall: &Shown, stud: &Part, right: Length) -> Figure {
    let (params, layout) = (subject.params(), subject.layout());
    let over = |out| layout.ceiling.height_at(right, out);
    let top = over(wall.framing.low - AROUND).max(over(wall.finished[0] + AROUND));
    let stud_top = Length::mm(stud.body.bounds.high.z);
    let mut figure = view(
        subject,
        "Top plate under the ceiling",
        (wall, right),
        (
            (stud_top - AROUND, top + Length::inches(2.0)),
            &wall.finished[..1],
        ),
    );
    let middle = wall.framing.center();
    let plate = over(middle) - params.ceiling.gap - params.front_stud().plate() / 2.0;
    figure.call(
        at(wall.framing.high, over(wall.framing.high)),
        format!("ceiling, {} over the plate", gap(subject)),
    );
    let name = if params.front_stud().is_steel() {
        "top track"
    } else {
        "top plate"
    };
    figure.call(at(middle, plate), name);
    figure.call(at(middle, stud_top - AROUND / 2.0), words(subject, stud));
    figure.notes = fasteners(
        subject,
        &["stud to track", "top plate", "top plates through"],
    );
    figure.notes.extend(subject.packed(Packing::is_over));
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

fn slab(subject: &Subject<'_>, wall: &Shown, stud: &Part, right: Length) -> Figure {
    let (params, layout) = (subject.params(), subject.layout());
    let bottom = Length::mm(stud.body.bounds.low.z);
    let mut figure = view(
        subject,
        "Sole plate on the slab",
        (wall, right),
        (
            (layout.slab - Length::inches(3.0), layout.slab + AROUND),
            &[wall.before, wall.finished[1]],
        ),
    );
    let middle = wall.framing.center();
    figure.call(
        at(middle, layout.slab + params.front_stud().plate() / 2.0),
        if params.front_stud().is_steel() {
            "track, anchored to the slab"
        } else {
            "sole plate, treated, anchored to the slab"
        },
    );
    figure.call(at(middle, layout.slab + AROUND / 2.0), words(subject, stud));
    figure
        .chains
        .push(Chain::new(Side::Left, [layout.slab, bottom]));
    figure.notes = fasteners(subject, &["stud to track", "sole plate", "sole plates to"]);
    figure.notes.extend(subject.packed(Packing::is_under));
    figure
}

fn words(subject: &Subject<'_>, stud: &Part) -> String {
    let mark = subject.mark(stud).unwrap_or_default();
    format!("{} {mark}", stud.kind.name())
}

/// What the takeoff counts for it in the whole chase.
fn fasteners(subject: &Subject<'_>, purposes: &[&str]) -> Vec<String> {
    let counted = subject
        .takeoff
        .fasteners
        .iter()
        .filter(|it| purposes.iter().any(|purpose| it.purpose.contains(purpose)));
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
