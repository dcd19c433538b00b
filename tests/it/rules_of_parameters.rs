//! Rules that rest on parameters, against the published rows that they quote; the source beside each.

use chasewright::catalog::{GAS_HALF_INCH_DROP, GAS_THREE_INCH_DROP, GasRow};
use chasewright::check::{Finding, Verdict, check};
use chasewright::design::design;
use chasewright::params::{OutsideOpenings, Params, RoomWall, Value, read};
use chasewright::units::{Amount, AmountKind, Length, TapeUnit};

use crate::scenarios::demo;
use crate::support::assert_near;

/// 1/64 in.
const MARK: f64 = 1.0 / 64.0;

fn with(params: &Params, changes: &[(&str, Value)]) -> Params {
    changes.iter().fold(params.clone(), |params, (key, value)| {
        let value = match params.get(key) {
            Some(Value::Manual { page, .. }) => Value::Manual {
                value: Box::new(value.clone()),
                page,
            },
            _ => value.clone(),
        };
        params
            .with(key, &value)
            .unwrap_or_else(|faults| panic!("{key}: {faults:?}"))
    })
}

fn inches(value: f64) -> Value {
    Value::Length(Length::inches(value))
}

fn amount(kind: AmountKind, text: &str) -> Value {
    Value::Amount(Amount::parse(kind, text).unwrap())
}

fn input(btu_per_hour: &str) -> Value {
    amount(AmountKind::HeatInput, &format!("{btu_per_hour} Btu/h"))
}

fn of_rule(params: &Params, rule: &str) -> Vec<Finding> {
    let mut findings = check(&design(params));
    findings.retain(|it| it.rule == rule);
    findings
}

/// The only finding of a rule that begins so.
fn only(params: &Params, rule: &str, about: &str) -> Finding {
    let mut found = of_rule(params, rule);
    found.retain(|it| it.subject.to_string().starts_with(about));
    assert_eq!(found.len(), 1, "{rule}, {about}: {found:#?}");
    found.remove(0)
}

fn house() -> Params {
    demo("rises-away-from-wall")
}

/// The low-pressure equation of IFGC 2018 402.4 (from memory): D = Q^0.381 / [19.17 (dH / (Cr L))^0.206],
/// Cr = 0.6094 for natural gas, inside diameters of schedule 40 pipe (read). It lies up to 0.84 % over
/// table 402.4(3), which was read, and within 1.5 % of 402.4(2), whose numbers are small and rounded.
#[test]
fn the_gas_tables_agree_with_the_equation_behind_them() {
    let diameters = [0.622, 0.824, 1.049, 1.380];
    let flow = |diameter: f64, drop: f64, feet: f64| {
        libm::pow(
            diameter * 19.17 * libm::pow(drop / (0.6094 * feet), 0.206),
            1.0 / 0.381,
        )
    };
    let off = |rows: &[GasRow], drop: f64, least: f64, most: f64| {
        for row in rows {
            for (diameter, capacity) in diameters.iter().zip(row.capacity) {
                let equation = flow(*diameter, drop, f64::from(row.feet));
                let high = equation / f64::from(capacity) - 1.0;
                assert!(
                    (least..=most).contains(&high),
                    "{} ft, {diameter}: {capacity} against {equation}",
                    row.feet
                );
            }
        }
    };
    off(&GAS_THREE_INCH_DROP, 3.0, 0.0, 0.01);
    off(&GAS_HALF_INCH_DROP, 0.5, -0.005, 0.015);
    // equal drop per foot, equal capacity: 0.5 in over 10 ft is 3.0 in over 60 ft
    assert_eq!(
        GAS_HALF_INCH_DROP[0].capacity,
        GAS_THREE_INCH_DROP[5].capacity
    );
}

/// IFGC 2018 table 402.4(2): 3/4 in carries 151 ft³/h over 50 ft; a run of 50 ft and a mark is judged by 60 ft, 137.
#[test]
fn the_gas_pipe_is_judged_by_the_row_of_its_longest_run() {
    let judged = |run: f64, demand: &str| {
        let params = with(
            &house(),
            &[
                ("gas.longest_run", inches(run)),
                ("gas.demand", input(demand)),
            ],
        );
        only(&params, "gas pipe", "gas pipe: capacity")
    };
    for (run, demand, capacity, verdict) in [
        (600.0, "151000", 151.0, Verdict::Pass),
        (600.0, "151001", 151.0, Verdict::Fail),
        (600.0 + MARK, "137000", 137.0, Verdict::Pass),
        (600.0 + MARK, "137001", 137.0, Verdict::Fail),
        (1200.0, "104000", 104.0, Verdict::Pass),
    ] {
        let found = judged(run, demand);
        assert_near(found.numbers.unwrap().measured, capacity, 0.0);
        assert_eq!(found.verdict, verdict, "{demand} over {run}");
    }
    let past = with(&house(), &[("gas.longest_run", inches(1200.0 + MARK))]);
    let found = only(&past, "gas pipe", "gas pipe: longest run");
    assert_eq!(found.verdict, Verdict::Fail);
}

#[test]
fn the_other_gas_table_and_every_size_have_their_own_column() {
    let capacity = |table: &'static str, pipe: &'static str| {
        let params = with(
            &house(),
            &[
                ("gas.longest_run", inches(240.0)),
                ("gas.sized_by", Value::Choice(table)),
                ("gas.pipe", Value::Choice(pipe)),
            ],
        );
        let found = only(&params, "gas pipe", "gas pipe: capacity");
        found.numbers.unwrap().measured
    };
    // rows of 20 ft: table 402.4(2) from memory, table 402.4(3) read
    for (pipe, half, three) in [
        ("1/2", 118.0, 312.0),
        ("3/4", 247.0, 652.0),
        ("1", 466.0, 1230.0),
        ("1-1/4", 957.0, 2520.0),
    ] {
        assert_near(capacity("half_inch_drop", pipe), half, 0.0);
        assert_near(capacity("three_inch_drop", pipe), three, 0.0);
    }
}

#[test]
fn propane_is_a_question() {
    let propane = with(&house(), &[("gas.fuel", Value::Choice("propane"))]);
    assert_eq!(only(&propane, "gas pipe", "").verdict, Verdict::Ask);
}

/// The unit's own input is a part of the demand: it can fail a pipe and never pass it. 1/2 in carries 72 ft³/h over
/// 50 ft (IFGC 2018 table 402.4(2), from memory).
#[test]
fn what_else_is_on_the_gas_pipe_is_asked() {
    let judged = |rating: Option<&str>| {
        let mut params = with(&house(), &[("gas.pipe", Value::Choice("1/2"))]);
        params.appliance.input = None;
        if let Some(gas) = &mut params.gas {
            gas.demand = None;
        }
        let params = rating.map_or(params.clone(), |it| {
            with(&params, &[("appliance.input", input(it))])
        });
        only(&params, "gas pipe", "")
    };
    for rating in [None, Some("72000")] {
        let found = judged(rating);
        assert_eq!(found.verdict, Verdict::Ask, "{rating:?}");
        assert!(found.question.unwrap().contains("gas.demand"));
    }
    assert_eq!(judged(Some("72001")).verdict, Verdict::Fail);
}

/// Without the input the largest step of the table, 12 in, is held, and nothing passes.
#[test]
fn an_unknown_input_is_held_to_the_largest_step() {
    let judged = |away: f64| {
        let mut params = house();
        params.appliance.input = None;
        // the cap is 12 in wide round 84
        let opening = [90.0 + away, 36.0, 140.0, 80.0].map(Length::inches);
        params.outside.as_mut().unwrap().openings = Some(OutsideOpenings(vec![opening]));
        let found = of_rule(&params, "terminal");
        let names = |it: &Finding| {
            it.question
                .as_ref()
                .is_some_and(|it| it.contains("appliance.input"))
        };
        assert_eq!(found.iter().filter(|it| names(it)).count(), 1);
        let to_it = found
            .into_iter()
            .find(|it| it.subject.to_string() == "cap to opening 1 outside");
        to_it.map(|it| (it.verdict, it.numbers.unwrap().required / 25.4))
    };
    let (verdict, required) = judged(12.0 - MARK).unwrap();
    assert_eq!(verdict, Verdict::Fail);
    assert_near(required, 12.0, 1e-9);
    assert_eq!(judged(12.0), None);
}

/// `openings = []` is an answer; no `openings` is none.
#[test]
fn windows_that_nobody_spoke_of_are_asked_about() {
    let asked = |openings: Option<OutsideOpenings>| {
        let mut params = house();
        params.outside.as_mut().unwrap().openings = openings;
        let found = of_rule(&params, "terminal");
        let mut questions = found.iter().flat_map(|it| &it.question);
        questions.any(|it| it.contains("outside.openings"))
    };
    assert!(asked(None));
    assert!(!asked(Some(OutsideOpenings(Vec::new()))));
}

/// IFGC 2018 409.1.2 and .3 (read in a secondary copy): a valve stands in no concealed space without access.
#[test]
fn a_shutoff_behind_the_face_needs_its_panel() {
    let fails = |params: &Params| {
        let findings = of_rule(params, "gas shutoff");
        let hidden = findings.iter().filter(|it| it.verdict == Verdict::Fail);
        hidden.count()
    };
    assert_eq!(fails(&house()), 0);
    let closed = with(&house(), &[("gas.panel", Value::Flag(false))]);
    assert_eq!(fails(&closed), 1);
    // the chase's left side ends at 45 less 1/2 in of board: a mark beyond it the valve stands free
    let at = |right: f64| with(&closed, &[("gas.shutoff_right", inches(right))]);
    assert_eq!(fails(&at(44.5)), 0);
    assert_eq!(fails(&at(44.5 + MARK)), 1);
}

/// One question always, with the test's pressure and time: 3 psi and 10 minutes are the least of IFGC 406.4
/// (read), and no parameter goes below.
#[test]
fn the_gas_line_is_a_fitters_and_the_output_says_so() {
    let asked = |params: &Params| only(params, "gas line", "the gas line").question.unwrap();
    assert!(asked(&house()).contains("3 psi for 10 minutes"));
    let more = with(
        &house(),
        &[("gas.test_pressure", amount(AmountKind::Pressure, "10 psi"))],
    );
    assert!(asked(&more).contains("10 psi for 10 minutes"));
    assert!(asked(&demo("flat-with-cabinets")).contains("licensed fitter"));
    let less = amount(AmountKind::Pressure, "2.99 psi");
    assert!(house().with("gas.test_pressure", &less).is_err());
    assert!(house().with("gas.test_minutes", &Value::Count(9)).is_err());
}

/// Direct vent, NFPA 54 12.9 and IFGC table 503.8 (from memory): 6, 9 and 12 in from openings up to 10,000,
/// 50,000 and 150,000 Btu/h, each step with its own end.
#[test]
fn the_cap_keeps_the_distance_of_its_input_from_openings() {
    for (rating, required) in [
        ("10000", Some(6.0)),
        ("10001", Some(9.0)),
        ("50000", Some(9.0)),
        ("50001", Some(12.0)),
        ("150000", Some(12.0)),
        ("150001", None),
    ] {
        let params = with(&house(), &[("appliance.input", input(rating))]);
        let found = of_rule(&params, "terminal");
        let judged = found
            .iter()
            .find(|it| it.subject.to_string() == "cap to opening 1 outside");
        if let Some(inches) = required {
            let numbers = judged.unwrap().numbers.unwrap();
            assert_near(numbers.required, inches * 25.4, 1e-9);
        } else {
            assert!(judged.is_none(), "{rating}");
            assert!(found.iter().any(|it| it.verdict == Verdict::Ask));
        }
    }
}

/// The cap is 12 in square round x = 84. An opening 3 in to the right and 4 in above its corner is 5 in away.
#[test]
fn the_distance_to_an_opening_is_that_of_the_nearest_points() {
    let params = house();
    let model = design(&params);
    let caps = model
        .parts
        .iter()
        .filter(|it| it.id.starts_with("vent/cap"));
    let high = caps
        .map(|it| it.body.bounds.high.z / 25.4)
        .fold(0.0, f64::max);
    let opening = [93.0, high + 4.0, 120.0, high + 30.0].map(Length::inches);
    let mut params = params;
    params.outside.as_mut().unwrap().openings = Some(OutsideOpenings(vec![opening]));
    let found = only(&params, "terminal", "cap to opening 1");
    assert_near(found.numbers.unwrap().measured, 5.0 * 25.4, 1e-9);
    assert_eq!(found.verdict, Verdict::Fail);
}

/// A window that opens is an opening for the cap, if it is in the wall that the cap is on.
#[test]
fn the_cap_keeps_away_from_a_window_of_its_own_wall() {
    let mut params = demo("flush-in-a-wall");
    let judged = |params: &Params| {
        let found = of_rule(params, "terminal");
        found
            .iter()
            .any(|it| it.subject.to_string() == "cap to window")
    };
    assert!(judged(&params));
    let window = params.room.fixed.iter().position(|it| it.name == "window");
    params.room.fixed[window.unwrap()].wall = RoomWall::Left;
    assert!(!judged(&params));
}

/// 12 in over the ground (IRC 2018 G2427.8), more where the manual asks more.
#[test]
fn the_larger_of_code_and_manual_counts() {
    let required = |clearance: f64| {
        let params = with(&house(), &[("outside.ground_clearance", inches(clearance))]);
        let found = only(&params, "terminal", "cap's underside");
        (found.numbers.unwrap().required / 25.4, found.source)
    };
    let (low, source) = required(6.0);
    assert_near(low, 12.0, 1e-9);
    assert!(source.contains("G2427.8"));
    let (high, source) = required(18.0);
    assert_near(high, 18.0, 1e-9);
    assert!(source.contains("manual p. 20"));
}

/// Of corner, soffit, meter, regulator and walkway only what was answered is answered: the question names every other
/// key, and those alone. The model code has no number for them; these are invented.
#[test]
fn of_the_caps_surroundings_only_what_was_answered_is_answered() {
    let surroundings = ["corner", "soffit", "meter", "regulator", "walkway"];
    let keys = surroundings.map(|it| {
        let place = format!("outside.{it}");
        [format!("{place}_clearance"), place]
    });
    let asked = |params: &Params| {
        let found = of_rule(params, "terminal");
        let asks = found.into_iter().filter_map(|it| it.question);
        let asks: Vec<String> = asks.collect();
        assert!(asks.len() <= 1, "{asks:?}");
        asks.concat()
    };
    let open = asked(&house());
    assert!(keys.as_flattened().iter().all(|key| open.contains(key)));
    let page = |inches: f64| {
        Some(chasewright::params::Manual {
            value: Length::inches(inches),
            page: "21".to_owned(),
        })
    };
    let mut params = house();
    let outside = params.outside.as_mut().unwrap();
    // the cap is 12 in wide round 84, so 18 in from this corner
    outside.corner = Some(Length::inches(60.0));
    outside.corner_clearance = page(18.0);
    outside.soffit = Some(Length::inches(90.0));
    outside.soffit_clearance = page(12.0);
    outside.meter = Some(Length::inches(40.0));
    outside.regulator_clearance = page(36.0);
    let corner = only(&params, "terminal", "cap to the inside corner");
    assert_near(corner.numbers.unwrap().margin, 0.0, 1e-9);
    assert_eq!(corner.verdict, Verdict::Tight);
    let soffit = only(&params, "terminal", "cap's top");
    assert_eq!(soffit.verdict, Verdict::Pass);
    let open = asked(&params);
    for key in [
        "meter_clearance",
        "regulator)",
        "walkway, outside.walkway_clearance",
    ] {
        assert!(open.contains(&format!("outside.{key}")), "{key}: {open}");
    }
    for key in [
        "corner",
        "soffit",
        "meter,",
        "meter)",
        "regulator_clearance",
    ] {
        assert!(!open.contains(&format!("outside.{key}")), "{key}: {open}");
    }
    let outside = params.outside.as_mut().unwrap();
    outside.meter_clearance = page(36.0);
    outside.regulator = Some(Length::inches(36.0 - MARK));
    outside.walkway = Some(Length::inches(84.25));
    outside.walkway_clearance = page(84.0);
    for (about, verdict) in [
        ("cap to the gas meter", Verdict::Pass),
        ("cap to the regulator", Verdict::Fail),
        ("cap to the walkway", Verdict::Pass),
    ] {
        assert_eq!(only(&params, "terminal", about).verdict, verdict, "{about}");
    }
    assert_eq!(asked(&params), "");
}

/// The demo's rows: from 16 in of rise 4 ft of run, from 24 in 8 ft, from 48 in 20 ft.
#[test]
fn the_run_is_judged_by_the_last_row_that_the_rise_reaches() {
    let limit = |rise: f64| {
        let params = with(&house(), &[("vent.rise", inches(rise))]);
        let found = of_rule(&params, "vent limits");
        let row = found
            .iter()
            .find(|it| it.subject.to_string().starts_with("run for"));
        row.map(|it| it.numbers.unwrap().required / 25.4)
    };
    assert_near(limit(16.0).unwrap(), 48.0, 1e-9);
    assert_near(limit(24.0 - MARK).unwrap(), 48.0, 1e-9);
    assert_near(limit(24.0).unwrap(), 96.0, 1e-9);
    assert_eq!(limit(16.0 - MARK), None);
    let below = with(&house(), &[("vent.rise", inches(16.0 - MARK))]);
    let found = only(&below, "vent limits", "rise from");
    assert_eq!(found.verdict, Verdict::Fail);
}

#[test]
fn elbows_are_counted_and_no_limits_at_all_are_one_question() {
    let elbows = |most| {
        let params = with(&house(), &[("vent.most_elbows", Value::Count(most))]);
        only(&params, "vent limits", "elbows").verdict
    };
    assert_eq!((elbows(1), elbows(0)), (Verdict::Pass, Verdict::Fail));
    let asked = of_rule(&demo("flat-with-cabinets"), "vent limits");
    assert_eq!(asked.len(), 1);
    assert_eq!(asked[0].verdict, Verdict::Ask);
}

/// Each of the three limits that is left out is asked about by its key, and only those.
#[test]
fn each_missing_limit_of_the_vent_is_asked_about() {
    let asked = |params: &Params| {
        let found = of_rule(params, "vent limits");
        let mut asks = found.into_iter().filter_map(|it| it.question);
        asks.next().unwrap_or_default()
    };
    assert_eq!(asked(&house()), "");
    let keys = ["vent.longest_run", "vent.most_elbows", "vent.run_for_rise"];
    for missing in keys {
        let mut params = house();
        match missing {
            "vent.longest_run" => params.vent.longest_run = None,
            "vent.most_elbows" => params.vent.most_elbows = None,
            _ => params.vent.run_for_rise = None,
        }
        let question = asked(&params);
        let named = keys.into_iter().filter(|key| question.contains(key));
        assert_eq!(named.collect::<Vec<_>>(), [missing], "{question}");
    }
}

/// A ceiling is flat where somebody says so. One rise alone asks for the other, none for both, and 0 is an answer; a
/// ridge with its height says how the ceiling rises to it. What would pass meanwhile waits.
#[test]
fn how_the_ceiling_rises_is_asked_and_not_taken_for_flat() {
    let asked = |slopes: &str, ridge: &str| {
        let text = include_str!("../../params/stepped-face.toml");
        let ceiling = "height = \"96 in\"\nslope = \"flat\"\n";
        assert!(text.contains(ceiling));
        let slopes = format!("height = \"96 in\"\n{slopes}\n");
        let params = read(&(text.replace(ceiling, &slopes) + ridge)).expect(&slopes);
        let found = check(&design(&params));
        let question = found.iter().find(|it| it.rule == "ceiling slope");
        let question = question.and_then(|it| it.question.clone());
        let passes = found
            .iter()
            .any(|it| it.rule == "inside the room" && it.verdict > Verdict::Ask)
            || found.iter().any(|it| {
                let longest = it.subject.is_called("longest stud for its stock");
                longest && it.verdict > Verdict::Ask
            });
        assert_eq!(question.is_some(), !passes, "{slopes}");
        let keys = ["ceiling.rise_right", "ceiling.rise_out"];
        keys.map(|key| question.as_ref().is_some_and(|it| it.contains(key)))
    };
    assert_eq!(asked("slope = \"flat\"", ""), [false, false]);
    assert_eq!(asked("rise_right = 0\nrise_out = 0", ""), [false, false]);
    assert_eq!(asked("", ""), [true, true]);
    assert_eq!(asked("rise_right = 0", ""), [false, true]);
    assert_eq!(asked("rise_out = \"1/2:12\"", ""), [true, false]);
    let ridge =
        "\n[ridge]\nruns = \"out\"\nat = \"100 in\"\nheight = \"100 in\"\nfall = \"1:12\"\n";
    assert_eq!(asked("rise_out = 0", ridge), [false, false]);
    assert_eq!(asked("", ridge), [false, true]);
}

/// TMS 402-16 12.3, adhered veneer (from memory): 15 lb/ft² at most. TMS 402-22 rewrote the limits: asked.
#[test]
fn veneer_is_judged_by_its_edition() {
    let judged = |weight: &str, edition: &'static str| {
        let params = with(
            &house(),
            &[
                ("skins.lower_weight", amount(AmountKind::AreaWeight, weight)),
                ("skins.veneer_standard", Value::Choice(edition)),
            ],
        );
        let found = of_rule(&params, "veneer");
        found.iter().map(|it| it.verdict).min()
    };
    assert_eq!(judged("15 lb/ft2", "tms_402_16"), Some(Verdict::Pass));
    // up to 20 lb/ft² only an interior clause may allow it (IBC 2018 1404.10, from memory)
    assert_eq!(judged("15.001 psf", "tms_402_16"), Some(Verdict::Ask));
    assert_eq!(judged("20 lb/ft2", "tms_402_16"), Some(Verdict::Ask));
    assert_eq!(judged("20.001 psf", "tms_402_16"), Some(Verdict::Fail));
    // 73.236 kg/m² is 15 lb/ft² (1 lb/ft² = 4.882428 kg/m²)
    assert_eq!(judged("73.3 kg/m2", "tms_402_16"), Some(Verdict::Ask));
    assert_eq!(judged("73.2 kg/m2", "tms_402_16"), Some(Verdict::Pass));
    for edition in ["tms_402_22", "unknown"] {
        assert_eq!(judged("40 lb/ft2", edition), Some(Verdict::Ask));
    }
}

/// The face of the demo is 79 in wide over its boards; its finish of 11 lb/ft² is told per foot of the front.
#[test]
fn the_slab_is_told_what_the_finish_weighs() {
    let params = house();
    let model = design(&params);
    let finish = model
        .parts
        .iter()
        .filter(|it| it.id.starts_with("face/finish"));
    // 1 in thick
    let square_feet: f64 = finish
        .map(|it| it.body.volume() / 25.4 / 304.8 / 304.8)
        .sum();
    let load = (square_feet * 11.0 / 6.5).ceil();
    let found = only(&params, "veneer", "weight of the finish around");
    let expected = format!("puts {load:.0} lb/ft on the slab");
    assert!(
        found.detail.as_ref().unwrap().contains(&expected),
        "{found:#?}"
    );
}

/// The demo's rows: up to 2 in 6 in away, up to 6 in 12, up to 12 in 18.
#[test]
fn what_stands_beside_the_opening_is_judged_by_its_projection() {
    let params = demo("flat-with-cabinets");
    let legs = |projection: f64| {
        let params = with(&params, &[("legs.projection", inches(projection))]);
        let mut found = of_rule(&params, "beside the opening");
        found.retain(|it| it.parts[0].starts_with("face/leg"));
        assert_eq!(found.len(), 1);
        found.remove(0)
    };
    for (projection, required) in [(2.0, 6.0), (2.0 + MARK, 12.0), (12.0, 18.0)] {
        let numbers = legs(projection).numbers.unwrap();
        assert_near(numbers.required, required * 25.4, 1e-9);
    }
    let past = legs(12.0 + MARK);
    assert!(past.subject.to_string().contains("last row"));
    assert_eq!(past.verdict, Verdict::Fail);
    let stone = with(&params, &[("legs.combustible", Value::Flag(false))]);
    assert_eq!(
        only(&stone, "beside the opening", "legs").verdict,
        Verdict::Ask
    );
    let mut unsaid = params;
    unsaid.side_rule = None;
    let asked = of_rule(&unsaid, "beside the opening");
    assert_eq!(asked.len(), 1, "one question for all of them");
}

/// The cabinet stands 59-1/2 less 38-1/2 in, so 21 in, beside the opening; its door of 15 in hangs far from
/// it and stands open 36 in away, 16 + 15 − 27-1/2 = 3-1/2 in before the face.
#[test]
fn an_open_door_is_judged_where_it_stands() {
    let params = demo("flat-with-cabinets");
    let found = only(&params, "beside the opening", "left cabinet's door");
    let numbers = found.numbers.unwrap();
    assert_near(numbers.measured, 36.0 * 25.4, 1e-9);
    assert_near(numbers.required, 12.0 * 25.4, 1e-9);
    let near = with(&params, &[("cabinets.hinge", Value::Choice("near"))]);
    let found = only(&near, "beside the opening", "right cabinet's door");
    assert_near(found.numbers.unwrap().measured, 21.0 * 25.4, 1e-9);
    // the chase's own side stops a door of a cabinet that stands behind its face
    assert!(of_rule(&near, "door swing").is_empty());
}

#[test]
fn cables_over_the_hot_top_need_their_shelf() {
    let mut params = house();
    let cables = params.cables.as_mut().unwrap();
    cables.shelf = None;
    let found = only(&params, "cables", "cables over");
    assert_eq!(found.verdict, Verdict::Ask);
    // without the manual's number it is asked for; the pipe's largest clearance, 3 in round the elbow, stands by it
    params.cables.as_mut().unwrap().keep_out = None;
    let found = only(&params, "cables", "cables to");
    assert_eq!(found.verdict, Verdict::Ask);
    assert_eq!(found.answered_by, ["cables.keep_out"]);
    assert_near(found.numbers.unwrap().required, 3.0 * 25.4, 1e-9);
    params.cables = None;
    let found = only(&params, "cables", "the screen's cables");
    assert_eq!(found.verdict, Verdict::Ask);
}

#[test]
fn the_wall_behind_the_chase_is_closed_first() {
    assert!(of_rule(&house(), "envelope").is_empty());
    let open = with(&house(), &[("wall.sealed", Value::Flag(false))]);
    assert_eq!(only(&open, "envelope", "").verdict, Verdict::Fail);
    assert_eq!(
        only(&demo("flat-with-cabinets"), "envelope", "").verdict,
        Verdict::Ask
    );
}

/// Each subject asks at most once.
#[test]
fn no_subject_asks_twice() {
    for name in [
        "reading-room",
        "flat-with-cabinets",
        "rises-away-from-wall",
        "stepped-face",
    ] {
        let params = demo(name);
        for rule in [
            "gas line",
            "gas pipe",
            "terminal",
            "vent limits",
            "veneer",
            "insulation",
            "envelope",
            "cables",
            "beside the opening",
        ] {
            let asked = of_rule(&params, rule);
            let asked = asked.iter().filter(|it| it.verdict == Verdict::Ask);
            assert!(asked.count() <= 1, "{name}: {rule}");
        }
    }
}

/// NIST SP 811 (2008), appendix B.8: 1 Btu/h = 0.2930711 W, 1 lb/ft² = 4.882428 kg/m², 1 psi = 6.894757 kPa,
/// 1 inch of mercury = 3.38638 kPa.
#[test]
fn amounts_are_read_with_their_units() {
    let value = |kind, text: &str| Amount::parse(kind, text).map(|it| it.value);
    let heat = AmountKind::HeatInput;
    assert_near(value(heat, "30000 Btu/h").unwrap(), 30_000.0, 0.0);
    assert_near(value(heat, "2.930711 kW").unwrap(), 10_000.0, 1e-6);
    assert_near(
        value(AmountKind::AreaWeight, "4.882428 kg/m2").unwrap(),
        1.0,
        1e-12,
    );
    assert_near(
        value(AmountKind::Pressure, "6.894757 kPa").unwrap(),
        1.0,
        1e-12,
    );
    assert_near(
        value(AmountKind::Pressure, "6 in Hg").unwrap(),
        2.946_917,
        1e-5,
    );
    for bad in ["30000", "30,000 Btu/h", "12 psi", "Btu/h", "3 kW x"] {
        assert!(value(heat, bad).is_err(), "{bad}");
    }
    let shown = Amount::parse(heat, "8.5 kW").unwrap();
    assert_eq!(shown.text(TapeUnit::Millimeter), "8.5 kW");
    assert_eq!(shown.text(TapeUnit::Inch), "29003.201 Btu/h");
}

/// What the parameters of the demo say, in inches.
#[test]
fn gas_and_cables_stand_where_the_parameters_say() {
    let model = design(&house());
    let edges = |id: &str| {
        let part = model.parts.iter().find(|it| it.id == id).unwrap();
        let bounds = &part.body.bounds;
        (bounds.low / 25.4, bounds.high / 25.4)
    };
    // 3/4 in pipe is 1.05 in outside (ASME B36.10M, from memory); it comes out of the wall by 3 in
    let (low, high) = edges("gas/stub/1");
    assert_near(low.y, -3.0, 1e-9);
    assert_near(high.y, 0.0, 1e-9);
    assert_near(f64::midpoint(low.x, high.x), 53.0, 1e-9);
    assert_near(high.z - low.z, 1.05, 1e-9);
    let (low, high) = edges("gas/shutoff/1");
    assert!((low + high).distance(glam::DVec3::new(106.0, -12.0, 28.0)) < 1e-9);
    // from the shutoff's center to the finished left side, 45 less 1/2 in, and the 12 in of an arm into the room; 6 in
    // wide and high
    let room = model
        .clearances
        .iter()
        .find(|it| it.id == "clearance/hand room");
    let bounds = &room.unwrap().body.bounds;
    assert_near(bounds.low.x / 25.4, 32.5, 1e-9);
    assert_near(bounds.high.x / 25.4, 53.0, 1e-9);
    assert_near((bounds.high.y - bounds.low.y) / 25.4, 6.0, 1e-9);
    assert_near((bounds.high.z - bounds.low.z) / 25.4, 6.0, 1e-9);
    // legs of 10 and 24 in, 1/2 in thick, each less half a thickness at the bend
    let (low, high) = edges("cables/cable/1");
    assert_near(high.y - low.y, 9.75, 1e-9);
    let (low, high) = edges("cables/cable/2");
    assert_near(high.x - low.x, 23.75, 1e-9);
    let (low, high) = edges("cables/shelf/1");
    assert_near(low.z, 71.0, 1e-9);
    assert_near(high.z, 71.75, 1e-9);
    // between the side walls, whose studs are 3-1/2 in deep
    assert_near(high.x - low.x, 78.0 - 7.0, 1e-9);
}

#[test]
fn a_stud_in_the_way_of_the_hand_fails() {
    let failed = |out: f64| {
        let params = with(&house(), &[("gas.shutoff_out", inches(out))]);
        let found = of_rule(&params, "clearance");
        let hand = found
            .iter()
            .filter(|it| it.subject.to_string().ends_with("hand room at the shutoff"));
        hand.filter(|it| it.verdict == Verdict::Fail).count()
    };
    assert_eq!(failed(6.0), 0);
    let model = design(&house());
    let stud = model
        .parts
        .iter()
        .find(|it| it.id == "left side/stud/2")
        .unwrap();
    let center = -stud.body.bounds.center().y / 25.4;
    assert_eq!(failed(center), 1);
}

/// Room 174 in, chase 39 to 135 with 1/2 in of board: cabinets of 30 in reach to 38-1/2 and from 135-1/2.
#[test]
fn legs_and_cabinets_stand_beside_the_opening() {
    let model = design(&demo("flat-with-cabinets"));
    let edges = |id: &str| {
        let part = model.parts.iter().find(|it| it.id == id).unwrap();
        let bounds = &part.body.bounds;
        [bounds.low.x, bounds.high.x].map(|it| it / 25.4)
    };
    for (id, low, high) in [
        ("cabinets/cabinet/1", 8.5, 38.5),
        ("cabinets/cabinet/2", 135.5, 165.5),
        // the opening is 55 in round 87; legs of 5 in, 8 in beside it
        ("face/leg/1", 46.5, 51.5),
        ("face/leg/2", 122.5, 127.5),
    ] {
        let found = edges(id);
        assert_near(found[0], low, 1e-9);
        assert_near(found[1], high, 1e-9);
    }
}

#[test]
fn ways_of_cables_that_cannot_be_built_are_refused() {
    let faults = |rows: &[[f64; 3]]| {
        let rows = rows.iter().map(|row| row.map(Length::inches).to_vec());
        let route = Value::Grid(rows.collect());
        house()
            .with("cables.route", &route)
            .err()
            .map_or(0, |it| it.len())
    };
    assert_eq!(faults(&[[60.0, 0.0, 74.0], [60.0, 10.0, 74.0]]), 0);
    assert_eq!(faults(&[[60.0, 0.0, 74.0]]), 1, "one corner is no way");
    assert_eq!(
        faults(&[[60.0, 0.0, 74.0], [61.0, 10.0, 74.0]]),
        1,
        "diagonally"
    );
    assert_eq!(
        faults(&[[60.0, 0.0, 74.0], [60.0, 1.0, 74.0]]),
        1,
        "too short"
    );
    let back = [[60.0, 0.0, 74.0], [60.0, 10.0, 74.0], [60.0, 5.0, 74.0]];
    assert_eq!(faults(&back), 1, "back along itself");
}

/// A chase 17 in deep for a body of 18 with 1 in behind it: 19 in are needed, and the body reaches 1 in into the wall.
/// The wall stands behind the unit, so it is told by the gap behind it, and by no clearance over or beside the unit,
/// which it would leave by feet only. At 18-1/2 the body is clear of the wall and only the room behind it is not.
#[test]
fn a_chase_too_shallow_is_told_by_what_is_behind_the_unit() {
    let shallow = |depth: f64| {
        with(
            &house(),
            &[
                ("vent.collar_offset", inches(9.5)),
                ("chase.depth", inches(depth)),
            ],
        )
    };
    for depth in [17.0, 18.5] {
        let params = shallow(depth);
        let gap = only(&params, "unit in the chase", "gap");
        assert_eq!(gap.verdict, Verdict::Fail);
        assert_near(
            gap.numbers.expect("numbers").margin / 25.4,
            depth - 19.0,
            1e-9,
        );
        let detail = gap.detail.expect("what governs the depth");
        assert!(detail.contains("at least 19\""), "{detail}");
        let of_room: Vec<String> = of_rule(&params, "clearance")
            .into_iter()
            .filter(|it| it.verdict == Verdict::Fail && it.subject.to_string().starts_with("room/"))
            .map(|it| it.subject.to_string())
            .collect();
        assert!(
            of_room.iter().all(|it| it.ends_with("unit back clearance")),
            "{depth}: {of_room:#?}"
        );
        let rows = check(&design(&params)).into_iter();
        let depths: Vec<&str> = rows
            .filter(|it| it.parts == ["unit/body/1"] && it.levers.contains(&"chase.depth"))
            .map(|it| it.rule)
            .collect();
        assert_eq!(
            depths.iter().filter(|it| **it != "inside the room").count(),
            1,
            "{depths:?}"
        );
    }
}

/// Where the pipe comes nearer to its number than the body, it is what governs: 16 in behind the face, 3-1/4 of
/// radius and 5-3/4 in of clearance need 25; the body's 19 are said nowhere.
#[test]
fn what_governs_the_depth_says_the_least() {
    let clearance = Length::inches(5.75);
    let params = with(
        &house(),
        &[
            ("vent.collar_offset", inches(16.0)),
            ("vent.vertical_clearance", Value::Length(clearance)),
        ],
    );
    let pipe = Length::inches(16.0) + params.vent.pipe_diameter / 2.0 + clearance;
    let found = only(&params, "pipe before the wall", "gap");
    let least = pipe.tape(TapeUnit::Inch, chasewright::units::Rounding::Up);
    let detail = found.detail.expect("what governs the depth");
    assert!(detail.contains(&format!("at least {least}")), "{detail}");
    assert_eq!(only(&params, "unit in the chase", "gap").detail, None);
}

/// Where the vent does not go square through the wall behind the chase the distance is not measured; one that the
/// manual gives is then asked about with its number and its page, and not asked for again.
#[test]
fn insulation_is_asked_about_with_the_number_that_is_known() {
    let found = only(&demo("room-divider"), "insulation", "insulation");
    assert_eq!(found.verdict, Verdict::Ask);
    assert_eq!(found.source, "manual p. 25");
    let question = found.question.expect("a question");
    assert!(question.contains("2\""), "{question}");
    let found = only(&demo("roof-pass"), "insulation", "insulation");
    let question = found.question.expect("a question");
    assert!(question.contains("How far"), "{question}");
}
