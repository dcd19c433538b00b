//! Blocks between studs: behind what hangs on them, behind the joint of the boards, and against fire. In a
//! wall of steel straps of its track's gauge lie on the studs, between board and stud, in place of blocks.
//!
//! In: the framed walls and the clearance volumes. Out: level sticks from stud to stud. A block that would
//! lie in another part, or in a clearance that keeps wood out, is not made; the rules find that it is missing.
//!
//! Blocks come last, after the clearance volumes. The end of a block holds nothing.

mod band;
mod bay;
mod ledge;

use glam::{DVec2, DVec3};

pub use band::{Backing, Band, LEAST_BAY};
pub use bay::section;
use bay::{Edge, Upright, bays, is_upright, uprights};

use super::builder::{Builder, fits_in, has_body, has_room};
use super::front_wall::front_wall_at;
use super::mantel_hold::cleat_height;
use super::wall::framing;
use super::{Bars, Branch, Kind, Part, Stock};
use crate::catalog::{FramingMember, Material, Steel};
use crate::geom::{Body, EndPlane, Frame, Profile, Shape, Swept, TOLERANCE};
use crate::layout::{Layout, point};
use crate::params::{Back, ChaseWall, End, FrontForm, MantelHold, Params};
use crate::units::{Length, Span};

/// How much of a row still lies above and below the height that it is meant for; how far beside it one may lie that
/// meets a header or sill there, which is wood too.
const COVER: Length = Length::inches(0.375);
/// Farthest that a hollow may run before it is closed against fire: IRC 2021 R302.11, 10 ft.
pub const LONGEST_HOLLOW: Length = Length::inches(120.0);

/// Puts blocks into every band that the parameters want, and boards across the hollow.
pub(super) fn build(layout: &Layout, builder: &mut Builder) {
    let stock = &FramingMember::from(layout.params.blocking.stock.clone());
    for band in bands(layout).iter().filter(|it| it.wanted) {
        let (size, rows) = match band.backing {
            Backing::BoardJoint => (wooden(&layout.params, band.wall), vec![0.0]),
            Backing::Screen => (stock, vec![-0.5, 0.5]),
            Backing::Mantel | Backing::Rail => (stock, vec![0.0]),
        };
        for row in rows {
            let middle = band.height + size.depth() * row;
            let steel = strapped_studs(band, band.wall.stud(&layout.params));
            block_row(
                band,
                middle,
                (&sizes(&layout.params, [size, stock]), steel),
                builder,
            );
        }
    }
    if layout.params.blocking.every_ten_feet {
        against_fire(layout, builder);
    }
    ledge::build(layout, builder);
    boards_across(layout, builder);
}

/// The sizes that a block is tried in: the wanted one, then the other lumber that the job has, from the wider to the
/// narrower, if it is narrower than that.
fn sizes<'a>(
    params: &'a Params,
    [wanted, stock]: [&'a FramingMember; 2],
) -> Vec<&'a FramingMember> {
    let others = [
        params.block_stock(),
        stock,
        params.front_stud(),
        &params.wall.stud,
    ];
    let is_narrower =
        |it: &&FramingMember| it.wood().is_some() && (wanted.depth() - it.depth()).is_positive();
    let mut sizes: Vec<&FramingMember> = others.into_iter().filter(is_narrower).collect();
    sizes.sort_by(|a, b| b.depth().to_mm().total_cmp(&a.depth().to_mm()));
    sizes.dedup_by(|a, b| a.depth() == b.depth());
    sizes.insert(0, wanted);
    sizes
}

/// The lumber of a wall's studs, or of blocks in a wall of steel.
fn wooden(params: &Params, wall: Branch) -> &FramingMember {
    let stud = wall.stud(params);
    match stud {
        FramingMember::Wood(_) => stud,
        FramingMember::Steel(_) => params.block_stock(),
    }
}

/// The studs that the straps of a band lie on: of a wall of steel, but not behind a recess, whose studs lie flat.
fn strapped_studs<'a>(band: &Band, stud: &'a FramingMember) -> Option<&'a Steel> {
    stud.steel().filter(|_| band.wall.wall().is_some())
}

/// Every band of wood that something asks for.
pub fn bands(layout: &Layout) -> Vec<Band> {
    let mut bands = Vec::new();
    bands.extend(mantel(layout));
    bands.extend(screen(layout));
    bands.extend(rails(layout));
    bands.extend(board_joint(layout));
    bands
}

/// The frame of a front wall with this stud face, and the wall's length.
fn front(layout: &Layout, face: Length) -> (Frame, Span) {
    let along = layout.site.framing_at(face);
    (
        Frame::at(point(along.low, face, Length::ZERO)),
        Span::new(Length::ZERO, along.size()),
    )
}

fn mantel(layout: &Layout) -> Option<Band> {
    let mantel = layout.params.mantel.as_ref()?;
    let on_ledge = (layout.heights.framing_top - mantel.underside)
        .abs()
        .to_mm()
        <= TOLERANCE;
    let height = match mantel.held_by {
        Some(MantelHold::Cleat) => cleat_height(mantel),
        // bars lie on the studs themselves
        Some(MantelHold::Brackets) => return None,
        Some(MantelHold::Screws) | None if layout.is_stepped() && on_ledge => return None,
        Some(MantelHold::Screws) | None => mantel.underside + mantel.thickness / 2.0,
    };
    // what lies on the ledge belongs to the wall over it
    let (wall, face) = front_wall_at(layout, mantel.underside);
    let (frame, along) = front(layout, face);
    Some(Band {
        backing: Backing::Mantel,
        wall: wall.into(),
        frame,
        along,
        height,
        wanted: layout.params.blocking.mantel,
    })
}

fn screen(layout: &Layout) -> Option<Band> {
    let recess = layout
        .recess
        .as_ref()
        .filter(|_| layout.params.screen.is_some())?;
    Some(Band {
        backing: Backing::Screen,
        wall: Branch::Recess,
        frame: Frame::at(point(recess.rough.low, recess.framing_front, Length::ZERO)),
        along: Span::new(Length::ZERO, recess.rough.size()),
        height: recess.finished_height.center(),
        wanted: layout.params.blocking.screen,
    })
}

fn rails(layout: &Layout) -> Vec<Band> {
    let Some(height) = layout.params.blocking.side_rail else {
        return Vec::new();
    };
    side_walls(layout)
        .into_iter()
        .filter(|it| it.side == End::Free)
        .map(|it| Band {
            backing: Backing::Rail,
            wall: it.wall.into(),
            frame: it.frame,
            along: it.along,
            height,
            wanted: true,
        })
        .collect()
}

/// A side wall of the chase.
struct SideWall {
    wall: ChaseWall,
    side: End,
    frame: Frame,
    along: Span,
}

/// The side walls that the chase has.
fn side_walls(layout: &Layout) -> Vec<SideWall> {
    let begins = layout.site.side_begins(Length::ZERO);
    let along = Span::new(Length::ZERO, layout.faces.front_back - begins);
    let left = point(layout.site.chase.low, begins, Length::ZERO);
    let right = point(
        layout.site.chase.high,
        layout.faces.front_back,
        Length::ZERO,
    );
    let frames = [
        (
            ChaseWall::LeftSide,
            Frame::new(left, DVec3::NEG_Y, DVec3::X),
        ),
        (
            ChaseWall::RightSide,
            Frame::new(right, DVec3::Y, DVec3::NEG_X),
        ),
    ];
    let all = frames.into_iter().zip(layout.site.ends);
    all.filter(|(_, side)| *side != End::Corner)
        .map(|((wall, frame), side)| SideWall {
            wall,
            side,
            frame,
            along,
        })
        .collect()
}

/// The joint between cement board and gypsum board, where it lies within a face.
fn board_joint(layout: &Layout) -> Option<Band> {
    let height = layout.params.skins.noncombustible_to;
    let at_edge = (layout.heights.framing_top - height).abs().to_mm() <= TOLERANCE;
    let within = (height - layout.slab).is_positive() && !(layout.is_stepped() && at_edge);
    let over = layout.site.framing_at(layout.faces.upper_stud);
    let ends = [over.low, over.high]
        .map(|right| point(right, layout.faces.upper_stud, Length::ZERO).truncate());
    let lowest = Length::mm(layout.ceiling.lowest(ends));
    if !within || !(lowest - height).is_positive() {
        return None;
    }
    let (wall, face) = front_wall_at(layout, height);
    let (frame, along) = front(layout, face);
    Some(Band {
        backing: Backing::BoardJoint,
        wall: wall.into(),
        frame,
        along,
        height,
        wanted: layout.params.blocking.board_joint,
    })
}

/// Blocks from stud to stud in every bay that a band touches: at their height, or as little above or below
/// as lets most of them in beside headers and sills; of narrower stock where that lets in more. Bays that are left have
/// a row of their own, of the size that fits there.
///
/// In a wall of steel they are straps on these studs.
fn block_row(
    band: &Band,
    middle: Length,
    (stocks, steel): (&[&FramingMember], Option<&Steel>),
    builder: &mut Builder,
) {
    let first = builder.parts.len();
    let mut cover = COVER;
    loop {
        let (row, cut) = best_row(band, (middle, cover), (stocks, steel), (first, builder));
        if row.is_empty() && cover == COVER {
            cover = -COVER;
            continue;
        }
        if row.is_empty() {
            return;
        }
        for (shape, frame) in row {
            let material = if steel.is_some() {
                Material::STEEL
            } else {
                Material::LUMBER
            };
            let make = framing(Kind::Blocking, material, cut.clone());
            builder.add_next(band.wall, make, shape, frame);
        }
    }
}

/// The row that fills most of the bays that none of the blocks from the first one on fills yet, and covers so much of the
/// wood above and below its middle; below zero it may lie that far beside it, against a stick.
fn best_row(
    band: &Band,
    (middle, cover): (Length, Length),
    (stocks, steel): (&[&FramingMember], Option<&Steel>),
    (first, builder): (usize, &Builder),
) -> (Vec<(Shape, Frame)>, Stock) {
    let mut best = (Vec::new(), Stock::Bought);
    let filled: Vec<Span> = builder.parts[first..]
        .iter()
        .filter_map(|it| section(it, &band.frame, Length::ZERO))
        .collect();
    for stock in stocks {
        let heights = Span::about(middle, stock.depth());
        let standing = match steel {
            Some(stud) => uprights(&behind_straps(band, stud), Length::ZERO, &builder.parts),
            None => uprights(band, stock.breadth(), &builder.parts),
        };
        for heights in shifted(band, (heights, cover), &builder.parts) {
            let (mut blocks, cut) = match steel {
                Some(stud) => (straps(band, heights, stud, &standing), Stock::Bought),
                None => (
                    blocks(band, heights, stock.breadth(), &standing),
                    Stock::Stick(stock.name().to_owned()),
                ),
            };
            blocks.retain(|it| !filled.iter().any(|bay| along(band, it).overlaps(*bay)));
            // to look for room costs most, and is in vain where fewer could be more
            if blocks.len() <= best.0.len() {
                continue;
            }
            let fit = |it: &(Shape, Frame)| {
                let body = Body::new(it.0.clone(), it.1);
                match steel {
                    Some(_) => fits_in(&body, |bars| *bars == Bars::Everything, builder),
                    None => has_room(&body, builder),
                }
            };
            let fitting: Vec<(Shape, Frame)> = blocks.into_iter().filter(fit).collect();
            if fitting.len() > best.0.len() {
                best = (fitting, cut);
            }
        }
    }
    best
}

/// From where to where along a band's face a block lies.
fn along(band: &Band, (shape, frame): &(Shape, Frame)) -> Span {
    let begins = Length::mm(band.frame.local_point(frame.origin).x);
    match shape {
        Shape::Swept(swept) => {
            let ends = swept.top.iter().map(|it| Length::mm(it.height));
            Span::new(begins, begins + ends.fold(Length::ZERO, Length::max))
        }
        Shape::Tube(_) => Span::new(begins, begins),
    }
}

/// A band of steel, as deep as the studs stand behind their straps.
fn behind_straps(band: &Band, stud: &Steel) -> Band {
    Band {
        frame: band
            .frame
            .place(&Frame::at(DVec3::Y * stud.thickness.to_mm())),
        ..band.clone()
    }
}

/// The straps of a row, each from the middle of one stud to that of the next.
fn straps(band: &Band, heights: Span, stud: &Steel, standing: &[Upright]) -> Vec<(Shape, Frame)> {
    let thick = stud.thickness;
    let half = stud.flange / 2.0;
    let touched = bays(standing, heights)
        .into_iter()
        .map(|bay| Span::new(bay.low.face - half, bay.high.face + half))
        .filter(|bay| bay.overlaps(band.along));
    touched
        .map(|bay| {
            let corner = DVec3::new(bay.low.to_mm(), 0.0, heights.low.to_mm());
            let frame = band.frame.place(&Frame::new(corner, DVec3::Y, DVec3::Z));
            let profile = Profile::rectangle(thick, heights.size());
            (Shape::from(Swept::square(profile, bay.size())), frame)
        })
        .collect()
}

fn block(stock: Stock) -> super::builder::Make {
    framing(Kind::Blocking, Material::LUMBER, stock)
}

/// Heights for a row, nearest first: its own, and those that meet a stick of the wall edge to edge while
/// the row still covers so much above and below its own middle.
fn shifted(band: &Band, (heights, cover): (Span, Length), parts: &[Part]) -> Vec<Span> {
    let farthest = (heights.size() / 2.0 - cover).max(Length::ZERO);
    let sticks = parts
        .iter()
        .filter(|it| it.branch == band.wall && !is_upright(it));
    let mut shifts: Vec<Length> = sticks
        .flat_map(|it| {
            let bounds = &it.body.bounds;
            [
                Length::mm(bounds.high.z) - heights.low,
                Length::mm(bounds.low.z) - heights.high,
            ]
        })
        .filter(|shift| !(shift.abs() - farthest).is_positive())
        .chain([Length::ZERO])
        .collect();
    shifts.sort_by(|a, b| a.abs().to_mm().total_cmp(&b.abs().to_mm()));
    shifts.into_iter().map(|by| heights.moved(by)).collect()
}

/// The blocks of a row.
fn blocks(band: &Band, heights: Span, depth: Length, standing: &[Upright]) -> Vec<(Shape, Frame)> {
    let touched = bays(standing, heights)
        .into_iter()
        .filter(|bay| Span::new(bay.low.face, bay.high.face).overlaps(band.along));
    touched
        .map(|bay| {
            let corner = DVec3::new(bay.low.face.to_mm(), 0.0, heights.low.to_mm());
            let frame = band.frame.place(&Frame::new(corner, DVec3::Y, DVec3::Z));
            let end = |side: Edge| {
                let lean = (side.back - side.face) / depth;
                EndPlane::sloped(side.face - bay.low.face, DVec2::new(lean, 0.0))
            };
            let swept = Swept {
                profile: Profile::rectangle(depth, heights.size()),
                bottom: vec![end(bay.low)],
                top: vec![end(bay.high)],
                bores: Vec::new(),
            };
            (Shape::from(swept), frame)
        })
        .filter(|(shape, _)| has_body(shape))
        .collect()
}

/// Rows of blocks on flat in every wall under the ceiling, so that no bay is open over more than 10 ft upward.
fn against_fire(layout: &Layout, builder: &mut Builder) {
    let front_wall = match layout.params.front.form {
        FrontForm::OneWall => ChaseWall::Front,
        FrontForm::Stepped => ChaseWall::SetBack,
    };
    let (frame, along) = front(layout, layout.faces.upper_stud);
    // the wall that a flush chase is set into is there already
    let mut walls = Vec::new();
    if layout.opened.is_none() {
        walls.push((front_wall, frame, along));
    }
    walls.extend(
        side_walls(layout)
            .into_iter()
            .map(|it| (it.wall, it.frame, it.along)),
    );
    if layout.site.back == Back::Faced {
        let origin = point(layout.site.chase.high, Length::ZERO, Length::ZERO);
        let frame = Frame::new(origin, DVec3::NEG_X, DVec3::NEG_Y);
        walls.push((
            ChaseWall::Back,
            frame,
            Span::new(Length::ZERO, layout.site.chase.size()),
        ));
    }
    if layout.site.is_enclosed() {
        let origin = point(layout.site.chase.low, -layout.site.lining, Length::ZERO);
        let along = Span::new(Length::ZERO, layout.params.chase.width);
        walls.push((ChaseWall::Back, Frame::at(origin), along));
    }
    for (wall, frame, along) in walls {
        let Some(stud) = layout.params.stud_of(wall).wood() else {
            continue;
        };
        let tallest = builder
            .parts
            .iter()
            .filter(|it| it.is_of(wall))
            .map(|it| Length::mm(it.body.bounds.high.z))
            .fold(layout.slab, Length::max)
            - layout.slab;
        let rows = (tallest / LONGEST_HOLLOW).ceil();
        let mut row = 1.0;
        while row < rows {
            let band = Band {
                backing: Backing::Rail,
                wall: wall.into(),
                frame,
                along,
                height: layout.slab + tallest * (row / rows),
                wanted: true,
            };
            let heights = Span::about(band.height, stud.thickness);
            let standing = uprights(&band, stud.width, &builder.parts);
            let mut blocks = blocks(&band, heights, stud.width, &standing);
            blocks.retain(|(shape, frame)| has_room(&Body::new(shape.clone(), *frame), builder));
            for (shape, frame) in blocks {
                let cut = Stock::Stick(stud.name.clone());
                builder.add_next(wall, block(cut), shape, frame);
            }
            row += 1.0;
        }
    }
}

/// Boards of cement that close the hollow of the chase from the wall to the front, up to the ceiling.
fn boards_across(layout: &Layout, builder: &mut Builder) {
    let thickness = layout.params.skins.board;
    let inside = hollow(layout);
    for right in &layout.params.blocking.across {
        let span = Span::about(*right, thickness);
        let has_place = !(inside.low - span.low).is_positive()
            && !(span.high - inside.high).is_positive()
            && (layout.faces.front_back - layout.site.wall_comes_between(span)).is_positive();
        if has_place {
            super::skins::across(span, layout, builder);
        } else {
            let id = format!("{}/board at {} in", Branch::Fireblock, right.to_inches());
            builder.leave_out(id, "it does not stand between the side walls of the chase");
        }
    }
}

/// The hollow of the chase behind its front: between the side walls, or the walls of a corner.
pub fn hollow(layout: &Layout) -> Span {
    let whole = layout.site.framing_at(layout.faces.front_back);
    let taken = layout.site.ends.map(|side| match side {
        End::Corner => Length::ZERO,
        End::Free | End::Wall | End::Behind => layout.side_taken(),
    });
    Span::new(whole.low + taken[0], whole.high - taken[1])
}
