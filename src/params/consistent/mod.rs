//! Whether parameters that are sound one by one go together: what no design could be built from is a fault.
//!
//! What can be built but is unwise is no fault; the checks say so. Every rule here is a small function
//! in one of the `RULES`, and all of them are asked, so that all faults come at once. Heights are taken from the slab.

mod appliance;
mod ceiling;
mod fixed;
mod flush;
mod framing;
mod placement;
mod recess;
mod services;
mod steel;
mod vent;

use glam::DVec2;

use super::choice::FrontForm;
use super::fault::Fault;
use super::layer::Layer;
use super::list::Params;
use super::value::length_text;
use crate::geom::TOLERANCE;
use crate::units::Length;

/// One rule: the faults it finds in these parameters.
type Rule = fn(&Params) -> Vec<Fault>;

/// Every fault of how the parameters go together; none has a place.
pub(super) fn faults(params: &Params) -> Vec<Fault> {
    let rules = [
        ceiling::RULES,
        placement::RULES,
        flush::RULES,
        fixed::RULES,
        framing::RULES,
        appliance::RULES,
        recess::RULES,
        services::RULES,
        steel::RULES,
        vent::RULES,
    ];
    rules
        .into_iter()
        .flatten()
        .flat_map(|rule| rule(params))
        .collect()
}

/// Whether `small` fits into `large`, touching included.
fn fits(small: Length, large: Length) -> bool {
    (small - large).to_mm() <= TOLERANCE
}

/// A fault unless `small` fits into `large`.
fn unless_fits(
    params: &Params,
    key: &str,
    (small_name, small): (&str, Length),
    (large_name, large): (&str, Length),
    way_out: &str,
) -> Vec<Fault> {
    if fits(small, large) {
        return Vec::new();
    }
    let text = |length| length_text(length, params.project.unit);
    let fault = Fault::new(key, format!("{small_name} exceeds {large_name}"))
        .found(format!("{small_name}: {}", text(small)))
        .expected(format!("at most {}, {large_name}", text(large)))
        .way_out(way_out);
    vec![fault]
}

fn stepped(params: &Params) -> bool {
    params.front.form == FrontForm::Stepped
}

/// Depth that the ledge takes; nothing for one wall.
fn ledge_depth(params: &Params) -> Length {
    params
        .front
        .ledge
        .as_ref()
        .map_or(Length::ZERO, |ledge| ledge.width)
}

/// The thicker of the studs that stand beside the unit.
fn front_stud(params: &Params) -> Length {
    let front = params.front_stud().thickness;
    front.max(params.lower_stud().thickness)
}

/// The lower of the distances from a point to the two ends of the chase.
fn to_nearer_end(params: &Params, center: Option<Length>) -> Length {
    let half = params.chase_width() / 2.0;
    let middle = params.chase_left() + half;
    half - center.map_or(Length::ZERO, |center| (center - middle).abs())
}

/// The lowest ceiling over a rectangle of the floor, above the slab.
///
/// Endless where nothing says how high it is; that is a fault of its own.
fn lowest_ceiling(params: &Params, (left, right): (Length, Length), out: Length) -> Length {
    if !params.has_ceiling() {
        return Length::mm(f64::MAX);
    }
    let corners = [left, right]
        .into_iter()
        .flat_map(|x| [0.0, -out.to_mm()].map(|y| DVec2::new(x.to_mm(), y)));
    Length::mm(params.underside().lowest(corners)) - params.slab()
}

/// The lowest ceiling over the room, above the slab.
fn lowest_over_room(params: &Params) -> Length {
    let (width, depth) = (params.room.width.to_mm(), params.room.depth.to_mm());
    if !params.has_ceiling() {
        return Length::mm(f64::MAX);
    }
    let corners = [(0.0, 0.0), (width, 0.0), (0.0, depth), (width, depth)];
    let corners = corners.map(|(right, out)| DVec2::new(right, -out));
    Length::mm(params.room_underside().lowest(corners)) - params.slab()
}

/// The lowest ceiling over the chase's framing.
fn ceiling_over_chase(params: &Params) -> Length {
    let chase = &params.chase;
    let left = params.chase_left();
    lowest_ceiling(params, (left, left + params.chase_width()), chase.depth)
}

fn platform_height(params: &Params) -> Length {
    params.platform.layers.iter().map(Layer::height).sum()
}
