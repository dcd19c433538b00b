//! What holds the mantel: screws down into the ledge, a cleat in its hollow, or steel bars on the sides of studs.
//!
//! Places are chosen for wood: as far apart as the parameters allow, or where the next wood is.

use glam::DVec3;

use super::builder::{Builder, Make, add_box, block};
use super::front_wall::front_wall_at;
use super::mantel::{bought, end_legs, mantel_back, mantel_front, mantel_sides};
use super::{Branch, Group, Kind, Part, Stage, Stock};
use crate::catalog::Material;
use crate::geom::{Frame, Profile, Swept, TOLERANCE, overlaps, stretches};
use crate::layout::{Layout, point};
use crate::params::{Mantel, MantelHold};
use crate::units::{Length, Span};

/// What is left free at either end of a cleat, so that the mantel slides over it.
const CLEAT_EASE: Length = Length::inches(0.25);
/// How far the bar of a bracket ends behind the mantel's front, out of sight.
const SET_IN: Length = Length::inches(0.75);
/// How wide a bay has to be for bit and driver between two studs (common practice, no source).
const REACHED: Length = Length::inches(12.0);
/// How far along a screw it is looked for wood at all.
pub(super) const FAR: f64 = 24.0 * 25.4;

/// The wall that a mantel hangs on at a height, its stud face, and how deep its studs are.
pub(super) fn wall_at(layout: &Layout, height: Length) -> (Branch, Length, Length) {
    let (wall, face) = front_wall_at(layout, height);
    (wall.into(), face, layout.params.stud_of(wall).depth())
}

/// The middle of a cleat's height.
pub(super) fn cleat_height(mantel: &Mantel) -> Length {
    mantel.underside + mantel.thickness - mantel.shell - mantel.cleat.depth() / 2.0
}

/// From where to where a cleat reaches: within the mantel's ends, and over framing.
pub(super) fn cleat_sides(mantel: &Mantel, layout: &Layout) -> Span {
    let back = mantel_back(mantel, layout);
    let (_, face, _) = wall_at(layout, cleat_height(mantel));
    let framing = layout.site.framing_at(face);
    let ends = [back, back + mantel.cleat.breadth()].map(|out| mantel_sides(mantel, layout, out));
    let ends = ends.map(|it| it.grown(-(mantel.shell + CLEAT_EASE)));
    Span::new(
        framing.low.max(ends[0].low).max(ends[1].low),
        framing.high.min(ends[0].high).min(ends[1].high),
    )
}

/// A cleat on the finished face, in the mantel's hollow, under its upper board.
pub(super) fn cleat(layout: &Layout, builder: &mut Builder) {
    let mantel = layout.params.mantel.as_ref();
    let Some(mantel) = mantel.filter(|it| it.held_by == Some(MantelHold::Cleat)) else {
        return;
    };
    let (thick, high) = (mantel.cleat.breadth(), mantel.cleat.depth());
    let sides = cleat_sides(mantel, layout);
    let front = mantel_back(mantel, layout) + thick;
    let origin = point(sides.low, front, cleat_height(mantel) - high / 2.0);
    let make = Make {
        material: Material::LUMBER,
        stock: Stock::Stick(mantel.cleat.name.clone()),
        ..bought(Kind::Cleat, mantel)
    };
    builder.add_next(
        Branch::Mantel,
        make,
        Swept::square(Profile::rectangle(thick, high), sides.size()),
        Frame::new(origin, DVec3::Y, DVec3::Z),
    );
}

/// Builds the brackets: bars with their wide side on a stud's, out under the mantel. What they go through of board
/// and finish comes back.
pub(super) fn brackets(layout: &Layout, builder: &mut Builder) -> Vec<(Span, Span)> {
    let Some(mantel) = layout.params.mantel.as_ref() else {
        return Vec::new();
    };
    if mantel.held_by != Some(MantelHold::Brackets) {
        return Vec::new();
    }
    let heights = Span::new(mantel.underside - mantel.bracket_height, mantel.underside);
    let (wall, face, depth) = wall_at(layout, heights.center());
    let outs = Span::new(face - depth, mantel_front(mantel, layout) - SET_IN);
    if !(outs.high - mantel_back(mantel, layout)).is_positive() {
        return Vec::new();
    }
    let bars = bars(mantel, layout, (wall, face, depth), &builder.parts);
    let make = Make {
        kind: Kind::Bracket,
        group: Group::Skins,
        material: Material::STEEL,
        stock: Stock::Bought,
        stage: Stage::MantelBrackets,
    };
    let chosen = spread(&bars, mantel.hold_spacing);
    for sides in &chosen {
        add_box(
            Branch::Mantel,
            make.clone(),
            (*sides, outs, heights),
            builder,
        );
    }
    chosen.into_iter().map(|sides| (sides, heights)).collect()
}

/// The bars that there is room for, one for each stud under the mantel: on the side with the wider bay.
fn bars(
    mantel: &Mantel,
    layout: &Layout,
    (wall, face, depth): (Branch, Length, Length),
    parts: &[Part],
) -> Vec<Span> {
    let heights = Span::new(mantel.underside - mantel.bracket_height, mantel.underside);
    let outs = Span::new(face - depth, face);
    let ends = [mantel_back(mantel, layout), mantel_front(mantel, layout)]
        .map(|out| mantel_sides(mantel, layout, out));
    let framing = layout.site.framing_at(face);
    let under = |it: &Span| {
        let mut limits = ends.iter().chain([&framing]);
        limits.all(|end| it.low >= end.low && it.high <= end.high)
    };
    let all: Vec<&Part> = parts
        .iter()
        .filter(|it| matches!(it.group, Group::Framing | Group::Room))
        .collect();
    let middle = |right: Length| point(right, outs.center(), heights.center());
    let own = |it: &&&Part| it.branch == wall && is_wood(it) && is_upright(it);
    let mut studs: Vec<Span> = Vec::new();
    for stud in all.iter().filter(own) {
        let found = stretches(&stud.body, middle(Length::ZERO), DVec3::X);
        studs.extend(
            found
                .into_iter()
                .map(|(a, b)| Span::new(Length::mm(a), Length::mm(b))),
        );
    }
    studs.sort_by(|a, b| a.low.to_mm().total_cmp(&b.low.to_mm()));
    // the lining of a recess comes later
    let in_recess = |sides: &Span| {
        layout
            .recess
            .is_some_and(|it| it.rough.overlaps(*sides) && it.rough_height.overlaps(heights))
    };
    // legs and unit come later too
    let legs = end_legs(mantel, layout);
    let at_leg = |sides: &Span| legs.iter().flatten().any(|it| it.0.overlaps(*sides));
    let unit = &layout.params.appliance;
    let bottom = layout.heights.platform_top;
    let unit_high = Span::new(bottom, bottom + unit.body_height + unit.standoff);
    let unit_wide = Span::about(layout.unit_center, unit.body_width);
    let at_unit = |sides: &Span| unit_wide.overlaps(*sides) && unit_high.overlaps(heights);
    let free = |sides: &Span| {
        let bar = block((*sides, outs, heights));
        let lies_in = |it: &&Part| it.body.bounds.overlaps(&bar.bounds) && overlaps(&bar, &it.body);
        let later = in_recess(sides) || at_leg(sides) || at_unit(sides);
        under(sides) && !later && !all.iter().any(lies_in)
    };
    // how far it is from a bar to what stands next
    let bay = |(sides, way): &(Span, DVec3)| {
        let from = middle(sides.center());
        let met = all.iter().flat_map(|it| stretches(&it.body, from, *way));
        let next = met.map(|it| it.0).filter(|it| *it > 0.0);
        next.fold(FAR, f64::min)
    };
    let thick = mantel.bracket_thickness;
    let bars = studs.iter().filter_map(|stud| {
        let beside = [
            (Span::new(stud.high, stud.high + thick), DVec3::X),
            (Span::new(stud.low - thick, stud.low), DVec3::NEG_X),
        ];
        let mut beside: Vec<(Span, DVec3)> = beside.into_iter().filter(|it| free(&it.0)).collect();
        beside.sort_by(|a, b| bay(b).total_cmp(&bay(a)));
        beside.first().map(|it| (it.0, bay(it)))
    });
    let bars: Vec<(Span, f64)> = bars.collect();
    let reached = |it: &&(Span, f64)| it.1 >= REACHED.to_mm();
    let any = bars.iter().any(|it| reached(&it));
    let kept = bars.iter().filter(|it| !any || reached(it));
    kept.map(|it| it.0).collect()
}

/// As few of these as lie no farther apart than the spacing, the first and the last among them; where they all lie
/// farther apart, each.
fn spread(bars: &[Span], spacing: Length) -> Vec<Span> {
    let mut chosen: Vec<Span> = Vec::new();
    for (at, bar) in bars.iter().enumerate() {
        let reach = |last: &Span| {
            let next = bars.get(at + 1).map(|it| it.center() - last.center());
            next.is_none_or(|it| (it - spacing).to_mm() > TOLERANCE)
        };
        if chosen.last().is_none_or(reach) {
            chosen.push(*bar);
        }
    }
    chosen
}

/// A stick of lumber, new or of the room.
pub(super) fn is_wood(part: &Part) -> bool {
    let stick = matches!(part.stock, Stock::Stick(_) | Stock::Rip(_));
    let framing = stick && part.group == Group::Framing;
    framing || matches!(part.kind, Kind::ExistingStud | Kind::ExistingPlate)
}

fn is_upright(part: &Part) -> bool {
    matches!(
        part.kind,
        Kind::Stud | Kind::King | Kind::Jack | Kind::Cripple | Kind::ExistingStud
    )
}
