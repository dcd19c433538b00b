//! The exact queries against formulas from outside the project, and at their boundaries. Sizes are
//! invented, in millimetres.

use std::f64::consts::{FRAC_PI_2, PI};

use chasewright::geom::{
    Body, Bore, Convex, Direction, EndPlane, Frame, Profile, Swept, TOLERANCE, Tube, common,
    contact, exit, gap, overlap, overlaps,
};
use chasewright::units::{Angle, Length};
use glam::{DVec2, DVec3};

use crate::support::assert_near;

pub(crate) fn mm(value: f64) -> Length {
    Length::mm(value)
}

fn block(low: [f64; 3], size: [f64; 3]) -> Body {
    let [x, y, z] = size.map(mm);
    Body::new(Swept::block(x, y, z), Frame::at(DVec3::from(low)))
}

pub(crate) fn pipe(radius: f64, inner: f64, length: f64, frame: Frame) -> Body {
    Body::new(Tube::straight(mm(radius), mm(inner), mm(length)), frame)
}

pub(crate) fn elbow(radius: f64, inner: f64, bend: f64, degrees: f64, frame: Frame) -> Body {
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

pub(crate) fn corners(points: &[[f64; 2]]) -> Vec<DVec2> {
    points.iter().map(|p| DVec2::from(*p)).collect()
}

// ---- Volume, bounds and pieces ----

/// A flue within its pipe: a ring along the way that both go; of bends by the second theorem of Pappus (CRC Standard
/// Mathematical Tables, mensuration).
#[test]
fn pipes_about_one_line_share_a_ring() {
    let around = [
        |radius, inner| pipe(radius, inner, 300.0, lying(10.0, 20.0, 30.0)),
        |radius, inner| elbow(radius, inner, 150.0, 45.0, lying(10.0, 20.0, 30.0)),
    ];
    let ways = [300.0, 150.0 * std::f64::consts::FRAC_PI_4];
    for (tube, way) in around.iter().zip(ways) {
        assert!(overlap(&tube(80.0, 79.0), &tube(50.0, 49.0)).is_none());
        assert!(overlap(&tube(80.0, 79.0), &tube(79.0, 50.0)).is_none());
        for (a, b) in [
            (tube(80.0, 79.0), tube(79.5, 50.0)),
            (tube(79.5, 50.0), tube(80.0, 79.0)),
        ] {
            let ring = PI * (79.5 * 79.5 - 79.0 * 79.0);
            let shared = overlap(&a, &b).expect("half a millimeter is shared");
            assert_near(shared.volume, ring * way, 1e-6);
        }
    }
    // along one line, one beginning within the other
    let later = pipe(79.5, 50.0, 300.0, lying(210.0, 20.0, 30.0));
    let shared = overlap(&around[0](80.0, 79.0), &later).expect("100 mm of ring");
    let ring = PI * (79.5 * 79.5 - 79.0 * 79.0);
    assert_near(shared.volume, ring * 100.0, 1e-6);
}

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
        bores: Vec::new(),
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
        bores: Vec::new(),
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
        bores: Vec::new(),
    };
    let body = Body::new(swept, Frame::WORLD);
    assert_near(body.volume(), 50.0 * 25.0 / 2.0 * 40.0, 1e-4);
    assert_near(body.bounds.low.x, 50.0, 1e-5);
}

/// A dart, point to the left, falls into prisms over triangles: 6 corners, 5 faces, 9 edges each, as Euler's formula has
/// it (6 − 9 + 5 = 2).
#[test]
fn a_dart_falls_into_prisms_without_a_corner_too_many() {
    let dart = corners(&[[0.0, 0.0], [100.0, -60.0], [60.0, 0.0], [100.0, 60.0]]);
    for way in [1.0, -1.0] {
        let outline = dart.iter().map(|it| *it * way).collect();
        let body = Swept::square(Profile::polygon(outline), mm(12.0));
        let body = Body::new(body, Frame::WORLD);
        assert!(body.pieces.len() > 1);
        for piece in &body.pieces {
            let (corners, sides) = (piece.vertices.len(), piece.faces.len());
            assert_eq!(corners + sides, piece.edges.len() + 2, "{piece:?}");
            for (i, a) in piece.vertices.iter().enumerate() {
                let apart = |b: &DVec3| a.distance(*b) > TOLERANCE;
                assert!(piece.vertices[..i].iter().all(apart), "{piece:?}");
            }
        }
    }
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

/// A post of 100 x 100, bored along x, 50 up, 25 in radius.
fn bored_post() -> Body {
    let bore = Bore {
        start: DVec3::new(0.0, 50.0, 50.0),
        end: DVec3::new(100.0, 50.0, 50.0),
        radius: 25.0,
    };
    let post = Swept {
        bores: vec![bore],
        ..Swept::block(mm(100.0), mm(100.0), mm(500.0))
    };
    Body::new(post, Frame::WORLD)
}

/// What is in a bore is in nothing, up to the very width of the bore, and wherever else it goes.
#[test]
fn what_passes_through_a_bore_overlaps_nothing() {
    let post = bored_post();
    let through = |radius: f64, up: f64| {
        let frame = Frame::new(DVec3::new(-50.0, 50.0, up), DVec3::Y, DVec3::Z);
        overlap(&pipe(radius, 0.0, 300.0, frame), &post)
    };
    assert!(through(25.0, 50.0).is_none());
    assert!(through(15.0, 60.0).is_none());
    assert!(through(15.01, 60.0).is_some());
    // wider by 1 mm: a ring, less the little that the facets of its inside leave of the bore
    let ring = through(26.0, 50.0).unwrap().volume;
    assert_near(ring / (PI * (26.0 * 26.0 - 25.0 * 25.0) * 100.0), 1.0, 0.05);
    let other_way = Frame::new(DVec3::new(50.0, -50.0, 50.0), DVec3::Z, DVec3::X);
    let crossing = overlap(&pipe(10.0, 0.0, 300.0, other_way), &post).unwrap();
    assert!(crossing.volume < PI * 100.0 * 60.0, "{}", crossing.volume);
    assert!(crossing.volume > PI * 100.0 * 50.0, "{}", crossing.volume);
}

/// A panel of 60 x 60 across the bore, 20 of it in the post; a stick of 30 x 30 in the bore, and one half in it.
#[test]
fn a_bore_is_taken_off_what_lies_across_it() {
    let post = bored_post();
    let panel = block([-20.0, 20.0, 20.0], [40.0, 60.0, 60.0]);
    let shared = overlap(&panel, &post).unwrap().volume;
    assert_near(shared, (60.0 * 60.0 - PI * 25.0 * 25.0) * 20.0, 1e-3);
    let stick = block([-50.0, 35.0, 35.0], [200.0, 30.0, 30.0]);
    assert!(overlap(&stick, &post).is_none());
    assert!(!overlaps(&stick, &post));
    // over the bore's middle: half of the bore is in it
    let over = block([-50.0, 20.0, 50.0], [200.0, 60.0, 40.0]);
    let shared = overlap(&over, &post).unwrap().volume;
    assert_near(shared, (60.0 * 40.0 - PI * 25.0 * 25.0 / 2.0) * 100.0, 1e-3);
    assert_near(
        post.volume(),
        100.0 * 100.0 * 500.0 - PI * 25.0 * 25.0 * 100.0,
        1e-6,
    );
}

/// The farthest corner of a box is the farthest of its eight.
#[test]
fn a_box_reaches_as_far_as_its_farthest_corner() {
    let bounds = block([-30.0, 20.0, 5.0], [40.0, 15.0, 300.0]).bounds;
    for way in [
        DVec3::new(0.6, 0.0, 0.8),
        DVec3::new(-0.48, 0.64, -0.6),
        DVec3::NEG_Y,
    ] {
        let corners = (0..8).map(|it| {
            let high = [1, 2, 4].map(|axis| it & axis != 0);
            DVec3::select(glam::BVec3::from_array(high), bounds.high, bounds.low)
        });
        let farthest = corners
            .map(|it| it.dot(way))
            .fold(f64::NEG_INFINITY, f64::max);
        assert_near(bounds.reach(way), farthest, 1e-12);
    }
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
        bores: Vec::new(),
    };
    let found = overlap(&Body::new(swept, Frame::WORLD), &tube).unwrap();
    assert_near(found.volume, 2.0 / 3.0 * radius * radius * height, 1e-6);
}

/// A bar under a level top and over two planes that rise by `m`, one to the right and one inward: they meet in an
/// edge that runs through the bar at a slant. By hand: over a disc, |u| along any diameter sums to 4/3 R³, and
/// max(x, y) = (x + y)/2 + |x − y|/2, so that the volume is π R² H − m · 2√2/3 · R³.
#[test]
fn an_edge_through_a_bar_at_a_slant_leaves_its_exact_volume() {
    let (radius, height, rise) = (50.0_f64, 100.0, 0.8);
    let tube = pipe(radius, 0.0, 400.0, at(0.0, 0.0, -200.0));
    let planes = [DVec2::X, DVec2::Y].map(|way| EndPlane::sloped(mm(0.0), way * rise));
    let swept = Swept {
        profile: Profile::polygon(corners(&[
            [-60.0, -60.0],
            [60.0, -60.0],
            [60.0, 60.0],
            [-60.0, 60.0],
        ])),
        bottom: planes.to_vec(),
        top: vec![EndPlane::level(mm(height))],
        bores: Vec::new(),
    };
    let expected =
        PI * radius * radius * height - rise * 2.0 * 2.0_f64.sqrt() / 3.0 * radius.powi(3);
    let found = overlap(&Body::new(swept, Frame::WORLD), &tube).unwrap();
    assert_near(found.volume, expected, 1e-3);
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
        bores: Vec::new(),
    };
    let plate = Swept {
        profile: Profile::rectangle(mm(500.0), mm(88.9)),
        bottom: vec![EndPlane::sloped(mm(2000.0 - 25.0), slope)],
        top: vec![EndPlane::sloped(mm(2050.0), slope)],
        bores: Vec::new(),
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
    // two bars end on end, moved apart by their radius: r² (2π/3 − √3/2), the area that two circles have in common
    // when each goes through the other's middle (textbook formula, from memory)
    let bar = pipe(50.0, 0.0, 300.0, Frame::WORLD);
    let other = pipe(50.0, 0.0, 300.0, at(50.0, 0.0, 300.0));
    let lens = 2500.0 * (2.0 * PI / 3.0 - 3.0_f64.sqrt() / 2.0);
    assert_near(contact(&bar, &other).unwrap().area, lens, 1e-6);
}

#[test]
fn what_a_tight_bend_shares_looks_somewhere_everywhere() {
    // As tight as it can be: the inside of the bend is a point.
    let bend = elbow(50.0, 40.0, 50.0, 90.0, Frame::WORLD);
    let shared = common(&bend, &block([-100.0, -100.0, 0.0], [200.0, 200.0, 60.0]));
    assert!(!shared.triangles.is_empty());
    for normal in shared.normals {
        assert!((normal.length() - 1.0).abs() < 1e-9, "{normal}");
    }
}
