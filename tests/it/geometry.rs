//! The exact queries against formulas from outside the project, at their boundaries, and on
//! thousands of random pairs.

use std::f64::consts::{FRAC_PI_2, PI};

use chasewright::geom::{
    Body, Convex, Direction, EndPlane, Frame, Profile, Shape, Swept, TOLERANCE, Tube, contact,
    exit, gap, nearest, overlap,
};
use chasewright::units::{Angle, Length};
use glam::{DMat3, DQuat, DVec2, DVec3};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

use crate::support::assert_near;

fn mm(value: f64) -> Length {
    Length::mm(value)
}

fn block(low: [f64; 3], size: [f64; 3]) -> Body {
    let [x, y, z] = size.map(mm);
    Body::new(Swept::block(x, y, z), Frame::at(DVec3::from(low)))
}

fn pipe(radius: f64, inner: f64, length: f64, frame: Frame) -> Body {
    Body::new(Tube::straight(mm(radius), mm(inner), mm(length)), frame)
}

fn elbow(radius: f64, inner: f64, bend: f64, degrees: f64, frame: Frame) -> Body {
    let tube = Tube::bend(mm(radius), mm(inner), mm(bend), Angle::degrees(degrees));
    Body::new(tube, frame)
}

fn at(x: f64, y: f64, z: f64) -> Frame {
    Frame::at(DVec3::new(x, y, z))
}

/// The frame whose z axis lies along the world's x axis.
fn lying(x: f64, y: f64, z: f64) -> Frame {
    Frame::new(DVec3::new(x, y, z), DVec3::Y, DVec3::Z)
}

fn corners(points: &[[f64; 2]]) -> Vec<DVec2> {
    points.iter().map(|p| DVec2::from(*p)).collect()
}

// ---- Volume, bounds and pieces ----

#[test]
fn a_truncated_triangular_prism_has_its_handbook_volume() {
    // CRC Standard Mathematical Tables, mensuration: the volume of a truncated triangular prism is
    // its right section times the mean of its three lateral edges.
    let profile = Profile::polygon(corners(&[[0.0, 0.0], [60.0, 0.0], [0.0, 80.0]]));
    let top = EndPlane::sloped(mm(100.0), DVec2::new(0.5, -0.25));
    let swept = Swept {
        profile,
        bottom: vec![EndPlane::level(mm(0.0))],
        top: vec![top],
    };
    let expected = 2400.0 * (100.0 + 130.0 + 80.0) / 3.0;
    let body = Body::new(swept, Frame::WORLD);
    assert_near(body.volume(), expected, 1e-6);
    assert_near(body.pieces[0].volume(), expected, 1e-6);
}

#[test]
fn a_torus_sector_has_its_volume_by_pappus() {
    // Second theorem of Pappus: cross-section times the way of its centroid.
    let body = elbow(50.0, 40.0, 120.0, 90.0, Frame::WORLD);
    assert_near(body.volume(), PI * 900.0 * FRAC_PI_2 * 120.0, 1e-6);
}

#[test]
fn several_end_planes_make_a_roof() {
    // A house of 100 by 60 with a ridge along its middle, eaves at 200, ridge at 230: a box and a
    // triangular prism.
    let swept = Swept {
        profile: Profile::rectangle(mm(60.0), mm(100.0)),
        bottom: vec![EndPlane::level(mm(0.0))],
        top: vec![
            EndPlane::sloped(mm(200.0), DVec2::new(1.0, 0.0)),
            EndPlane::sloped(mm(260.0), DVec2::new(-1.0, 0.0)),
        ],
    };
    let body = Body::new(swept, Frame::WORLD);
    assert_near(
        body.volume(),
        60.0 * 100.0 * 200.0 + 60.0 * 30.0 / 2.0 * 100.0,
        1e-4,
    );
    assert_near(body.bounds.high.z, 230.0, 1e-9);
    assert_eq!(body.pieces.len(), 1);
}

#[test]
fn what_its_planes_cut_away_has_no_pieces_and_no_volume() {
    let mut swept = Swept::block(mm(50.0), mm(50.0), mm(100.0));
    swept.top.push(EndPlane::level(mm(0.0)));
    let gone = Body::new(swept, Frame::WORLD);
    assert!(gone.pieces.is_empty() && gone.is_empty());
    assert_near(gone.volume(), 0.0, 0.0);
    let other = block([0.0; 3], [50.0; 3]);
    assert!(overlap(&gone, &other).is_none() && contact(&gone, &other).is_none());
    assert!(gap(&gone, &other).is_infinite());
    let mut below = Swept::block(mm(50.0), mm(50.0), mm(100.0));
    below.top = vec![EndPlane::level(mm(-5.0))];
    assert_near(Body::new(below, Frame::WORLD).volume(), 0.0, 0.0);
}

#[test]
fn a_plane_that_leaves_a_wedge_cuts_there() {
    // The top meets the bottom along a line in mid profile: a wedge of half the length remains.
    let swept = Swept {
        profile: Profile::rectangle(mm(100.0), mm(40.0)),
        bottom: vec![EndPlane::level(mm(0.0))],
        top: vec![EndPlane::sloped(mm(-25.0), DVec2::new(0.5, 0.0))],
    };
    let body = Body::new(swept, Frame::WORLD);
    assert_near(body.volume(), 50.0 * 25.0 / 2.0 * 40.0, 1e-4);
    assert_near(body.bounds.low.x, 50.0, 1e-5);
}

#[test]
fn openings_and_notches_split_into_few_pieces() {
    let plate = Profile::rectangle(mm(1000.0), mm(600.0))
        .with_opening(corners(&[
            [200.0, 100.0],
            [400.0, 100.0],
            [400.0, 300.0],
            [200.0, 300.0],
        ]))
        .with_opening(corners(&[[600.0, 200.0], [700.0, 200.0], [650.0, 400.0]]));
    let expected = plate.area() * 12.7;
    let body = Body::new(Swept::square(plate, mm(12.7)), Frame::WORLD);
    let volumes: f64 = body.pieces.iter().map(Convex::volume).sum();
    assert_near(volumes, expected, 1e-6);
    assert!(body.pieces.len() <= 8, "{} pieces", body.pieces.len());
    for (i, a) in body.pieces.iter().enumerate() {
        assert!(a.volume() > 0.0, "piece {i}");
    }
    let opening = block([250.0, 150.0, -50.0], [100.0, 100.0, 100.0]);
    assert!(overlap(&body, &opening).is_none());
    assert_near(gap(&body, &opening), 50.0, 1e-9);
}

#[test]
fn bounds_of_a_lying_pipe_and_an_elbow_are_exact() {
    let bounds = pipe(50.0, 0.0, 300.0, lying(10.0, 0.0, 0.0)).bounds;
    assert!(
        bounds
            .low
            .abs_diff_eq(DVec3::new(10.0, -50.0, -50.0), 1e-12)
    );
    assert!(
        bounds
            .high
            .abs_diff_eq(DVec3::new(310.0, 50.0, 50.0), 1e-12)
    );
    let bounds = elbow(50.0, 0.0, 120.0, 90.0, Frame::WORLD).bounds;
    assert!(bounds.low.abs_diff_eq(DVec3::new(-50.0, -50.0, 0.0), 1e-12));
    assert!(
        bounds
            .high
            .abs_diff_eq(DVec3::new(120.0, 50.0, 170.0), 1e-12)
    );
}

// ---- Overlap ----

#[test]
fn touching_is_not_overlap_and_a_64th_inside_is() {
    let sixty_fourth = Length::inches(1.0 / 64.0).to_mm();
    let stud = block([0.0; 3], [38.1, 88.9, 2400.0]);
    let beside = block([38.1, 0.0, 0.0], [38.1, 88.9, 2400.0]);
    assert!(overlap(&stud, &beside).is_none());
    let found = overlap(&stud, &beside.moved(DVec3::X * -sixty_fourth)).unwrap();
    assert_near(found.depth, sixty_fourth, 1e-9);
    assert_near(found.volume, sixty_fourth * 88.9 * 2400.0, 1e-4);
    assert!(overlap(&stud, &beside.moved(DVec3::X * -0.5e-6)).is_none());
}

#[test]
fn concentric_prisms_have_a_depth() {
    let outer = block([-50.0, -50.0, -200.0], [100.0, 100.0, 400.0]);
    let inner = block([-20.0, -30.0, -200.0], [40.0, 60.0, 400.0]);
    let found = overlap(&outer, &inner).unwrap();
    assert_near(found.volume, 40.0 * 60.0 * 400.0, 1e-4);
    assert_near(found.depth, 70.0, 1e-9);
}

#[test]
fn a_pipe_sunk_into_a_face_shares_a_circular_segment() {
    // CRC Standard Mathematical Tables: segment of a circle, R² acos((R − h)/R) − (R − h)√(2Rh − h²).
    let (radius, sunk, length) = (50.0_f64, 12.0_f64, 300.0);
    let tube = pipe(radius, 0.0, length, lying(0.0, 0.0, radius - sunk));
    let slab = block([-100.0, -200.0, -100.0], [600.0, 400.0, 100.0]);
    let segment =
        |r: f64, h: f64| r * r * ((r - h) / r).acos() - (r - h) * (2.0 * r * h - h * h).sqrt();
    let found = overlap(&tube, &slab).unwrap();
    assert_near(found.volume, segment(radius, sunk) * length, 1e-7);
    assert_near(found.depth, sunk, 1e-9);
    // With a bore of 45, the sunk part of the wall is the difference of two segments.
    let hollow = pipe(radius, 45.0, length, lying(0.0, 0.0, radius - sunk));
    let wall = segment(radius, sunk) - segment(45.0, sunk - 5.0);
    assert_near(overlap(&hollow, &slab).unwrap().volume, wall * length, 1e-7);
}

#[test]
fn a_cylindrical_hoof_has_its_handbook_volume() {
    // CRC Standard Mathematical Tables: a cylinder cut by a plane through a diameter of its base:
    // the hoof has the volume 2/3 R² h.
    let (radius, height) = (50.0, 80.0);
    let tube = pipe(radius, 0.0, height, Frame::WORLD);
    let swept = Swept {
        profile: Profile::polygon(corners(&[
            [0.0, -60.0],
            [60.0, -60.0],
            [60.0, 60.0],
            [0.0, 60.0],
        ])),
        bottom: vec![EndPlane::level(mm(-10.0))],
        top: vec![EndPlane::sloped(mm(0.0), DVec2::new(height / radius, 0.0))],
    };
    let found = overlap(&Body::new(swept, Frame::WORLD), &tube).unwrap();
    assert_near(found.volume, 2.0 / 3.0 * radius * radius * height, 1e-6);
}

#[test]
fn an_elbow_cut_by_planes_has_its_volume_by_pappus() {
    let bend = elbow(50.0, 40.0, 120.0, 90.0, Frame::WORLD);
    // The plane of the centre line halves it.
    let half = block([-100.0, 0.0, -100.0], [400.0, 200.0, 400.0]);
    assert_near(
        overlap(&bend, &half).unwrap().volume,
        bend.volume() / 2.0,
        1e-6 * bend.volume(),
    );
    // A wedge of 45° from the bend's axis halves it too.
    let wedge = Profile::polygon(corners(&[[120.0, 0.0], [-200.0, 320.0], [-200.0, 0.0]]));
    let frame = Frame::new(DVec3::Y * 60.0, DVec3::X, DVec3::Z);
    let wedge = Body::new(Swept::square(wedge, mm(120.0)), frame);
    assert_near(
        overlap(&bend, &wedge).unwrap().volume,
        bend.volume() / 2.0,
        1e-6 * bend.volume(),
    );
    // A slab off the plane of the centre line takes a segment whose centroid stays on the arc.
    let slab = block([-100.0, 45.0, -100.0], [400.0, 200.0, 400.0]);
    let segment = 2500.0 * (0.9_f64).acos() - 45.0 * (2500.0_f64 - 2025.0).sqrt();
    assert_near(
        overlap(&bend, &slab).unwrap().volume,
        segment * 120.0 * FRAC_PI_2,
        1e-3,
    );
}

#[test]
fn pipes_touch_at_ends_sides_and_bores() {
    let lower = pipe(50.0, 45.0, 300.0, Frame::WORLD);
    let upper = pipe(50.0, 45.0, 300.0, at(0.0, 0.0, 300.0));
    assert!(overlap(&lower, &upper).is_none());
    assert!(overlap(&lower, &pipe(45.0, 0.0, 900.0, at(0.0, 0.0, -300.0))).is_none());
    let beside = pipe(50.0, 0.0, 300.0, at(100.0, 0.0, 0.0));
    assert!(overlap(&lower, &beside).is_none());
    let solid = pipe(50.0, 0.0, 300.0, Frame::WORLD);
    assert_near(
        overlap(&solid, &beside.moved(DVec3::X * -0.4))
            .unwrap()
            .depth,
        0.4,
        1e-9,
    );
    let bend = elbow(50.0, 45.0, 120.0, 90.0, at(0.0, 0.0, 300.0));
    assert!(overlap(&lower, &bend).is_none());
    let run = pipe(50.0, 45.0, 300.0, lying(120.0, 0.0, 420.0));
    assert!(overlap(&bend, &run).is_none());
    assert_near(
        overlap(&bend, &run.moved(DVec3::X * -5.0)).unwrap().depth,
        5.0,
        1e-9,
    );
}

#[test]
fn crossing_pipes_share_the_steinmetz_solid() {
    // Archimedes, The Method: two equal cylinders crossing at right angles share 16/3 R³. One of
    // the two is faceted for this volume, so it is a little too small.
    let upright = pipe(50.0, 0.0, 400.0, at(0.0, 0.0, -200.0));
    let across = pipe(50.0, 0.0, 400.0, lying(-200.0, 0.0, 0.0));
    let found = overlap(&upright, &across).unwrap();
    let expected = 16.0 / 3.0 * 50.0_f64.powi(3);
    assert!(
        found.volume < expected && found.volume > 0.995 * expected,
        "{}",
        found.volume
    );
    assert_near(found.depth, 100.0, 1e-9);
}

// ---- Least distance ----

#[test]
fn boxes_apart_have_the_distance_of_their_corners() {
    let a = block([0.0; 3], [10.0; 3]);
    let b = block([13.0, 14.0, 22.0], [5.0; 3]);
    assert_near(gap(&a, &b), 13.0, 1e-12);
    assert_near(gap(&a, &block([10.0, 0.0, 0.0], [5.0; 3])), 0.0, 0.0);
}

#[test]
fn a_stud_beside_a_pipe_and_over_its_end() {
    let tube = pipe(50.0, 0.0, 300.0, Frame::WORLD);
    assert_near(
        gap(&tube, &block([80.0, -20.0, -500.0], [38.1, 88.9, 2000.0])),
        30.0,
        1e-9,
    );
    // Over the rim: 3 out and 4 up is 5 away.
    assert_near(
        gap(&tube, &block([53.0, -20.0, 304.0], [40.0; 3])),
        5.0,
        1e-9,
    );
    // Through a sheet, inside a block, and with an end in the air below a sheet.
    assert_near(
        gap(
            &tube,
            &block([-500.0, -500.0, 100.0], [1000.0, 1000.0, 12.7]),
        ),
        0.0,
        0.0,
    );
    assert_near(
        gap(
            &tube,
            &block([-500.0, -500.0, -500.0], [1000.0, 1000.0, 1000.0]),
        ),
        0.0,
        0.0,
    );
    assert_near(
        gap(
            &tube,
            &block([-500.0, -500.0, 310.0], [1000.0, 1000.0, 12.7]),
        ),
        10.0,
        1e-9,
    );
}

#[test]
fn an_elbow_near_studs() {
    let bend = elbow(50.0, 0.0, 120.0, 90.0, Frame::WORLD);
    // Outside the bend, facing its back at 45°: a stud square to that direction.
    let out = DVec3::new(-1.0, 0.0, 1.0).normalize();
    let across = DVec3::new(1.0, 0.0, 1.0).normalize();
    let face = DVec3::new(120.0, 0.0, 0.0) + out * (120.0 + 50.0 + 25.0);
    let stud = Swept::block(mm(40.0), mm(90.0), mm(1000.0));
    let frame = Frame::new(
        face - across * 500.0 - across.cross(out) * 45.0,
        out,
        across.cross(out),
    );
    assert_near(gap(&bend, &Body::new(stud, frame)), 25.0, 1e-9);
    // In the crook: an edge on the bend's axis is the bend's radius less the pipe's away.
    let crook = block([120.0, -200.0, -40.0], [40.0, 400.0, 40.0]);
    assert_near(gap(&bend, &crook), 70.0, 1e-9);
    // Over the far end, off the rim.
    let end = block([123.0, -10.0, 174.0], [40.0; 3]);
    assert_near(gap(&bend, &end), 5.0, 1e-9);
}

#[test]
fn pipes_apart_have_the_distance_of_their_lines_or_rims() {
    let upright = pipe(50.0, 0.0, 300.0, Frame::WORLD);
    let across = pipe(30.0, 0.0, 400.0, lying(-200.0, 120.0, 100.0));
    assert_near(gap(&upright, &across), 40.0, 1e-9);
    let above = pipe(30.0, 0.0, 300.0, at(10.0, 0.0, 325.0));
    assert_near(gap(&upright, &above), 25.0, 1e-9);
    let diagonal = pipe(30.0, 0.0, 300.0, at(83.0, 0.0, 304.0));
    assert_near(gap(&upright, &diagonal), 5.0, 1e-9);
    let bend = elbow(50.0, 0.0, 120.0, 90.0, at(0.0, 0.0, 310.0));
    assert_near(gap(&upright, &bend), 10.0, 1e-9);
}

// ---- Way out ----

#[test]
fn the_way_out_is_along_the_volumes_own_directions() {
    let volume = block([0.0; 3], [100.0, 200.0, 300.0]);
    let part = block([-30.0, 50.0, 50.0], [40.0, 40.0, 40.0]);
    let out = [Direction::Along(DVec3::X)];
    assert_near(exit(&part, &volume, &out), 130.0, 1e-9);
    let both = [Direction::Along(DVec3::X), Direction::Along(DVec3::NEG_X)];
    assert_near(exit(&part, &volume, &both), 10.0, 1e-9);
    let beside = block([-40.0, 50.0, 50.0], [40.0, 40.0, 40.0]);
    assert_near(exit(&beside, &volume, &both), 0.0, 0.0);
}

#[test]
fn the_way_out_stops_at_the_first_free_place() {
    // A part of two blocks 200 apart: the volume fits between them.
    let profile = Profile::polygon(corners(&[
        [0.0, 0.0],
        [300.0, 0.0],
        [300.0, 100.0],
        [250.0, 100.0],
        [250.0, 20.0],
        [50.0, 20.0],
        [50.0, 100.0],
        [0.0, 100.0],
    ]));
    let part = Body::new(Swept::square(profile, mm(100.0)), Frame::WORLD);
    let volume = block([30.0, 40.0, 0.0], [60.0, 20.0, 100.0]);
    let back = [Direction::Along(DVec3::NEG_X)];
    assert_near(exit(&part, &volume, &back), 20.0, 1e-9);
    let up = [Direction::Along(DVec3::Z)];
    assert_near(exit(&part, &volume, &up), 100.0, 1e-9);
}

#[test]
fn the_way_out_of_a_pipes_clearance_is_radial() {
    let volume = pipe(75.0, 0.0, 300.0, Frame::WORLD);
    let radial = [Direction::Radial];
    let stud = block([60.0, -20.0, -100.0], [38.1, 88.9, 1000.0]);
    assert_near(exit(&stud, &volume, &radial), 15.0, 1e-9);
    // A corner toward the pipe.
    let corner = block([30.0, 40.0, 100.0], [50.0; 3]);
    assert_near(exit(&corner, &volume, &radial), 25.0, 1e-9);
    // The centre line passes through, 10 inside the nearest face.
    let through = block([-10.0, -300.0, 100.0], [200.0, 600.0, 50.0]);
    assert_near(exit(&through, &volume, &radial), 85.0, 1e-9);
    assert_near(
        exit(&block([75.0, 0.0, 0.0], [10.0; 3]), &volume, &radial),
        0.0,
        0.0,
    );
    let bend = elbow(75.0, 0.0, 200.0, 90.0, Frame::WORLD);
    let beside = block([0.0, 60.0, 0.0], [300.0, 40.0, 300.0]);
    assert_near(exit(&beside, &bend, &radial), 15.0, 1e-9);
    let crossing = block([0.0, -60.0, 0.0], [300.0, 400.0, 300.0]);
    assert_near(exit(&crossing, &bend, &radial), 75.0, 1e-9);
}

#[test]
fn a_pipe_leaves_a_box_by_its_radius() {
    let volume = block([0.0, -200.0, -200.0], [100.0, 400.0, 400.0]);
    let tube = pipe(50.0, 0.0, 300.0, at(120.0, 0.0, -150.0));
    let out = [Direction::Along(DVec3::X)];
    assert_near(exit(&tube, &volume, &out), 30.0, 2e-6);
}

// ---- Contact ----

#[test]
fn faces_that_touch_share_their_common_area() {
    let sole = block([0.0, 0.0, 0.0], [1000.0, 88.9, 38.1]);
    let stud = block([100.0, 0.0, 38.1], [38.1, 88.9, 2000.0]);
    let found = contact(&stud, &sole).unwrap();
    assert_near(found.area, 38.1 * 88.9, 1e-9);
    assert!(found.normal.abs_diff_eq(DVec3::NEG_Z, 1e-12));
    assert!(
        found
            .center
            .abs_diff_eq(DVec3::new(119.05, 44.45, 38.1), 1e-9)
    );
    assert!(found.low.abs_diff_eq(DVec3::new(100.0, 0.0, 38.1), 1e-9));
    assert!(found.high.abs_diff_eq(DVec3::new(138.1, 88.9, 38.1), 1e-9));
    // Only an edge, only a corner, and a 64th apart share nothing.
    assert!(contact(&stud, &block([138.1, 88.9, 0.0], [50.0, 50.0, 3000.0])).is_none());
    assert!(contact(&stud.moved(DVec3::Z * 0.396_875), &sole).is_none());
}

#[test]
fn a_raked_stud_touches_the_plate_it_is_cut_to() {
    let slope = DVec2::new(0.25, -0.1);
    let plane = EndPlane::sloped(mm(2000.0), slope);
    let stud = Swept {
        profile: Profile::rectangle(mm(38.1), mm(88.9)),
        bottom: vec![EndPlane::level(mm(0.0))],
        top: vec![plane],
    };
    let plate = Swept {
        profile: Profile::rectangle(mm(500.0), mm(88.9)),
        bottom: vec![EndPlane::sloped(mm(2000.0 - 25.0), slope)],
        top: vec![EndPlane::sloped(mm(2050.0), slope)],
    };
    let turn = Frame::new(
        DVec3::new(700.0, -300.0, 0.0),
        DVec3::new(0.5_f64.sqrt(), 0.5_f64.sqrt(), 0.0),
        DVec3::new(-(0.5_f64.sqrt()), 0.5_f64.sqrt(), 0.0),
    );
    let stud = Body::new(stud, turn);
    let plate = Body::new(plate, turn.place(&at(-100.0, 0.0, 0.0)));
    assert!(overlap(&stud, &plate).is_none());
    let found = contact(&stud, &plate).unwrap();
    // The level area grows by √(1 + rise² along x + rise² along y).
    assert_near(
        found.area,
        38.1 * 88.9 * (1.0 + 0.0625 + 0.01_f64).sqrt(),
        1e-6,
    );
}

#[test]
fn pipes_touch_over_rings_strips_and_bores() {
    let lower = pipe(50.0, 45.0, 300.0, Frame::WORLD);
    let bend = elbow(50.0, 45.0, 120.0, 90.0, at(0.0, 0.0, 300.0));
    let ring = PI * (2500.0 - 2025.0);
    assert_near(contact(&lower, &bend).unwrap().area, ring, 1e-6);
    let plate = block([-500.0, -500.0, -10.0], [1000.0, 1000.0, 10.0]);
    assert_near(contact(&plate, &lower).unwrap().area, ring, 1e-6);
    let half = block([0.0, -500.0, -10.0], [1000.0, 1000.0, 10.0]);
    assert_near(contact(&half, &lower).unwrap().area, ring / 2.0, 1e-6);
    let wall = block([50.0, -20.0, 100.0], [10.0, 40.0, 50.0]);
    let strip = contact(&lower, &wall).unwrap();
    assert!(strip.normal.abs_diff_eq(DVec3::X, 1e-12));
    assert_near(strip.area, 50.0 * 2.0 * (100.0 * TOLERANCE).sqrt(), 1e-9);
    let sleeve = pipe(60.0, 50.0, 40.0, at(0.0, 0.0, 20.0));
    assert_near(
        contact(&lower, &sleeve).unwrap().area,
        2.0 * PI * 50.0 * 40.0,
        1e-6,
    );
    assert!(contact(&lower, &wall.moved(DVec3::X)).is_none());
}

// ---- Properties on random pairs ----

/// The same random cases on every run.
fn settings(cases: u32) -> ProptestConfig {
    ProptestConfig {
        cases,
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
    #![proptest_config(settings(300))]

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
    fn shared_volumes_agree_with_counted_points(tube in prop_oneof![straight_tubes(60.0), bends(60.0)], other in convex_bodies(60.0)) {
        let found = overlap(&tube, &other).map_or(0.0, |found| found.volume);
        let size = other.bounds.size();
        let steps = 40;
        let mut inside = 0_u32;
        for i in 0..steps { for j in 0..steps { for k in 0..steps {
            let part = DVec3::new(f64::from(i), f64::from(j), f64::from(k)) + 0.5;
            let point = other.bounds.low + size * part / f64::from(steps);
            let in_other = other.pieces[0].faces.iter().all(|face| face.plane.height(point) < 0.0);
            inside += u32::from(in_other && outside_bend(&tube, point) <= 0.0);
        }}}
        let counted = f64::from(inside) * size.element_product() / f64::from(steps).powi(3);
        prop_assert!((counted - found).abs() < 0.02 * other.volume() + 50.0, "counted {counted}, found {found}");
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
        for _ in 0..25 {
            let better = grid(patch, middle, half, 3);
            (best, middle) = if better.0 < best {
                better
            } else {
                (best, middle)
            };
            half *= 0.6;
        }
        least = least.min(best);
    }
    least
}
