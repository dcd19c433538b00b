//! What every picture must be: a readable PNG of the right size that shows what is there, the right way
//! round, nearest things first.
//!
//! Read back with the `png` library. Lengths in millimetres; pictures have x to the right and y down.

use std::collections::BTreeSet;

use chasewright::catalog::Material;
use chasewright::check::Shared;
use chasewright::design::{Branch, Design, Group, Kind, Part, Stage, Stock};
use chasewright::export::Products;
use chasewright::geom::{Body, Frame, Mesh, Profile, Shape, Swept};
use chasewright::params::ChaseWall;
use chasewright::units::Length;
use glam::{DVec2, DVec3};

use crate::samples;
use crate::support::{self, assert_near};

const PICTURES: [&str; 4] = [
    "picture-front.png",
    "picture-framing.png",
    "picture-section.png",
    "picture-isometric.png",
];

struct Picture {
    width: usize,
    height: usize,
    pixels: Vec<[u8; 3]>,
}

impl Picture {
    fn read(bytes: &[u8]) -> Self {
        let mut reader = png::Decoder::new(std::io::Cursor::new(bytes))
            .read_info()
            .unwrap();
        let mut rows = vec![0; reader.output_buffer_size().unwrap()];
        let info = reader.next_frame(&mut rows).unwrap();
        assert_eq!(info.color_type, png::ColorType::Rgb);
        assert_eq!(info.bit_depth, png::BitDepth::Eight);
        Self {
            width: info.width as usize,
            height: info.height as usize,
            pixels: rows.chunks(3).map(|p| [p[0], p[1], p[2]]).collect(),
        }
    }

    /// The places of all pixels of a kind.
    fn places(&self, wanted: fn([u8; 3]) -> bool) -> Vec<DVec2> {
        let pixels = self.pixels.iter().enumerate();
        let found = pixels.filter(|(_, pixel)| wanted(**pixel));
        found
            .map(|(place, _)| {
                DVec2::new((place % self.width) as f64, (place / self.width) as f64) + 0.5
            })
            .collect()
    }
}

fn is_ink([red, green, blue]: [u8; 3]) -> bool {
    red < 250 || green < 250 || blue < 250
}

/// The color of what fails, in any light.
fn is_red([red, green, blue]: [u8; 3]) -> bool {
    red > 100 && green < 60 && blue < 60 && red > 2 * green
}

fn is_magenta([red, green, blue]: [u8; 3]) -> bool {
    red > 100 && blue > 80 && green < 70
}

fn is_wood([red, green, blue]: [u8; 3]) -> bool {
    red > 100 && green > 70 && red.saturating_sub(blue) > 40 && !is_red([red, green, blue])
}

fn middle(places: &[DVec2]) -> DVec2 {
    places.iter().sum::<DVec2>() / places.len() as f64
}

fn extent(places: &[DVec2]) -> DVec2 {
    let low = places.iter().copied().reduce(DVec2::min).unwrap();
    let high = places.iter().copied().reduce(DVec2::max).unwrap();
    high - low + 1.0
}

fn block(x: f64, y: f64, z: f64) -> Shape {
    Swept::block(Length::mm(x), Length::mm(y), Length::mm(z)).into()
}

/// A stick of framing in a design that has nothing else; places count from the middle of the unit.
fn add(design: &mut Design, id: &str, shape: Shape, place: [f64; 3]) {
    let middle = DVec3::X * design.layout.unit_center.to_mm();
    design.parts.push(Part {
        id: id.to_owned(),
        kind: Kind::Stud,
        group: Group::Framing,
        branch: Branch::Wall(ChaseWall::Front),
        material: Material::LUMBER,
        stock: Stock::Stick("2x4".to_owned()),
        stage: Stage::Walls,
        body: Body::new(shape, Frame::at(middle + DVec3::from_array(place))),
        left_out: Default::default(),
    });
}

/// One picture; the part called `failing` fails, and `overlaps` are shown as such.
fn picture_with(design: &Design, file: &str, overlaps: &[Mesh]) -> Picture {
    let overlaps = overlaps.iter().map(|mesh| Shared {
        first: "a".to_owned(),
        second: "b".to_owned(),
        mesh: mesh.clone(),
    });
    let overlaps: Vec<Shared> = overlaps.collect();
    let products = Products {
        failing: BTreeSet::from(["failing".to_owned()]).into(),
        overlaps: overlaps.into(),
        ..Products::of(design)
    };
    let bytes = support::file(file, &products);
    assert_eq!(bytes, support::file(file, &products), "{file}");
    Picture::read(&bytes)
}

fn picture(design: &Design, file: &str) -> Picture {
    picture_with(design, file, &[])
}

#[test]
fn every_picture_can_be_read_and_is_not_blank() {
    let design = samples::shapes().design;
    for file in PICTURES {
        let picture = picture(&design, file);
        assert!(picture.width <= 1600 && picture.height <= 1200, "{file}");
        let ink = picture.places(is_ink).len() as f64 / picture.pixels.len() as f64;
        assert!((0.05..0.999).contains(&ink), "{file}: {ink}");
    }
}

#[test]
fn nothing_makes_a_white_picture() {
    for file in PICTURES {
        let picture = picture(&samples::empty("nothing"), file);
        assert_eq!(picture.places(is_ink).len(), 0, "{file}");
    }
}

/// A pair of blocks, the failing one shifted from the other, and which way it then lies in the picture.
#[test]
fn right_is_right_and_up_is_up() {
    // In the section the eye looks along +x, so the room, at −y, is to the right.
    // In the isometric ones it looks from +x, −y, +z: +x runs right and down the page, −y left and down.
    let isometric = [
        ([600.0, 0.0, 0.0], [1.0, -1.0]),
        ([0.0, -600.0, 0.0], [-1.0, -1.0]),
        ([0.0, 0.0, 600.0], [0.0, 1.0]),
    ];
    let front = [
        ([600.0, 0.0, 0.0], [1.0, 0.0]),
        ([0.0, 0.0, 600.0], [0.0, 1.0]),
    ];
    let section = [
        ([0.0, -600.0, 0.0], [1.0, 0.0]),
        ([0.0, 0.0, 600.0], [0.0, 1.0]),
    ];
    let views: [(&str, &[_]); 4] = [
        ("picture-front.png", &front),
        ("picture-section.png", &section),
        ("picture-framing.png", &isometric),
        ("picture-isometric.png", &isometric),
    ];
    for (file, cases) in views {
        for (shift, [right, up]) in cases {
            for sign in [1.0, -1.0] {
                let mut design = samples::empty("two blocks");
                let shape = || block(200.0, 200.0, 200.0);
                add(&mut design, "sound", shape(), [-100.0, 0.0, 0.0]);
                let place = DVec3::from_array(*shift) * sign - DVec3::X * 100.0;
                add(&mut design, "failing", shape(), place.to_array());
                let picture = picture(&design, file);
                let moved = middle(&picture.places(is_red)) - middle(&picture.places(is_wood));
                let case = format!("{file} {shift:?} {moved}");
                assert!(moved.x * sign * right > 50.0 || *right == 0.0, "{case}");
                assert!(-moved.y * sign * up > 50.0 || *up == 0.0, "{case}");
            }
        }
    }
}

#[test]
fn what_is_behind_is_hidden() {
    for (file, behind) in [
        ("picture-front.png", [-50.0, 500.0, 200.0]),
        ("picture-section.png", [500.0, 0.0, 200.0]),
        ("picture-framing.png", [-550.0, 500.0, -300.0]),
    ] {
        let mut design = samples::empty("one behind another");
        let shape = || block(100.0, 100.0, 100.0);
        add(
            &mut design,
            "sound",
            block(400.0, 400.0, 700.0),
            [-200.0, -200.0, 0.0],
        );
        add(&mut design, "failing", shape(), behind);
        assert_eq!(picture(&design, file).places(is_red).len(), 0, "{file}");
        // The order in which they are drawn makes no difference.
        design.parts.reverse();
        assert_eq!(picture(&design, file).places(is_red).len(), 0, "{file}");
        // Out from behind it is seen.
        let beside = design.parts.iter_mut().find(|part| part.id == "failing");
        let beside = beside.unwrap();
        beside.body = beside.body.moved(DVec3::Z * 700.0);
        assert!(picture(&design, file).places(is_red).len() > 1000, "{file}");
    }
}

#[test]
fn an_overlap_shows_through_what_hides_it() {
    let mut design = samples::empty("an overlap");
    add(
        &mut design,
        "sound",
        block(400.0, 400.0, 700.0),
        [-200.0, -200.0, 0.0],
    );
    let middle = DVec3::X * design.layout.unit_center.to_mm();
    let mut mesh = Mesh::new(&block(100.0, 100.0, 100.0), Mesh::CHORD_ERROR);
    for vertex in &mut mesh.vertices {
        *vertex += middle + DVec3::new(0.0, 0.0, 300.0);
    }
    for file in PICTURES {
        assert_eq!(picture(&design, file).places(is_magenta).len(), 0);
        let picture = picture_with(&design, file, std::slice::from_ref(&mesh));
        assert!(picture.places(is_magenta).len() > 1000, "{file}");
    }
}

/// An isometric cube is a regular hexagon (ISO 5456-3), √3/2 as wide as high; a hexagon fills three
/// quarters of the box around it.
#[test]
fn an_isometric_cube_is_a_regular_hexagon() {
    let mut design = samples::empty("a cube");
    add(&mut design, "cube", block(500.0, 500.0, 500.0), [0.0; 3]);
    for file in ["picture-framing.png", "picture-isometric.png"] {
        let places = picture(&design, file).places(is_ink);
        let size = extent(&places);
        assert_near(size.x / size.y, 3.0_f64.sqrt() / 2.0, 0.005);
        assert_near(places.len() as f64 / (size.x * size.y), 0.75, 0.01);
    }
}

/// A frame of 400 by 800 round an opening of 200 by 400, cut square to its sweep: the cut covers
/// (400 · 800 − 200 · 400) / (400 · 800) of the box around it.
#[test]
fn a_cut_is_filled_and_its_openings_are_not() {
    let corners = |x: f64, y: f64, width: f64, height: f64| {
        let far = (x + width, y + height);
        [(x, y), (far.0, y), far, (x, far.1)]
            .map(DVec2::from)
            .to_vec()
    };
    let profile = Profile::polygon(corners(0.0, 0.0, 400.0, 800.0))
        .with_opening(corners(100.0, 200.0, 200.0, 400.0));
    let mut design = samples::empty("a frame");
    let middle = DVec3::X * design.layout.unit_center.to_mm();
    add(&mut design, "failing", block(1.0, 1.0, 1.0), [0.0; 3]);
    let part = design.parts.last_mut().unwrap();
    part.material = Material::STEEL;
    part.body = Body::new(
        Swept::square(profile, Length::mm(300.0)),
        Frame::new(middle - DVec3::X * 150.0, DVec3::Y, DVec3::Z),
    );
    let cut = picture(&design, "picture-section.png");
    let places = cut.places(is_ink);
    let size = extent(&places);
    assert_near(size.x / size.y, 0.5, 0.005);
    let share = places.len() as f64 / (size.x * size.y);
    assert_near(share, 0.75, 0.01);
}

/// A part that ends at the plane of the section is not cut by it, and one before it is not there.
#[test]
fn what_only_touches_the_section_is_not_cut() {
    let shade = |x: f64| {
        let mut design = samples::empty("a block at the section");
        add(
            &mut design,
            "failing",
            block(200.0, 200.0, 200.0),
            [x, 0.0, 0.0],
        );
        design.parts[0].material = Material::STEEL;
        let picture = picture(&design, "picture-section.png");
        let middle = picture.height / 2 * picture.width + picture.width / 2;
        picture.pixels[middle]
    };
    assert_eq!(shade(-200.0), [255; 3]);
    assert!(is_red(shade(0.0)));
    assert_eq!(shade(0.0), shade(1.0));
    assert!(is_red(shade(-1.0)));
    assert_ne!(shade(0.0), shade(-1.0));
}

/// The four pictures of a demo go into a repository and onto a page: 600 kB together (our own limit).
#[test]
fn the_pictures_of_the_demos_are_small() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/params");
    let mut seen = 0;
    for file in std::fs::read_dir(folder).unwrap() {
        let path = file.unwrap().path();
        let text = std::fs::read_to_string(&path).unwrap();
        let design = chasewright::design::design(&chasewright::params::read(&text).unwrap());
        let products = Products {
            findings: Vec::new().into(),
            overlaps: Vec::new().into(),
            ..Products::of(&design)
        };
        let total: usize = PICTURES
            .map(|it| support::file(it, &products).len())
            .iter()
            .sum();
        assert!(total < 700_000, "{}: {total}", path.display());
        seen += 1;
    }
    assert!(seen > 0);
}
