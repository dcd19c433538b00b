//! Pairs of bodies with the distance between them, for `tests/outside/distances.py`, and the certificate that can be
//! had here: the two points are as far apart as it says.

use std::f64::consts::{PI, TAU};
use std::path::PathBuf;

use chasewright::geom::{Body, EndPlane, Frame, Profile, Swept, nearest};
use glam::{DMat3, DQuat, DVec2, DVec3};
use serde_json::{Value, json};

use crate::generate::Random;
use crate::geometry::{elbow, mm, pipe};
use crate::support::{assert_near, is_quick, seeds};

/// How many pairs there are.
const PAIRS: u64 = 1000;

/// Somewhere within reach; one in three stands square to the axes, as most parts do.
fn frame(random: &mut Random) -> Frame {
    let mut place = || random.between(-600.0, 600.0);
    let origin = DVec3::new(place(), place(), place());
    if random.below(3) == 0 {
        return Frame::at(origin);
    }
    let mut share = || random.between(0.0, 1.0);
    // Even over all turns: Shoemake, Graphics Gems III, "Uniform random rotations" (from memory).
    let (u, v, w) = (share(), share() * TAU, share() * TAU);
    let (a, b) = ((1.0 - u).sqrt(), u.sqrt());
    let turn = DQuat::from_xyzw(
        a * libm::sin(v),
        a * libm::cos(v),
        b * libm::sin(w),
        b * libm::cos(w),
    );
    let axes = DMat3::from_quat(turn.normalize());
    Frame::new(origin, axes.x_axis, axes.y_axis)
}

/// A stick, a pipe or a bend, and how the reader makes it again.
fn body(random: &mut Random, kind: u64) -> (Body, Value) {
    let frame = frame(random);
    let [origin, x, z] = [frame.origin, frame.x, frame.z].map(|it| it.to_array());
    let placed = |shape: Value| json!({ "shape": shape, "origin": origin, "x": x, "z": z });
    match kind {
        0 => {
            let sides = [random.between(19.0, 140.0), random.between(38.0, 240.0)];
            let height = random.between(60.0, 900.0);
            let mut slope = || random.between(-0.3, 0.3);
            let slopes = [[slope(), slope()], [slope(), slope()]];
            // Apart at every corner: 0.3 over 140 + 240 mm takes 114 mm off each end at most.
            let high = height + 230.0;
            let swept = Swept {
                profile: Profile::rectangle(mm(sides[0]), mm(sides[1])),
                bottom: vec![EndPlane::sloped(mm(0.0), DVec2::from(slopes[0]))],
                top: vec![EndPlane::sloped(mm(high), DVec2::from(slopes[1]))],
                bores: Vec::new(),
            };
            let shape = json!({ "stick": sides, "height": high, "slopes": slopes });
            (Body::new(swept, frame), placed(shape))
        }
        1 => {
            let (radius, length) = (random.between(25.0, 130.0), random.between(30.0, 900.0));
            let shape = json!({ "pipe": radius, "length": length });
            (pipe(radius, 0.0, length, frame), placed(shape))
        }
        _ => {
            let radius = random.between(25.0, 110.0);
            let bend = radius + random.between(5.0, 200.0);
            let degrees = random.pick(&[30.0, 45.0, 60.0, 90.0]);
            let shape = json!({ "bend": bend, "radius": radius, "turn": degrees * PI / 180.0 });
            (elbow(radius, 0.0, bend, degrees, frame), placed(shape))
        }
    }
}

#[test]
fn distances_are_written_for_the_outside_kernel() {
    let mut random = Random(11);
    let mut apart = 0;
    let pairs: Vec<Value> = seeds(0..PAIRS)
        .map(|number| {
            // Every mixture of kinds comes equally often.
            let (first, one) = body(&mut random, number % 3);
            let (second, two) = body(&mut random, number / 3 % 3);
            let found = nearest(&first, &second);
            if found.distance > 0.0 {
                let between = found.on_first.distance(found.on_second);
                assert_near(between, found.distance, 1e-9);
                apart += 1;
            }
            json!({ "first": one, "second": two, "distance": found.distance })
        })
        .collect();
    assert!(
        is_quick() || (apart > 700 && apart < 1000),
        "{apart} of {PAIRS} are apart"
    );
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("distances");
    std::fs::create_dir_all(&folder).unwrap();
    std::fs::write(folder.join("pairs.json"), json!(pairs).to_string()).unwrap();
}
