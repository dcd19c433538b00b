//! Blocks under the back of a ledge that is wider than the studs under it.
//!
//! In: the framed bump-out. Out: short upright rips on the backs of its sticks, up to the underside of the ledge, so
//! that its back is supported at every step of the studs and not at its ends alone.

use super::super::builder::{Builder, has_room};
use super::super::wall::{evenly, framing};
use super::super::{Kind, Part, Stock};
use crate::catalog::{Lumber, Material};
use crate::geom::{Body, Frame, Swept};
use crate::layout::{Layout, point};
use crate::params::ChaseWall;
use crate::units::{Length, Span};

/// A block takes three nails one over the other, if there is so much behind it (common practice, no source).
const TALLEST: Length = Length::inches(5.5);

/// Where a block may be nailed: from left to right, and down from the ledge.
struct Place {
    along: Span,
    height: Length,
}

/// Puts the blocks where they have room.
pub(super) fn build(layout: &Layout, builder: &mut Builder) {
    let stud = layout.params.bump_out_stud().wood();
    let (true, Some(stud), Some(ledge)) = (layout.is_stepped(), stud, &layout.params.front.ledge)
    else {
        return;
    };
    let depth = ledge.depth() - stud.depth();
    if !depth.is_positive() {
        return;
    }
    let under = layout.heights.framing_top - ledge.plate();
    let whole = layout.site.framing_at(layout.faces.lower_stud);
    // as far as studs beside an opening may stand apart
    let step = layout.params.chase.stud_spacing + stud.thickness;
    let mut last = whole.low + stud.thickness / 2.0;
    let places = places(layout, (stud, under), &builder.parts);
    let end = whole.high - stud.thickness / 2.0;
    for (at, place) in places.iter().enumerate() {
        let next = places.get(at + 1).map_or(end, |it| it.along.center());
        if !(next - last - step).is_positive() {
            continue;
        }
        let out = layout.faces.lower_stud - stud.depth();
        let corner = point(place.along.low, out, under - place.height);
        let shape = Swept::block(place.along.size(), depth, place.height);
        let frame = Frame::at(corner);
        if has_room(&Body::new(shape.clone(), frame), builder) {
            let make = framing(
                Kind::Blocking,
                Material::LUMBER,
                Stock::Rip(stud.name.clone()),
            );
            builder.add_next(ChaseWall::BumpOut, make, shape, frame);
            last = place.along.center();
        }
    }
}

/// The sticks that reach up to the ledge, and even steps along a header that does, from left to right.
fn places(layout: &Layout, (stud, under): (&Lumber, Length), parts: &[Part]) -> Vec<Place> {
    let back = (layout.faces.lower_stud - stud.depth()).to_mm();
    let mut found = Vec::new();
    for part in parts.iter().filter(|it| it.is_of(ChaseWall::BumpOut)) {
        let bounds = &part.body.bounds;
        let reaches = !(under - Length::mm(bounds.high.z)).is_positive()
            && !(Length::mm(bounds.high.z) - under).is_positive()
            && !Length::mm(bounds.high.y + back).abs().is_positive();
        if !reaches {
            continue;
        }
        let along = Span::new(Length::mm(bounds.low.x), Length::mm(bounds.high.x));
        let height = Length::mm(bounds.high.z - bounds.low.z).min(TALLEST);
        if matches!(part.kind, Kind::Stud | Kind::King | Kind::Cripple) {
            found.push(Place { along, height });
        }
        if part.kind == Kind::Header {
            let lefts = evenly(along, stud.thickness, layout.params.chase.stud_spacing);
            found.extend(lefts.into_iter().map(|left| Place {
                along: Span::new(left, left + stud.thickness),
                height,
            }));
        }
    }
    found.sort_by(|a, b| a.along.low.to_mm().total_cmp(&b.along.low.to_mm()));
    found
}
