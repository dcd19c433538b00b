//! The cap outside.
//!
//! # What it finds
//! The distance of the cap from every window, door or inlet of [outside], and from each fixed thing entered as
//! opening in the wall that the vent goes through, by the unit's input: 6 in up to 10,000 Btu/h, 9 in up to 50,000,
//! 12 in up to 150,000; its height over the ground, at least 12 in. The manual's number counts wherever it is the
//! larger. Without the input 12 in is required, and without the manual's number the code's alone, but neither passes
//! then: it asks. Its distance from an inside corner, a soffit, meter, regulator and walkway where both the place and
//! the number to be kept are given; what is missing of these is one question, what is missing of openings and ground
//! another. For a cap on the roof the ground, meter, regulator and walkway are judged so; it asks where openings are
//! from it. It also asks whether a fixed thing of that wall opens, if it is 12 in or more wide and high, would be too
//! near, and its entry does not say.
//!
//! # Why
//! Exhaust near a window comes back into the house; a cap buried in snow stops drawing.
//!
//! # Datum
//! The cap's edges, in the plane of the outside wall that the vent goes through; places are measured along that wall
//! from the left corner of the room, inside, on a side wall from the fireplace wall, and from the heights' datum. Distances from meter, regulator and walkway are as measured.
//!
//! # Source
//! Openings: NFPA 54 12.9, IFGC 503.8 (table 503.8 since 2018), direct vent, from memory; the same three
//! steps were seen in reprints. Ground: 12 in, IRC 2018 G2427.8, read for other vents, from memory for
//! direct vents. These are for the United States; Canada has others, and this rule does not mix them.
//! Corners, soffits, meters and regulators: the model code has no number.

use crate::check::cap::Cap;
use crate::check::{Concern, Measure, Numbers, Report, Row, Rule, Subject, Thing, Verdict};
use crate::design::{Design, Kind, Span, StandingWall};
use crate::params::{Manual, Outside, RoomWall};
use crate::units::{HeatInput, Length};

use super::{first_of, page};

pub(super) const RULE: Rule = Rule {
    name: "terminal",
    concern: Concern::FireAndGas,
    text: include_str!("terminal.rs"),
    keys: &[
        "room.fixed",
        "appliance.center",
        "appliance.input",
        "vent.rise",
        "outside.ground",
        "outside.openings",
        "outside.ground_clearance",
        "outside.opening_clearance",
        "outside.corner",
        "outside.corner_clearance",
        "outside.soffit",
        "outside.soffit_clearance",
        "outside.meter",
        "outside.meter_clearance",
        "outside.regulator",
        "outside.regulator_clearance",
        "outside.walkway",
        "outside.walkway_clearance",
    ],
    check,
};

/// The distance from openings up to this input.
const STEPS: [(HeatInput, Length); 3] = [
    (HeatInput::new(10_000.0), Length::inches(6.0)),
    (HeatInput::new(50_000.0), Length::inches(9.0)),
    (HeatInput::new(150_000.0), Length::inches(12.0)),
];
/// The distance of the last of them, which holds where the input is not known.
const LARGEST_STEP: Length = STEPS[2].1;
const OVER_GROUND: Length = Length::inches(12.0);
const OPENINGS: &str = "IFGC 2018 table 503.8, direct vent, from memory";
const GROUND: &str = "IRC 2018 G2427.8";

fn check(design: &Design, report: &mut Report<'_>) {
    let Some(cap) = Cap::of(design) else { return };
    let Some(outside) = &design.params.outside else {
        let question = "Where are the ground, windows, doors, inlets, corners and the meter outside ([outside]), and what distances does the manual require to the cap?";
        let source = "the unit's manual; the local code";
        let row = row(design, &cap, Measure("the cap outside"), source, &[]);
        report.ask_for(row, None, question, vec!["outside"]);
        return;
    };
    let mut missing: Vec<Missing> = Vec::new();
    over_ground(design, (&cap, outside), &mut missing, report);
    to_openings(design, (&cap, outside), &mut missing, report);
    let measure = Measure("the cap, the ground and openings outside");
    let question = "What are these missing facts, without which no distance passes";
    ask_for(
        design,
        &cap,
        (measure, OPENINGS, question),
        &missing,
        report,
    );
    to_surroundings(design, (&cap, outside), report);
}

fn row(
    design: &Design,
    cap: &Cap<'_>,
    subject: impl Into<Subject>,
    source: &str,
    levers: &'static [&'static str],
) -> Row {
    Row {
        subject: subject.into(),
        parts: first_of(design, Kind::Cap),
        location: Some(cap.middle),
        source: source.to_owned(),
        levers,
        ..Row::default()
    }
}

/// One question for everything that is missing, if anything is.
fn ask_for(
    design: &Design,
    cap: &Cap<'_>,
    (measure, source, question): (Measure, &str, &str),
    missing: &[Missing],
    report: &mut Report<'_>,
) {
    if !missing.is_empty() {
        let row = row(design, cap, measure, source, &[]);
        let texts: Vec<&str> = missing.iter().map(|it| it.what.as_str()).collect();
        let question = format!("{question}: {}?", texts.join("; "));
        let keys = missing.iter().flat_map(|it| it.keys.clone()).collect();
        report.ask_for(row, None, question, keys);
    }
}

fn over_ground(
    design: &Design,
    (cap, outside): (&Cap<'_>, &Outside),
    missing: &mut Vec<Missing>,
    report: &mut Report<'_>,
) {
    let manual = outside.ground_clearance.as_ref();
    if manual.is_none() {
        let what = "the manual's height over the ground (outside.ground_clearance)";
        missing.push(Missing::of("outside.ground_clearance", what));
    }
    let (required, source) = larger(OVER_GROUND, GROUND, manual);
    let row = row(
        design,
        cap,
        Measure("cap's underside above the ground"),
        &source,
        &["vent.rise"],
    );
    let numbers = Numbers::at_least(cap.heights.low - outside.ground, required);
    judge_known(manual.is_some(), row, numbers, report);
}

/// Judges every opening, by the largest step where the input is not known.
fn to_openings(
    design: &Design,
    (cap, outside): (&Cap<'_>, &Outside),
    missing: &mut Vec<Missing>,
    report: &mut Report<'_>,
) {
    if outside.openings.is_none() {
        let what =
            "windows, doors and inlets of that wall (outside.openings, [] where there are none)";
        missing.push(Missing::of("outside.openings", what));
    }
    let Some((wall, sides)) = cap.on_wall else {
        let told = outside.openings.iter().any(|it| !it.0.is_empty());
        // no key tells how far a place on the wall is from one on the roof
        missing.extend(told.then(|| Missing {
            keys: Vec::new(),
            what: "how far windows, doors and inlets are from the cap on the roof".to_owned(),
        }));
        return;
    };
    let input = design.params.appliance.input;
    let manual = outside.opening_clearance.as_ref();
    let known = input.and_then(step);
    let (required, source) = larger(known.unwrap_or(LARGEST_STEP), OPENINGS, manual);
    let is_near = |it: &Opening| cap.distance(sides, &it.edges) < required;
    let openings = openings(design, wall, outside);
    let (open, silent): (Vec<Opening>, Vec<Opening>) =
        openings.into_iter().partition(|it| it.silent.is_none());
    let silent = silent.iter().filter(|it| is_near(it));
    let silent = silent.filter_map(|it| it.silent.as_ref());
    missing.extend(silent.map(|name| {
        let what = format!("whether the {name} opens (room.fixed, `opens`)");
        Missing::of("room.fixed", &what)
    }));
    if open.is_empty() {
        return;
    }
    missing.extend(missing_for_openings(input, manual));
    for it in open {
        let row = row(
            design,
            cap,
            it.subject,
            &source,
            &["appliance.center", "vent.rise"],
        );
        let numbers = Numbers::at_least(cap.distance(sides, &it.edges), required);
        judge_known(known.is_some() && manual.is_some(), row, numbers, report);
    }
}

/// Judges what has both its place and its number, and asks for what is missing of the others.
fn to_surroundings(design: &Design, (cap, outside): (&Cap<'_>, &Outside), report: &mut Report<'_>) {
    let mut missing: Vec<Missing> = Vec::new();
    for it in surroundings(cap, outside) {
        match (it.distance, it.clearance) {
            (Some(distance), Some(asked)) => {
                let row = row(design, cap, it.measure, &page(asked), it.levers);
                report.judge(row, Numbers::at_least(distance, asked.value));
            }
            (distance, asked) => missing.push(it.missing(distance.is_none(), asked.is_none())),
        }
    }
    let measure = Measure("the cap and corners, soffits, meter, regulator, walkway");
    let source = "the unit's manual; the gas supplier";
    let question = "The code has no number for these: where are they, and what distance to the cap does the manual, or the gas supplier, require";
    ask_for(design, cap, (measure, source, question), &missing, report);
}

/// What the model code has no number for; corner and soffit are those of a wall.
fn surroundings<'a>(cap: &Cap<'_>, outside: &'a Outside) -> Vec<Surrounding<'a>> {
    let of_wall = cap
        .on_wall
        .map(|(_, sides)| of_wall(sides, cap.heights, outside));
    let measured = [
        Surrounding {
            measure: Measure("cap to the gas meter"),
            keys: ["outside.meter", "outside.meter_clearance"],
            distance: outside.meter,
            clearance: outside.meter_clearance.as_ref(),
            levers: &[],
        },
        Surrounding {
            measure: Measure("cap to the regulator's vent"),
            keys: ["outside.regulator", "outside.regulator_clearance"],
            distance: outside.regulator,
            clearance: outside.regulator_clearance.as_ref(),
            levers: &[],
        },
        Surrounding {
            measure: Measure("cap to the walkway"),
            keys: ["outside.walkway", "outside.walkway_clearance"],
            distance: outside.walkway,
            clearance: outside.walkway_clearance.as_ref(),
            levers: &[],
        },
    ];
    of_wall.into_iter().flatten().chain(measured).collect()
}

/// What belongs to the wall that the cap is on.
fn of_wall(sides: Span, heights: Span, outside: &Outside) -> [Surrounding<'_>; 2] {
    let from_corner = |corner: Length| (sides.low - corner).max(corner - sides.high);
    [
        Surrounding {
            measure: Measure("cap to the inside corner outside"),
            keys: ["outside.corner", "outside.corner_clearance"],
            distance: outside.corner.map(from_corner),
            clearance: outside.corner_clearance.as_ref(),
            levers: &["appliance.center"],
        },
        Surrounding {
            measure: Measure("cap's top under the soffit"),
            keys: ["outside.soffit", "outside.soffit_clearance"],
            distance: outside.soffit.map(|it| it - heights.high),
            clearance: outside.soffit_clearance.as_ref(),
            levers: &["vent.rise"],
        },
    ]
}

/// Something outside that the cap has to clear by the manual's or the supplier's number.
struct Surrounding<'a> {
    measure: Measure,
    /// The keys of its place and of the number.
    keys: [&'static str; 2],
    distance: Option<Length>,
    clearance: Option<&'a Manual<Length>>,
    levers: &'static [&'static str],
}

impl Surrounding<'_> {
    /// What is missing of it.
    fn missing(&self, place: bool, number: bool) -> Missing {
        let keys = self.keys.into_iter().zip([place, number]);
        let keys: Vec<&'static str> = keys.filter(|it| it.1).map(|it| it.0).collect();
        let what = format!("{} ({})", Subject::from(self.measure), keys.join(", "));
        Missing { keys, what }
    }
}

/// Judges what rests on known numbers alone; of anything else only the failure is said, a question stands for
/// the rest.
fn judge_known(known: bool, row: Row, numbers: Numbers, report: &mut Report<'_>) {
    if known || Verdict::of_margin(numbers.margin, 0.0) == Verdict::Fail {
        report.judge(row, numbers);
    }
}

/// Something that is not given, the keys that give it and what it is.
struct Missing {
    keys: Vec<&'static str>,
    what: String,
}

impl Missing {
    fn of(key: &'static str, what: &str) -> Self {
        let what = what.to_owned();
        Self {
            keys: vec![key],
            what,
        }
    }
}

/// What openings cannot be passed without.
fn missing_for_openings(
    input: Option<HeatInput>,
    manual: Option<&Manual<Length>>,
) -> impl Iterator<Item = Missing> {
    let step = match input {
        None => Some(Missing::of(
            "appliance.input",
            "the unit's highest input (appliance.input)",
        )),
        // no key has a distance that the table has not
        Some(input) if step(input).is_none() => Some(Missing {
            keys: Vec::new(),
            what: "the code's distance beyond the table's last step, for this input".to_owned(),
        }),
        Some(_) => None,
    };
    let manual = manual.is_none().then(|| {
        let what = "the manual's distance from openings (outside.opening_clearance)";
        Missing::of("outside.opening_clearance", what)
    });
    step.into_iter().chain(manual)
}

/// What air can pass, or may be able to.
struct Opening {
    subject: Subject,
    /// Left, bottom, right, top.
    edges: [Length; 4],
    /// The name of a thing whose entry does not say whether it opens.
    silent: Option<String>,
}

/// What air can pass in the wall that the vent goes through: the openings listed outside, and fixed things inside.
fn openings(design: &Design, wall: &StandingWall, outside: &Outside) -> Vec<Opening> {
    let inside = match wall.place {
        RoomWall::Behind => RoomWall::Back,
        place @ (RoomWall::Back | RoomWall::Left | RoomWall::Right) => place,
    };
    let told = outside.openings.iter().flat_map(|it| &it.0).enumerate();
    let told = told.map(|(number, edges)| Opening {
        subject: Measure("cap to opening {} outside").of([Thing::Number(number + 1)]),
        edges: *edges,
        silent: None,
    });
    let fixed = design.params.room.fixed.iter();
    let fixed = fixed.filter(|it| it.wall == inside);
    let fixed = fixed.filter(|it| it.opens == Some(true) || it.may_open());
    let fixed = fixed.map(|it| Opening {
        subject: Measure("cap to {}").of([Thing::Named(it.name.clone())]),
        edges: [it.from, it.sill, it.from + it.width, it.sill + it.height],
        silent: it.may_open().then(|| it.name.clone()),
    });
    told.chain(fixed).collect()
}

/// The distance for an input; `None` past the last step.
fn step(input: HeatInput) -> Option<Length> {
    let step = STEPS.iter().find(|(most, _)| input <= *most);
    step.map(|(_, distance)| *distance)
}

/// The larger of the code's number and the manual's, with its source.
fn larger(code: Length, source: &str, manual: Option<&Manual<Length>>) -> (Length, String) {
    match manual {
        Some(manual) if manual.value > code => (manual.value, page(manual)),
        _ => (code, source.to_owned()),
    }
}
