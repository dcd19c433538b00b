//! Meshes and boundaries of every shape against exact formulas: closed, outward, and no larger than needed.

use std::collections::BTreeMap;
use std::f64::consts::PI;

use chasewright::design::{self, Design};
use chasewright::geom::{
    Body, EndPlane, Frame, Mesh, Plane, Profile, Shape, ShapeKey, Swept, Tube,
};
use chasewright::solids::{Fault, Solid, Solids};
use chasewright::units::{Angle, Length};
use glam::{DVec2, DVec3};
use proptest::prelude::*;

use crate::generate::random_params;
use crate::samples;
use crate::support::{assert_near, seeds};

/// Every edge of a closed, oriented mesh is run once in each direction.
fn assert_closed(mesh: &Mesh) {
    let mut runs: BTreeMap<(usize, usize), usize> = BTreeMap::new();
    for triangle in &mesh.triangles {
        let [a, b, c] = triangle.corners;
        for edge in [(a, b), (b, c), (c, a)] {
            *runs.entry(edge).or_default() += 1;
        }
    }
    for ((a, b), count) in &runs {
        assert_eq!(*count, 1, "edge {a}-{b} is run {count} times");
        assert!(runs.contains_key(&(*b, *a)), "edge {a}-{b} is open");
    }
    let used: Vec<usize> = runs.keys().map(|(a, _)| *a).collect();
    for vertex in 0..mesh.vertices.len() {
        assert!(used.contains(&vertex), "vertex {vertex} is unused");
    }
}

/// Every triangle looks the same way as the true surface at its corners.
///
/// A sliver of no area, of three corners in a line, may look either way.
fn assert_outward(mesh: &Mesh) {
    for triangle in &mesh.triangles {
        let [a, b, c] = triangle.corners.map(|corner| mesh.vertices[corner]);
        let square = (b - a).cross(c - a);
        // corners on one line, a millionth of a micrometer off it, look no way at all
        let longest = (b - a).length().max((c - a).length()).max(1.0);
        for normal in triangle.normals {
            let outward = square.dot(mesh.normals[normal]);
            let least = -1e-6_f64.max(1e-9 * longest);
            assert!(outward >= least, "{a} {b} {c} looks inward by {outward}");
        }
    }
}

fn mesh(shape: &Shape) -> Mesh {
    Mesh::new(shape, Mesh::CHORD_ERROR)
}

#[test]
fn every_sample_is_closed_and_has_its_exact_volume() {
    for sample in [samples::shapes(), samples::overlapping()] {
        let Design {
            parts, clearances, ..
        } = &sample.design;
        let parts = parts.iter().map(|part| (&part.id, &part.body));
        let volumes = clearances
            .iter()
            .map(|clearance| (&clearance.id, &clearance.body));
        for (id, body) in parts.chain(volumes) {
            let exact = sample.volumes[id];
            let mesh = mesh(&body.shape);
            assert_closed(&mesh);
            assert_outward(&mesh);
            let error = match &body.shape {
                // the facets of a bore leave a little more
                Shape::Swept(swept) if !swept.bores.is_empty() => 1e-3,
                Shape::Swept(_) => 1e-9,
                Shape::Tube(tube) => chord_volume_error(tube),
            };
            assert_near(mesh.volume() / exact, 1.0, error);
        }
    }
}

/// How much of a tube's volume its mesh may miss: the wall moves by the chord error at most.
fn chord_volume_error(tube: &Tube) -> f64 {
    let error = Mesh::CHORD_ERROR.to_mm();
    2.0 * error * (tube.outer + tube.inner) / (tube.outer.powi(2) - tube.inner.powi(2))
}

#[test]
fn a_box_has_12_triangles_and_12_edges() {
    let block = Swept::block(Length::mm(38.1), Length::mm(88.9), Length::mm(2286.0));
    let mesh = mesh(&block.into());
    assert_eq!(mesh.triangles.len(), 12);
    assert_eq!(mesh.edges.len(), 12);
    assert_eq!(mesh.vertices.len(), 8);
}

#[test]
fn a_sheet_has_as_many_triangles_as_eulers_formula_asks_for() {
    // A polygon with n corners and h holes takes n + 2h − 2 triangles (Euler), and each side face two.
    let opening = |x: f64| {
        vec![
            DVec2::new(x, 100.0),
            DVec2::new(x + 50.0, 100.0),
            DVec2::new(x + 50.0, 200.0),
            DVec2::new(x, 200.0),
        ]
    };
    let profile = Profile::rectangle(Length::mm(1000.0), Length::mm(300.0))
        .with_opening(opening(100.0))
        .with_opening(opening(400.0))
        .with_opening(opening(700.0));
    let mesh = mesh(&Swept::square(profile, Length::mm(12.0)).into());
    assert_closed(&mesh);
    assert_eq!(mesh.triangles.len(), 2 * (16 + 2 * 3 - 2) + 2 * 16);
}

#[test]
fn a_pipe_has_no_rings_along_its_axis() {
    let pipe = |length| Tube::straight(Length::mm(85.0), Length::mm(84.0), Length::mm(length));
    let short = mesh(&pipe(10.0).into()).triangles.len();
    let long = mesh(&pipe(5000.0).into()).triangles.len();
    assert_eq!(short, long);
}

#[test]
fn the_chord_error_holds_and_is_used() {
    // Sagitta of a chord over an angle of 2a: r (1 − cos a).
    for (radius, error) in [(85.0, 0.1), (85.0, 1.0), (10.0, 0.1), (300.0, 0.01)] {
        let bar = Tube::straight(Length::mm(radius), Length::ZERO, Length::mm(1.0));
        let mesh = Mesh::new(&bar.into(), Length::mm(error));
        let count = mesh.edges.len() / 2;
        let sagitta = |count: usize| radius * (1.0 - (PI / count as f64).cos());
        assert!(sagitta(count) <= error);
        assert!(
            count <= 12 || sagitta(count - 4) > error,
            "{count} chords are more than needed"
        );
    }
}

#[test]
fn a_bends_mesh_lies_within_the_chord_error_of_the_torus() {
    let (outer, bend, error) = (85.0, 150.0, 0.1);
    let tube = Tube::bend(
        Length::mm(outer),
        Length::ZERO,
        Length::mm(bend),
        Angle::degrees(90.0),
    );
    let mesh = Mesh::new(&tube.into(), Length::mm(error));
    let walls = mesh
        .triangles
        .iter()
        .filter(|t| t.normals[0] != t.normals[1]);
    for triangle in walls {
        let [a, b, c] = triangle.corners.map(|corner| mesh.vertices[corner]);
        for point in [
            a,
            (a + b) / 2.0,
            (a + c) / 2.0,
            (b + c) / 2.0,
            (a + b + c) / 3.0,
        ] {
            let ring = (point.x - bend).hypot(point.z) - bend;
            let distance = ring.hypot(point.y) - outer;
            assert!(distance.abs() <= error, "{distance} off the torus");
        }
    }
}

#[test]
fn what_has_no_volume_is_refused_by_name() {
    let nothing = Swept {
        bottom: vec![EndPlane::level(Length::mm(10.0))],
        ..Swept::block(Length::mm(10.0), Length::mm(10.0), Length::mm(5.0))
    };
    let mut sample = samples::overlapping();
    sample.design.parts[2].body = Body::new(nothing, Frame::WORLD);
    let error = Solids::new(&sample.design, Mesh::CHORD_ERROR).unwrap_err();
    assert_eq!(
        (error.part.as_str(), &error.fault),
        ("a/stud/3", &Fault::Empty)
    );
    // no outside, no length, walls that meet
    for (outer, inner, length) in [(0.0, 0.0, 10.0), (5.0, 0.0, 0.0), (5.0, 5.0, 10.0)] {
        let nothing = Tube::straight(Length::mm(outer), Length::mm(inner), Length::mm(length));
        assert_eq!(mesh(&nothing.into()), Mesh::default(), "{nothing:?}");
    }
}

#[test]
fn a_profile_that_runs_the_wrong_way_is_refused() {
    let mut block = Swept::block(Length::mm(10.0), Length::mm(10.0), Length::mm(5.0));
    block.profile.outline.reverse();
    let fault = Solid::new(&block.into(), Mesh::CHORD_ERROR).unwrap_err();
    assert_eq!(fault, Fault::InsideOut);
}

#[test]
fn shapes_are_one_when_their_sizes_agree_to_a_millionth() {
    let stud = |length: f64| -> Shape {
        Swept::block(Length::inches(1.5), Length::inches(3.5), Length::mm(length)).into()
    };
    assert_eq!(
        ShapeKey::from(&stud(2286.0)),
        ShapeKey::from(&stud(2286.0 + 2e-7))
    );
    assert_ne!(
        ShapeKey::from(&stud(2286.0)),
        ShapeKey::from(&stud(2286.0 + 2e-6))
    );
    let sample = samples::shapes();
    let solids = Solids::new(&sample.design, Mesh::CHORD_ERROR).unwrap();
    let places: Vec<usize> = sample
        .design
        .parts
        .iter()
        .zip(&solids.parts)
        .filter(|(part, _)| part.id.starts_with("front/stud/"))
        .map(|(_, placed)| placed.shape)
        .collect();
    assert_eq!(places.len(), 5);
    assert!(places.iter().all(|place| *place == places[0]));
}

/// Openings on a coarse grid, so that their corners line up as often as possible.
fn sheet_with_openings() -> impl Strategy<Value = (Swept, f64)> {
    let cells = proptest::collection::vec(any::<bool>(), 25);
    (cells, -0.3..0.3_f64, -0.3..0.3_f64).prop_map(|(cells, x, y)| {
        let size = 150.0;
        let mut profile = Profile::rectangle(Length::mm(size * 5.0), Length::mm(size * 5.0));
        let mut area = 25.0 * size * size;
        for (cell, _) in cells.iter().enumerate().filter(|(_, open)| **open) {
            let low = DVec2::new((cell % 5) as f64, (cell / 5) as f64) * size + 30.0;
            let high = low + 90.0;
            profile = profile.with_opening(vec![
                low,
                DVec2::new(high.x, low.y),
                high,
                DVec2::new(low.x, high.y),
            ]);
            area -= 90.0 * 90.0;
        }
        let plane = |height| EndPlane::sloped(Length::mm(height), DVec2::new(x, y));
        let swept = Swept {
            profile,
            bottom: vec![plane(0.0)],
            top: vec![plane(15.0)],
            bores: Vec::new(),
        };
        (swept, area * 15.0)
    })
}

/// A rectangle between level floor and several random planes that all clear it.
fn stick_with_planes() -> impl Strategy<Value = Swept> {
    let plane = (50.0..120.0_f64, -0.8..0.8_f64, -0.8..0.8_f64)
        .prop_map(|(height, x, y)| EndPlane::sloped(Length::mm(height), DVec2::new(x, y)));
    proptest::collection::vec(plane, 1..4).prop_map(|top| Swept {
        top,
        ..Swept::block(Length::mm(38.1), Length::mm(88.9), Length::ZERO)
    })
}

/// Volume under the lowest plane by a fine grid of columns, as a reckoning of another kind.
fn columns(swept: &Swept) -> f64 {
    let steps = 400_u32;
    let (width, depth) = (38.1, 88.9);
    let mut sum = 0.0;
    for column in 0..steps * steps {
        let share = DVec2::new(f64::from(column % steps), f64::from(column / steps)) + 0.5;
        let point = share / f64::from(steps) * DVec2::new(width, depth);
        let heights = swept.top.iter().map(|plane| plane.z(point));
        sum += heights.fold(f64::INFINITY, f64::min).max(0.0);
    }
    sum * width * depth / f64::from(steps * steps)
}

proptest! {
    #[test]
    fn sheets_are_closed_whatever_lines_up((swept, exact) in sheet_with_openings()) {
        let corners: usize = swept.profile.loops().map(<[_]>::len).sum();
        let openings = swept.profile.openings.len();
        let shape = Shape::from(swept);
        let mesh = mesh(&shape);
        assert_closed(&mesh);
        assert_near(mesh.volume() / exact, 1.0, 1e-9);
        prop_assert_eq!(mesh.triangles.len(), 2 * (corners + 2 * openings - 2) + 2 * corners);
        prop_assert!(Solid::new(&shape, Mesh::CHORD_ERROR).is_ok());
    }

    #[test]
    fn sticks_under_several_planes_have_the_volume_of_their_columns(swept in stick_with_planes()) {
        let expected = columns(&swept);
        let shape = Shape::from(swept);
        let mesh = mesh(&shape);
        assert_closed(&mesh);
        assert_near(mesh.volume() / expected, 1.0, 1e-3);
        prop_assert!(Solid::new(&shape, Mesh::CHORD_ERROR).is_ok());
    }
}

/// A flight of steps whose inner corners lie on one line, but for the last digit of a number.
#[test]
fn steps_on_a_line_make_a_closed_mesh() {
    for shift in 0..400 {
        let left = f64::from(shift) * 3.175;
        let corner = |right: f64, up: f64| DVec2::new(left + right * 25.4, up * 25.4);
        let mut outline = vec![corner(0.0, 30.5), corner(11.0, 30.5)];
        for (from, to, height) in [
            (8.0, 11.0, 50.5),
            (5.0, 8.0, 46.5),
            (2.5, 5.0, 42.5),
            (0.0, 2.5, 39.5),
        ] {
            outline.extend([corner(to, height), corner(from, height)]);
        }
        let shape = Shape::from(Swept::square(Profile::polygon(outline), Length::mm(100.0)));
        let mesh = mesh(&shape);
        assert_closed(&mesh);
        // 3 × 20 + 3 × 16 + 2.5 × 12 + 2.5 × 9 = 160.5 square inches, 100 mm long
        assert_near(mesh.volume() / (160.5 * 25.4 * 25.4 * 100.0), 1.0, 1e-9);
    }
}

/// Corners on the straight sides of a turned sheet, off the line by a rounding, make no slivers. They lie on a
/// grid, and no triangle over points of a grid is smaller than half a cell (Pick's theorem).
#[test]
fn corners_on_a_line_make_no_slivers() {
    const CELL: f64 = 10.0;
    let corners = [
        (0, 0),
        (7, 0),
        (11, 0),
        (30, 0),
        (30, 9),
        (30, 20),
        (24, 20),
        (5, 20),
        (0, 20),
        (0, 13),
        (0, 4),
    ];
    for turn in 0..90 {
        let way = DVec2::from_angle(f64::from(turn).to_radians());
        let outline =
            corners.map(|(x, y)| way.rotate(CELL * DVec2::new(f64::from(x), f64::from(y))));
        let profile = Profile::polygon(outline.to_vec());
        let mesh = mesh(&Swept::square(profile, Length::mm(12.0)).into());
        assert_closed(&mesh);
        for triangle in &mesh.triangles {
            let [a, b, c] = triangle.corners.map(|corner| mesh.vertices[corner]);
            let area = (b - a).cross(c - a).length() / 2.0;
            assert!(area > 0.499 * CELL * CELL, "turned by {turn}°: {a} {b} {c}");
        }
    }
}

#[test]
fn random_designs_are_made_of_proper_solids() {
    let faults: Vec<String> = seeds(0..1000)
        .filter_map(|seed| {
            let design = design::design(&random_params(seed));
            let error = Solids::new(&design, Mesh::CHORD_ERROR).err()?;
            let body = design.parts.iter().map(|it| (&it.id, &it.body));
            let volumes = design.clearances.iter().map(|it| (&it.id, &it.body));
            let body = body.chain(volumes).find(|(id, _)| **id == error.part);
            Some(format!("seed {seed}: {error}: {:?}", body.unwrap().1.shape))
        })
        .collect();
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// What a mesh has below a plane and what it has above it make up the whole, and both are closed.
fn assert_cut(mesh: &Mesh, plane: &Plane) {
    let above = Plane {
        normal: -plane.normal,
        offset: -plane.offset,
    };
    let halves = [mesh.below(plane), mesh.below(&above)];
    let whole = mesh.volume();
    for half in &halves {
        assert_closed(half);
        assert_outward(half);
    }
    assert_near(
        halves.iter().map(Mesh::volume).sum::<f64>() / whole,
        1.0,
        1e-9,
    );
}

#[test]
fn a_pipe_cut_lengthwise_is_two_closed_halves() {
    let pipe = Tube::straight(Length::mm(50.0), Length::mm(40.0), Length::mm(300.0)).into();
    let mesh = mesh(&pipe);
    let plane = Plane::through(DVec3::ZERO, DVec3::X);
    assert_cut(&mesh, &plane);
    assert_near(mesh.below(&plane).volume() / mesh.volume(), 0.5, 1e-9);
}

/// Each ring keeps its own opening.
#[test]
fn a_return_bend_is_cut_into_two_rings() {
    let (outer, inner, radius) = (Length::mm(50.0), Length::mm(40.0), Length::mm(120.0));
    let mesh = mesh(&Tube::bend(outer, inner, radius, Angle::degrees(180.0)).into());
    for height in [1.0, 20.0, 45.0] {
        assert_cut(&mesh, &Plane::through(DVec3::Z * height, DVec3::Z));
        let slanted = DVec3::new(0.1, 0.0, 1.0).normalize();
        assert_cut(&mesh, &Plane::through(DVec3::Z * height, slanted));
    }
}

#[test]
fn a_panel_is_cut_through_its_own_tip() {
    let outline = [
        (273.050_000_000_000_07, -976.949_999_999_999_9),
        (747.162_499_999_999_9, -976.949_999_999_999_9),
        (747.162_499_999_999_9, -1250.0),
        (1752.8375, -1250.0),
        (1752.8375, -976.949_999_999_999_9),
        (2226.95, -976.949_999_999_999_8),
        (1250.0, -0.0),
    ];
    let profile = Profile::polygon(outline.map(|(x, y)| DVec2::new(x, y)).to_vec());
    let mesh = mesh(&Swept::square(profile, Length::mm(19.05)).into());
    assert_cut(&mesh, &Plane::through(DVec3::X * 1250.0, DVec3::X));
}

#[test]
fn random_designs_can_be_cut_anywhere() {
    for seed in 0..40 {
        let design = design::design(&random_params(seed));
        let solids = Solids::new(&design, Mesh::CHORD_ERROR).unwrap();
        for solid in &solids.shapes {
            let corners = &solid.mesh.vertices;
            let middle = corners.iter().sum::<DVec3>() / corners.len() as f64;
            for normal in [DVec3::X, DVec3::Y, DVec3::new(0.6, 0.0, 0.8)] {
                let plane = Plane::through(middle, normal);
                let heights = || corners.iter().map(|it| plane.height(*it));
                // A sheet whose middle lies in its face has nothing on one side.
                if heights().any(|it| it > 1e-3) && heights().any(|it| it < -1e-3) {
                    assert_cut(&solid.mesh, &plane);
                }
            }
        }
    }
}
