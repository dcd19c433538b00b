//! The pictures there are: what each shows, and from where.

use glam::DVec3;

use super::camera::Camera;
use crate::design::{Design, Group, Kind};
use crate::export::item::{AnyKind, Item, What};
use crate::geom::{Bounds, Plane};

/// Height of an eye over the floor in millimetres (common practice, no source).
const EYE_HEIGHT: f64 = 1600.0;
/// How far the room is shown round what is built, in millimetres.
const AROUND: f64 = 500.0;

/// One picture.
#[derive(Debug, Clone, Copy)]
pub(super) struct View {
    /// Where it is seen from, given the box round what is built.
    pub(super) camera: fn(&Bounds) -> Camera,
    /// How a thing is shown.
    pub(super) show: fn(&Item<'_>) -> Show,
    /// Where the model is cut open; what lies under the plane stays.
    pub(super) section: Option<fn(&Design) -> Plane>,
    /// Whether the room is shown only round what is built, or to the edges of the picture.
    pub(super) room_ends: bool,
}

/// How a thing is shown.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Show {
    /// Not at all.
    Nothing,
    /// As it looks, but not translucent.
    Whole,
    /// In a much lighter color.
    Pale,
    /// By its edges alone.
    Outline,
    /// Only where it is cut, and translucent.
    CutOnly,
}

/// The finished front, from an eye in the room.
pub(super) const FRONT: View = View {
    camera: eye_in_room,
    show: finished,
    section: None,
    room_ends: false,
};

/// The finished chase in the room, from the upper right, so that the front has the light.
pub(super) const ISOMETRIC: View = View {
    camera: upper_right,
    show: finished,
    section: None,
    room_ends: true,
};

/// The framing without its skins, from the upper right.
pub(super) const FRAMING: View = View {
    camera: upper_right,
    show: framing,
    section: None,
    room_ends: true,
};

/// Cut upright through the middle of the unit, from the left.
pub(super) const SECTION: View = View {
    camera: left,
    show: cut_open,
    section: Some(middle_of_unit),
    room_ends: false,
};

fn eye_in_room(built: &Bounds) -> Camera {
    let (size, middle) = (built.size(), built.center());
    let distance = 1.7 * size.x.max(size.z);
    let eye = DVec3::new(
        middle.x - 0.3 * size.x,
        built.low.y - distance,
        built.low.z + EYE_HEIGHT.min(size.z),
    );
    Camera::level(eye, distance)
}

/// The direction that makes equal angles with the three axes (ISO 5456-3, isometric).
fn upper_right(_: &Bounds) -> Camera {
    Camera::flat(DVec3::new(1.0, -1.0, 1.0).normalize())
}

fn left(_: &Bounds) -> Camera {
    Camera::flat(DVec3::NEG_X)
}

fn middle_of_unit(design: &Design) -> Plane {
    let center = design.layout.unit_center.to_mm();
    Plane::through(DVec3::X * center, DVec3::NEG_X)
}

fn finished(item: &Item<'_>) -> Show {
    match (item.kind(), item.group()) {
        (AnyKind::Clearance(_) | AnyKind::Part(Kind::SideWall), _) => Show::Nothing,
        (AnyKind::Part(Kind::Ceiling), _) => Show::Outline,
        (_, Group::Room | Group::Fixed) => Show::Pale,
        _ => Show::Whole,
    }
}

fn framing(item: &Item<'_>) -> Show {
    match (item.kind(), item.group()) {
        (_, Group::Framing | Group::Platform | Group::Unit | Group::Vent) => Show::Whole,
        (AnyKind::Part(Kind::ExistingStud | Kind::ExistingPlate | Kind::Floor), _) => Show::Pale,
        (AnyKind::Part(Kind::Ceiling), _) => Show::Outline,
        _ => Show::Nothing,
    }
}

fn cut_open(item: &Item<'_>) -> Show {
    match item.kind() {
        AnyKind::Clearance(_) => Show::CutOnly,
        AnyKind::Part(Kind::SideWall) => Show::Nothing,
        _ if item.group().stands_already() => Show::Pale,
        AnyKind::Part(_) => Show::Whole,
    }
}

/// The box round what is built; round everything when nothing is.
pub(super) fn built(items: &[Item<'_>]) -> Bounds {
    let bounds = |wanted: fn(&Item<'_>) -> bool| {
        let parts = items.iter().filter(|item| wanted(item));
        let parts = parts.filter_map(|item| match item.what {
            What::Part(part) => Some(part.body.bounds),
            What::Clearance(_) => None,
        });
        parts.fold(Bounds::EMPTY, |all, part| all.union(&part))
    };
    let built = bounds(|item| !item.group().stands_already());
    if built.is_empty() {
        bounds(|_| true)
    } else {
        built
    }
}

/// The planes between which the room is shown.
pub(super) fn room_limits(built: &Bounds) -> [Plane; 3] {
    [
        (built.low, DVec3::NEG_X),
        (built.high, DVec3::X),
        (built.low, DVec3::NEG_Y),
    ]
    .map(|(corner, out)| Plane::through(corner + out * AROUND, out))
}
