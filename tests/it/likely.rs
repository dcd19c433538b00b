//! What facts usually are: a number outside is asked about, whatever else it does, and no demo has one.

use chasewright::check::{Finding, Verdict, check};
use chasewright::design::design;
use chasewright::params::{Kind, Likely, Nature, PARAMETERS, Parameter, Params, Range, Value};
use chasewright::units::{Amount, Length};

use crate::support::{changed, demos};

fn doubts(params: &Params) -> Vec<Finding> {
    let mut found = check(&design(params));
    found.retain(|it| it.rule == "likely");
    assert!(
        found.iter().all(|it| it.verdict == Verdict::Ask),
        "{found:#?}"
    );
    found
}

/// The question about a key, if it is asked about.
fn doubt(params: &Params, key: &str) -> Option<String> {
    let found = doubts(params).into_iter();
    let mut own = found.filter(|it| it.subject.to_string() == key);
    own.next().and_then(|it| it.question)
}

/// Whether a key holds numbers that somebody measured or read.
fn is_number(kind: Kind) -> bool {
    match kind {
        Kind::Count
        | Kind::Length
        | Kind::Slope
        | Kind::MantelRule
        | Kind::Lengths
        | Kind::Angle
        | Kind::Angles
        | Kind::Amount(_)
        | Kind::Grid(_)
        | Kind::Readings
        | Kind::FixedThings => true,
        Kind::Text
        | Kind::Flag
        | Kind::Lumber
        | Kind::Wood
        | Kind::Layers
        | Kind::Choice(_)
        | Kind::Boards
        | Kind::Sheets
        | Kind::Prices
        | Kind::Decisions
        | Kind::VentPath => false,
    }
}

/// What a builder chooses, and the trade has a habit for.
const HABITS: [&str; 6] = [
    "skins.board",
    "fasteners.board_screw_spacing",
    "fasteners.panel_screw_spacing",
    "fasteners.anchor_spacing",
    "fasteners.ceiling_screw_spacing",
    "fasteners.wall_screw_spacing",
];

/// The list says of every fact with numbers what it usually is, and of nothing else but the trade's habits.
#[test]
fn every_fact_with_numbers_has_what_it_usually_is() {
    for it in PARAMETERS {
        let wanted = it.nature == Nature::Fact && is_number(it.kind) || HABITS.contains(&it.key);
        assert_eq!(it.likely != Likely::Any, wanted, "{}", it.key);
    }
}

/// Numbers just outside of what is usual, as far as the key allows them.
fn just_outside(it: &Parameter) -> Vec<Value> {
    let (Likely::Within(range) | Likely::NoneOr(range)) = it.likely else {
        return Vec::new();
    };
    match range {
        Range::Length(least, most) | Range::LengthAbove(least, most) => {
            let off = Length::mm(0.5);
            let both = [least - off, most + off];
            both.map(Value::Length).into()
        }
        Range::Count(least, most) => {
            let below = least.checked_sub(1);
            let both = below.into_iter().chain([most + 1]);
            both.map(Value::Count).collect()
        }
        Range::Amount(least, most) => {
            let at = |of: Amount, share: f64| {
                Value::Amount(Amount {
                    value: of.value * share,
                    ..of
                })
            };
            vec![at(least, 0.99), at(most, 1.01)]
        }
        Range::Any | Range::Slope(..) | Range::Angle(..) => Vec::new(),
    }
}

/// Over every demo and every key: a number just outside is asked about, by its own name, and its page where it has one.
#[test]
fn a_number_outside_is_asked_about() {
    let mut asked = 0;
    for (name, params) in demos() {
        for it in PARAMETERS {
            let Some(told) = params.get(it.key) else {
                continue;
            };
            for value in just_outside(it) {
                let (value, page) = match &told {
                    Value::Manual { page, .. } => {
                        let value = Box::new(value);
                        (
                            Value::Manual {
                                value,
                                page: page.clone(),
                            },
                            page.clone(),
                        )
                    }
                    _ => (value, String::new()),
                };
                // what the file itself would refuse is no case
                let Ok(params) = params.with(it.key, &value) else {
                    continue;
                };
                let question = it.doubt(&params).map(|_| doubt(&params, it.key));
                let question = question.flatten();
                let question = question.unwrap_or_else(|| panic!("{name}: {} {value:?}", it.key));
                assert!(
                    page.is_empty() || question.contains(&format!("page {page} ")),
                    "{question}"
                );
                asked += 1;
            }
        }
    }
    assert!(asked > 500, "{asked}");
}

#[test]
fn no_demo_has_an_unlikely_number() {
    for (name, params) in demos() {
        assert_eq!(doubts(&params), [], "{name}");
    }
}

/// Inches copied into a file of millimeters, and millimeters into one of inches: the other unit is named.
#[test]
fn the_other_unit_is_named_where_it_would_fit() {
    for (demo, key, value, other) in [
        (
            "metric-mono-slope",
            "appliance.side_clearance",
            "2",
            "2 in would be",
        ),
        (
            "metric-mono-slope",
            "appliance.facing_zone_top",
            "10",
            "10 in would be",
        ),
        (
            "reading-room",
            "appliance.rear_clearance",
            "25",
            "25 mm would be",
        ),
        ("reading-room", "vent.top_clearance", "25", "25 mm would be"),
    ] {
        let manual = format!(r#"{{ value = {value}, page = "11" }}"#);
        let question = doubt(&changed(demo, &[(key, &manual)]), key).expect(key);
        assert!(
            question.contains("page 11") && question.contains(other),
            "{question}"
        );
    }
    let light = changed("reading-room", &[("skins.lower_weight", r#""60 lb/ft2""#)]);
    let question = doubt(&light, "skins.lower_weight").expect("60 kg/m2 is meant");
    assert!(question.contains("60 kg/m2 would be"), "{question}");
    // nothing to keep is an answer
    let none = changed(
        "reading-room",
        &[(
            "appliance.rear_clearance",
            r#"{ value = "0 in", page = "11" }"#,
        )],
    );
    assert_eq!(doubt(&none, "appliance.rear_clearance"), None);
}

/// A zero too few, and the columns of a table in the wrong order; beside each what is right.
#[test]
fn a_slip_of_the_pen_is_asked_about() {
    for (demo, key, wrong, right) in [
        (
            "reading-room",
            "appliance.input",
            r#""3600 Btu/h""#,
            r#""36000 Btu/h""#,
        ),
        (
            "reading-room",
            "vent.run_for_rise",
            r#"{ value = [["5 ft", "16 in"], ["12 ft", "30 in"]], page = "26" }"#,
            r#"{ value = [["16 in", "5 ft"], ["30 in", "12 ft"]], page = "26" }"#,
        ),
        (
            "reading-room",
            "mantel.rule",
            r#"{ steps = [["9 in", "2-1/2 in"], ["20 in", "11 in"]], page = "18" }"#,
            r#"{ steps = [["2-1/2 in", "9 in"], ["11 in", "20 in"]], page = "18" }"#,
        ),
        (
            "flat-with-cabinets",
            "side_rule.rows",
            r#"{ value = [["6 in", "2 in"], ["18 in", "12 in"]], page = "15" }"#,
            r#"{ value = [["2 in", "6 in"], ["12 in", "18 in"]], page = "15" }"#,
        ),
    ] {
        assert!(
            doubt(&changed(demo, &[(key, wrong)]), key).is_some(),
            "{key}"
        );
        assert_eq!(doubt(&changed(demo, &[(key, right)]), key), None, "{key}");
    }
}
