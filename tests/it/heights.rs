//! How low mantel and screen may come: the worked designs say the same.

use chasewright::check::{HeightRow, heights, heights_curve};
use chasewright::export::heights_plot;
use chasewright::params::{Params, Value};
use chasewright::units::{Length, TapeUnit};

use crate::scenarios::demo;
use crate::support::{assert_near, run};

fn with(params: &Params, key: &str, inches: f64) -> Params {
    let value = Value::Length(Length::inches(inches));
    params.with(key, &value).expect("a valid change")
}

fn row(params: &Params, ledge: Option<&str>, platform: f64, projection: f64) -> HeightRow {
    let near = |length: Length, inches: f64| (length.to_inches() - inches).abs() < 1e-9;
    let found = heights(params).into_iter().find(|it| {
        it.ledge.as_deref() == ledge
            && near(it.platform, platform)
            && near(it.projection, projection)
    });
    found.expect("the table has the row")
}

/// The stepped face: a shelf 9-3/4 deep lies at 43 on the ledge, where the framing stops it; before a
/// flat face it is a projection of 9-3/4, and the row of 12 puts it at 3 + 27 + 20 = 50.
#[test]
fn a_ledge_brings_the_same_shelf_seven_inches_lower() {
    let params = demo("stepped-face");
    let ledge = row(&params, Some("2x6"), 3.0, 3.0);
    assert_near(ledge.shelf.to_inches(), 9.75, 1e-9);
    assert_near(ledge.mantel.unwrap().to_inches(), 43.0, 1e-9);
    assert_eq!(ledge.mantel_by, "framing");
    let flat = row(&with(&params, "mantel.projection", 9.75), None, 3.0, 9.75);
    assert_near(flat.shelf.to_inches(), 9.75, 1e-9);
    assert_near(flat.mantel.unwrap().to_inches(), 50.0, 1e-9);
    assert_eq!(flat.mantel_by, "mantel rule");
}

/// The flat ceiling with cabinets on a platform of 16: the recess cannot come under 68-3/8 over the
/// vent, and its stack goes 1-1/8 through the ceiling (1.073 before the sill goes up to the tape's mark).
#[test]
fn a_higher_platform_has_no_room_for_the_recess() {
    // deep enough that the pipe cannot rise behind the recess
    let flat = Value::Choice("flat");
    let params = demo("flat-with-cabinets").with("recess.header_form", &flat);
    let params = with(&params.expect("a flat header"), "recess.depth", 6.5);
    let found = row(&params, None, 16.0, 9.0);
    assert_near(found.sill.unwrap().to_inches(), 68.323, 0.001);
    assert_eq!(found.sill_by, "vent below the recess");
    assert_near(found.head.unwrap().to_inches(), -1.073, 0.001);
}

#[test]
fn past_the_table_there_is_no_height() {
    let params = with(&demo("stepped-face"), "mantel.projection", 12.5);
    let found = row(&params, None, 3.0, 12.5);
    assert_eq!((found.mantel, found.sill), (None, None));
    assert_eq!(found.mantel_by, "past the manual's table");
}

/// A face that lies in a wall of the room has no ledge to bring a shelf lower.
#[test]
fn a_flush_face_has_no_ledge() {
    let params = demo("flush-in-a-wall");
    let rows = heights(&params);
    assert!(!rows.is_empty() && rows.iter().all(|it| it.ledge.is_none()));
}

#[test]
fn the_table_fits_a_terminal_and_the_plot_is_text() {
    for name in [
        "reading-room",
        "stepped-face",
        "flat-with-cabinets",
        "flush-in-a-wall",
    ] {
        let ended = run(&["heights", &format!("params/{name}.toml")]);
        assert_eq!(ended.exit.code(), 0, "{}", ended.err);
        for line in ended.out.lines() {
            assert!(line.chars().count() <= 100, "{line}");
        }
        let svg = heights_plot(&heights(&demo(name)), "A & B", TapeUnit::Inch);
        assert!(svg.starts_with("<svg") && svg.contains("A &amp; B: lowest mantel"));
        assert!(!svg.contains("NaN") && !svg.contains("inf"));
    }
}

/// Between two points of the curve the lowest height runs straight: a step of the rule is two points, one above the
/// other, and just after it the next row of the manual's table holds.
#[test]
fn the_curve_steps_where_the_rule_steps() {
    let params = demo("stepped-face");
    let curve = heights_curve(&params);
    let flat: Vec<&HeightRow> = curve
        .iter()
        .filter(|it| it.ledge.is_none() && (it.platform.to_inches() - 3.0).abs() < 1e-9)
        .collect();
    let mut steps = 0;
    for pair in flat.windows(2) {
        let [Some(before), Some(after)] = [pair[0].mantel, pair[1].mantel] else {
            continue;
        };
        let apart = (pair[1].projection - pair[0].projection).to_mm();
        if (after - before).to_mm() > 1.0 {
            assert!(apart < 0.1, "a ramp of {apart} mm");
            steps += 1;
        }
    }
    assert!(steps > 0, "no step was seen");
}

/// A ledge behind which the pipe would stand in the set-back wall is not offered.
#[test]
fn a_ledge_that_cannot_be_built_is_not_listed() {
    let params = demo("stepped-face");
    assert!(heights(&params).iter().any(|it| it.ledge.is_some()));
    let near = with(&params, "vent.collar_offset", 2.0);
    let rows = heights(&near);
    assert!(!rows.is_empty());
    assert!(
        rows.iter().all(|it| it.ledge.is_none()),
        "the pipe stands in the wall"
    );
}
