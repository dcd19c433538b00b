//! How far a seated eye looks up to the screen.
//!
//! # What it finds
//! The angle from a seated eye, at `screen.seat_distance` from the screen, up to the screen's center,
//! for a low eye (5th percentile of women) against 15°; with it the center's height
//! and the angle of a high eye (95th percentile of men). Without a seat distance nothing is judged.
//!
//! # Why
//! A screen over a mantel hangs high, and necks tire.
//!
//! # Datum
//! The finished floor under the seat; the screen's front.
//!
//! # Source
//! Eye heights 1063 and 1315 mm: ANSUR II (NATICK/TR-15/007), sum of sitting eye height and popliteal height per
//! person, barefoot and erect. 15°: SMPTE 196M-2003, review rooms. Both are guidance, so about a larger angle it
//! asks.

use crate::check::{Concern, Measure, Numbers, Quantity, Report, Row, Rule, Sense};
use crate::design::{Design, Kind, point};
use crate::units::{Angle, Length, Rounding};

pub(super) const RULE: Rule = Rule {
    name: "screen height",
    concern: Concern::Looks,
    text: include_str!("screen_height.rs"),
    keys: &[
        "project.floor_buildup",
        "recess.sill",
        "screen.seat_distance",
    ],
    check,
};

const EYE: Length = Length::mm(1063.0);
const HIGH_EYE: Length = Length::mm(1315.0);
const LARGEST: f64 = 15.0;

fn check(design: &Design, report: &mut Report<'_>) {
    let Some(part) = design.first(Kind::Screen) else {
        return;
    };
    let (Some(screen), Some(recess)) = (&design.params.screen, &design.layout.recess) else {
        return;
    };
    let Some(distance) = screen.seat_distance else {
        return;
    };
    let center = recess.finished_height.center();
    let floor = design.layout.slab + design.params.project.floor_buildup;
    let degrees_from = |eye: Length| {
        let up = libm::atan2((center - floor - eye).to_mm(), distance.to_mm());
        Angle::radians(up).to_degrees()
    };
    let degrees = degrees_from(EYE);
    let detail = format!(
        "center at {}; a high eye (95 % of men) looks up {:.1} degrees",
        center.tape(design.params.project.unit, Rounding::Nearest),
        degrees_from(HIGH_EYE)
    );
    let numbers = Numbers::new(Quantity::Angle, Sense::AtMost, degrees, LARGEST);
    let row = Row {
        subject: Measure("angle up from a seated eye to the screen's center").into(),
        parts: vec![part.id.clone()],
        location: Some(point(recess.finished.center(), recess.back, center)),
        source: "ANSUR II eye height; SMPTE 196M-2003".to_owned(),
        levers: &["recess.sill", "screen.seat_distance"],
        detail: Some(detail),
    };
    if numbers.margin < 0.0 {
        report.ask(
            row,
            Some(numbers),
            "The screen is high for this seat: is that wanted?",
        );
    } else {
        report.judge(row, numbers);
    }
}
