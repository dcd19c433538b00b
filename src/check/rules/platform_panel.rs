//! The platform's panels over their sleepers.
//!
//! # What it finds
//! The spacing of the sleepers, wider where one was moved off the gas stub, against the span that is stamped on the
//! panels for floors. It asks where the stamp is not given, and where the unit stands on sleepers without any panel.
//! Panels that lie on the slab or on another panel span nothing.
//!
//! # Why
//! The unit stands on the panel between two sleepers; one that is too thin for the span sags, and the unit with it.
//!
//! # Datum
//! Center to center.
//!
//! # Source
//! IRC 2018 R503.2.1.1(1), from memory: the second number of a panel's span rating is the spacing over floors.

use glam::DVec3;

use super::parts_of;
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule};
use crate::design::{Design, Kind};
use crate::geom::TOLERANCE;
use crate::params::Layer;
use crate::units::{Length, Rounding};

pub(super) const RULE: Rule = Rule {
    name: "platform panel",
    concern: Concern::Structure,
    text: include_str!("platform_panel.rs"),
    keys: &[
        "platform.layers",
        "platform.sleeper_spacing",
        "platform.span_rating",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let platform = &design.params.platform;
    if platform.layers.last().is_some_and(|it| !is_panel(it)) {
        ask_what_it_stands_on(design, report);
    }
    let mut pairs = platform.layers.iter().zip(platform.layers.iter().skip(1));
    let spans = pairs.any(|(under, over)| is_panel(over) && !is_panel(under));
    if !spans {
        return;
    }
    let parts = parts_of(design, Kind::PlatformPanel);
    let panel = design
        .parts
        .iter()
        .find(|it| it.kind == Kind::PlatformPanel);
    let row = Row {
        subject: Measure("spacing of the sleepers under the platform's panels").into(),
        parts,
        location: panel.map(|it| it.body.bounds.center()),
        source: "IRC 2018 R503.2.1.1(1), from memory; the panel's stamp".to_owned(),
        levers: &["platform.sleeper_spacing"],
        ..Row::default()
    };
    let spacing = platform.sleeper_spacing.max(widest(design));
    if let Some(rating) = platform.span_rating {
        report.limit(row, Numbers::at_most(spacing, rating));
    } else {
        let unit = design.params.project.unit;
        let question = format!(
            "What span for floors is stamped on the platform's panels (platform.span_rating)? They lie over sleepers {} apart.",
            spacing.tape(unit, Rounding::Up)
        );
        report.ask_for(row, None, question, vec!["platform.span_rating"]);
    }
}

fn is_panel(layer: &Layer) -> bool {
    matches!(layer, Layer::Panel(_))
}

/// A unit on sleepers alone.
fn ask_what_it_stands_on(design: &Design, report: &mut Report<'_>) {
    let row = Row {
        subject: Measure("what the unit stands on").into(),
        parts: parts_of(design, Kind::Sleeper),
        location: design
            .first(Kind::Sleeper)
            .map(|it| it.body.bounds.center()),
        source: "the unit's manual".to_owned(),
        levers: &["platform.layers"],
        ..Row::default()
    };
    let question = "Does the manual allow the unit to stand on sleepers with nothing over them? Usually a panel tops the platform.";
    report.ask(row, None, question);
}

/// The widest spacing of two sleepers side by side in one layer, center to center.
fn widest(design: &Design) -> Length {
    let sleepers: Vec<_> = design
        .parts
        .iter()
        .filter(|it| it.kind == Kind::Sleeper)
        .map(|it| (it.body.bounds, it.body.frame.z))
        .collect();
    let mut widest = 0.0_f64;
    for (bounds, way) in &sleepers {
        let across = if way.x.abs() > way.y.abs() {
            DVec3::Y
        } else {
            DVec3::X
        };
        let middle = bounds.center().dot(across);
        let beside = sleepers.iter().filter(|(other, its)| {
            its.dot(*way).abs() > 0.5 && (other.low.z - bounds.low.z).abs() <= TOLERANCE
        });
        let next = beside
            .map(|(other, _)| other.center().dot(across) - middle)
            .filter(|it| *it > TOLERANCE)
            .min_by(f64::total_cmp);
        widest = widest.max(next.unwrap_or_default());
    }
    Length::mm(widest)
}
