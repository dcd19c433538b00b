//! The finished front: what the room sees, with the zone in which no surface may burn.

use glam::DVec3;

use crate::design::{ClearanceKind, Kind, Span, cabinets, mantel_front, mantel_sides, point};
use crate::drawing::dimension::{Chain, Side};
use crate::drawing::eye::Eye;
use crate::drawing::figure::{Area, Figure, Hatch, corners};
use crate::drawing::ink::{Pen, Rect};
use crate::drawing::subject::{Subject, at, pages};
use crate::params::{Mantel, MantelExtent, RoomWall};
use crate::units::Length;

/// How much of the room is shown beside the chase.
const BESIDE: Length = Length::inches(14.0);

/// The finished front elevation.
pub(in crate::drawing) fn front(subject: &Subject<'_>) -> Vec<Figure> {
    let (params, layout) = (subject.params(), subject.layout());
    let mut figure = Figure::new(
        "Finished front",
        "Paper-faced gypsum board counts as combustible.",
    );
    let eye = Eye::FRONT;
    let built = subject
        .design
        .parts
        .iter()
        .filter(|part| !part.group.stands_already());
    let nearest = built.fold(0.0_f64, |near, part| near.min(part.body.bounds.low.y));
    let plane = eye.plane(DVec3::Y * (nearest - 1.0));
    subject.draw(&mut figure, &eye, Some(&plane), |_| true);
    let skins = params.skins.board + params.skins.side_finish;
    // as wide as the finish, which stops at a wall of the room
    let outer = layout
        .site
        .with_skins(skins, layout.faces.lower_stud + params.skins.board);
    let sides = shown(subject, outer).grown(BESIDE);
    let end = |right| point(right, layout.faces.lower_finished, Length::ZERO).truncate();
    let under = layout.ceiling.along(end(sides.low), end(sides.high));
    let highest = under.iter().map(|it| Length::mm(it.y));
    let highest = highest.fold(Length::ZERO, Length::max) + Length::inches(2.0);
    figure.crop(&Rect {
        low: at(sides.low, layout.slab - Length::inches(3.0)),
        high: at(sides.high, highest),
    });
    zone(subject, &mut figure);
    words(subject, &mut figure);
    beside(subject, &mut figure);
    fixed(subject, &mut figure);
    dimensions(subject, &mut figure, outer);
    vec![figure]
}

/// What has to be seen: the chase, the mantel where it reaches beyond, cabinets, and fixed things in the wall behind.
fn shown(subject: &Subject<'_>, outer: Span) -> Span {
    let (params, layout) = (subject.params(), subject.layout());
    let reaching = params.mantel.iter();
    let reaching = reaching.filter(|it| it.extent != MantelExtent::Chase);
    let reaching = reaching.map(|it| mantel_sides(it, layout, mantel_front(it, layout)));
    let things = params.room.fixed.iter();
    let things = things.filter(|it| it.wall == RoomWall::Back && !layout.site.is_turned());
    let things = things.map(|it| Span::new(it.from, it.from + it.width));
    let beside = cabinets(layout).into_iter().map(|it| it.sides);
    reaching.chain(things).chain(beside).fold(outer, |all, it| {
        Span::new(all.low.min(it.low), all.high.max(it.high))
    })
}

/// Names of what stands beside the opening.
fn beside(subject: &Subject<'_>, figure: &mut Figure) {
    for (part, solid) in subject.parts(|it| matches!(it.kind, Kind::Leg | Kind::Cabinet)) {
        figure.call(
            Eye::FRONT.around(&solid.vertices).center(),
            part.kind.name(),
        );
    }
}

/// Names and sizes of the fixed things in the wall behind the chase.
fn fixed(subject: &Subject<'_>, figure: &mut Figure) {
    let (params, layout) = (subject.params(), subject.layout());
    let things = params.room.fixed.iter();
    for thing in things.filter(|it| it.wall == RoomWall::Back && !layout.site.is_turned()) {
        let middle = at(
            thing.from + thing.width / 2.0,
            thing.sill + thing.height / 2.0,
        );
        let tape = |length| subject.tape(length);
        figure.call(
            middle,
            format!(
                "{}: {} by {}, {} from the left corner, {} up",
                thing.name,
                tape(thing.width),
                tape(thing.height),
                tape(thing.from),
                tape(thing.sill)
            ),
        );
    }
}

/// The facing zone, hatched around the opening.
fn zone(subject: &Subject<'_>, figure: &mut Figure) {
    let (params, layout) = (subject.params(), subject.layout());
    let unit = &params.appliance;
    let opening = Rect {
        low: at(
            layout.unit_center - unit.opening_width / 2.0,
            layout.heights.platform_top + unit.opening_bottom,
        ),
        high: at(
            layout.unit_center + unit.opening_width / 2.0,
            layout.heights.opening_top,
        ),
    };
    for volume in subject.volumes(ClearanceKind::FacingZone) {
        let bounds = volume.body.bounds;
        let around = Rect {
            low: Eye::FRONT.see(bounds.low).truncate(),
            high: Eye::FRONT.see(bounds.high).truncate(),
        };
        let mut loops = vec![corners(&around).to_vec()];
        if around.contains(&opening) {
            loops.push(corners(&opening).to_vec());
        }
        figure.rectangle(Pen::Clearance, &around);
        // others lie behind the stud face
        if Length::mm(-bounds.low.y) > layout.faces.lower_stud {
            figure.areas.push(Area {
                loops,
                hatch: Hatch::Zone,
            });
            figure.call(
                glam::DVec2::new(around.high.x, around.high.y - 60.0),
                format!(
                    "noncombustible facing: {} each side, {} above the opening, {}",
                    subject.tape(unit.facing_zone_side.value),
                    subject.tape(unit.facing_zone_top.value),
                    pages(&[&unit.facing_zone_side.page, &unit.facing_zone_top.page])
                ),
            );
        }
    }
}

fn words(subject: &Subject<'_>, figure: &mut Figure) {
    let (params, layout) = (subject.params(), subject.layout());
    let unit = &params.appliance;
    let right = layout.unit_center + unit.opening_width / 4.0;
    figure.call(
        at(
            right,
            (layout.heights.platform_top + layout.heights.opening_top) / 2.0,
        ),
        format!(
            "the unit's opening, {} wide",
            subject.tape(unit.opening_width)
        ),
    );
    if let Some(mantel) = &params.mantel {
        figure.call(
            at(
                layout.site.chase.high - Length::inches(8.0),
                mantel.underside + mantel.thickness / 2.0,
            ),
            format!(
                "mantel, {}{} forward of the finished face; rule on manual p. {}",
                long(subject, mantel),
                subject.tape(mantel.projection),
                mantel.rule.page
            ),
        );
    }
    if let Some(recess) = &layout.recess {
        let (width, height) = (recess.finished.size(), recess.finished_height.size());
        let text = format!(
            "recess, {} wide, {} high, {} deep, finished",
            subject.tape(width),
            subject.tape(height),
            subject.tape(layout.faces.upper_finished - recess.back)
        );
        figure.call(
            at(
                recess.finished.high - Length::inches(0.5),
                recess.finished_height.high - Length::inches(0.5),
            ),
            text,
        );
    }
    if let (Some(screen), Some(recess)) = (&params.screen, &layout.recess) {
        let text = format!(
            "screen, {} by {}",
            subject.tape(screen.width),
            subject.tape(screen.height)
        );
        figure.call(
            at(
                recess.finished.center() + screen.width / 4.0,
                recess.finished_height.center(),
            ),
            text,
        );
    }
    figure.notes.push(format!(
        "Board is cement board up to {}, gypsum board above.",
        subject.tape(params.skins.noncombustible_to)
    ));
}

/// The length of a mantel that does not end with the chase.
fn long(subject: &Subject<'_>, mantel: &Mantel) -> String {
    let layout = subject.layout();
    if mantel.extent == MantelExtent::Chase {
        return String::new();
    }
    let front = mantel_front(mantel, layout);
    let length = mantel_sides(mantel, layout, front).size();
    format!("{} long, ", subject.tape(length))
}

fn dimensions(subject: &Subject<'_>, figure: &mut Figure, outer: Span) {
    let (params, layout) = (subject.params(), subject.layout());
    let unit = &params.appliance;
    let opening = Span::about(layout.unit_center, unit.opening_width);
    let ceiling = layout
        .ceiling
        .height_at(outer.low, layout.faces.upper_finished);
    let mut heights = vec![
        Length::ZERO,
        layout.heights.platform_top,
        layout.heights.opening_top,
        ceiling,
    ];
    if let Some(mantel) = &params.mantel {
        heights.extend([mantel.underside, mantel.underside + mantel.thickness]);
    }
    let zone =
        Span::about(layout.unit_center, unit.opening_width).grown(unit.facing_zone_side.value);
    figure.chains = vec![
        Chain::new(
            Side::Below,
            [
                outer.low,
                zone.low,
                opening.low,
                layout.unit_center,
                opening.high,
                zone.high,
                outer.high,
            ],
        ),
        Chain::new(Side::Below, [outer.low, outer.high]),
        Chain::new(Side::Left, heights),
        Chain::new(Side::Left, [Length::ZERO, ceiling]),
    ];
    let Some(recess) = &layout.recess else { return };
    let mut across = vec![
        outer.low,
        recess.finished.low,
        recess.finished.high,
        outer.high,
    ];
    let mut up = vec![
        Length::ZERO,
        recess.finished_height.low,
        recess.finished_height.high,
    ];
    if let Some(screen) = &params.screen {
        let sides = Span::about(recess.finished.center(), screen.width);
        let heights = Span::about(recess.finished_height.center(), screen.height);
        across.extend([sides.low, sides.high]);
        up.extend([heights.low, heights.high]);
        figure
            .chains
            .push(Chain::new(Side::Right, [Length::ZERO, heights.center()]));
    }
    figure.chains.push(Chain::new(Side::Above, across));
    figure.chains.insert(3, Chain::new(Side::Right, up));
}
