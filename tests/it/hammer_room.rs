//! Sticks side by side touch or leave room for a hammer, a short run is divided evenly, and a ledge is carried at
//! every step of the studs.

use chasewright::catalog::FramingMember;
use chasewright::design::{Branch, Design, Group, Kind, Part, design};
use chasewright::params::{ChaseWall, End, Params, Value};
use chasewright::units::{Length, Span};
use glam::DVec3;

use crate::generate::random_params;
use crate::scenarios::demo;
use crate::support::{assert_near, demos, seeds};

/// A thinner slot is drawn shut by the nails.
const THINNEST_RIP: f64 = 0.125 * 25.4;

fn uprights(model: &Design, wall: ChaseWall) -> Vec<&Part> {
    let upright = |it: &&Part| {
        it.is_of(wall)
            && it.group == Group::Framing
            && matches!(
                it.kind,
                Kind::Stud | Kind::King | Kind::Jack | Kind::Cripple
            )
    };
    model.parts.iter().filter(upright).collect()
}

/// Left sides of a side wall's studs, in inches from the wall behind, from the nearest.
fn lefts(model: &Design, wall: ChaseWall) -> Vec<f64> {
    let outs = uprights(model, wall).into_iter();
    let mut found: Vec<f64> = outs.map(|it| -it.body.bounds.high.y / 25.4).collect();
    found.sort_by(f64::total_cmp);
    found
}

/// The side walls of the reading room are 20 in long; in a chase an inch less deep 19 in. A layout of 16 in puts studs at
/// 0, 15-1/4 and 17-1/2, with a slot of 3/4 in.
#[test]
fn a_side_wall_of_19_inches_is_divided_evenly() {
    let params = demo("reading-room");
    let model = design(&params.with("chase.depth", &inches(28.0)).unwrap());
    for wall in [ChaseWall::LeftSide, ChaseWall::RightSide] {
        let found = lefts(&model, wall);
        assert_eq!(found.len(), 3, "{found:?}");
        for (found, expected) in found.into_iter().zip([0.0, 8.75, 17.5]) {
            assert_near(found, expected, 1e-9);
        }
    }
    // from middle to middle 16 in and less is one bay
    let model = design(&params.with("chase.depth", &inches(26.5)).unwrap());
    assert_eq!(lefts(&model, ChaseWall::LeftSide).len(), 2);
}

fn inches(value: f64) -> Value {
    Value::Length(Length::inches(value))
}

/// Slots of a wall that no hammer gets into: two sticks at a height with less between them, and nothing in it.
/// Of full-height studs alone, where cripples between the sticks of openings do not count.
fn slots(model: &Design, wall: ChaseWall, studs_alone: bool) -> Vec<String> {
    let room = model.params.chase.hammer_room.to_mm();
    let way = match wall {
        ChaseWall::LeftSide | ChaseWall::RightSide => DVec3::Y,
        ChaseWall::Front
        | ChaseWall::SetBack
        | ChaseWall::BumpOut
        | ChaseWall::Back
        | ChaseWall::Opened => DVec3::X,
    };
    let sticks = uprights(model, wall);
    let heights = |it: &Part| {
        let bounds = &it.body.bounds;
        Span::new(Length::mm(bounds.low.z), Length::mm(bounds.high.z))
    };
    let mut found = Vec::new();
    for left in &sticks {
        for right in &sticks {
            let slot = Span::new(left.reach(way).high, right.reach(way).low);
            let size = slot.size().to_mm();
            let is_stud = left.kind == Kind::Stud || right.kind == Kind::Stud;
            let counts = is_stud || !studs_alone;
            let is_slot = counts && size > THINNEST_RIP + 1e-6 && size < room - 1e-6;
            if !is_slot || !heights(left).overlaps(heights(right)) {
                continue;
            }
            let level = |it: &&&Part| {
                heights(it).overlaps(heights(left)) && heights(it).overlaps(heights(right))
            };
            let mut between = sticks.iter().filter(level);
            if !between.any(|it| it.reach(way).overlaps(slot)) {
                found.push(format!("{} and {}: {size}", left.id, right.id));
            }
        }
    }
    found
}

/// The walls of wood that are framed square from end to end; the back of an enclosure keeps the room's layout.
fn walls(params: &Params, model: &Design) -> Vec<ChaseWall> {
    let site = &model.layout.site;
    let is_square = site.ends.iter().all(|it| *it != End::Corner) && !site.is_turned();
    let all = [
        ChaseWall::Front,
        ChaseWall::SetBack,
        ChaseWall::BumpOut,
        ChaseWall::LeftSide,
        ChaseWall::RightSide,
    ];
    let of_wood = |it: &ChaseWall| matches!(Branch::from(*it).stud(params), FramingMember::Wood(_));
    let is_new = model.layout.opened.is_none();
    let all = all.into_iter().filter(|_| is_square && is_new);
    all.filter(of_wood).collect()
}

#[test]
fn no_slot_is_too_narrow_for_a_hammer() {
    let mut looked_at = 0;
    let random = seeds(0..60).map(|seed| (seed.to_string(), random_params(seed)));
    let demos = demos()
        .into_iter()
        .map(|(name, it)| (name.clone(), it, false));
    let random = random.map(|(name, it)| (name, it, true));
    for (name, params, studs_alone) in demos.chain(random) {
        let model = design(&params);
        for wall in walls(&params, &model) {
            let found = slots(&model, wall, studs_alone);
            assert!(found.is_empty(), "{name}, {wall:?}: {found:?}");
            looked_at += 1;
        }
    }
    assert!(looked_at > 60, "{looked_at} walls");
}

/// Without room for a hammer the slot between the layout's stud and the end stud of the reading room's set-back wall
/// stays: 80 in less half a stud from the left, and 82-1/2.
#[test]
fn a_slot_is_found_where_none_is_asked_for() {
    let params = demo("reading-room");
    let without = design(&params.with("chase.hammer_room", &inches(0.0)).unwrap());
    let with = Params {
        chase: params.chase.clone(),
        ..without.params.as_ref().clone()
    };
    let mut seen = without;
    seen.params = std::sync::Arc::new(with);
    assert!(!slots(&seen, ChaseWall::SetBack, false).is_empty());
}

/// The reading room's ledge is 5-1/2 in wide on studs of 3-1/2: blocks of 2 in behind studs and header, no step wider
/// than 16 in and a stud, none in the bays between.
#[test]
fn blocks_carry_the_back_of_the_ledge() {
    let model = design(&demo("reading-room"));
    let ledge = |it: &&Part| it.is_of(ChaseWall::BumpOut) && it.kind == Kind::Blocking;
    let blocks: Vec<&Part> = model.parts.iter().filter(ledge).collect();
    assert!(blocks.len() >= 3, "{}", blocks.len());
    let chase = model.layout.site.chase;
    let half = Length::inches(0.75);
    let mut middles = vec![chase.low + half, chase.high - half];
    for block in &blocks {
        let bounds = &block.body.bounds;
        assert_near(bounds.size().y, 2.0 * 25.4, 1e-6);
        assert_near(bounds.high.z, (43.25 - 1.5) * 25.4, 1e-6);
        middles.push(block.sides().center());
    }
    middles.sort_by(|a, b| a.to_mm().total_cmp(&b.to_mm()));
    for pair in middles.windows(2) {
        assert!(
            (pair[1] - pair[0]).to_inches() <= 17.5 + 1e-6,
            "{middles:?}"
        );
    }
}
