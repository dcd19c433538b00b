//! Blocks in the walls of the room, where a wall of the chase meets one between two studs.

use glam::DVec3;

use super::builder::{Builder, Make, has_room};
use super::ceiling::{LEAST_HOLD, held_places};
use super::wall::framing;
use super::{Branch, Kind, Part, Stage, Stock};
use crate::catalog::Material;
use crate::geom::{Body, Frame, Profile, Swept};
use crate::layout::{Layout, StandingWall};
use crate::params::ChaseWall;
use crate::units::{Length, Span};

/// Rows of blocks, wide face out, from stud to stud behind the end of each wall of the chase.
pub(super) fn build(layout: &Layout, builder: &mut Builder) {
    if !layout.params.blocking.behind_sides {
        return;
    }
    for standing in &layout.standing {
        let mut bays: Vec<(Span, Length)> = Vec::new();
        for part in builder.parts.iter().filter(|it| is_end(it)) {
            let Some(end) = standing.against(part) else {
                continue;
            };
            if (LEAST_HOLD - standing.stud_behind(end)).is_positive() {
                let bay = standing.bay(end.center());
                let height = Length::mm(part.body.bounds.high.z) - layout.slab;
                if bays.iter().all(|it| it.0 != bay) {
                    bays.push((bay, height));
                }
            }
        }
        for (bay, height) in bays {
            rows(standing, bay, height, builder);
        }
    }
}

fn is_end(part: &Part) -> bool {
    // what stands in the wall that a flush chase is set into does not end at it
    matches!(part.kind, Kind::Stud | Kind::King | Kind::Return) && !part.is_of(ChaseWall::Opened)
}

/// Rows as far apart as a plate may run without being held, the first half as far from the floor.
fn rows(standing: &StandingWall, bay: Span, height: Length, builder: &mut Builder) {
    let stud = &standing.stud;
    for place in held_places(height) {
        let heights = Span::about(place, stud.depth());
        let low = DVec3::new(
            bay.low.to_mm(),
            standing.depths.studs.to_mm(),
            heights.low.to_mm(),
        );
        let frame = standing.frame.place(&Frame::new(low, DVec3::Y, DVec3::Z));
        let profile = Profile::rectangle(stud.breadth(), heights.size());
        let shape = Swept::square(profile, bay.size());
        if has_room(&Body::new(shape.clone(), frame), builder) {
            let cut = Stock::Stick(stud.name().to_owned());
            let make = Make {
                stage: Stage::RoomBlocks,
                ..framing(Kind::Blocking, Material::LUMBER, cut)
            };
            builder.add_next(Branch::ExistingWall, make, shape, frame);
        }
    }
}
