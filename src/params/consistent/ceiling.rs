//! Whether what is said of the ceiling goes together: heights, slopes, readings, a ridge.

use super::{Rule, fits};
use crate::geom::fitted_plane;
use crate::params::choice::PlatesAlong;
use crate::params::fault::Fault;
use crate::params::list::{Params, Ridge};
use crate::params::text::length_text;
use crate::units::Slope;

/// The steepest that a plane may be, rise over run, as for slopes that are written.
const STEEPEST: f64 = 2.0;
/// Planes whose slopes differ by less are one.
const ONE_SLOPE: f64 = 1e-4;

pub(super) static RULES: &[Rule] = &[
    height_or_readings,
    readings_alone,
    flat_alone,
    readings_make_a_plane,
    plates_along_readings,
    one_slope_beyond,
    one_slope_toward,
    ridge_in_room,
    ridge_is_none,
    not_too_steep,
];

fn height_or_readings(params: &Params) -> Vec<Fault> {
    let ceiling = &params.ceiling;
    if ceiling.height.is_some() || !ceiling.readings.is_empty() {
        return Vec::new();
    }
    vec![
        Fault::new("ceiling.height", "the ceiling's height is not given")
            .found("neither `height` nor `readings`")
            .expected("the height at the left corner of the fireplace wall")
            .way_out("write `height`, or `readings` at three places or more"),
    ]
}

fn readings_alone(params: &Params) -> Vec<Fault> {
    let ceiling = &params.ceiling;
    if ceiling.readings.is_empty() {
        return Vec::new();
    }
    let others = [
        ("ceiling.height", ceiling.height.is_some()),
        ("ceiling.slope", ceiling.slope.is_some()),
        ("ceiling.rise_right", ceiling.rise_right.is_some()),
        ("ceiling.rise_out", ceiling.rise_out.is_some()),
        ("ridge", params.ridge.is_some()),
    ];
    let others = others.into_iter().filter(|it| it.1);
    others
        .map(|(key, _)| {
            Fault::new(key, "the ceiling is given twice")
                .found(format!("`{key}` beside `ceiling.readings`"))
                .expected("one of them: the plane through the readings gives it all")
                .way_out(format!("take `{key}` out, or the readings"))
        })
        .collect()
}

fn flat_alone(params: &Params) -> Vec<Fault> {
    let ceiling = &params.ceiling;
    if ceiling.slope.is_none() {
        return Vec::new();
    }
    let rises = |slope: Option<Slope>| slope.is_some_and(|it| it != Slope::LEVEL);
    let others = [
        ("ceiling.rise_right", rises(ceiling.rise_right)),
        ("ceiling.rise_out", rises(ceiling.rise_out)),
        ("ridge", params.ridge.is_some()),
    ];
    let others = others.into_iter().filter(|it| it.1);
    others
        .map(|(key, _)| {
            Fault::new(key, "the ceiling is given as flat and as sloped")
                .found(format!("`{key}` beside `ceiling.slope = \"flat\"`"))
                .expected("one of them")
                .way_out(format!("take `{key}` out, or `ceiling.slope`"))
        })
        .collect()
}

fn readings_make_a_plane(params: &Params) -> Vec<Fault> {
    let readings = &params.ceiling.readings;
    if readings.is_empty() {
        return Vec::new();
    }
    let fault = |problem: &str, found: String, expected: &str| {
        vec![
            Fault::new("ceiling.readings", problem)
                .found(found)
                .expected(expected)
                .way_out("measure at more places, such as over the four corners of the chase"),
        ]
    };
    let Some(plane) = fitted_plane(&params.ceiling_points()) else {
        return fault(
            "these readings do not fix a plane",
            format!("{} of them, on one line or at one place", readings.len()),
            "three or more, not on one line",
        );
    };
    let steepest = plane.slope.abs().max_element();
    if steepest > STEEPEST {
        let found = Slope::ratio(steepest).text();
        return fault(
            "the readings make the ceiling too steep",
            found,
            "at most 24:12",
        );
    }
    Vec::new()
}

fn plates_along_readings(params: &Params) -> Vec<Fault> {
    let ceiling = &params.ceiling;
    if ceiling.plates == PlatesAlong::Plane || !ceiling.readings.is_empty() {
        return Vec::new();
    }
    vec![
        Fault::new(
            "ceiling.plates",
            "there are no readings to lay plates along",
        )
        .found("plates = \"readings\" without `readings`")
        .expected("readings of the ceiling over the chase's walls")
        .way_out("add `readings` to [ceiling], or take `plates` out"),
    ]
}

/// What a rule says of the ridge, if there is one.
fn of_ridge(params: &Params, rule: impl Fn(&Ridge) -> Option<Fault>) -> Vec<Fault> {
    params.ridge.as_ref().and_then(rule).into_iter().collect()
}

fn one_slope_beyond(params: &Params) -> Vec<Fault> {
    of_ridge(params, |ridge| {
        let (problem, found) = match (ridge.fall, ridge.far_height) {
            (None, None) => (
                "the ceiling's fall beyond the ridge is not given",
                "neither",
            ),
            (Some(_), Some(_)) => ("the ceiling's fall beyond the ridge is given twice", "both"),
            _ => return None,
        };
        let fault = Fault::new("ridge.fall", problem)
            .found(format!("{found} of `fall` and `far_height`"))
            .expected("one of them")
            .way_out("write the slope, or the height at the far end of the wall");
        Some(fault)
    })
}

fn one_slope_toward(params: &Params) -> Vec<Fault> {
    of_ridge(params, |ridge| {
        let written = params.slope_toward(ridge)?;
        ridge.height?;
        let fault = Fault::new(
            "ridge.height",
            "the ceiling's slope to the ridge is given twice",
        )
        .found(format!("`ridge.height`, and a slope of {}", written.text()))
        .expected("one of them")
        .way_out("take `ridge.height` out, or the slope of [ceiling] that leads to the ridge");
        Some(fault)
    })
}

fn ridge_in_room(params: &Params) -> Vec<Fault> {
    of_ridge(params, |ridge| {
        let extent = params.extent_across(ridge);
        let text = |length| length_text(length, params.project.unit);
        fits(extent, ridge.at).then(|| {
            Fault::new("ridge.at", "the ridge is outside the room")
                .found(text(ridge.at))
                .expected(format!("less than {}", text(extent)))
                .way_out("leave [ridge] out, or check whether it runs `out` or `along`")
        })
    })
}

fn ridge_is_none(params: &Params) -> Vec<Fault> {
    of_ridge(params, |ridge| {
        let (rise, fall) = (params.rise_to(ridge), params.fall_beyond(ridge));
        (rise.to_ratio() + fall.to_ratio() < ONE_SLOPE).then(|| {
            Fault::new("ridge.fall", "the ceiling does not turn down at the ridge")
                .found(format!(
                    "a rise of {} to the ridge and a fall of {} beyond it",
                    rise.text(),
                    fall.text()
                ))
                .expected("a fall beyond the ridge; a valley is not modeled")
                .way_out("leave [ridge] out where the ceiling is one plane")
        })
    })
}

fn not_too_steep(params: &Params) -> Vec<Fault> {
    of_ridge(params, |ridge| {
        let slopes = [params.rise_to(ridge), params.fall_beyond(ridge)];
        let steep = slopes
            .into_iter()
            .find(|it| it.to_ratio().abs() > STEEPEST)?;
        let fault = Fault::new("ridge.at", "the heights make the ceiling too steep")
            .found(steep.text())
            .expected(format!(
                "at most {}, either way",
                Slope::ratio(STEEPEST).text()
            ))
            .way_out("check place and heights of the ridge");
        Some(fault)
    })
}
