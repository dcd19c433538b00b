//! The mantel: how far it reaches, what it lies against, and the legs under what reaches beyond the chase. What holds
//! it is in `mantel_hold`.

use glam::{DVec2, DVec3};

use super::beside::cabinets;
use super::builder::{Builder, Make, add_box};
use super::{Branch, ChaseFace, Group, Kind, Stage, Stock};
use crate::catalog::Material;
use crate::geom::{EndPlane, Frame, Profile, Swept, TOLERANCE};
use crate::layout::{Layout, point};
use crate::params::{Mantel, MantelExtent, MantelHold};
use crate::units::{Length, Span};

/// Builds the mantel and its end legs.
pub(super) fn build(layout: &Layout, builder: &mut Builder) {
    let Some(mantel) = &layout.params.mantel else {
        return;
    };
    if mantel.held_by == Some(MantelHold::Cleat) {
        hollow(mantel, layout, builder);
    } else {
        add_mantel(mantel, layout, builder);
    }
    for (sides, bottom) in end_legs(mantel, layout).into_iter().flatten() {
        let outs = Span::new(mantel_back(mantel, layout), mantel_front(mantel, layout));
        let heights = Span::new(bottom, mantel.underside);
        add_box(
            Branch::Mantel,
            bought(Kind::Leg, mantel),
            (sides, outs, heights),
            builder,
        );
    }
}

pub(super) fn bought(kind: Kind, mantel: &Mantel) -> Make {
    Make {
        kind,
        group: Group::Skins,
        material: if mantel.combustible {
            Material::MANTEL_WOOD
        } else {
            Material::MANTEL_STONE
        },
        stock: Stock::Bought,
        stage: Stage::Mantel,
    }
}

/// How far out the mantel comes.
pub fn mantel_front(mantel: &Mantel, layout: &Layout) -> Length {
    layout.faces.lower_finished + mantel.projection
}

/// On the ledge and against the upper face where it lies high enough, else against the lower face.
fn add_mantel(mantel: &Mantel, layout: &Layout, builder: &mut Builder) {
    let back = mantel_back(mantel, layout);
    let front = mantel_front(mantel, layout);
    // between two walls of a corner it is longer in front than behind
    let sides = |out: Length| mantel_sides(mantel, layout, out);
    let left = sides(front).low;
    let corner =
        |right: Length, out: Length| DVec2::new((right - left).to_mm(), (front - out).to_mm());
    let profile = Profile::polygon(vec![
        corner(sides(front).low, front),
        corner(sides(front).high, front),
        corner(sides(back).high, back),
        corner(sides(back).low, back),
    ]);
    builder.add_next(
        Branch::Face(ChaseFace::Front),
        bought(Kind::Mantel, mantel),
        Swept::square(profile, mantel.thickness),
        Frame::at(point(left, front, mantel.underside)),
    );
}

/// Of boards, open at the back, to be slid over a cleat: top, front and bottom in one, and its two ends.
fn hollow(mantel: &Mantel, layout: &Layout, builder: &mut Builder) {
    let (back, front) = (mantel_back(mantel, layout), mantel_front(mantel, layout));
    let (bottom, shell) = (mantel.underside, mantel.shell);
    let top = bottom + mantel.thickness;
    let corner = |out: Length, height: Length| DVec2::new(out.to_mm(), height.to_mm());
    let profile = Profile::polygon(vec![
        corner(back, bottom),
        corner(front, bottom),
        corner(front, top),
        corner(back, top),
        corner(back, top - shell),
        corner(front - shell, top - shell),
        corner(front - shell, bottom + shell),
        corner(back, bottom + shell),
    ]);
    // swept to the left; its ends follow the walls of a corner
    let [behind, before] = [back, front].map(|out| mantel_sides(mantel, layout, out));
    let reference = before.high;
    let end = |behind: Length, before: Length| {
        let slope = (behind - before) / (front - back);
        let at_wall = reference - before - front * slope;
        vec![EndPlane::sloped(at_wall, DVec2::new(slope, 0.0))]
    };
    let swept = Swept {
        profile,
        bottom: end(behind.high, before.high),
        top: end(behind.low, before.low),
        bores: Vec::new(),
    };
    let origin = point(reference, Length::ZERO, Length::ZERO);
    builder.add_next(
        Branch::Face(ChaseFace::Front),
        bought(Kind::Mantel, mantel),
        swept,
        Frame::new(origin, DVec3::NEG_Y, DVec3::Z),
    );
    let inner = front - shell;
    let within = mantel_sides(mantel, layout, inner);
    for (sign, at_back, at_front) in [
        (1.0, behind.low, within.low),
        (-1.0, behind.high, within.high),
    ] {
        let place = |right: Length, out: Length| DVec2::new(right.to_mm(), -out.to_mm());
        let inward = shell * sign;
        let profile = Profile::polygon(vec![
            place(at_back, back),
            place(at_front, inner),
            place(at_front + inward, inner),
            place(at_back + inward, back),
        ]);
        builder.add_next(
            Branch::Face(ChaseFace::Front),
            bought(Kind::MantelEnd, mantel),
            Swept::square(profile, mantel.thickness - shell * 2.0),
            Frame::at(point(Length::ZERO, Length::ZERO, bottom + shell)),
        );
    }
}

/// The mantel's ends, so far out from the wall.
pub fn mantel_sides(mantel: &Mantel, layout: &Layout, out: Length) -> Span {
    let skins = layout.params.skins.board + layout.params.skins.side_finish;
    match mantel.extent {
        MantelExtent::Chase => layout.site.with_skins(skins, out),
        MantelExtent::Length => {
            let length = mantel.length.unwrap_or(layout.site.chase.size());
            Span::about(layout.unit_center, length)
        }
        MantelExtent::Room => {
            let walls = layout.site.between_walls(out, layout.params.room.width);
            walls.grown(-mantel.end_ease / 2.0)
        }
    }
}

/// How far the mantel reaches beyond the chase's finished sides, left and right, at its front; nothing
/// below zero.
pub fn mantel_beyond(mantel: &Mantel, layout: &Layout) -> [Length; 2] {
    let front = mantel_front(mantel, layout);
    let skins = layout.params.skins.board + layout.params.skins.side_finish;
    let (ends, chase) = (
        mantel_sides(mantel, layout, front),
        layout.site.with_skins(skins, front),
    );
    [chase.low - ends.low, ends.high - chase.high].map(|it| it.max(Length::ZERO))
}

/// The legs that the left and the right end get: sides, and what they stand on. Across a corner the ends
/// lie at the walls, and none is made.
pub(super) fn end_legs(mantel: &Mantel, layout: &Layout) -> [Option<(Span, Length)>; 2] {
    let Some(width) = mantel.end_legs.filter(|_| !layout.site.is_turned()) else {
        return [None; 2];
    };
    let front = mantel_front(mantel, layout);
    let ends = mantel_sides(mantel, layout, front);
    let beyond = mantel_beyond(mantel, layout);
    let under = |sides: Span| {
        let outs = Span::new(mantel_back(mantel, layout), front);
        let cabinet = cabinets(layout)
            .into_iter()
            .find(|it| it.sides.overlaps(sides) && it.outs.overlaps(outs));
        cabinet.map_or(layout.slab, |it| it.heights.high)
    };
    let leg = |beyond: Length, sides: Span| {
        let bottom = under(sides);
        let fits = (beyond - width).to_mm() >= -TOLERANCE;
        (fits && (mantel.underside - bottom).to_mm() > TOLERANCE).then_some((sides, bottom))
    };
    [
        leg(beyond[0], Span::new(ends.low, ends.low + width)),
        leg(beyond[1], Span::new(ends.high - width, ends.high)),
    ]
}

/// The face that the mantel's back lies against.
pub fn mantel_back(mantel: &Mantel, layout: &Layout) -> Length {
    let above_ledge = !(layout.heights.framing_top - mantel.underside).is_positive();
    if layout.is_stepped() && above_ledge {
        layout.faces.upper_finished
    } else {
        layout.faces.lower_finished
    }
}
