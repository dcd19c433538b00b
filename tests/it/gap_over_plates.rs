//! The gap between top plates and ceiling as a way for fire: what closes it, at its limits, and what is bought for it.
//!
//! *Source*: IRC 2021 R302.11 and R302.11.1 (lumber, gypsum board of 1/2 in, batts of mineral wool), in part from
//! memory; 1/4 in under what is shimmed and 5/8 in under a truss are common practice, no source.

use chasewright::check::{Finding, Verdict, check};
use chasewright::design::{Kind, design, plate_gaps};
use chasewright::params::{Params, PlatesAlong};
use chasewright::takeoff::{Line, takeoff_watched};

use crate::scenarios::demo;
use crate::support::{assert_near, demos, read_table, without, written};

const OPEN_GAP: &str = "length of top plates";
const HOLLOW: &str = "hollow of the chase at";

/// A demo with keys written over it, as TOML; a key without a value is left out.
fn demo_with(name: &str, keys: &[(&str, &str)]) -> Params {
    let (absent, told): (Vec<_>, Vec<_>) = keys.iter().partition(|it| it.1.is_empty());
    let mut file = written(name, &told);
    for (key, _) in absent {
        file = without(&file, key).unwrap_or(file);
    }
    read_table(&file).unwrap_or_else(|faults| panic!("{name}, {keys:?}: {faults:#?}"))
}

fn with(over: &str, fill: &str, gap: &str, carried_by: &str) -> Params {
    let quoted = |word: &str| match word {
        "" => String::new(),
        word => format!("\"{word}\""),
    };
    let words = [over, fill, gap, carried_by].map(quoted);
    demo_with(
        "flat-with-cabinets",
        &[
            ("ceiling.over_chase", &words[0]),
            ("ceiling.gap_fill", &words[1]),
            ("ceiling.gap", &words[2]),
            ("rafters.kind", &words[3]),
            ("rafters.first", "\"10 in\""),
        ],
    )
}

fn told(params: &Params, about: &str) -> Option<Finding> {
    let found = check(&design(params)).into_iter();
    let mut found = found.filter(|it| {
        it.rule == "fireblocking at the ceiling" && it.subject.to_string().starts_with(about)
    });
    let first = found.next();
    assert!(found.next().is_none(), "{about} twice");
    first
}

#[test]
fn a_gap_over_the_plates_is_closed_or_fails() {
    use Verdict::{Ask, Fail, Flush};
    let rows = [
        // nobody has looked
        ("", "", "1/4 in", "joist", Ask),
        ("", "", "0 in", "joist", Ask),
        ("", "mineral_wool", "1/4 in", "joist", Ask),
        // the board is the fireblock, however high the gap under it
        ("board", "", "0 in", "joist", Flush),
        ("board", "", "1/4 in", "joist", Flush),
        ("board", "", "3-3/4 in", "joist", Flush),
        ("board", "", "3-3/4 in", "truss", Flush),
        // none there: no gap, or a filled one
        ("open", "", "0 in", "joist", Flush),
        ("open", "", "1/64 in", "joist", Fail),
        ("open", "", "3-3/4 in", "joist", Fail),
        ("open", "lumber", "3-3/4 in", "joist", Flush),
        ("open", "board", "3-3/4 in", "joist", Flush),
        ("open", "mineral_wool", "3-3/4 in", "joist", Flush),
        // a truss moves
        ("open", "", "5/8 in", "truss", Fail),
        ("open", "mineral_wool", "5/8 in", "truss", Flush),
        ("open", "mineral_wool", "41/64 in", "truss", Ask),
        ("open", "lumber", "5/8 in", "truss", Ask),
        ("open", "board", "5/8 in", "truss", Ask),
        ("open", "lumber", "0 in", "truss", Flush),
    ];
    for (over, fill, gap, carried_by, verdict) in rows {
        let params = with(over, fill, gap, carried_by);
        let row = told(&params, OPEN_GAP).expect("a row");
        assert_eq!(row.verdict, verdict, "{over}, {fill}, {gap}, {carried_by}");
        // the hollow between the walls is asked of once the gap is closed, where no board closes it
        let hollow = told(&params, HOLLOW).map(|it| it.verdict);
        let asked = over == "open" && verdict != Fail;
        assert_eq!(hollow, asked.then_some(Ask), "{over}, {fill}, {gap}");
    }
}

/// The front is 96 in long; the sides run 26-1/2 in less the 3-1/2 in of the front.
#[test]
fn the_whole_of_the_open_plates_counts() {
    let row = told(&with("open", "", "3-3/4 in", "joist"), OPEN_GAP).unwrap();
    let numbers = row.numbers.unwrap();
    assert_near(numbers.measured / 25.4, 96.0 + 2.0 * 23.0, 1e-6);
    assert_near(numbers.margin / 25.4, -142.0, 1e-6);
    assert!(row.location.is_some() && row.source.contains("R302.11"));
}

#[test]
fn plates_under_a_wider_gap_are_shimmed_or_clipped() {
    let says = |gap: &str, carried_by: &str| {
        let row = told(&with("board", "", gap, carried_by), OPEN_GAP).unwrap();
        row.detail.unwrap().contains("shim or clip")
    };
    assert!(!says("1/4 in", "joist"));
    assert!(says("17/64 in", "joist"));
    // what moves is not shimmed
    assert!(!says("5/8 in", "truss"));
}

/// Plates under a plane lie the gap below it, flat or tilted, single or double, of wood or of steel.
#[test]
fn the_gap_is_measured_where_the_plates_are() {
    for (name, params) in demos() {
        let model = design(&params);
        let gap = params.ceiling.gap.to_mm();
        for found in plate_gaps(&model) {
            let (height, id) = (found.height.to_mm(), &found.plate.id);
            if params.ceiling.plates == PlatesAlong::Readings {
                // under the lowest reading over its wall
                assert!(height > gap - 1e-6, "{name}, {id}: {height}");
            } else {
                assert!((height - gap).abs() < 1e-6, "{name}, {id}: {height}");
            }
        }
        let upper = plate_gaps(&model).len();
        let plates = model.parts.iter().filter(|it| it.kind == Kind::TopPlate);
        assert!((1..=plates.count()).contains(&upper), "{name}");
    }
    let keys = [("ceiling.gap", "\"1/2 in\""), ("chase.top_plates", "2")];
    let double = design(&demo_with("rises-away-from-wall", &keys));
    assert!(!plate_gaps(&double).is_empty());
    for found in plate_gaps(&double) {
        assert_near(found.height.to_inches(), 0.5, 1e-6);
    }
}

/// The line of the buy list, without a search for the best cutting plan.
fn bought(fill: &str, gap: &str) -> Option<Line> {
    let model = design(&with("open", fill, gap, "joist"));
    let lines = takeoff_watched(&model, &mut |_| false).buy.into_iter();
    let mut own = lines.filter(|it| it.item.contains("over the top plates"));
    own.next()
}

#[test]
fn what_fills_the_gap_is_bought() {
    // 142 in of plates, by the foot
    let rows = [
        ("lumber", "lumber"),
        ("board", "sheets"),
        ("mineral_wool", "sheets"),
    ];
    for (fill, section) in rows {
        let line = bought(fill, "3-3/4 in").unwrap_or_else(|| panic!("{fill} is not bought"));
        assert_eq!((line.section.name(), line.count), (section, 12), "{fill}");
        let sizes = "3-1/2\" wide, up to 3-3/4\" high";
        assert!(line.detail.contains(sizes), "{}", line.detail);
    }
    for (fill, gap) in [("", "3-3/4 in"), ("mineral_wool", "0 in")] {
        assert_eq!(bought(fill, gap), None);
    }
}

/// A vent that goes up through the ceiling leaves a hole in the board, which its firestop closes.
#[test]
fn a_hole_in_the_ceiling_has_its_firestop() {
    let mut model = design(&demo("roof-pass"));
    let fails = |model: &chasewright::design::Design| {
        let found = check(model).into_iter();
        found
            .filter(|it| it.rule == "fireblocking at the ceiling" && it.verdict == Verdict::Fail)
            .map(|it| it.subject.to_string())
            .collect::<Vec<_>>()
    };
    assert_eq!(fails(&model), [""; 0]);
    model.parts.retain(|it| it.kind != Kind::Firestop);
    assert_eq!(
        fails(&model),
        ["the vent's hole in the ceiling, without a firestop"]
    );
}
