//! The recess and the vent behind or below it.
//!
//! # What it finds
//! Where the vent passes the recess's framing along the wall: it may turn below the recess or rise behind it, and one of
//! the two is enough: the sill's underside against the top of the vent's clearances, or the back of the recess's framing
//! against the front of the vertical pipe's clearance. The way with more margin is the one that is judged. Where neither
//! would do, the top of the clearances counts where they really lie under the framing: a run that rises to the wall is
//! highest behind it. Beside a vent that it does not meet along the wall nothing is judged.
//!
//! # Why
//! Margin behind = upper skin − ledge − recess − board − framing + pipe offset − radius − clearance.
//! The chase's depth does not appear in it: a deeper chase moves recess and pipe together.
//!
//! # Datum
//! The pipe's skin; the wall's finished face.
//!
//! # Source
//! The unit's manual, `vent.vertical_clearance` and `vent.top_clearance`.

use glam::DVec3;

use super::{clearances_of, first_of, page};
use crate::check::{Measure, Numbers, Report, Row, Rule};
use crate::design::{Clearance, ClearanceKind, Design, Kind, RecessLayout, point};
use crate::geom::{Body, Direction, Frame, Swept, TOLERANCE, exit, overlaps};
use crate::units::{Length, Span};

pub(super) const RULE: Rule = Rule {
    name: "recess and pipe",
    text: include_str!("recess_and_pipe.rs"),
    keys: &[
        "skins.upper_finish",
        "vent.rise",
        "vent.vertical_clearance",
        "vent.top_clearance",
        "recess.depth",
        "recess.sill",
    ],
    check,
};

/// How far down and back a block is drawn to find what is under or behind the framing.
const FAR: Length = Length::mm(100_000.0);

/// How far a clearance of the vent reaches, and its id.
type Reached = (Length, String);

fn check(design: &Design, report: &mut Report<'_>) {
    let (params, layout) = (&design.params, &design.layout);
    let Some(recess) = &layout.recess else { return };
    let vent = &params.vent;
    let framing = Framing::new(recess, params.front_stud().breadth());
    let Some((under, governs)) = framing.under(design) else {
        return;
    };
    let before = Numbers::at_least(recess.framing_back, layout.pipe_clearance_front());
    let below = Numbers::at_least(framing.up.low, layout.vent_clearance_top());
    let (below, parts) = if below.margin.max(before.margin) < -TOLERANCE {
        (Numbers::at_least(framing.up.low, under), vec![governs])
    } else {
        (
            below,
            clearances_of(design, &[ClearanceKind::HorizontalPipe]),
        )
    };
    if below.margin >= before.margin {
        let row = Row {
            subject: Measure("recess's underside over the vent's clearance").into(),
            parts,
            location: Some(point(
                recess.rough.center(),
                recess.framing_back,
                framing.up.low,
            )),
            source: page(&vent.top_clearance),
            levers: &["recess.sill", "vent.rise"],
            ..Row::default()
        };
        report.judge(row, below);
    } else {
        let row = Row {
            subject: Measure("recess's framing before the vertical pipe's clearance").into(),
            parts: [
                first_of(design, Kind::RecessFraming),
                clearances_of(design, &[ClearanceKind::VerticalPipe]),
            ]
            .concat(),
            location: Some(point(
                layout.unit_center,
                recess.framing_back,
                framing.up.low,
            )),
            source: page(&vent.vertical_clearance),
            levers: &["recess.depth", "skins.upper_finish", "recess.sill"],
            ..Row::default()
        };
        report.judge(row, before);
    }
}

/// The recess's framing: along the wall, out from it, and up.
struct Framing {
    along: Span,
    out: Span,
    up: Span,
}

impl Framing {
    fn new(recess: &RecessLayout, stud: Length) -> Self {
        Self {
            along: recess.framed.grown(stud),
            out: Span::new(recess.framing_back, recess.framing_front),
            up: recess.rough_height.grown(stud),
        }
    }

    /// The highest that the vent's clearances come under the framing, or under what lies behind it where none comes
    /// under it; nothing where they do not pass it along the wall.
    fn under(&self, design: &Design) -> Option<Reached> {
        let reach = |out: Span| {
            let up = Span::new(self.up.low - FAR, self.up.high);
            let found = farthest(design, &block(self.along, out, up), DVec3::Z)?;
            Some((up.low + found.0, found.1))
        };
        let back = Span::new(self.out.low - FAR, self.out.high);
        reach(self.out).or_else(|| reach(back))
    }
}

fn block(along: Span, out: Span, up: Span) -> Body {
    let corner = point(along.low, out.high, up.low);
    let shape = Swept::block(along.size(), out.size(), up.size());
    Body::new(shape, Frame::at(corner))
}

/// How far a block has to move one way until the last of the vent's clearances is behind it.
fn farthest(design: &Design, block: &Body, way: DVec3) -> Option<Reached> {
    let volumes = design.clearances.iter();
    let volumes = volumes.filter(|it| is_of_vent(it) && overlaps(block, &it.body));
    let moves = volumes.map(|it| {
        let by = exit(block, &it.body, &[Direction::Along(way)]);
        (Length::mm(by), it.id.clone())
    });
    moves.max_by(|a, b| a.0.to_mm().total_cmp(&b.0.to_mm()))
}

const fn is_of_vent(clearance: &Clearance) -> bool {
    matches!(
        clearance.kind,
        ClearanceKind::VerticalPipe | ClearanceKind::Bend | ClearanceKind::HorizontalPipe
    )
}
