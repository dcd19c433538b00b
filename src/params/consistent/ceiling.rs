//! Whether the planes of the ceiling go together: slopes, heights and place of a ridge.

use super::{Rule, fits, length_text};
use crate::params::fault::Fault;
use crate::params::list::{Params, Ridge};
use crate::units::Slope;

/// The steepest that a plane may be, rise over run, as for slopes that are written.
const STEEPEST: f64 = 2.0;
/// Planes whose slopes differ by less are one.
const ONE_SLOPE: f64 = 1e-4;

pub(super) static RULES: &[Rule] = &[
    one_slope_beyond,
    one_slope_toward,
    ridge_in_room,
    ridge_is_none,
    not_too_steep,
];

/// What a rule says of the ridge, if there is one.
fn of_ridge(params: &Params, rule: impl Fn(&Ridge) -> Option<Fault>) -> Vec<Fault> {
    params.ridge.as_ref().and_then(rule).into_iter().collect()
}

fn one_slope_beyond(params: &Params) -> Vec<Fault> {
    of_ridge(params, |ridge| {
        let (problem, found) = match (ridge.fall, ridge.far_height) {
            (None, None) => (
                "nothing says how the ceiling falls beyond the ridge",
                "neither",
            ),
            (Some(_), Some(_)) => ("the ceiling's fall beyond the ridge is said twice", "both"),
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
        let written = params.slope_toward(ridge);
        (ridge.height.is_some() && written != Slope::LEVEL).then(|| {
            Fault::new(
                "ridge.height",
                "the ceiling's slope to the ridge is said twice",
            )
            .found(format!("`ridge.height`, and a slope of {}", written.text()))
            .expected("one of them")
            .way_out("take `ridge.height` out, or the slope of [ceiling] that leads to the ridge")
        })
    })
}

fn ridge_in_room(params: &Params) -> Vec<Fault> {
    of_ridge(params, |ridge| {
        let extent = params.extent_across(ridge);
        let text = |length| length_text(length, params.project.unit);
        fits(extent, ridge.at).then(|| {
            Fault::new("ridge.at", "the ridge lies outside the room")
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
