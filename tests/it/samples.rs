//! Designs made by hand, with the exact volume of everything in them: one of every shape, cut and placed in
//! every way that framing knows, and one whose parts are in one another.
//!
//! Sizes are invented. Volumes come from the formulas named beside them, in cubic millimetres.

use std::collections::BTreeMap;
use std::f64::consts::{FRAC_PI_2, PI};

use chasewright::catalog::Material;
use chasewright::design::{
    self, Bars, Branch, Clearance, ClearanceKind, Design, Group, Kind, Part, Stage, Stock,
};
use chasewright::geom::{Body, Bore, EndPlane, Frame, Profile, Shape, Swept, Tube, overlap};
use chasewright::params::{self, ChaseWall, Params};
use chasewright::units::{Angle, Length};
use glam::{DVec2, DVec3};

/// A design and what is known of it beforehand.
pub(crate) struct Sample {
    /// The design.
    pub(crate) design: Design,
    /// The exact volume of every part and clearance volume, by id.
    pub(crate) volumes: BTreeMap<String, f64>,
    /// The volume of every overlap of two parts.
    pub(crate) overlaps: Vec<(String, String, f64)>,
    /// Ids of parts that are higher on the right than on the left.
    pub(crate) rises_to_the_right: Vec<String>,
}

fn mm(value: f64) -> Length {
    Length::mm(value)
}

fn at(x: f64, y: f64, z: f64) -> Frame {
    Frame::at(DVec3::new(x, y, z))
}

fn bore(start: [f64; 3], end: [f64; 3], radius: f64) -> Bore {
    Bore {
        start: DVec3::from(start),
        end: DVec3::from(end),
        radius,
    }
}

/// Turned about the world's x axis, y toward z.
fn tilted(origin: DVec3, degrees: f64) -> Frame {
    let angle = Angle::degrees(degrees);
    Frame::new(origin, DVec3::X, DVec3::new(0.0, angle.cos(), angle.sin()))
}

impl Sample {
    fn new(name: &str) -> Self {
        Self {
            design: empty(name),
            volumes: BTreeMap::new(),
            overlaps: Vec::new(),
            rises_to_the_right: Vec::new(),
        }
    }

    fn add(
        &mut self,
        id: &str,
        (kind, group, material): (Kind, Group, Material),
        shape: impl Into<Shape>,
        frame: Frame,
        volume: f64,
    ) {
        self.volumes.insert(id.to_owned(), volume);
        self.design.parts.push(Part {
            id: id.to_owned(),
            kind,
            group,
            branch: Branch::Wall(ChaseWall::Front),
            material,
            stock: Stock::Stick("2x4".to_owned()),
            stage: Stage::Walls,
            body: Body::new(shape, frame),
            left_out: Default::default(),
        });
    }

    fn keep_clear(
        &mut self,
        id: &str,
        kind: ClearanceKind,
        shape: impl Into<Shape>,
        frame: Frame,
        volume: f64,
    ) {
        self.volumes.insert(id.to_owned(), volume);
        self.design.clearances.push(Clearance {
            id: id.to_owned(),
            kind,
            body: Body::new(shape, frame),
            reaches: Vec::new(),
            belongs_to: Vec::new(),
            bars: Bars::Combustible,
            datum: "pipe",
        });
    }
}

const LUMBER: (Kind, Group, Material) = (Kind::Stud, Group::Framing, Material::LUMBER);
const TREATED: (Kind, Group, Material) = (Kind::SolePlate, Group::Framing, Material::TREATED);
const BOARD: (Kind, Group, Material) = (Kind::Board, Group::Skins, Material::DRYWALL);
const PIPE: (Kind, Group, Material) = (Kind::Pipe, Group::Vent, Material::STEEL);

/// One of every shape; its ceiling rises to the right.
pub(crate) fn shapes() -> Sample {
    let mut sample = Sample::new("Reading room – the owner's \"own\" sample \\ 3½");
    room(&mut sample);
    sample.rises_to_the_right = ["room/ceiling", "left/stud/1", "right/stud/1"]
        .map(str::to_owned)
        .into();
    sticks(&mut sample);
    cuts(&mut sample);
    sheets(&mut sample);
    vent(&mut sample);
    sample
}

fn room(sample: &mut Sample) {
    let (floor, ceiling) = (Kind::Floor, Kind::Ceiling);
    let plan = Profile::rectangle(mm(3000.0), mm(2000.0));
    sample.add(
        "room/floor",
        (floor, Group::Room, Material::CONCRETE),
        Swept::square(plan.clone(), mm(100.0)),
        at(0.0, -2000.0, -100.0),
        3000.0 * 2000.0 * 100.0,
    );
    let slope = DVec2::new(0.25, -0.05);
    let under = Swept {
        profile: plan,
        bottom: vec![EndPlane::sloped(mm(2500.0), slope)],
        top: vec![EndPlane::sloped(mm(2512.7), slope)],
        bores: Vec::new(),
    };
    sample.add(
        "room/ceiling",
        (ceiling, Group::Room, Material::DRYWALL),
        under,
        at(0.0, -2000.0, 0.0),
        // A prism's volume is its area times its height, however it is sheared.
        3000.0 * 2000.0 * 12.7,
    );
}

fn sticks(sample: &mut Sample) {
    let section = || Profile::rectangle(mm(38.1), mm(88.9));
    for place in 1..=5 {
        sample.add(
            &format!("front/stud/{place}"),
            LUMBER,
            Swept::square(section(), mm(2286.0)),
            at(406.4 * f64::from(place), -600.0, 38.1),
            38.1 * 88.9 * 2286.0,
        );
    }
    sample.add(
        "front/sole plate",
        TREATED,
        Swept::square(section(), mm(2400.0)),
        // Laid down along x: the shape's z is the world's x.
        Frame::new(DVec3::new(400.0, -600.0, 38.1), DVec3::NEG_Z, DVec3::Y),
        38.1 * 88.9 * 2400.0,
    );
    let raked = Swept {
        profile: section(),
        bottom: vec![EndPlane::level(Length::ZERO)],
        top: vec![EndPlane::sloped(mm(2300.0), DVec2::new(0.25, -0.05))],
        bores: Vec::new(),
    };
    for (side, x) in [("left", 420.0), ("right", 2800.0)] {
        sample.add(
            &format!("{side}/stud/1"),
            LUMBER,
            raked.clone(),
            at(x, -400.0, 38.1),
            // A truncated prism: area times the height over the centroid.
            38.1 * 88.9 * (2300.0 + 0.25 * 19.05 - 0.05 * 44.45),
        );
    }
    // bored through either pair of its sides
    let bored = Swept {
        bores: vec![
            bore([0.0, 50.0, 400.0], [38.1, 50.0, 400.0], 11.0),
            bore([20.0, 0.0, 700.0], [20.0, 88.9, 700.0], 6.35),
        ],
        ..raked
    };
    sample.add(
        "bored/stud/1",
        LUMBER,
        bored,
        at(1000.0, -1500.0, 38.1),
        38.1 * 88.9 * (2300.0 + 0.25 * 19.05 - 0.05 * 44.45)
            - PI * (11.0 * 11.0 * 38.1 + 6.35 * 6.35 * 88.9),
    );
    sample.add(
        "left/top plate",
        (Kind::TopPlate, Group::Framing, Material::LUMBER),
        Swept {
            profile: section(),
            bottom: vec![EndPlane::sloped(Length::ZERO, DVec2::new(0.3, 0.1))],
            top: vec![EndPlane::sloped(mm(580.0), DVec2::new(0.3, 0.1))],
            bores: Vec::new(),
        },
        tilted(DVec3::new(200.0, -300.0, 1800.0), 72.5),
        38.1 * 88.9 * 580.0,
    );
}

/// Ends closed by several planes, and a stick that runs out to nothing.
fn cuts(sample: &mut Sample) {
    let section = || Profile::rectangle(mm(38.1), mm(88.9));
    let ridge = |slope: f64| Swept {
        profile: section(),
        bottom: vec![EndPlane::level(Length::ZERO)],
        top: vec![
            EndPlane::sloped(mm(1000.0), DVec2::new(0.0, slope)),
            EndPlane::sloped(mm(1000.0 + slope * 88.9), DVec2::new(0.0, -slope)),
        ],
        bores: Vec::new(),
    };
    sample.add(
        "back/stud/1",
        LUMBER,
        ridge(0.5),
        at(600.0, -200.0, 38.1),
        // A block to the eaves with a triangular prism on top.
        38.1 * (88.9 * 1000.0 + 88.9 * 88.9 * 0.5 / 4.0),
    );
    sample.add(
        "back/stud/2",
        LUMBER,
        Swept {
            bottom: vec![
                EndPlane::level(Length::ZERO),
                EndPlane::sloped(mm(-20.0), DVec2::new(0.0, 1.0)),
            ],
            ..ridge(0.5)
        },
        at(700.0, -200.0, 38.1),
        // The same, less the corner under the second bottom plane: a right triangle of 68.9.
        38.1 * (88.9 * 1000.0 + 88.9 * 88.9 * 0.5 / 4.0 - 68.9 * 68.9 / 2.0),
    );
    sample.add(
        "back/blocking/wedge",
        (Kind::Blocking, Group::Framing, Material::LUMBER),
        Swept {
            profile: Profile::rectangle(mm(300.0), mm(88.9)),
            bottom: vec![EndPlane::level(Length::ZERO)],
            top: vec![EndPlane::sloped(Length::ZERO, DVec2::new(0.125, 0.0))],
            bores: Vec::new(),
        },
        at(800.0, -200.0, 38.1),
        300.0 * 88.9 * 300.0 * 0.125 / 2.0,
    );
    sample.add(
        "back/blocking/corner",
        (Kind::Blocking, Group::Framing, Material::LUMBER),
        Swept {
            profile: Profile::rectangle(mm(100.0), mm(100.0)),
            bottom: vec![EndPlane::level(Length::ZERO)],
            top: vec![EndPlane::sloped(mm(100.0), DVec2::new(-1.0, -1.0))],
            bores: Vec::new(),
        },
        at(2100.0, -200.0, 38.1),
        // A right-angled tetrahedron: a third of half the square times the height.
        100.0 * 100.0 * 100.0 / 6.0,
    );
}

fn corners(points: &[(f64, f64)]) -> Vec<DVec2> {
    points.iter().map(|(x, y)| DVec2::new(*x, *y)).collect()
}

fn window(x: f64, y: f64, width: f64, height: f64) -> Vec<DVec2> {
    let (right, top) = (x + width, y + height);
    corners(&[(x, y), (right, y), (right, top), (x, top)])
}

fn sheets(sample: &mut Sample) {
    // Board stands: its x is the world's x, its y the world's z, its thickness toward the room.
    let standing = |origin: DVec3| Frame::new(origin, DVec3::X, DVec3::Z);
    let board = Profile::rectangle(mm(2400.0), mm(2400.0))
        .with_opening(window(700.0, 300.0, 900.0, 700.0))
        .with_opening(window(700.0, 1300.0, 900.0, 600.0));
    sample.add(
        "front/board/1",
        BOARD,
        Swept::square(board.clone(), mm(12.7)),
        standing(DVec3::new(400.0, -600.0, 0.0)),
        (2400.0 * 2400.0 - 900.0 * 1300.0) * 12.7,
    );
    sample.add(
        "front/finish/owner's ½ tile",
        (Kind::Finish, Group::Skins, Material::STONE),
        Swept {
            profile: board,
            bottom: vec![EndPlane::sloped(mm(-2.0), DVec2::new(0.001, 0.002))],
            top: vec![EndPlane::sloped(mm(10.0), DVec2::new(0.001, 0.002))],
            bores: Vec::new(),
        },
        standing(DVec3::new(400.0, -640.0, 0.0)),
        (2400.0 * 2400.0 - 900.0 * 1300.0) * 12.0,
    );
    let notched = Profile::polygon(corners(&[
        (0.0, 0.0),
        (600.0, 0.0),
        (600.0, 500.0),
        (400.0, 500.0),
        (400.0, 200.0),
        (200.0, 200.0),
        (200.0, 500.0),
        (0.0, 500.0),
    ]));
    sample.add(
        "platform/panel/1",
        (Kind::PlatformPanel, Group::Platform, Material::PANEL),
        Swept::square(notched, mm(18.0)),
        at(1000.0, -1300.0, 0.0),
        (600.0 * 500.0 - 200.0 * 300.0) * 18.0,
    );
    sample.add(
        "unit/body",
        (Kind::UnitBody, Group::Unit, Material::ASSEMBLY),
        Swept::block(mm(900.0), mm(400.0), mm(700.0)),
        at(1100.0, -480.0, 100.0),
        900.0 * 400.0 * 700.0,
    );
}

fn vent(sample: &mut Sample) {
    let ring = PI * (85.0 * 85.0 - 84.0 * 84.0);
    sample.add(
        "vent/pipe/1",
        PIPE,
        Tube::straight(mm(85.0), mm(84.0), mm(610.0)),
        at(1550.0, -280.0, 800.0),
        ring * 610.0,
    );
    let bend =
        |outer: f64, inner: f64| Tube::bend(mm(outer), mm(inner), mm(150.0), Angle::degrees(90.0));
    // From straight up to into the wall: the bend's x is the world's y.
    let into_wall = Frame::new(DVec3::new(1550.0, -280.0, 1410.0), DVec3::Y, DVec3::NEG_X);
    sample.add(
        "vent/elbow/1",
        (Kind::Elbow, Group::Vent, Material::STEEL),
        bend(85.0, 84.0),
        into_wall,
        // Pappus: the area times the way of its centroid.
        ring * 150.0 * FRAC_PI_2,
    );
    sample.add(
        "vent/gas stub",
        PIPE,
        Tube::straight(mm(10.0), Length::ZERO, mm(200.0)),
        at(900.0, -280.0, 0.0),
        PI * 100.0 * 200.0,
    );
    sample.keep_clear(
        "clearance/vent/pipe/1",
        ClearanceKind::VerticalPipe,
        Tube::straight(mm(110.0), Length::ZERO, mm(610.0)),
        at(1550.0, -280.0, 800.0),
        PI * 110.0 * 110.0 * 610.0,
    );
    sample.keep_clear(
        "clearance/vent/elbow/1",
        ClearanceKind::Bend,
        bend(110.0, 0.0),
        into_wall,
        PI * 110.0 * 110.0 * 150.0 * FRAC_PI_2,
    );
    sample.keep_clear(
        "clearance/unit/left",
        ClearanceKind::UnitSide,
        Swept::block(mm(25.4), mm(400.0), mm(700.0)),
        at(1074.6, -480.0, 100.0),
        25.4 * 400.0 * 700.0,
    );
}

/// Parts in one another, and parts that only touch.
pub(crate) fn overlapping() -> Sample {
    let mut sample = Sample::new("Overlapping");
    let block = |x, y, z| Swept::block(mm(x), mm(y), mm(z));
    let volume = 100.0 * 100.0 * 500.0;
    sample.add(
        "a/stud/1",
        LUMBER,
        block(100.0, 100.0, 500.0),
        at(0.0, 0.0, 0.0),
        volume,
    );
    // In the first by 10 x 100 x 400.
    sample.add(
        "a/stud/2",
        LUMBER,
        block(100.0, 100.0, 500.0),
        at(90.0, 0.0, 100.0),
        volume,
    );
    // Touches the second.
    sample.add(
        "a/stud/3",
        LUMBER,
        block(100.0, 100.0, 500.0),
        at(190.0, 0.0, 0.0),
        volume,
    );
    // In the third by a wedge: half of 100 x 50, over 100.
    sample.add(
        "a/blocking/1",
        (Kind::Blocking, Group::Framing, Material::LUMBER),
        Swept {
            profile: Profile::rectangle(mm(100.0), mm(100.0)),
            bottom: vec![EndPlane::sloped(mm(50.0), DVec2::new(-0.5, 0.0))],
            top: vec![EndPlane::level(mm(200.0))],
            bores: Vec::new(),
        },
        at(190.0, 0.0, 450.0),
        100.0 * 100.0 * 175.0,
    );
    // Through the fourth: a ring of 40 and 38 over 100.
    let ring = PI * (40.0 * 40.0 - 38.0 * 38.0);
    sample.add(
        "a/pipe/1",
        PIPE,
        Tube::straight(mm(40.0), mm(38.0), mm(300.0)),
        Frame::new(DVec3::new(240.0, -100.0, 590.0), DVec3::X, DVec3::NEG_Z),
        ring * 300.0,
    );
    // Bored along x, 50 up and 250 up; a pipe fills the lower bore, and a stick is in the upper one with room.
    sample.add(
        "b/stud/1",
        LUMBER,
        Swept {
            bores: vec![
                bore([0.0, 50.0, 50.0], [100.0, 50.0, 50.0], 20.0),
                bore([0.0, 50.0, 250.0], [100.0, 50.0, 250.0], 25.0),
            ],
            ..block(100.0, 100.0, 500.0)
        },
        at(0.0, 1000.0, 0.0),
        volume - PI * (20.0 * 20.0 + 25.0 * 25.0) * 100.0,
    );
    sample.add(
        "b/pipe/1",
        PIPE,
        Tube::straight(mm(20.0), mm(18.0), mm(300.0)),
        Frame::new(DVec3::new(-100.0, 1050.0, 50.0), DVec3::Y, DVec3::Z),
        PI * (20.0 * 20.0 - 18.0 * 18.0) * 300.0,
    );
    sample.add(
        "b/blocking/1",
        (Kind::Blocking, Group::Framing, Material::LUMBER),
        block(200.0, 30.0, 30.0),
        at(-50.0, 1035.0, 235.0),
        200.0 * 30.0 * 30.0,
    );
    let overlaps = [
        ("a/stud/1", "a/stud/2", 10.0 * 100.0 * 400.0),
        ("a/stud/3", "a/blocking/1", 100.0 * 50.0 * 100.0 / 2.0),
        ("a/blocking/1", "a/pipe/1", ring * 100.0),
    ];
    let named = |(a, b, volume): (&str, &str, f64)| (a.to_owned(), b.to_owned(), volume);
    sample.overlaps = overlaps.map(named).into();
    sample
}

/// The design of a parameter file; its volumes and overlaps are the tool's own.
pub(crate) fn of_params(params: &Params) -> Sample {
    of_design(design::design(params))
}

/// A design whose volumes and overlaps are the tool's own.
pub(crate) fn of_design(design: Design) -> Sample {
    let parts = design.parts.iter().map(|part| (&part.id, &part.body));
    let volumes = design.clearances.iter();
    let volumes = volumes.map(|clearance| (&clearance.id, &clearance.body));
    let volumes = parts
        .chain(volumes)
        .map(|(id, body)| (id.clone(), body.volume()));
    let mut overlaps = Vec::new();
    for (place, a) in design.parts.iter().enumerate() {
        for b in &design.parts[place + 1..] {
            if let Some(found) = overlap(&a.body, &b.body) {
                overlaps.push((a.id.clone(), b.id.clone(), found.volume));
            }
        }
    }
    let ceilings = design
        .parts
        .iter()
        .filter(|part| part.kind == Kind::Ceiling);
    let ceiling = &design.layout.ceiling;
    let rising = ceilings.filter(|part| {
        let middle = part.body.bounds.center().truncate();
        let upright = !design.layout.site.is_turned();
        upright && ceiling.planes()[ceiling.plane_at(middle)].slope.x > 0.0
    });
    Sample {
        volumes: volumes.collect(),
        overlaps,
        rises_to_the_right: rising.map(|part| part.id.clone()).collect(),
        design,
    }
}

/// A design in which nothing stands yet.
pub(crate) fn empty(name: &str) -> Design {
    let mut params = params::read(include_str!("../params/good/one_wall.toml"))
        .expect("the base of the tests is valid");
    name.clone_into(&mut params.project.name);
    Design {
        parts: Vec::new(),
        clearances: Vec::new(),
        notes: Vec::new(),
        packing: Vec::new(),
        ..design::design(&params)
    }
}
