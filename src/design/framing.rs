//! The walls of the chase: front or stepped front, side walls, and the framing behind a recess.

use glam::{DVec2, DVec3, Vec2Swizzles};

use super::builder::Builder;
use super::enclosure;
use super::opened;
use super::packing::WallPlace;
use super::wall::{
    Cover, HeadHeights, LayoutFrom, Opening, Recess, SquareEdges, Wall, Web, c_shape, evenly,
    framing, half_track, track_name,
};
use super::{Branch, Kind, Stock};
use crate::catalog::{FramingMember, Lumber, Material, Steel};
use crate::geom::{EndPlane, Frame, Profile, Swept, Underside};
use crate::layout::{Layout, RecessLayout, point};
use crate::params::{Back, ChaseWall, End, FrontForm};
use crate::units::Length;

/// Frames every wall of the chase.
pub(super) fn frame(layout: &Layout, builder: &mut Builder) {
    match layout.params.front.form {
        _ if layout.opened.is_some() => opened::frame(layout, builder),
        FrontForm::OneWall => front_wall(ChaseWall::Front, layout, builder).hand_over(builder),
        FrontForm::Stepped => {
            front_wall(ChaseWall::SetBack, layout, builder).hand_over(builder);
            bump_out(layout, builder);
        }
    }
    for (place, layout_from) in side_places(layout) {
        let mut wall = under_ceiling(&place, layout, builder);
        wall.layout_from = layout_from;
        wall.plates_short = plates_short(layout_from, layout, builder);
        wall.is_even =
            layout.is_one_sheet(layout.faces.lower_stud - layout.site.side_begins(Length::ZERO));
        wall.frame_plain();
        wall.hand_over(builder);
    }
    if layout.site.is_enclosed() {
        enclosure::frame_back(layout, builder);
    }
    if layout.site.back == Back::Faced {
        back_wall(layout, builder).hand_over(builder);
    }
    if let Some(recess) = &layout.recess {
        recess_framing(layout, recess, builder);
    }
}

/// The unit's rough opening in a wall that begins so far to the right.
fn opening(layout: &Layout, begins: Length, wall: ChaseWall) -> Opening<'_> {
    Opening {
        sides: layout.rough_opening.moved(-begins),
        header_bottom: layout.heights.header_bottom - layout.slab,
        header: layout.params.unit_header(wall),
    }
}

/// A wall under the ceiling, of its own studs.
fn under_ceiling<'a>(place: &WallPlace, layout: &'a Layout, builder: &Builder) -> Wall<'a> {
    let stud = layout.params.stud_of(place.wall);
    let mut wall = Wall::under(
        place.wall,
        place.frame,
        (place.length, place.skew),
        (stud, layout.params.chase.stud_spacing),
        (&place.under(layout), layout.params.ceiling.gap),
        Cover::Plates(layout.params.plates_on(stud)),
    );
    wall.longest = layout.params.longest_board(stud);
    wall.level_across(layout.params.saw.tolerance);
    wall.edges = SquareEdges::of(place.wall, &layout.params, &builder.ripped);
    wall.hammer_room = hammer_room(stud, layout);
    wall
}

/// How far the plates of a side wall stop short of its ends: where those of the front and of a divider's back, which
/// run through, stand past their studs.
fn plates_short(counts_from: LayoutFrom, layout: &Layout, builder: &Builder) -> [Length; 2] {
    let past = |place: &WallPlace| under_ceiling(place, layout, builder).plates_stand_past();
    let front = match layout.params.front.form {
        _ if layout.opened.is_some() => Length::ZERO,
        FrontForm::OneWall => past(&front_place(ChaseWall::Front, layout)),
        FrontForm::Stepped => past(&front_place(ChaseWall::SetBack, layout)),
    };
    let back = if layout.site.back == Back::Faced {
        past(&back_place(layout))
    } else {
        Length::ZERO
    };
    match counts_from {
        LayoutFrom::Left => [back, front],
        LayoutFrom::Right => [front, back],
    }
}

/// What sticks of a wall leave for a hammer between them; steel is screwed from the face.
fn hammer_room(stud: &FramingMember, layout: &Layout) -> Length {
    match stud {
        FramingMember::Wood(_) => layout.params.chase.hammer_room,
        FramingMember::Steel(_) => Length::ZERO,
    }
}

/// Where the walls under the ceiling stand: front or set-back wall, side walls, a divider's back.
pub(super) fn places(layout: &Layout) -> Vec<WallPlace> {
    let front = match layout.params.front.form {
        FrontForm::OneWall => ChaseWall::Front,
        FrontForm::Stepped => ChaseWall::SetBack,
    };
    let mut places = vec![front_place(front, layout)];
    places.extend(side_places(layout).map(|it| it.0));
    if layout.site.back == Back::Faced {
        places.push(back_place(layout));
    }
    places
}

/// Where the walls that stand on the slab stand: those, and the frame before a set-back wall.
pub(super) fn standing_places(layout: &Layout) -> Vec<WallPlace> {
    let mut places = places(layout);
    if layout.is_stepped() {
        places.push(bump_out_place(layout));
    }
    places
}

fn front_place(wall: ChaseWall, layout: &Layout) -> WallPlace {
    let along = layout.site.framing_at(layout.faces.upper_stud);
    WallPlace {
        wall,
        frame: Frame::at(point(along.low, layout.faces.upper_stud, layout.slab)),
        length: along.size(),
        depth: layout.params.front_stud().depth(),
        skew: front_skew(layout),
    }
}

/// The wall that carries the ceiling line, the recess and an opening for the unit.
fn front_wall<'a>(wall: ChaseWall, layout: &'a Layout, builder: &Builder) -> Wall<'a> {
    let along = layout.site.framing_at(layout.faces.upper_stud);
    let place = front_place(wall, layout);
    let mut wall = under_ceiling(&place, layout, builder);
    let header = layout.params.recess_header();
    let recess = layout.recess.zip(header).map(|(recess, header)| Recess {
        header,
        sides: recess.rough.moved(-along.low),
        heights: HeadHeights {
            sill: recess.rough_height.low - layout.slab,
            head: recess.rough_height.high - layout.slab,
        },
    });
    wall.frame_front(&opening(layout, along.low, place.wall), recess.as_ref());
    wall
}

/// How the ends of a front wall run: straight back, or along the walls of a corner.
fn front_skew(layout: &Layout) -> [f64; 2] {
    let skew = |side: End| {
        if side == End::Corner {
            layout.site.spread
        } else {
            0.0
        }
    };
    [skew(layout.site.ends[0]), -skew(layout.site.ends[1])]
}

/// The side walls that the chase has, and the end that the layout of each counts from: the one at the existing wall.
/// They butt against the back of the front, and against the wall behind them.
fn side_places(layout: &Layout) -> impl Iterator<Item = (WallPlace, LayoutFrom)> + use<> {
    let begins = layout.site.side_begins(Length::ZERO);
    let at_wall = if layout.site.is_turned() {
        1.0 / layout.site.spread
    } else {
        0.0
    };
    let place = |wall, frame, skew| WallPlace {
        wall,
        frame,
        length: layout.faces.front_back - begins,
        depth: layout.params.chase.stud.depth(),
        skew,
    };
    let left = point(layout.site.chase.low, begins, layout.slab);
    let right = point(layout.site.chase.high, layout.faces.front_back, layout.slab);
    let left = Frame::new(left, DVec3::NEG_Y, DVec3::X);
    let right = Frame::new(right, DVec3::Y, DVec3::NEG_X);
    let both = [
        (
            place(ChaseWall::LeftSide, left, [-at_wall, 0.0]),
            LayoutFrom::Left,
        ),
        (
            place(ChaseWall::RightSide, right, [0.0, at_wall]),
            LayoutFrom::Right,
        ),
    ];
    let there = both.into_iter().zip(layout.site.ends);
    there.filter(|it| it.1 != End::Corner).map(|(wall, _)| wall)
}

/// The back of a divider, from side to side; its face is turned away from the front.
fn back_place(layout: &Layout) -> WallPlace {
    let origin = point(layout.site.chase.high, Length::ZERO, layout.slab);
    WallPlace {
        wall: ChaseWall::Back,
        frame: Frame::new(origin, DVec3::NEG_X, DVec3::NEG_Y),
        length: layout.site.chase.size(),
        depth: layout.params.chase.stud.depth(),
        skew: [0.0; 2],
    }
}

fn back_wall<'a>(layout: &'a Layout, builder: &Builder) -> Wall<'a> {
    let mut wall = under_ceiling(&back_place(layout), layout, builder);
    // studs opposite to those of the front
    wall.layout_from = LayoutFrom::Right;
    wall.is_even = layout.is_one_sheet(wall.length);
    wall.frame_plain();
    wall
}

fn bump_out_place(layout: &Layout) -> WallPlace {
    let along = layout.site.framing_at(layout.faces.lower_stud);
    WallPlace {
        wall: ChaseWall::BumpOut,
        frame: Frame::at(point(along.low, layout.faces.lower_stud, layout.slab)),
        length: along.size(),
        depth: layout.params.bump_out_stud().depth(),
        skew: front_skew(layout),
    }
}

/// The frame before a set-back wall; its flat top plate is the ledge.
fn bump_out(layout: &Layout, builder: &mut Builder) {
    let Some(ledge) = &layout.params.front.ledge else {
        return;
    };
    let chase = &layout.params.chase;
    let stud = layout.params.bump_out_stud();
    let place = bump_out_place(layout);
    let ledge_top = Underside::new(vec![EndPlane::level(layout.heights.framing_top)]);
    let mut wall = Wall::under(
        place.wall,
        place.frame,
        (place.length, place.skew),
        (stud, chase.stud_spacing),
        (&ledge_top, Length::ZERO),
        Cover::Ledge(ledge),
    );
    wall.hammer_room = hammer_room(stud, layout);
    let begins = layout.site.framing_at(layout.faces.lower_stud).low;
    wall.frame_front(&opening(layout, begins, ChaseWall::BumpOut), None);
    wall.hand_over(builder);
    returns(layout, (stud, ledge), builder);
}

/// Short uprights that close the ends of the bump-out frame behind studs less deep than the ledge.
///
/// They stand on the slab, so they are treated; behind studs of steel they are half a track.
fn returns(layout: &Layout, (stud, ledge): (&FramingMember, &Lumber), builder: &mut Builder) {
    let depth = ledge.depth() - stud.depth();
    if !depth.is_positive() {
        return;
    }
    let height = layout.heights.framing_top - ledge.plate() - layout.slab;
    let (material, stock) = match stud {
        FramingMember::Wood(lumber) => (Material::TREATED, Stock::Rip(lumber.name.clone())),
        FramingMember::Steel(steel) => (Material::STEEL, Stock::Steel(track_name(steel))),
    };
    let profile = |is_left: bool| match stud {
        FramingMember::Wood(lumber) => Profile::rectangle(lumber.thickness, depth),
        FramingMember::Steel(steel) => closing_track(steel, depth, is_left),
    };
    let ends = [
        layout.site.chase.low,
        layout.site.chase.high - stud.breadth(),
    ];
    for (left, side) in ends.into_iter().zip(layout.site.ends) {
        if side == End::Corner {
            continue;
        }
        let origin = point(left, layout.faces.lower_stud - stud.depth(), layout.slab);
        builder.add_next(
            ChaseWall::BumpOut,
            framing(Kind::Return, material, stock.clone()),
            Swept::square(profile(left == layout.site.chase.low), height),
            Frame::at(origin),
        );
    }
}

/// Half a track whose web closes an end: x along the wall, y inward.
fn closing_track(stud: &Steel, depth: Length, is_left: bool) -> Profile {
    let corners = half_track(stud, depth).outline.into_iter().map(DVec2::yx);
    let width = stud.flange.to_mm();
    let placed = corners.map(|it| {
        if is_left {
            it
        } else {
            DVec2::new(width - it.x, it.y)
        }
    });
    Profile::polygon(placed.collect())
}

/// Flat studs behind the lining of a recess, from sill to head; where the recess reaches behind
/// the wall they lap over its sill and header, on spacers if there is a gap.
fn recess_framing(layout: &Layout, recess: &RecessLayout, builder: &mut Builder) {
    let stud = layout.params.front_stud();
    let behind = layout.faces.front_back - recess.framing_front;
    let rough = recess.rough_height;
    let heights = if behind < -Length::mm(crate::geom::TOLERANCE) {
        rough
    } else {
        rough.grown(stud.lying())
    };
    if behind.is_positive() {
        for bottom in [heights.low, rough.high] {
            let origin = point(recess.rough.low, layout.faces.front_back, bottom);
            let (material, stock, profile) = spacer(stud, behind);
            builder.add_next(
                Branch::Recess,
                framing(Kind::Blocking, material, stock),
                Swept::square(profile, recess.rough.size()),
                Frame::new(origin, DVec3::Y, DVec3::Z),
            );
        }
    }
    let (material, stock, profile) = flat_stud(stud);
    let wide = match stud {
        FramingMember::Wood(lumber) => lumber.width,
        FramingMember::Steel(steel) => steel.web,
    };
    for left in evenly(recess.rough, wide, layout.params.chase.stud_spacing) {
        let origin = point(left, recess.framing_front, heights.low);
        builder.add_next(
            Branch::Recess,
            framing(Kind::RecessFraming, material, stock.clone()),
            Swept::square(profile.clone(), heights.size()),
            Frame::at(origin),
        );
    }
}

/// What fills the gap between the wall and the studs behind a recess: a rip, or half a track.
fn spacer(stud: &FramingMember, behind: Length) -> (Material, Stock, Profile) {
    match stud {
        FramingMember::Wood(lumber) => {
            let profile = Profile::rectangle(behind, lumber.thickness);
            (Material::LUMBER, Stock::Rip(lumber.name.clone()), profile)
        }
        FramingMember::Steel(steel) => {
            let profile = half_track(steel, behind);
            (Material::STEEL, Stock::Steel(track_name(steel)), profile)
        }
    }
}

/// A stud with its wide side along the wall: x along the wall, y inward.
fn flat_stud(stud: &FramingMember) -> (Material, Stock, Profile) {
    match stud {
        FramingMember::Wood(lumber) => {
            let profile = Profile::rectangle(lumber.width, lumber.thickness);
            (Material::LUMBER, Stock::Stick(lumber.name.clone()), profile)
        }
        FramingMember::Steel(steel) => {
            let stock = Stock::Steel(steel.name.clone());
            (Material::STEEL, stock, laid_flat(steel))
        }
    }
}

/// A stud's section with its web in front: x along the wall, y inward.
fn laid_flat(steel: &Steel) -> Profile {
    let turned = c_shape(steel, Web::Left).outline.into_iter();
    Profile::polygon(turned.map(DVec2::yx).collect())
}
