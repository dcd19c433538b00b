//! What one value must be by itself: its range, and what its kind asks.

use super::decision::decisions_fault;
use super::fault::Fault;
use super::fixed::fixed_fault;
use super::grid;
use super::layer::Layer;
use super::manual::{MantelRule, Step, is_page};
use super::range::{Range, limits_text, out_of_range, range_text, within};
use super::reading::readings_fault;
use super::shown::text_fault;
use super::table::Parameter;
use super::text::{angle_text, length_text};
use super::value::{Kind, Value};
use super::vent_step::VentStep;
use super::yard::{self, lumber_fault, steel_fault};
use crate::catalog::FramingMember;
use crate::units::{Amount, Angle, Length, Slope, TapeUnit};

/// Thicknesses that a platform's panel can have.
const PANELS: (Length, Length) = (Length::mm(3.0), Length::mm(100.0));
/// Lengths in a mantel rule.
const RULE_LENGTHS: (Length, Length) = (Length::ZERO, Length::mm(3000.0));
/// Lengths of a vent's straights and offsets.
const STRAIGHTS: (Length, Length) = (Length::mm(1.0), Length::mm(12_000.0));
/// Angles of elbows in degrees.
const ELBOWS: (f64, f64) = (1.0, 90.0);
/// The largest factor of a mantel ramp.
const RULE_FACTOR: f64 = 20.0;

/// The fault of a value by itself, or nothing.
pub(super) fn fault(parameter: &Parameter, value: &Value, unit: TapeUnit) -> Option<Fault> {
    let key = parameter.key;
    if let Value::Manual { page, .. } = value {
        let fault = page_fault(key, page);
        if fault.is_some() {
            return fault;
        }
    }
    if let Some(rows) = rows_of(value.bare()).filter(|it| *it > MOST_ROWS) {
        return Some(
            Fault::new(key, format!("the list `{key}` is too long"))
                .found(format!("{rows} rows"))
                .expected(format!("at most {MOST_ROWS}"))
                .way_out("write what the job has; no chase needs more"),
        );
    }
    match value.bare() {
        Value::Text(text) => text_fault(key, "text", text),
        Value::Count(count) => count_fault(parameter, *count),
        Value::Length(length) => length_fault(parameter, *length, unit),
        Value::Slope(slope) => slope_fault(parameter, *slope),
        Value::Lumber(FramingMember::Steel(steel)) if parameter.kind == Kind::Wood => {
            Some(steel_fault(key, steel, false))
        }
        Value::Lumber(member) => {
            lumber_fault(key, (member.name(), member.breadth(), member.depth()), unit)
        }
        Value::Layers(layers) => layers_fault(key, layers, unit),
        Value::MantelRule(rule) => rule_fault(key, rule, unit),
        Value::Lengths(lengths) => yard::lengths_fault(key, lengths, unit),
        Value::Angle(angle) => angle_fault(parameter, *angle),
        Value::Angles(angles) => yard::angles_fault(key, angles),
        Value::Boards(boards) => yard::boards_fault(key, boards, unit),
        Value::Sheets(sheets) => yard::sheets_fault(key, sheets, unit),
        Value::Prices(prices) => yard::prices_fault(key, prices),
        Value::VentPath(steps) => steps.iter().find_map(|step| step_fault(key, step, unit)),
        Value::Amount(amount) => amount_fault(parameter, *amount, unit),
        Value::Grid(rows) => grid_fault(parameter, rows, unit),
        Value::FixedThings(things) => fixed_fault(key, things, unit),
        Value::Decisions(decisions) => decisions_fault(key, decisions),
        Value::Readings(readings) => readings_fault(key, readings, unit),
        // what it comes to is judged once it is resolved
        Value::Flag(_) | Value::Choice(_) | Value::Following(_) | Value::Manual { .. } => None,
    }
}

fn grid_fault(parameter: &Parameter, rows: &[Vec<Length>], unit: TapeUnit) -> Option<Fault> {
    let Kind::Grid(columns) = parameter.kind else {
        return None;
    };
    grid::fault(parameter.key, columns, rows, unit)
}

/// Rows that a list may have.
const MOST_ROWS: usize = 200;

/// How many rows a list has; `None` for what is no list.
fn rows_of(value: &Value) -> Option<usize> {
    match value {
        Value::Layers(it) => Some(it.len()),
        Value::Lengths(it) => Some(it.len()),
        Value::Angles(it) => Some(it.len()),
        Value::Boards(it) => Some(it.len()),
        Value::Sheets(it) => Some(it.len()),
        Value::Prices(it) => Some(it.len()),
        Value::VentPath(it) => Some(it.len()),
        Value::Grid(it) => Some(it.len()),
        Value::Readings(it) => Some(it.len()),
        Value::FixedThings(it) => Some(it.len()),
        Value::Decisions(it) => Some(it.len()),
        Value::Text(_)
        | Value::Flag(_)
        | Value::Count(_)
        | Value::Length(_)
        | Value::Following(_)
        | Value::Slope(_)
        | Value::Lumber(_)
        | Value::Choice(_)
        | Value::MantelRule(_)
        | Value::Angle(_)
        | Value::Amount(_)
        | Value::Manual { .. } => None,
    }
}

fn page_fault(key: &str, page: &str) -> Option<Fault> {
    if !is_page(page) {
        return Some(
            Fault::new(key, format!("`{key}` has no page"))
                .found(if page.trim().is_empty() {
                    "an empty page".to_owned()
                } else {
                    format!("`{page}`")
                })
                .expected("the page of the unit's manual")
                .way_out("write the page that the number is on"),
        );
    }
    text_fault(key, "page", page)
}

fn count_fault(parameter: &Parameter, count: u32) -> Option<Fault> {
    if let Range::Count(least, most) = parameter.range
        && !(least..=most).contains(&count)
    {
        let allowed = range_text(parameter.range, TapeUnit::Inch);
        let fault = out_of_range(parameter.key, count.to_string(), allowed.clone());
        return Some(fault.way_out(format!("write a whole number {allowed}")));
    }
    None
}

fn length_fault(parameter: &Parameter, length: Length, unit: TapeUnit) -> Option<Fault> {
    let sound = match parameter.range {
        Range::Length(least, most) => (least..=most).contains(&length),
        Range::LengthAbove(least, most) => length > least && length <= most,
        Range::Any | Range::Slope(..) | Range::Count(..) | Range::Angle(..) | Range::Amount(..) => {
            length.to_mm().is_finite()
        }
    };
    (!sound).then(|| {
        let allowed = range_text(parameter.range, unit);
        out_of_range(parameter.key, length_text(length, unit), allowed)
    })
}

fn slope_fault(parameter: &Parameter, slope: Slope) -> Option<Fault> {
    let sound = if let Range::Slope(least, most) = parameter.range {
        (least..=most).contains(&slope)
    } else {
        slope.to_ratio().is_finite()
    };
    (!sound).then(|| {
        let allowed = range_text(parameter.range, TapeUnit::Inch);
        out_of_range(parameter.key, slope.text(), allowed)
    })
}

fn angle_fault(parameter: &Parameter, angle: Angle) -> Option<Fault> {
    let sound = if let Range::Angle(least, most) = parameter.range {
        (least..=most).contains(&angle)
    } else {
        angle.to_radians().is_finite()
    };
    (!sound).then(|| {
        let allowed = range_text(parameter.range, TapeUnit::Inch);
        out_of_range(parameter.key, angle_text(angle), allowed)
    })
}

/// The fault of one step of a vent.
fn step_fault(key: &str, step: &VentStep, unit: TapeUnit) -> Option<Fault> {
    let (length, angle, rising) = match *step {
        VentStep::Go { length, rising } => (Some(length), None, rising),
        VentStep::Turn { by, .. } => (None, Some(by), None),
        VentStep::Offset { sideways, by, .. } => (Some(sideways), Some(by), None),
        VentStep::ThroughWall { rising, .. } => (None, None, rising),
        VentStep::ThroughRoof => (None, None, None),
    };
    let allowed = if length.is_some_and(|it| !within(it, STRAIGHTS)) {
        limits_text(STRAIGHTS.0, STRAIGHTS.1, unit)
    } else if angle.is_some_and(|it| !(ELBOWS.0..=ELBOWS.1).contains(&it.to_degrees())) {
        format!("an elbow of {} to {} degrees", ELBOWS.0, ELBOWS.1)
    } else if rising.is_some_and(|it| !(0.0..=1.0).contains(&it.to_ratio())) {
        "a rise from level to 12:12".to_owned()
    } else {
        return None;
    };
    Some(out_of_range(key, format!("`{}`", step.text(unit)), allowed))
}

fn amount_fault(parameter: &Parameter, amount: Amount, unit: TapeUnit) -> Option<Fault> {
    let sound = if let Range::Amount(least, most) = parameter.range {
        (least.value..=most.value).contains(&amount.value)
    } else {
        amount.value.is_finite()
    };
    (!sound).then(|| {
        let allowed = range_text(parameter.range, unit);
        out_of_range(parameter.key, amount.text(unit), allowed)
    })
}

fn layers_fault(key: &str, layers: &[Layer], unit: TapeUnit) -> Option<Fault> {
    if layers.is_empty() {
        return Some(
            Fault::new(key, "the platform has no layer")
                .found("an empty list")
                .expected("at least one layer")
                .way_out(
                    "write the layers from the slab up, such as [\"2x4 flat\", \"3/4 in panel\"]",
                ),
        );
    }
    layers.iter().find_map(|layer| match layer {
        Layer::Flat(lumber) | Layer::OnEdge(lumber) => {
            lumber_fault(key, (&lumber.name, lumber.thickness, lumber.width), unit)
        }

        Layer::Panel(thickness) => (!within(*thickness, PANELS)).then(|| {
            let allowed = limits_text(PANELS.0, PANELS.1, unit);
            out_of_range(
                key,
                format!("a panel of {}", length_text(*thickness, unit)),
                allowed,
            )
        }),
    })
}

fn rule_fault(key: &str, rule: &MantelRule, unit: TapeUnit) -> Option<Fault> {
    match rule {
        MantelRule::Steps(steps) => steps_fault(key, steps, unit),
        MantelRule::Ramp { base, factor } => {
            let sound = within(*base, RULE_LENGTHS) && (0.0..=RULE_FACTOR).contains(factor);
            (!sound).then(|| {
                let found = format!("base {} and factor {factor}", length_text(*base, unit));
                let base = limits_text(RULE_LENGTHS.0, RULE_LENGTHS.1, unit);
                out_of_range(
                    key,
                    found,
                    format!("base {base} and factor from 0 to {RULE_FACTOR}"),
                )
            })
        }
    }
}

fn steps_fault(key: &str, steps: &[Step], unit: TapeUnit) -> Option<Fault> {
    let fault = |found: String, expected: &str| {
        Some(
            Fault::new(key, "the mantel rule's steps are out of order")
                .found(found)
                .expected(expected)
                .way_out(
                    "copy the manual's rows as [projection, height], the smallest projection first",
                ),
        )
    };
    let row = |step: &Step| {
        let projection = length_text(step.projection, unit);
        format!("[{projection}, {}]", length_text(step.height, unit))
    };
    if steps.is_empty() {
        return fault("no row".to_owned(), "at least one row");
    }
    let outside = steps
        .iter()
        .find(|step| !within(step.projection, RULE_LENGTHS) || !within(step.height, RULE_LENGTHS));
    if let Some(step) = outside {
        let allowed = limits_text(RULE_LENGTHS.0, RULE_LENGTHS.1, unit);
        return fault(row(step), &format!("lengths {allowed}"));
    }
    let pairs = steps.iter().zip(steps.iter().skip(1));
    let falling = pairs
        .into_iter()
        .find(|(low, high)| high.projection <= low.projection || high.height < low.height);
    falling.and_then(|(low, high)| {
        fault(
            format!("{} after {}", row(high), row(low)),
            "projections that grow, and heights that do not fall",
        )
    })
}
