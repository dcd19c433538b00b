//! The recess and the vent behind or below it.
//!
//! # What it finds
//! Where the vent passes the recess's framing along the wall: it may turn below the recess or rise behind it, and one
//! of the two is enough: the sill's underside against the top of the vent's clearances, or the back of the recess's
//! framing against the front of the vertical pipe's clearance. Whichever has more margin is judged. Where recess and
//! vent do not overlap along the wall, nothing is judged.
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

use super::{clearances_of, first_of, page};
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Clearance, ClearanceKind, Design, Kind, point};
use crate::units::{Length, Span};

pub(super) const RULE: Rule = Rule {
    name: "recess and pipe",
    concern: Concern::Heat,
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

fn check(design: &Design, report: &mut Report<'_>) {
    let (params, layout) = (&design.params, &design.layout);
    let Some(recess) = &layout.recess else { return };
    let vent = &params.vent;
    let stud = params.front_stud().lying();
    if !meets(design, recess.framed.grown(stud)) {
        return;
    }
    let underside = recess.rough_height.low - stud;
    let before = Numbers::at_least(recess.framing_back, layout.pipe_clearance_front());
    let below = Numbers::at_least(underside, layout.vent_clearance_top());
    if below.margin >= before.margin {
        let row = Row {
            subject: Measure("recess's underside above the vent's clearance").into(),
            parts: clearances_of(design, &[ClearanceKind::HorizontalPipe]),
            location: Some(point(recess.rough.center(), recess.framing_back, underside)),
            source: page(&vent.top_clearance),
            levers: &["recess.sill", "vent.rise"],
            ..Row::default()
        };
        report.judge(row, below);
    } else {
        let row = Row {
            subject: Measure("recess framing to the vertical pipe's clearance").into(),
            parts: [
                first_of(design, Kind::RecessFraming),
                clearances_of(design, &[ClearanceKind::VerticalPipe]),
            ]
            .concat(),
            location: Some(point(layout.unit_center, recess.framing_back, underside)),
            source: page(&vent.vertical_clearance),
            levers: &["recess.depth", "skins.upper_finish", "recess.sill"],
            ..Row::default()
        };
        report.judge(row, before);
    }
}

/// Whether a clearance of the vent reaches into this stretch along the wall.
fn meets(design: &Design, along: Span) -> bool {
    design.clearances.iter().any(|it| {
        let bounds = &it.body.bounds;
        let own = Span::new(Length::mm(bounds.low.x), Length::mm(bounds.high.x));
        is_of_vent(it) && own.overlaps(along)
    })
}

const fn is_of_vent(clearance: &Clearance) -> bool {
    matches!(
        clearance.kind,
        ClearanceKind::VerticalPipe | ClearanceKind::Bend | ClearanceKind::HorizontalPipe
    )
}
