//! The exact queries on thousands of random pairs: against certificates, counted points and searched
//! surfaces, and against themselves under motion and exchange.

use std::f64::consts::PI;

use chasewright::geom::{
    Body, Direction, EndPlane, Frame, Profile, Shape, Swept, exit, gap, nearest, overlap, overlaps,
};
use glam::{DMat3, DQuat, DVec2, DVec3};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

use crate::geometry::{corners, elbow, mm, pipe};

/// The same random cases on every run; other ones with another `SEED`.
fn settings(cases: u32) -> ProptestConfig {
    ProptestConfig {
        cases: crate::support::cases(cases),
        rng_seed: RngSeed::Fixed(std::env::var("SEED").map_or(7, |s| s.parse().unwrap())),
        failure_persistence: None,
        ..ProptestConfig::default()
    }
}

/// A rigid motion from random numbers.
fn frame_from(origin: DVec3, spin: [f64; 4]) -> Frame {
    let turn = DQuat::from_xyzw(spin[0], spin[1], spin[2], spin[3]);
    let axes = DMat3::from_quat(if turn.length() < 0.1 {
        DQuat::IDENTITY
    } else {
        turn.normalize()
    });
    Frame::new(origin, axes.x_axis, axes.y_axis)
}

prop_compose! {
    fn frames(reach: f64)(
        x in -reach..reach, y in -reach..reach, z in -reach..reach,
        spin in prop::array::uniform4(-1.0..1.0_f64), square in 0..3_u8,
    ) -> Frame {
        let origin = DVec3::new(x, y, z);
        if square == 0 { Frame::at(origin) } else { frame_from(origin, spin) }
    }
}

prop_compose! {
    fn convex_bodies(reach: f64)(
        count in 3..8_u8, size in 10.0..60.0_f64, flat in 0.3..1.0_f64, height in 20.0..150.0_f64,
        slope in prop::array::uniform4(-0.4..0.4_f64), frame in frames(reach),
    ) -> Body {
        let corner = |i: u8| {
            let turn = 2.0 * PI * f64::from(i) / f64::from(count);
            DVec2::new(turn.cos() * size, turn.sin() * size * flat)
        };
        let profile = Profile::polygon((0..count).map(corner).collect());
        let swept = Swept {
            profile,
            bottom: vec![EndPlane::sloped(mm(0.0), DVec2::new(slope[0], slope[1]))],
            top: vec![EndPlane::sloped(mm(height), DVec2::new(slope[2], slope[3]))],
            bores: Vec::new(),
        };
        Body::new(swept, frame)
    }
}

prop_compose! {
    fn notched_bodies(reach: f64)(frame in frames(reach), depth in 10.0..50.0_f64, cut in 10.0..60.0_f64) -> Body {
        let profile = Profile::polygon(corners(&[
            [0.0, 0.0], [100.0, 0.0], [100.0, 80.0], [60.0 + cut / 2.0, 80.0], [60.0, 80.0 - cut], [20.0, 80.0], [0.0, 80.0],
        ])).with_opening(corners(&[[10.0, 5.0], [90.0, 5.0], [90.0, 15.0], [10.0, 15.0]]));
        Body::new(Swept::square(profile, mm(depth)), frame)
    }
}

prop_compose! {
    fn straight_tubes(reach: f64)(frame in frames(reach), outer in 5.0..60.0_f64, length in 20.0..200.0_f64) -> Body {
        pipe(outer, 0.0, length, frame)
    }
}

prop_compose! {
    fn bends(reach: f64)(frame in frames(reach), outer in 5.0..60.0_f64, more in 1.0..80.0_f64, degrees in 10.0..180.0_f64) -> Body {
        elbow(outer, 0.0, outer + more, degrees, frame)
    }
}

fn any_body(reach: f64) -> impl Strategy<Value = Body> {
    prop_oneof![
        3 => convex_bodies(reach),
        2 => notched_bodies(reach),
        2 => straight_tubes(reach),
        1 => bends(reach),
    ]
}

fn replaced(body: &Body, motion: &Frame) -> Body {
    Body::new(body.shape.clone(), motion.place(&body.frame))
}

/// Whether two convex bodies are as far apart as is claimed: the points lie on them, and the planes
/// through these points, square to the way between them, part the bodies.
fn certified(a: &Body, b: &Body) -> Result<(), TestCaseError> {
    let found = nearest(a, b);
    if found.distance > 0.0 {
        let way = (found.on_second - found.on_first) / found.distance;
        let parted = way.dot(b.farthest(-way)) - way.dot(a.farthest(way));
        prop_assert!(
            (parted - found.distance).abs() < 1e-5,
            "parted by {parted}, found {found:?}"
        );
    } else if let Some(found) = overlap(a, b) {
        prop_assert!(found.volume > 0.0 && found.depth > 0.0);
    }
    Ok(())
}

proptest! {
    #![proptest_config(settings(2000))]

    #[test]
    fn convex_distances_are_certified(a in convex_bodies(150.0), b in convex_bodies(150.0)) {
        certified(&a, &b)?;
    }

    #[test]
    fn pipe_distances_are_certified(a in straight_tubes(150.0), b in convex_bodies(150.0)) {
        certified(&a, &b)?;
        certified(&b, &a)?;
    }

    #[test]
    fn pipe_to_pipe_distances_are_certified(a in straight_tubes(150.0), b in straight_tubes(150.0)) {
        certified(&a, &b)?;
    }

    #[test]
    fn overlap_and_distance_agree(a in any_body(120.0), b in any_body(120.0)) {
        let (found, distance) = (overlap(&a, &b), gap(&a, &b));
        prop_assert!(found.is_none() || distance < 1e-9, "{found:?} but {distance} apart");
        let deep = overlap(&a, &b).is_some_and(|found| found.depth > 1e-3);
        prop_assert!(deep || found.is_some() || distance >= 0.0);
        if distance <= 0.0 {
            let either = [&a, &b].into_iter().any(|body| matches!(&body.shape, Shape::Tube(_)));
            // Random bodies hardly ever only touch.
            prop_assert!(found.is_some() || either && deepest(&a, &b) < 0.5, "distance 0 without overlap");
        }
    }

    #[test]
    fn overlap_and_distance_are_symmetric(a in any_body(80.0), b in any_body(80.0)) {
        prop_assert!((gap(&a, &b) - gap(&b, &a)).abs() < 1e-4);
        match (overlap(&a, &b), overlap(&b, &a)) {
            (Some(one), Some(other)) => {
                // The way between two tubes is found by a search, so its depth is less exact.
                let near = if a.pieces.is_empty() && b.pieces.is_empty() { 1e-4 } else { 1e-6 };
                prop_assert!((one.depth - other.depth).abs() < near, "{one:?} {other:?}");
                let smallest = a.volume().min(b.volume());
                prop_assert!((one.volume - other.volume).abs() < 5e-3 * smallest);
                prop_assert!(one.volume < smallest * (1.0 + 1e-6));
            }
            (one, other) => prop_assert!(one.is_none() && other.is_none()),
        }
    }

    #[test]
    fn a_rigid_motion_changes_nothing(a in any_body(80.0), b in any_body(80.0), motion in frames(3000.0)) {
        let (c, d) = (replaced(&a, &motion), replaced(&b, &motion));
        prop_assert!((gap(&a, &b) - gap(&c, &d)).abs() < 1e-6);
        match (overlap(&a, &b), overlap(&c, &d)) {
            (Some(one), Some(other)) => {
                // The way between two tubes is found by a search, so its depth is less exact.
                let near = if a.pieces.is_empty() && b.pieces.is_empty() { 1e-4 } else { 1e-6 };
                prop_assert!((one.depth - other.depth).abs() < near, "{one:?} {other:?}");
                prop_assert!((one.volume - other.volume).abs() < 1e-4 + 1e-6 * one.volume);
            }
            (one, other) => prop_assert!(one.or(other).is_none_or(|found| found.volume < 1e-2)),
        }
    }

    #[test]
    fn bounds_and_farthest_points_agree_with_sampled_surfaces(
        body in any_body(100.0), way in prop::array::uniform3(-1.0..1.0_f64),
    ) {
        let way = DVec3::from(way).try_normalize().unwrap_or(DVec3::X);
        let points = surface(&body, 30);
        let sampled = points.iter().map(|p| way.dot(*p)).fold(f64::NEG_INFINITY, f64::max);
        let found = way.dot(body.farthest(way));
        prop_assert!(sampled <= found + 1e-9 && sampled > found - 2.0, "sampled {sampled}, found {found}");
        for point in points {
            prop_assert!(point.cmpge(body.bounds.low - 1e-9).all() && point.cmple(body.bounds.high + 1e-9).all());
        }
    }

    #[test]
    fn a_part_that_has_left_overlaps_no_more(a in convex_bodies(60.0), b in notched_bodies(60.0), way in prop::array::uniform3(-1.0..1.0_f64)) {
        let way = DVec3::from(way).try_normalize().unwrap_or(DVec3::X);
        let free = exit(&a, &b, &[Direction::Along(way)]);
        prop_assert!(overlap(&a.moved(way * (free + 1e-5)), &b).is_none() );
        if free > 1e-3 {
            prop_assert!(overlap(&a.moved(way * (free - 1e-3)), &b).is_some());
            prop_assert!(overlap(&a.moved(way * (free * 0.5)), &b).is_some());
        }
    }
}

proptest! {
    #![proptest_config(settings(150))]

    #[test]
    fn bend_distances_agree_with_samples(bend in bends(150.0), other in prop_oneof![convex_bodies(150.0), notched_bodies(150.0), straight_tubes(150.0)]) {
        let found = nearest(&bend, &other);
        let sampled = searched(&other, |point| outside_bend(&bend, point));
        prop_assert!(sampled >= found.distance - 1e-6, "sampled {sampled}, found {}", found.distance);
        if found.distance > 0.0 {
            // The points are on the bodies, so the distance is not too small.
            prop_assert!((outside_bend(&bend, found.on_second) - found.distance).abs() < 1e-6);
        }
    }

    #[test]
    fn to_ask_whether_bodies_overlap_is_to_measure_it(tube in prop_oneof![straight_tubes(60.0), bends(60.0)], other in convex_bodies(60.0)) {
        prop_assert_eq!(overlaps(&tube, &other), overlap(&tube, &other).is_some());
        prop_assert_eq!(overlaps(&other, &tube), overlap(&other, &tube).is_some());
    }

    #[test]
    fn shared_volumes_agree_with_counted_points(tube in prop_oneof![straight_tubes(60.0), bends(60.0)], other in convex_bodies(60.0)) {
        let found = overlap(&tube, &other).map_or(0.0, |found| found.volume);
        let size = other.bounds.size();
        let steps = 24;
        let mut inside = 0_u32;
        for i in 0..steps { for j in 0..steps { for k in 0..steps {
            let part = DVec3::new(f64::from(i), f64::from(j), f64::from(k)) + 0.5;
            let point = other.bounds.low + size * part / f64::from(steps);
            let in_other = other.pieces[0].faces.iter().all(|face| face.plane.height(point) < 0.0);
            inside += u32::from(in_other && outside_bend(&tube, point) <= 0.0);
        }}}
        let counted = f64::from(inside) * size.element_product() / f64::from(steps).powi(3);
        prop_assert!((counted - found).abs() < 0.03 * other.volume() + 50.0, "counted {counted}, found {found}");
    }
}

/// How far inside one another two bodies are at least, by counting nothing: the least of the
/// overlaps of their shadows on the world's axes. Only tells grazing pairs from others.
fn deepest(a: &Body, b: &Body) -> f64 {
    let surface_a = surface(a, 30);
    let inside = |p: &DVec3| match &b.shape {
        Shape::Tube(_) => -signed_depth(b, *p),
        Shape::Swept(_) => b
            .pieces
            .iter()
            .map(|piece| {
                piece
                    .faces
                    .iter()
                    .map(|face| -face.plane.height(*p))
                    .fold(f64::INFINITY, f64::min)
            })
            .fold(f64::NEG_INFINITY, f64::max),
    };
    surface_a.iter().map(inside).fold(0.0, f64::max)
}

/// Distance of a point from a solid tube, by a search along the centre line only: 0 inside.
fn outside_bend(body: &Body, point: DVec3) -> f64 {
    signed_depth(body, point).max(0.0)
}

/// The least over the cross-sections of the distance from the flat disc, less nothing: found by
/// walking the centre line in small steps and narrowing down.
fn signed_depth(body: &Body, point: DVec3) -> f64 {
    let Shape::Tube(tube) = &body.shape else {
        unreachable!("a tube was expected")
    };
    let local = body.frame.local_point(point);
    let from_disc = |t: f64| {
        let (center, along) = tube.center_line.at(t);
        let offset = local - center;
        let height = offset.dot(along);
        let flat = (offset - along * height).length();
        height.hypot((flat - tube.outer).max(0.0))
    };
    let steps = 30;
    let step = 1.0 / f64::from(steps);
    let best = (0..=steps)
        .map(|i| f64::from(i) * step)
        .min_by(|a, b| from_disc(*a).total_cmp(&from_disc(*b)))
        .unwrap();
    let (mut low, mut high) = ((best - step).max(0.0), (best + step).min(1.0));
    for _ in 0..60 {
        let third = (high - low) / 3.0;
        if from_disc(low + third) < from_disc(high - third) {
            high -= third;
        } else {
            low += third;
        }
    }
    let found = from_disc(low).min(from_disc(0.0)).min(from_disc(1.0));
    if found < 1e-7 { 0.0 } else { found }
}

/// A part of a body's surface over the unit square.
type Patch<'a> = Box<dyn Fn(f64, f64) -> DVec3 + 'a>;

/// The surface of a body: of a swept shape its faces in triangles, of a tube its side and ends.
fn patches(body: &Body) -> Vec<Patch<'_>> {
    let mut patches: Vec<Patch<'_>> = Vec::new();
    for piece in &body.pieces {
        for face in &piece.faces {
            let corners: Vec<DVec3> = piece.corners(face).collect();
            for pair in corners[1..].windows(2) {
                let (start, p, q) = (corners[0], pair[0], pair[1]);
                patches.push(Box::new(move |s, t| {
                    start + ((p - start).lerp(q - start, t)) * s
                }));
            }
        }
    }
    if let Shape::Tube(tube) = &body.shape {
        let point = move |s: f64, t: f64, part: f64| {
            let (center, along) = tube.center_line.at(s);
            let side = along.cross(DVec3::Y).normalize();
            let turn = 2.0 * PI * t;
            body.frame
                .point(center + (side * turn.cos() + DVec3::Y * turn.sin()) * tube.outer * part)
        };
        patches.push(Box::new(move |s, t| point(s, t, 1.0)));
        patches.push(Box::new(move |s, t| point(0.0, t, s)));
        patches.push(Box::new(move |s, t| point(1.0, t, s)));
    }
    patches
}

fn surface(body: &Body, steps: u32) -> Vec<DVec3> {
    let part = |i: u32| f64::from(i) / f64::from(steps);
    let mut points = Vec::new();
    for patch in patches(body) {
        for i in 0..=steps {
            points.extend((0..=steps).map(|j| patch(part(i), part(j))));
        }
    }
    points
}

/// The least value on a body's surface, by samples that close in on the best ones.
fn searched(body: &Body, value: impl Fn(DVec3) -> f64) -> f64 {
    let patches = patches(body);
    let grid = |patch: &Patch<'_>, middle: DVec2, half: f64, steps: i32| {
        let mut best = (f64::INFINITY, middle);
        for i in -steps..=steps {
            for j in -steps..=steps {
                let offset = DVec2::new(f64::from(i), f64::from(j)) * (half / f64::from(steps));
                let place = (middle + offset).clamp(DVec2::ZERO, DVec2::ONE);
                let found = value(patch(place.x, place.y));
                if found < best.0 {
                    best = (found, place);
                }
            }
        }
        best
    };
    let mut coarse: Vec<_> = patches
        .iter()
        .map(|patch| (grid(patch, DVec2::splat(0.5), 0.5, 5), patch))
        .collect();
    coarse.sort_by(|a, b| a.0.0.total_cmp(&b.0.0));
    coarse.truncate(6);
    let mut least = f64::INFINITY;
    for ((found, mut middle), patch) in coarse {
        let (mut best, mut half) = (found, 0.15);
        for _ in 0..18 {
            let better = grid(patch, middle, half, 3);
            (best, middle) = if better.0 < best {
                better
            } else {
                (best, middle)
            };
            half *= 0.5;
        }
        least = least.min(best);
    }
    least
}
