//! The gas line's end in the room, and the cables inside the chase with the shelf that supports them.

use glam::DVec3;

use super::builder::{Builder, Make, add_box, block};
use super::{
    Bars, Branch, ChaseFace, Clearance, ClearanceKind, Group, Kind, Own, Reach, Stage, Stock,
};
use crate::catalog::Material;
use crate::geom::{Direction, Frame, Profile, Swept, Tube};
use crate::layout::{Layout, point};
use crate::params::{Cables, Gas, GasPipe, Params, Reach as From, StubFrom};
use crate::units::{Length, Span};

/// Sides of the block that stands for the shutoff (common practice, no source).
const SHUTOFF: Length = Length::inches(2.0);
/// From how far a hand comes to a shutoff that stands free, or to the panel before a hidden one (common practice, no
/// source).
const FREE_REACH: Length = Length::inches(12.0);
/// Wall of the gas pipe as drawn.
const PIPE_WALL: Length = Length::inches(0.1);

/// The faces that a hand may come through.
const FRONT: &[ChaseFace] = &[ChaseFace::Front, ChaseFace::Lower, ChaseFace::Upper];
const LEFT: &[ChaseFace] = &[ChaseFace::Left];
const RIGHT: &[ChaseFace] = &[ChaseFace::Right];

/// Builds stub, shutoff, cables and shelf.
pub(super) fn build(layout: &Layout, builder: &mut Builder) {
    if let Some(gas) = &layout.params.gas {
        stub(gas, layout, builder);
        shutoff(gas, builder);
        hand_room(gas, layout, builder);
    }
    cables(&layout.params, builder);
    shelf(layout, builder);
}

/// Outer diameter of steel pipe. Source: ASME B36.10M, from memory.
const fn outer_diameter(pipe: GasPipe) -> Length {
    Length::inches(match pipe {
        GasPipe::Half => 0.84,
        GasPipe::ThreeQuarters => 1.05,
        GasPipe::One => 1.315,
        GasPipe::OneAndQuarter => 1.66,
    })
}

fn bought(kind: Kind, material: Material) -> Make {
    Make {
        kind,
        group: Group::Services,
        material,
        stock: Stock::Bought,
        stage: if matches!(kind, Kind::Cable) {
            Stage::Wiring
        } else {
            Stage::Gas
        },
    }
}

fn stub(gas: &Gas, layout: &Layout, builder: &mut Builder) {
    let outer = outer_diameter(gas.pipe) / 2.0;
    let (start, way, length) = match gas.stub_from {
        StubFrom::Floor => (
            point(gas.stub_right, gas.stub_out, layout.slab),
            DVec3::Z,
            gas.stub_up - layout.slab,
        ),
        StubFrom::Wall => (
            point(gas.stub_right, Length::ZERO, gas.stub_up),
            DVec3::NEG_Y,
            gas.stub_out,
        ),
    };
    let tube = Tube::straight(outer, outer - PIPE_WALL, length);
    builder.add_next(
        Branch::Gas,
        bought(Kind::GasStub, Material::STEEL),
        tube,
        along(start, way),
    );
}

/// The hole that a stub out of the floor needs around it, along the wall and out, and how high the stub reaches: the
/// pipe and half an inch (common practice, no source).
pub fn stub_hole(layout: &Layout) -> Option<(Span, Span, Length)> {
    const AROUND: Length = Length::inches(0.5);
    let gas = layout.params.gas.as_ref()?;
    let side = outer_diameter(gas.pipe) + AROUND;
    (gas.stub_from == StubFrom::Floor).then(|| {
        (
            Span::about(gas.stub_right, side),
            Span::about(gas.stub_out, side),
            gas.stub_up,
        )
    })
}

/// A frame whose z points one way along the world's axes.
fn along(origin: DVec3, way: DVec3) -> Frame {
    let x = if way.x.abs() > 0.5 {
        DVec3::Y
    } else {
        DVec3::X
    };
    Frame::new(origin, x, way.cross(x))
}

fn shutoff(gas: &Gas, builder: &mut Builder) {
    let spans = (
        Span::about(gas.shutoff_right, SHUTOFF),
        Span::about(gas.shutoff_out, SHUTOFF),
        Span::about(gas.shutoff_up, SHUTOFF),
    );
    add_box(
        Branch::Gas,
        bought(Kind::Shutoff, Material::STEEL),
        spans,
        builder,
    );
}

/// How far a point of the floor lies inside the chase's finished faces, to the nearest of sides and front; below zero
/// it lies outside.
pub(super) fn inside_by(layout: &Layout, right: Length, out: Length) -> Length {
    let skins = &layout.params.skins;
    let sides = layout.site.with_skins(skins.board + skins.side_finish, out);
    let beside = (right - sides.low).min(sides.high - right);
    beside.min(layout.faces.lower_finished - out)
}

/// The way of the hand to the shutoff: from its center out through the finished face that has to open there, and on
/// into the room as far as an arm needs; for one that stands free, only that far.
fn hand_room(gas: &Gas, layout: &Layout, builder: &mut Builder) {
    let across = Span::about(gas.shutoff_right, gas.hand_room);
    let deep = Span::about(gas.shutoff_out, gas.hand_room);
    let heights = Span::about(gas.shutoff_up, gas.hand_room);
    let hidden = inside_by(layout, gas.shutoff_right, gas.shutoff_out).is_positive();
    let sides = layout.site.with_skins(
        layout.params.skins.board + layout.params.skins.side_finish,
        gas.shutoff_out,
    );
    let (spans, ways, faces) = match gas.reached_from {
        From::Front => {
            let from = if hidden {
                layout.faces.lower_finished
            } else {
                gas.shutoff_out
            };
            let end = from + FREE_REACH;
            let outs = Span::new(gas.shutoff_out, end);
            ((across, outs, heights), [DVec3::X, DVec3::Z], FRONT)
        }
        From::Left => {
            let from = if hidden { sides.low } else { gas.shutoff_right };
            let end = from - FREE_REACH;
            let across = Span::new(end, gas.shutoff_right);
            ((across, deep, heights), [DVec3::Y, DVec3::Z], LEFT)
        }
        From::Right => {
            let from = if hidden {
                sides.high
            } else {
                gas.shutoff_right
            };
            let end = from + FREE_REACH;
            let across = Span::new(gas.shutoff_right, end);
            ((across, deep, heights), [DVec3::Y, DVec3::Z], RIGHT)
        }
    };
    let mut belongs_to = vec![Own::All(Branch::Gas)];
    if gas.panel {
        // the panel is where its board and finish are
        let skins = faces.iter().flat_map(|face| {
            [Kind::Board, Kind::Finish].map(|it| Own::Only(Branch::Face(*face), it))
        });
        belongs_to.extend(skins);
    }
    let reaches = ways
        .into_iter()
        .flat_map(|way| [way, -way])
        .map(|way| Reach {
            direction: Direction::Along(way),
            required: gas.hand_room / 2.0,
            source: "gas.hand_room; common practice, no source".to_owned(),
            key: "gas.hand_room",
        });
    builder.clearances.push(Clearance {
        id: "clearance/hand room".to_owned(),
        kind: ClearanceKind::HandRoom,
        body: block(spans),
        reaches: reaches.collect(),
        belongs_to,
        bars: Bars::Everything,
        datum: "the shutoff's center",
    });
}

/// One tube for each leg of the way; between two legs the bend itself is left out, so that no two
/// tubes share a body.
fn cables(params: &Params, builder: &mut Builder) {
    let Some(cables) = &params.cables else { return };
    let radius = cables.diameter / 2.0;
    let corners = &cables.route.0;
    let last = corners.len().saturating_sub(2);
    for (number, (from, to)) in corners.iter().zip(corners.iter().skip(1)).enumerate() {
        let [from, to] = [from, to].map(|[right, out, up]| point(*right, *out, *up));
        let way = (to - from).normalize();
        let bend = |at_bend: bool| if at_bend { radius } else { Length::ZERO };
        let (begin, end) = (bend(number > 0), bend(number < last));
        let length = Length::mm((to - from).length()) - begin - end;
        let start = from + way * begin.to_mm();
        builder.add_next(
            Branch::Cables,
            bought(Kind::Cable, Material::CABLE),
            Tube::straight(radius, Length::ZERO, length),
            along(start, way),
        );
    }
}

/// A shelf between the side walls, from the wall out to whatever stands before it, and the cleats that it lies on.
fn shelf(layout: &Layout, builder: &mut Builder) {
    let Some(cables) = &layout.params.cables else {
        return;
    };
    let Some(height) = cables.shelf else { return };
    let recess = layout.recess.map(|it| it.framing_back);
    let front = recess.map_or(layout.faces.front_back, |it| {
        it.min(layout.faces.front_back)
    });
    let make = Make {
        stock: Stock::Sheet(cables.shelf_thickness),
        stage: Stage::CableShelf,
        ..bought(Kind::CableShelf, Material::PANEL)
    };
    let sides = layout.site.chase.grown(-layout.side_taken());
    let outs = Span::new(Length::ZERO, front);
    let heights = Span::new(height, height + cables.shelf_thickness);
    add_box(Branch::Cables, make, (sides, outs, heights), builder);
    let (wide, high) = (cables.cleats.breadth(), cables.cleats.depth());
    for left in [sides.low, sides.high - wide] {
        cleat(cables, left, (outs, height - high), builder);
    }
}

/// A cleat that runs out along a side wall, on edge under the shelf.
fn cleat(cables: &Cables, left: Length, (outs, bottom): (Span, Length), builder: &mut Builder) {
    let (wide, high) = (cables.cleats.breadth(), cables.cleats.depth());
    let stock = cables.cleats.name().to_owned();
    let make = Make {
        stock: Stock::Stick(stock),
        stage: Stage::CableShelf,
        ..bought(Kind::Cleat, Material::LUMBER)
    };
    let origin = point(left, outs.low, bottom);
    let frame = along(origin, DVec3::NEG_Y);
    let shape = Swept::square(Profile::rectangle(wide, high), outs.size());
    builder.add_next(Branch::Cables, make, shape, frame);
}
