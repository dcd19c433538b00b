//! What the rules between parameters share: the form of one, and the measures that several of them take.

use glam::DVec2;

use crate::catalog::Lumber;
use crate::geom::TOLERANCE;
use crate::params::choice::FrontForm;
use crate::params::fault::Fault;
use crate::params::layer::Layer;
use crate::params::list::Params;
use crate::params::text::length_text;
use crate::units::Length;

/// One rule: the faults it finds in these parameters.
pub(in crate::params) type Rule = fn(&Params) -> Vec<Fault>;

/// Least room between the back of the front walls and the wall behind, so that side walls exist.
pub(in crate::params) const LEAST_SIDE_WALL: Length = Length::mm(50.0);

/// Whether `small` fits into `large`, touching included.
pub(in crate::params) fn fits(small: Length, large: Length) -> bool {
    (small - large).to_mm() <= TOLERANCE
}

/// A fault unless `small` fits into `large`.
pub(in crate::params) fn unless_fits(
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

pub(in crate::params) fn stepped(params: &Params) -> bool {
    params.front.form == FrontForm::Stepped
}

/// Depth that the ledge takes; nothing for one wall.
pub(in crate::params) fn ledge_depth(params: &Params) -> Length {
    params
        .front
        .ledge
        .as_ref()
        .map_or(Length::ZERO, Lumber::depth)
}

/// The thicker of the studs that stand beside the unit.
pub(in crate::params) fn front_stud(params: &Params) -> Length {
    let front = params.front_stud().breadth();
    front.max(params.lower_stud().breadth())
}

/// The lower of the distances from a point to the two ends of the chase.
pub(in crate::params) fn to_nearer_end(params: &Params, center: Option<Length>) -> Length {
    let half = params.site().width / 2.0;
    let middle = params.site().chase.low + half;
    half - center.map_or(Length::ZERO, |center| (center - middle).abs())
}

/// The lowest ceiling over the room, above the slab.
pub(in crate::params) fn lowest_over_room(params: &Params) -> Length {
    let (width, depth) = (params.room.width.to_mm(), params.room.depth.to_mm());
    if !params.has_ceiling() {
        return Length::mm(f64::MAX);
    }
    let corners = [(0.0, 0.0), (width, 0.0), (0.0, depth), (width, depth)];
    let corners = corners.map(|(right, out)| DVec2::new(right, -out));
    Length::mm(params.room_underside().lowest(corners)) - params.slab()
}

/// The lowest ceiling over the chase's framing, above the slab. Across a corner the framing's back is the walls
/// themselves, from the room's corner to where its sides begin.
///
/// Endless where nothing says how high it is; that is a fault of its own.
pub(in crate::params) fn ceiling_over_chase(params: &Params) -> Length {
    if !params.has_ceiling() {
        return Length::mm(f64::MAX);
    }
    let site = params.site();
    let back = if site.is_turned() {
        site.side_begins(Length::ZERO)
    } else {
        Length::ZERO
    };
    let sides = [site.chase.low, site.chase.low + site.width];
    let ends = sides.map(|right| [(right, back), (right, params.chase.depth)]);
    let corner = site
        .is_turned()
        .then(|| (site.chase.center(), Length::ZERO));
    let corners = ends.into_iter().flatten().chain(corner);
    let corners = corners.map(|(right, out)| DVec2::new(right.to_mm(), -out.to_mm()));
    Length::mm(params.underside().lowest(corners)) - params.slab()
}

pub(in crate::params) fn platform_height(params: &Params) -> Length {
    params.platform.layers.iter().map(Layer::height).sum()
}
