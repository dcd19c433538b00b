//! The framing against published tables and worked examples; the source stands beside each.

use chasewright::catalog::lumber;
use chasewright::design::{Design, Part, design};
use chasewright::geom::{EndPlane, Profile, Shape, Swept};
use chasewright::params::{Params, Value};
use chasewright::units::{Length, Slope};
use glam::DVec2;

use crate::scenarios::demo;
use crate::support::assert_near;

/// NIST SP 811 (2008), appendix B.8: 1 in = 25.4 mm exactly, 1 ft = 0.3048 m exactly.
#[test]
fn an_inch_is_25_4_mm() {
    assert_near(Length::inches(1.0).to_mm(), 25.4, 0.0);
    assert_near(Length::inches(12.0).to_mm(), 304.8, 1e-12);
}

/// DOC PS 20, American Softwood Lumber Standard, table of nominal and minimum-dressed sizes, dry.
#[test]
fn lumber_is_dressed_as_the_standard_says() {
    let table = [
        ("1x4", 0.75, 3.5),
        ("5/4x6", 1.0, 5.5),
        ("6/4x8", 1.25, 7.25),
        ("2x2", 1.5, 1.5),
        ("2x3", 1.5, 2.5),
        ("2x4", 1.5, 3.5),
        ("2x5", 1.5, 4.5),
        ("2x6", 1.5, 5.5),
        ("2x8", 1.5, 7.25),
        ("2x10", 1.5, 9.25),
        ("2x12", 1.5, 11.25),
        ("2x14", 1.5, 13.25),
        ("2x16", 1.5, 15.25),
        ("3x6", 2.5, 5.5),
        ("4x4", 3.5, 3.5),
    ];
    for (name, thickness, width) in table {
        let found = lumber(name).unwrap_or_else(|| panic!("{name} is a nominal size"));
        assert_near(found.thickness.to_inches(), thickness, 1e-12);
        assert_near(found.width.to_inches(), width, 1e-12);
    }
    assert!(lumber("2x7").is_none(), "the standard has no 2x7");
}

/// Rise in 12; angle in degrees; length of common rafter per foot of run, in inches; plumb height
/// that a plate 1-1/2 in thick takes; rise across 3-1/2 in.
///
/// The lengths are the first line of the framing square. Read in print: rise 7 in US Navy
/// NAVEDTRA 14044 (Builder), figures 2-16 and 2-17; rises 13 and 16 in US Army subcourse EN0069;
/// rises 6 and 12 in Griffith, Carpentry; rises 2 to 18 as copied from a square. The angle,
/// the height and the rise are arithmetic on the same triangle: atan(r/12), 1.5·√(144 + r²)/12 and
/// 3.5·r/12, rounded to four places.
const FRAMING_SQUARE: [(f64, f64, f64, f64, f64); 18] = [
    (1.0, 4.7636, 12.04, 1.5052, 0.2917),
    (2.0, 9.4623, 12.17, 1.5207, 0.5833),
    (3.0, 14.0362, 12.37, 1.5462, 0.8750),
    (4.0, 18.4349, 12.65, 1.5811, 1.1667),
    (5.0, 22.6199, 13.00, 1.6250, 1.4583),
    (6.0, 26.5651, 13.42, 1.6771, 1.7500),
    (7.0, 30.2564, 13.89, 1.7366, 2.0417),
    (8.0, 33.6901, 14.42, 1.8028, 2.3333),
    (9.0, 36.8699, 15.00, 1.8750, 2.6250),
    (10.0, 39.8056, 15.62, 1.9526, 2.9167),
    (11.0, 42.5104, 16.28, 2.0349, 3.2083),
    (12.0, 45.0000, 16.97, 2.1213, 3.5000),
    (13.0, 47.2906, 17.69, 2.2115, 3.7917),
    (14.0, 49.3987, 18.44, 2.3049, 4.0833),
    (15.0, 51.3402, 19.21, 2.4012, 4.3750),
    (16.0, 53.1301, 20.00, 2.5000, 4.6667),
    (17.0, 54.7824, 20.81, 2.6011, 4.9583),
    (18.0, 56.3099, 21.63, 2.7042, 5.2500),
];

/// A design whose ceiling rises into the room by this many inches in 12.
fn rising(rise: f64, spacing: f64) -> Design {
    let base: Params = demo("rises-away-from-wall");
    let changed = base
        .with("ceiling.rise_out", &Value::Slope(Slope::ratio(rise / 12.0)))
        .and_then(|it| {
            it.with(
                "chase.stud_spacing",
                &Value::Length(Length::inches(spacing)),
            )
        })
        // a deep chase, so that the side walls have several studs on center
        .and_then(|it| it.with("chase.depth", &Value::Length(Length::inches(80.0))))
        // the tables are of a layout that no stud leaves
        .and_then(|it| it.with("chase.hammer_room", &Value::Length(Length::ZERO)))
        // the tables are of plates between the studs' faces
        .and_then(|it| it.with("chase.plate_edges", &Value::Choice("ripped")));
    design(&changed.expect("the design is valid"))
}

fn part<'a>(design: &'a Design, id: &str) -> &'a Part {
    let found = design.parts.iter().find(|it| it.id == id);
    found.unwrap_or_else(|| panic!("no part {id}"))
}

fn swept(part: &Part) -> &Swept {
    match &part.body.shape {
        Shape::Swept(swept) => swept,
        Shape::Tube(_) => panic!("{} is a tube", part.id),
    }
}

#[test]
fn the_framing_square_holds_in_the_walls() {
    for (rise, angle, per_foot, plumb, across) in FRAMING_SQUARE {
        let design = rising(rise, 16.0);
        assert_near(
            Slope::ratio(rise / 12.0).angle().to_degrees(),
            angle,
            0.000_051,
        );
        // the side wall's plate runs up the slope: its length over its run
        let plate = part(&design, "left side/top plate/1");
        let shape = swept(plate);
        let along = shape.top[0].height - shape.bottom[0].height;
        let run = plate.body.bounds.size().y;
        let found = along / run * 12.0;
        assert_near(found, per_foot, 0.005_1);
        // the height that the plate takes: between its two long faces, measured plumb
        let front = part(&design, "front/top plate/1");
        let profile = &swept(front).profile.outline;
        let height = profile
            .iter()
            .map(|corner| corner.y)
            .fold(f64::NEG_INFINITY, f64::max)
            - profile
                .iter()
                .map(|corner| corner.y)
                .fold(f64::INFINITY, f64::min);
        assert_near(height / 25.4 - across, plumb, 0.000_11);
        // the drop across a front stud
        let stud = swept(part(&design, "front/stud/1")).top[0];
        assert_near(3.5 * stud.slope.y.abs(), across, 0.000_051);
    }
}

/// Heights of the side wall's studs on center at their left faces, from the wall outward, in inches.
fn steps(design: &Design) -> Vec<f64> {
    let studs = design
        .parts
        .iter()
        .filter(|it| it.id.starts_with("left side/stud/"));
    // the first and the last are end studs, which stand off the layout
    let heights: Vec<f64> = studs.map(|it| swept(it).top[0].height / 25.4).collect();
    let inner = &heights[1..heights.len() - 1];
    inner.windows(2).map(|pair| pair[1] - pair[0]).collect()
}

/// US Navy NAVEDTRA 14044 (Builder), figure 2-29: gable studs under 6 in 12 at 24 in on center
/// differ by 12 in. At 16 in, and for the rest of the framing square: spacing × rise / 12.
#[test]
fn gable_studs_step_by_the_common_difference() {
    for step in steps(&rising(6.0, 24.0)) {
        assert_near(step, 12.0, 1e-9);
    }
    for (rise, ..) in FRAMING_SQUARE {
        for spacing in [16.0, 24.0] {
            let found = steps(&rising(rise, spacing));
            assert!(!found.is_empty(), "{spacing} in leaves no two studs");
            for step in found {
                assert_near(step, spacing * rise / 12.0, 1e-9);
            }
        }
    }
}

/// NAVEDTRA 14044: unit rise 7, span 16 ft: 8 × 13.89 = 111.12, on the tape 111-1/8 in. Griffith,
/// Carpentry, appendix IV: 12 in 12 over half of 25 ft is 17 ft 8.12 in.
#[test]
fn a_plate_up_the_slope_is_as_long_as_a_rafter() {
    for (rise, run, length, tolerance) in [(7.0, 96.0, 111.12, 0.02), (12.0, 150.0, 212.12, 0.02)] {
        let slope = DVec2::new(rise / 12.0, 0.0);
        let found = run * (1.0 + slope.length_squared()).sqrt();
        // the tool's own: the plate of a wall of that run
        let design = rising(rise, 16.0);
        let plate = part(&design, "left side/top plate/1");
        let shape = swept(plate);
        let per_run = (shape.top[0].height - shape.bottom[0].height) / plate.body.bounds.size().y;
        assert_near(per_run * run, found, 1e-6);
        assert_near(per_run * run, length, tolerance);
    }
}

/// Truncated prism: base area × mean height of its corners (prismatoid formula, reference pages). A
/// stud 1-1/2 × 3-1/2 with its short point at 90 in under 6 in 12 along the 1-1/2 in side:
/// 5.25 × (90 + 90.75) / 2 = 474.46875 in³.
#[test]
fn a_raked_stud_has_the_volume_of_a_truncated_prism() {
    let stud = Swept {
        profile: Profile::rectangle(Length::inches(1.5), Length::inches(3.5)),
        bottom: vec![EndPlane::level(Length::ZERO)],
        top: vec![EndPlane::sloped(Length::inches(90.0), DVec2::new(0.5, 0.0))],
        bores: Vec::new(),
    };
    let cubic_inch = 25.4 * 25.4 * 25.4;
    assert_near(Shape::from(stud).volume() / cubic_inch, 474.468_75, 1e-9);
}
