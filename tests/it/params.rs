//! The reader of parameter files: what it takes, what it refuses and how it says so.

use std::collections::BTreeSet;
use std::fs;
use std::path::PathBuf;

use chasewright::cli::Exit;
use chasewright::params::{
    self, Bearing, FloorDatum, FrontForm, GROUPS, HeightDatum, Kind, Layer, MantelRule, PARAMETERS,
    Params, Presence, ProjectionDatum, Range, Step, Value, parameter,
};
use chasewright::units::{Amount, Angle, Length, Slope, TapeUnit};
use proptest::prelude::*;

use crate::generate::random_params;
use crate::support::{assert_near, run};

const STEPPED: &str = include_str!("../params/good/stepped.toml");
const ONE_WALL: &str = include_str!("../params/good/one_wall.toml");

#[track_caller]
fn read(text: &str) -> Params {
    params::read(text).expect("the file is good")
}

/// The faults of a good file with one piece of it replaced.
#[track_caller]
fn faults_with(text: &str, piece: &str, replacement: &str) -> Vec<params::Fault> {
    assert!(text.contains(piece), "the file does not hold {piece}");
    params::read(&text.replacen(piece, replacement, 1))
        .err()
        .unwrap_or_default()
}

/// What stands where nobody has looked is no page; a page's letter, a cover or a Roman number is.
#[test]
fn a_placeholder_is_no_page() {
    let read_with = |page: &str| {
        let piece = "side_clearance = { value = \"3/4 in\", page = \"11\" }";
        faults_with(STEPPED, piece, &piece.replace("\"11\"", page))
    };
    for page in [
        r#""?""#,
        r#""-""#,
        r#""--""#,
        r#""...""#,
        r#""TBD""#,
        r#""t.b.d.""#,
        r#""n/a""#,
        r#""N.A.""#,
        r#""unknown""#,
        r#""see manual""#,
        r#""p. ""#,
        r#""12?""#,
        r#""0""#,
        "0",
        "-3",
        r#""XXX""#,
        r#""""#,
    ] {
        let faults = read_with(page);
        assert_eq!(faults.len(), 1, "{page}: {faults:#?}");
        assert_eq!(&*faults[0].key, "appliance.side_clearance", "{page}");
        assert!(faults[0].problem.contains("no page"), "{page}");
    }
    for page in [
        r#""12""#,
        "12",
        r#""A-4""#,
        r#""back cover""#,
        r#""iv""#,
        r#""p. 30, table 2""#,
        r#""10-11""#,
    ] {
        assert_eq!(read_with(page), [], "{page}");
    }
    let value = |page: &str| Value::Manual {
        value: Box::new(Value::Length(Length::inches(1.0))),
        page: page.to_owned(),
    };
    let params = read(STEPPED);
    assert!(
        params
            .with("appliance.side_clearance", &value("?"))
            .is_err()
    );
    assert!(params.with("appliance.side_clearance", &value("9")).is_ok());
}

#[test]
fn a_stepped_file_reads_as_it_is_written() {
    let params = read(STEPPED);
    assert_eq!(params.project.name, "Garden room");
    // Inches times 25.4: NIST SP 811 (2008), appendix B.8.
    assert_near(params.room.width.to_mm(), 162.0 * 25.4, 1e-9);
    assert_near(params.site().chase.low.to_mm(), 34.0 * 25.4, 1e-9);
    assert_near(params.wall.first_stud.to_mm(), 7.5 * 25.4, 1e-9);
    assert_near(
        params.ceiling.rise_out.unwrap().to_ratio(),
        2.5 / 12.0,
        1e-12,
    );
    assert_eq!(params.ceiling.rise_right, Some(Slope::LEVEL));
    assert_eq!(params.front.form, FrontForm::Stepped);
    assert_eq!(params.appliance.side_clearance.page, "11");
    assert_eq!(params.appliance.center, None);
    let mantel = params.mantel.unwrap();
    assert_eq!(mantel.projection_from.value, ProjectionDatum::FinishedFace);
    let row = |projection, height| Step {
        projection: Length::inches(projection),
        height: Length::inches(height),
    };
    let rows = vec![row(2.5, 8.0), row(6.0, 12.0), row(10.0, 18.5)];
    assert_eq!(mantel.rule.value, MantelRule::Steps(rows));
    // Dressed sizes: DOC PS 20, table of minimum dressed sizes, dry: 2x4 is 1-1/2 by 3-1/2 in, 2x6 1-1/2 by 5-1/2.
    let ledge = params.front.ledge.unwrap();
    assert_near(ledge.plate().to_inches(), 1.5, 1e-12);
    assert_near(ledge.depth().to_inches(), 5.5, 1e-12);
    let platform: Length = params.platform.layers.iter().map(Layer::height).sum();
    assert_near(platform.to_inches(), 3.0, 1e-12);
}

#[test]
fn a_metric_file_reads_as_it_is_written() {
    let params = read(ONE_WALL);
    assert_eq!(params.project.unit, TapeUnit::Millimeter);
    assert_eq!(params.project.floor_datum, FloorDatum::FinishedFloor);
    assert_eq!(params.wall.bearing, Bearing::No);
    assert_near(params.room.width.to_mm(), 4200.0, 1e-9);
    assert_near(params.ceiling.rise_right.unwrap().to_ratio(), -0.02, 1e-12);
    assert_near(
        params.ceiling.rise_out.unwrap().angle().to_degrees(),
        3.0,
        1e-12,
    );
    assert_near(params.chase.stud.breadth().to_mm(), 45.0, 0.0);
    assert_near(params.chase.stud.depth().to_mm(), 95.0, 0.0);
    assert_eq!(params.chase.stud.name(), "45x95 mm");
    assert_eq!(params.vent.slope.page, "9");
    let mantel = params.mantel.as_ref().unwrap();
    assert!(!mantel.combustible);
    assert_eq!(mantel.height_from.value, HeightDatum::BodyTop);
    let ramp = MantelRule::Ramp {
        base: Length::mm(190.0),
        factor: 1.125,
    };
    assert_eq!(mantel.rule.value, ramp);
    let platform: Length = params.platform.layers.iter().map(Layer::height).sum();
    assert_near(platform.to_mm(), 113.0, 1e-9);
    assert!(params.screen.is_none());
}

#[test]
fn what_is_left_out_takes_its_default() {
    let params = read(STEPPED);
    assert_near(params.project.build_allowance.to_inches(), 0.25, 0.0);
    assert_near(params.chase.stud_spacing.to_inches(), 16.0, 1e-12);
    assert_eq!(params.chase.top_plates, 1);
    assert_near(params.screen.unwrap().air.to_inches(), 1.0, 1e-12);
    // The allowance and the screen's air have a default of their own on a metric tape.
    let metric = read(ONE_WALL);
    assert_near(metric.project.build_allowance.to_mm(), 6.0, 0.0);
    let air = parameter("screen.air").unwrap();
    assert_eq!(
        (air.default)(TapeUnit::Millimeter),
        Some(Value::Length(Length::mm(25.0)))
    );
    let bearing = parameter("wall.bearing").unwrap();
    assert_eq!(
        (bearing.default)(TapeUnit::Inch),
        Some(Value::Choice("unknown"))
    );
}

/// Where nothing stands, or only what cannot be seen, nothing is found, whatever follows on the next line.
#[test]
fn a_blank_place_holds_nothing() {
    for text in [
        "[chase]\nwidth =\n[room]\n",
        "[chase]\nwidth = \t\n",
        "[chase]\nwidth =",
        "[chase]\r  \nwidth = 1",
    ] {
        let faults = params::read(text).unwrap_err();
        let found: Vec<&str> = faults.iter().map(|it| &*it.found).collect();
        assert!(found.contains(&"nothing"), "{text:?}: {found:?}");
        assert!(!found.contains(&"``"), "{text:?}: {found:?}");
    }
}

/// Each example of a faulty file, as it is printed; all but `many...` have one fault.
#[test]
fn faulty_files_are_told() {
    let mut files: Vec<PathBuf> = fs::read_dir("tests/params/bad")
        .unwrap()
        .map(|file| file.unwrap().path())
        .collect();
    files.sort();
    assert!(files.len() >= 70, "examples are missing: {}", files.len());
    for file in files {
        let name = file.file_stem().unwrap().to_str().unwrap();
        let path = file.to_str().unwrap();
        let ended = run(&["check", path]);
        assert_eq!(
            (ended.exit, ended.out.as_str()),
            (Exit::Unusable, ""),
            "{name}"
        );
        let one = format!("{path}: 1 fault; nothing was written");
        assert_eq!(
            ended.err.contains(&one),
            !name.starts_with("many"),
            "{name}:\n{}",
            ended.err
        );
        insta::with_settings!({ snapshot_path => "snapshots/params", prepend_module_to_snapshot => false, omit_expression => true }, {
            insta::assert_snapshot!(name, ended.err);
        });
    }
}

#[test]
fn the_list_is_sound() {
    let keys: BTreeSet<&str> = PARAMETERS.iter().map(|parameter| parameter.key).collect();
    assert_eq!(keys.len(), PARAMETERS.len(), "a key stands twice");
    for parameter in PARAMETERS {
        let key = parameter.key;
        assert_eq!(key, format!("{}.{}", parameter.group, parameter.name));
        assert!(
            GROUPS.iter().any(|group| group.name == parameter.group),
            "{key}"
        );
        assert!(
            parameter.meaning.ends_with('.'),
            "{key}: {}",
            parameter.meaning
        );
        for unit in [TapeUnit::Inch, TapeUnit::Millimeter] {
            let default = (parameter.default)(unit);
            assert_eq!(
                default.is_some(),
                matches!(parameter.presence, Presence::Default | Presence::Assumed),
                "{key}"
            );
        }
        let ranged = matches!(
            parameter.kind,
            Kind::Length | Kind::Slope | Kind::Count | Kind::Angle | Kind::Amount(_)
        );
        assert_eq!(ranged, parameter.range != Range::Any, "{key}");
        // No default for heat: what needs a page has to be written, or nothing stands in for it.
        assert!(
            !parameter.needs_page || parameter.presence != Presence::Default,
            "{key}"
        );
    }
}

/// Writing a page is asked of everything that the unit's manual says about heat.
#[test]
fn distances_to_heat_need_a_page() {
    for parameter in PARAMETERS {
        let name = parameter.name;
        let heat = name.contains("clearance")
            || name.contains("facing")
            || name == "rule"
            || name.ends_with("_from") && parameter.group != "gas";
        let heat = heat || ["least_rise", "slope"].contains(&name) && parameter.group == "vent";
        // How its pipe is joined is the manual's to say too.
        let joint = parameter.group == "pipe"
            && (["overlap", "strap_spacing"].contains(&name) || name.starts_with("joint_"));
        let pass =
            ["roof.cap_above", "vent.angled_pass", "appliance.flange"].contains(&parameter.key);
        // So are the limits of the vent's way, and what may stand beside the opening.
        let limit = ["vent.longest_run", "vent.most_elbows", "vent.run_for_rise"];
        let limit = limit.contains(&parameter.key);
        let near = ["insulation_distance", "keep_out", "rows"].contains(&name);
        // What stands before, beside and over the opening, how the unit is reached, what wall its vent takes, and the
        // makers of board and screen.
        let around = [
            "appliance.side_wall",
            "appliance.hearth_out",
            "appliance.hearth_beside",
            "appliance.screen_above",
            "appliance.service",
            "appliance.gas_entry",
            "appliance.receptacle",
            "vent.thinnest_wall",
            "vent.thickest_wall",
            "appliance.most_forward",
            "mantel.steel_in_zone",
            "skins.board_spacing",
            "skins.side_on_gypsum",
            "screen.over_fire",
        ];
        let around = around.contains(&parameter.key);
        let page = heat || joint || limit || near || pass || around;
        assert_eq!(parameter.needs_page, page, "{}", parameter.key);
    }
}

#[test]
fn every_value_goes_out_and_in_again() {
    for params in [read(STEPPED), read(ONE_WALL)]
        .into_iter()
        .chain((0..40).map(random_params))
    {
        for parameter in PARAMETERS {
            if let Some(value) = params.get(parameter.key) {
                // now it is written, and holds the same
                let mut again = params.with(parameter.key, &value).unwrap();
                again.untold.clone_from(&params.untold);
                again.left_out.clone_from(&params.left_out);
                assert_eq!(again, params, "{}", parameter.key);
            }
        }
    }
}

#[test]
fn ranges_end_where_they_say() {
    let params = read(STEPPED);
    let refused = |key: &str, value: Value| {
        let value = match params.get(key) {
            Some(Value::Manual { page, .. }) => Value::Manual {
                value: Box::new(value),
                page,
            },
            _ => value,
        };
        let faults = params.with(key, &value).err().unwrap_or_default();
        faults
            .iter()
            .any(|fault| fault.problem.contains("out of range"))
    };
    for parameter in PARAMETERS {
        let key = parameter.key;
        let nudge = Length::mm(0.001);
        match parameter.range {
            Range::Length(least, most) => {
                assert!(refused(key, Value::Length(least - nudge)), "{key} below");
                assert!(refused(key, Value::Length(most + nudge)), "{key} above");
                assert!(!refused(key, Value::Length(least)), "{key} least");
                assert!(!refused(key, Value::Length(most)), "{key} most");
            }
            Range::LengthAbove(least, most) => {
                assert!(refused(key, Value::Length(least)), "{key} least");
                assert!(
                    !refused(key, Value::Length(least + nudge)),
                    "{key} above least"
                );
                assert!(refused(key, Value::Length(most + nudge)), "{key} above");
            }
            Range::Slope(least, most) => {
                assert!(
                    refused(key, Value::Slope(Slope::ratio(least.to_ratio() - 0.001))),
                    "{key} below"
                );
                assert!(
                    refused(key, Value::Slope(Slope::ratio(most.to_ratio() + 0.001))),
                    "{key} above"
                );
                assert!(!refused(key, Value::Slope(most)), "{key} most");
            }
            Range::Count(least, most) => {
                let below = least.checked_sub(1);
                assert!(
                    below.is_none_or(|below| refused(key, Value::Count(below))),
                    "{key} below"
                );
                assert!(refused(key, Value::Count(most + 1)), "{key} above");
                assert!(!refused(key, Value::Count(most)), "{key} most");
            }
            Range::Angle(least, most) => {
                let nudged = |angle: Angle, by: f64| Angle::degrees(angle.to_degrees() + by);
                assert!(
                    refused(key, Value::Angle(nudged(least, -0.001))),
                    "{key} below"
                );
                assert!(
                    refused(key, Value::Angle(nudged(most, 0.001))),
                    "{key} above"
                );
                assert!(!refused(key, Value::Angle(most)), "{key} most");
            }
            Range::Amount(least, most) => {
                let at = |amount: Amount, by: f64| {
                    Value::Amount(Amount {
                        value: amount.value + by,
                        ..amount
                    })
                };
                assert!(refused(key, at(least, -0.001)), "{key} below");
                assert!(refused(key, at(most, 0.001)), "{key} above");
                assert!(!refused(key, at(least, 0.0)), "{key} least");
                assert!(!refused(key, at(most, 0.0)), "{key} most");
            }
            Range::Any => {}
        }
    }
    for odd in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        assert!(
            refused("chase.width", Value::Length(Length::mm(odd))),
            "{odd}"
        );
        assert!(
            refused("ceiling.rise_out", Value::Slope(Slope::ratio(odd))),
            "{odd}"
        );
    }
}

/// What a slip in the file is told to be, and the way out of it.
fn told(piece: &str, slip: &str) -> String {
    let faults = faults_with(ONE_WALL, piece, slip);
    let said = |it: &params::Fault| format!("{} {}", it.found, it.way_out);
    faults.iter().map(said).collect::<Vec<_>>().join("; ")
}

#[test]
fn a_value_left_out_before_blanks_is_nothing() {
    let told = told("first_stud =", "first_stud =   \n#");
    assert!(told.starts_with("nothing"), "{told}");
}

/// Two letters may be off in a name, and one in three of a long one.
#[test]
fn a_slip_of_two_letters_is_known_for_one() {
    for (name, slip) in [
        ("first_stud", "frist_stub"),
        ("underside", "unterseide"),
        ("noncombustible_to", "noncombustable_till"),
    ] {
        let told = told(&format!("{name} ="), &format!("{slip} ="));
        assert!(told.contains(&format!("did you mean `{name}`")), "{told}");
    }
}

#[test]
fn a_change_is_judged_like_a_file() {
    let params = read(ONE_WALL);
    let problem = |key: &str, value: &Value| params.with(key, value).unwrap_err()[0].to_string();
    let length = Value::Length(Length::mm(25.0));
    assert!(problem("chase.widht", &length).contains("did you mean `chase.width`?"));
    assert!(problem("chase.width", &Value::Flag(true)).contains("another kind of value"));
    assert!(problem("appliance.side_clearance", &length).contains("with the manual's page"));
    let no_page = Value::Manual {
        value: Box::new(length.clone()),
        page: " ".to_owned(),
    };
    assert!(problem("appliance.side_clearance", &no_page).contains("has no page"));
    assert!(problem("screen.mount", &length).contains("no [screen]"));
    assert_eq!(
        (params.get("screen.mount"), params.get("no.key")),
        (None, None)
    );
    assert!(
        problem("vent.bend_radius", &Value::Length(Length::mm(75.0)))
            .contains("tighter than its pipe")
    );
    let wider = params
        .with("chase.width", &Value::Length(Length::mm(2200.0)))
        .unwrap();
    assert_near(wider.chase.width.to_mm(), 2200.0, 0.0);
    assert_eq!(
        Params {
            chase: params.chase.clone(),
            ..wider
        },
        params,
        "nothing else has changed"
    );
}

/// The same of what stands in rows, in the demos.
#[test]
fn rows_end_where_they_say() {
    let at = |text: &str, piece: &str, [good, bad]: [&str; 2], expected: &str| {
        let found = faults_with(text, piece, good);
        assert!(found.is_empty(), "{good}: {found:#?}");
        let found = faults_with(text, piece, bad);
        assert!(
            format!("{found:#?}").contains(expected),
            "{bad}: {found:#?}"
        );
    };
    let reading_room = include_str!("../../params/reading-room.toml");
    at(
        reading_room,
        r#"["2-1/2 in", "9 in"]"#,
        [
            r#"["1 in", "9 in"], ["1-1/16 in", "9 in"]"#,
            r#"["1 in", "9 in"], ["1 in", "9 in"]"#,
        ],
        "projections that grow",
    );
    at(
        include_str!("../../params/flat-with-cabinets.toml"),
        r#"[["2 in", "6 in"], "#,
        [
            r#"[["2 in", "6 in"], ["2-1/16 in", "6 in"], "#,
            r#"[["2 in", "6 in"], ["2 in", "6 in"], "#,
        ],
        "a first column that increases",
    );
    at(
        reading_room,
        "price = 210.00",
        ["price = 999999.99", "price = 1000000"],
        "a price below 1 million",
    );
    // the room is 13 ft wide and 18 ft deep
    at(
        include_str!("../../params/square-in-a-corner.toml"),
        "fixed = [",
        [
            r#"fixed = [{ name = "door", wall = "back", from = "100 in", width = "10 in", sill = "0 in", height = "10 in", depth = "14 ft" },"#,
            r#"fixed = [{ name = "door", wall = "back", from = "100 in", width = "10 in", sill = "0 in", height = "10 in", depth = "18 1/64 ft" },"#,
        ],
        "the distance across the room",
    );
    // 2 in 1 is the steepest that a ceiling may be
    let read = include_str!("../../params/readings.toml");
    let (_, rest) = read.split_once("readings = [").unwrap();
    let (rows, _) = rest.split_once("\n]").unwrap();
    at(
        read,
        rows,
        [
            "{ right = 0, out = 0, height = 2500 }, { right = 4000, out = 0, height = 10500 }, { right = 0, out = 1000, height = 2500 }",
            "{ right = 0, out = 0, height = 2500 }, { right = 4000, out = 0, height = 10510 }, { right = 0, out = 1000, height = 2500 }",
        ],
        "at most 24:12",
    );
}

/// The limit of each rule between keys holds, and 1/64 in (or a hair of slope) beyond it does not.
#[test]
fn rules_between_keys_end_where_they_say() {
    let at = |text: &str, piece: &str, good: &str, bad: &str| {
        let found = faults_with(text, piece, good);
        assert!(found.is_empty(), "{good}: {found:#?}");
        assert_eq!(faults_with(text, piece, bad).len(), 1, "{bad}");
    };
    // Room 162 in, chase 86 in wide: 162 - 86 = 76.
    at(STEPPED, "left = 34", "left = 76", "left = \"76 1/64 in\"");
    // Room 192 in deep, skins 1/2 + 1-1/8.
    at(
        STEPPED,
        "depth = \"28 in\"",
        "depth = \"117 in\"",
        "depth = \"3 m\"\nleft = 3",
    );
    // Rough opening 35-1/2 + 2 x 3/4 = 37, half 18-1/2, and a jack of 1-1/2: 20. Chase 86 wide from 34: 54 to 100.
    at(
        STEPPED,
        "body_width",
        "center = 54\nbody_width",
        "center = \"53 63/64 in\"\nbody_width",
    );
    at(
        STEPPED,
        "body_width",
        "center = 100\nbody_width",
        "center = \"100 1/64 in\"\nbody_width",
    );
    // 3 platform + 31-3/4 body + 3 clearance + 3-1/2 header + 1-1/2 ledge + 1-1/2 plate + 1/4 gap = 44-1/2.
    let flat = STEPPED
        .replace("rise_out = \"2-1/2:12\"\n", "")
        .replace("sill = \"50 in\"", "sill = \"40 in\"");
    at(
        &flat,
        "height = \"8' 2-1/2\\\"\"",
        "height = \"1.5 m\"",
        "height = \"44 31/64 in\"",
    );
    // Ledge 5-1/2, set-back stud 3-1/2 and 50 mm of side wall.
    let near = STEPPED.replace("collar_offset = \"13-1/2 in\"", "collar_offset = \"4 in\"");
    at(
        &near,
        "depth = \"28 in\"",
        "depth = \"278.6 mm\"",
        "depth = \"278.59 mm\"",
    );
    at(
        STEPPED,
        "opening_top = \"27-1/4 in\"",
        "opening_top = \"31-3/4 in\"",
        "opening_top = \"31 49/64 in\"",
    );
    at(
        STEPPED,
        "opening_bottom = \"6 in\"",
        "opening_bottom = \"27 15/64 in\"",
        "opening_bottom = \"27-1/4 in\"",
    );
    // Body 35-1/2, lip of 1/8 each side.
    at(
        STEPPED,
        "opening_width = \"32 in\"",
        "opening_width = \"35-1/4 in\"",
        "opening_width = \"35 17/64 in\"",
    );
    // Pipe 6-5/8, so the elbow's radius is more than 3-5/16.
    at(
        STEPPED,
        "bend_radius = \"5-1/2 in\"",
        "bend_radius = \"3 21/64 in\"",
        "bend_radius = \"3 5/16 in\"",
    );
    // A level run turns by 90°, so the elbow's leg is its radius: 5-1/2; the face is 28 from the wall.
    let level = STEPPED.replace("value = \"1/4:12\"", "value = 0");
    at(
        &level,
        "rise = \"20 in\"",
        "rise = \"5 33/64 in\"",
        "rise = \"5-1/2 in\"",
    );
    // A body as deep as the chase, or the collar would stand behind it first.
    let deep = level.replace("body_depth = \"17 in\"", "body_depth = \"28 in\"");
    at(
        &deep,
        "collar_offset = \"13-1/2 in\"",
        "collar_offset = \"22-1/2 in\"",
        "collar_offset = \"22 33/64 in\"",
    );
    at(
        STEPPED,
        "collar_offset = \"13-1/2 in\"",
        "collar_offset = \"17 in\"",
        "collar_offset = \"17 1/64 in\"",
    );
    // Upper skin: 1/2 of board and no finish.
    at(
        STEPPED,
        "depth = \"2-1/4 in\"",
        "depth = \"33/64 in\"",
        "depth = \"1/2 in\"",
    );
    // Chase 86, board 1/2 and two studs of 1-1/2 each side.
    at(
        STEPPED,
        "width = \"56 in\"",
        "width = \"79 in\"",
        "width = \"79 1/64 in\"",
    );
}

#[test]
fn bare_numbers_are_in_the_files_unit() {
    let text = STEPPED.replace("unit = \"inch\"\n", "");
    assert_near(read(&text).site().chase.low.to_inches(), 34.0, 1e-12);
    let text = ONE_WALL.replace("left = 900", "left = 900.5");
    assert_near(read(&text).site().chase.low.to_mm(), 900.5, 0.0);
}

#[test]
fn windows_line_ends_and_a_byte_order_mark_are_text_too() {
    let text = format!("\u{feff}{}", STEPPED.replace('\n', "\r\n"));
    assert_eq!(read(&text), read(STEPPED));
}

/// Every fault has its place in the text, and says all that a fault has to say.
fn complete(text: &str, faults: &[params::Fault]) -> Result<(), TestCaseError> {
    prop_assert!(!faults.is_empty());
    for fault in faults {
        let place = fault.place.clone().expect("a fault of a text has a place");
        prop_assert!(text.get(place).is_some(), "{fault:?}");
        for said in [
            &fault.problem,
            &fault.found,
            &fault.expected,
            &fault.way_out,
        ] {
            prop_assert!(!said.is_empty(), "{fault:?}");
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(crate::support::cases(2000)))]

    #[test]
    fn any_text_is_read_or_told(text in "\\PC{0,80}|[\\[\\]{}=.,\"'#a-z0-9\\n\\t -]{0,120}") {
        if let Err(faults) = params::read(&text) {
            complete(&text, &faults)?;
        }
    }

    #[test]
    fn a_damaged_file_is_read_or_told(
        stepped: bool,
        start in 0.0..1.0_f64,
        length in 0_usize..30,
        patch in "[\\[\\]{}=.,\"'#a-z0-9\\n -]{0,12}|\\PC{0,4}",
    ) {
        let good = if stepped { STEPPED } else { ONE_WALL };
        let mut characters: Vec<char> = good.chars().collect();
        let start = (start * characters.len() as f64).floor().to_string().parse::<usize>().unwrap();
        let end = (start + length).min(characters.len());
        characters.splice(start..end, patch.chars());
        let text: String = characters.into_iter().collect();
        if let Err(faults) = params::read(&text) {
            complete(&text, &faults)?;
        }
    }
}

/// What would act in a terminal or a table of numbers is refused wherever a text is shown again.
#[test]
fn texts_that_act_are_refused() {
    for (key, value) in [
        ("stock.currency", "currency = \"=HYPERLINK(1)\""),
        ("stock.currency", "currency = \"\\u001b[2J\""),
        ("stock.prices", "prices = [{ item = \"=1+1\", price = 1 }]"),
        ("stock.prices", "prices = [{ item = \"@sum\", price = 1 }]"),
        (
            "stock.prices",
            "prices = [{ item = \"the \\u001b[31munit\", price = 1 }]",
        ),
    ] {
        let text = format!("{ONE_WALL}\n[stock]\n{value}\n");
        let text = if ONE_WALL.contains("[stock]") {
            ONE_WALL.replacen("[stock]", &format!("[stock]\n{value}"), 1)
        } else {
            text
        };
        let faults = params::read(&text).expect_err(value);
        assert!(
            faults.iter().any(|it| it.key.as_ref() == key),
            "{value}: {faults:?}"
        );
    }
    let faults = faults_with(STEPPED, "page = \"11\"", "page = \"1\\u00071\"");
    assert!(!faults.is_empty(), "a bell on a page");
}

/// No list and no file of unknown names takes longer than one that a job has.
#[test]
fn long_lists_and_many_unknown_names_are_told_at_once() {
    let places = vec![Length::inches(40.0); 201];
    let faults = read(STEPPED).with("blocking.across", &Value::Lengths(places));
    let faults = faults.expect_err("too long a list");
    assert!(faults[0].problem.contains("is too long"), "{faults:?}");
    let unknown = (0..20_000).map(|it| format!("nothing_{it} = 1"));
    let unknown = unknown.collect::<Vec<_>>().join("\n");
    let faults =
        params::read(&STEPPED.replacen("[project]", &format!("[project]\n{unknown}\n"), 1));
    let faults = faults.expect_err("nothing of it is known");
    assert!(faults.len() < 200, "{}", faults.len());
    let told = |it: &params::Fault| it.problem.contains("19900 more keys");
    assert!(faults.iter().any(told), "{:?}", faults.last());
}

#[test]
fn a_spacing_is_no_smaller_than_screws_stand() {
    for key in ["fasteners.board_screw_spacing", "fasteners.anchor_spacing"] {
        let tiny = Value::Length(Length::mm(0.000_001));
        assert!(read(STEPPED).with(key, &tiny).is_err(), "{key}");
    }
}

#[test]
fn lines_that_end_with_a_return_alone_are_told_as_such() {
    let faults = params::read(&STEPPED.replace("\r\n", "\n").replace('\n', "\r"));
    let faults = faults.expect_err("no line ends");
    assert_eq!(faults.len(), 1);
    assert!(faults[0].problem.contains("carriage return"), "{faults:?}");
}
