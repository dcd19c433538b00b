//! The cap outside.
//!
//! # What it finds
//! The distance of the cap from every window, door or inlet of [outside], and from each fixed thing of the
//! fireplace wall that says it opens, by the unit's input: 6 in up
//! to 10,000 Btu/h, 9 in up to 50,000, 12 in up to 150,000; its height over the ground, at least 12 in.
//! The manual's number counts wherever it is the larger. Without the input 12 in are held, and without the
//! manual's number the code's alone, but neither passes then: it asks. Its distance from an inside corner,
//! a soffit, meter, regulator and walkway where both the place and the number to be kept are given; what is
//! missing of these is one question, what is missing of openings and ground another.
//!
//! # Why
//! Exhaust that finds a window comes back into the house; a cap in the snow stops drawing.
//!
//! # Datum
//! The cap's edges, in the plane of the outside wall; places are measured from the left corner of the
//! room, inside, and from the heights' datum. Distances from meter, regulator and walkway are as measured.
//!
//! # Source
//! Openings: NFPA 54 12.9, IFGC 503.8 (table 503.8 since 2018), direct vent, from memory; the same three
//! steps were seen in reprints. Ground: 12 in, IRC 2018 G2427.8, read for other vents, from memory for
//! direct vents. These are for the United States; Canada has others, and this rule does not mix them.
//! Corners, soffits, meters and regulators: the model code has no number.

use crate::check::{Measure, Numbers, Report, Row, Rule, Subject, Thing, Verdict};
use crate::design::{Design, Kind, Span};
use crate::params::{Manual, Outside, RoomWall};
use crate::units::{HeatInput, Length};

use glam::DVec3;

use super::{first_of, page};

pub(super) const RULE: Rule = Rule {
    name: "terminal",
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

/// Up to this input, so far from openings.
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
    // what is told of the outside is that of the wall behind the chase
    let behind = design.layout.pass.wall == Some(design.layout.site.behind)
        && !design.layout.site.is_turned();
    let Some(outside) = design.params.outside.as_ref().filter(|_| behind) else {
        let question = "Where are the ground, windows, doors, inlets, corners and the meter outside ([outside]), and what does the manual ask of the cap there?";
        report.ask(
            cap.row(
                design,
                Measure("the cap outside"),
                "the unit's manual; the local code",
                &[],
            ),
            None,
            question,
        );
        return;
    };
    let mut missing = Vec::new();
    cap.over_ground(design, outside, &mut missing, report);
    cap.to_openings(design, outside, &mut missing, report);
    let measure = Measure("the cap, the ground and openings outside");
    let question = "What is missing here, without which no distance passes";
    cap.ask_for(design, (measure, OPENINGS), question, &missing, report);
    cap.to_surroundings(design, outside, report);
}

/// The cap's outline on the outside wall.
struct Cap {
    middle: DVec3,
    sides: Span,
    heights: Span,
}

impl Cap {
    fn of(design: &Design) -> Option<Self> {
        let caps = design.parts.iter().filter(|it| it.kind == Kind::Cap);
        let bounds = caps.map(|it| it.body.bounds).reduce(|a, b| a.union(&b))?;
        Some(Self {
            middle: bounds.center(),
            sides: Span::new(Length::mm(bounds.low.x), Length::mm(bounds.high.x)),
            heights: Span::new(Length::mm(bounds.low.z), Length::mm(bounds.high.z)),
        })
    }

    fn row(
        &self,
        design: &Design,
        subject: impl Into<Subject>,
        source: &str,
        levers: &'static [&'static str],
    ) -> Row {
        Row {
            subject: subject.into(),
            parts: first_of(design, Kind::Cap),
            location: Some(self.middle),
            source: source.to_owned(),
            levers,
            detail: None,
        }
    }

    /// One question for everything that is missing, if anything is.
    fn ask_for(
        &self,
        design: &Design,
        (measure, source): (Measure, &str),
        question: &str,
        missing: &[String],
        report: &mut Report<'_>,
    ) {
        if !missing.is_empty() {
            let row = self.row(design, measure, source, &[]);
            report.ask(row, None, format!("{question}: {}?", missing.join("; ")));
        }
    }

    fn over_ground(
        &self,
        design: &Design,
        outside: &Outside,
        missing: &mut Vec<String>,
        report: &mut Report<'_>,
    ) {
        let manual = outside.ground_clearance.as_ref();
        if manual.is_none() {
            let what = "the manual's height over the ground (outside.ground_clearance)";
            missing.push(what.to_owned());
        }
        let (required, source) = larger(OVER_GROUND, GROUND, manual);
        let row = self.row(
            design,
            Measure("cap's underside over the ground"),
            &source,
            &["vent.rise"],
        );
        let measured = self.heights.low - outside.ground;
        let numbers = Numbers::at_least(measured, required);
        judge_known(manual.is_some(), row, numbers, report);
    }

    /// Judges every opening, by the largest step where the input is not known.
    fn to_openings(
        &self,
        design: &Design,
        outside: &Outside,
        missing: &mut Vec<String>,
        report: &mut Report<'_>,
    ) {
        if outside.openings.is_none() {
            let what = "windows, doors and inlets of that wall (outside.openings, [] where there are none)";
            missing.push(what.to_owned());
        }
        let openings = openings(design, outside);
        if openings.is_empty() {
            return;
        }
        let input = design.params.appliance.input;
        let manual = outside.opening_clearance.as_ref();
        let known = input.and_then(step);
        missing.extend(missing_for_openings(input, manual));
        let (required, source) = larger(known.unwrap_or(LARGEST_STEP), OPENINGS, manual);
        for (subject, opening) in openings {
            let row = self.row(design, subject, &source, &["appliance.center", "vent.rise"]);
            let numbers = Numbers::at_least(self.distance(&opening), required);
            judge_known(known.is_some() && manual.is_some(), row, numbers, report);
        }
    }

    /// From the cap's outline to a rectangle: left, bottom, right, top.
    fn distance(&self, [left, bottom, right, top]: &[Length; 4]) -> Length {
        let apart = |span: Span, low: Length, high: Length| {
            (low - span.high).max(span.low - high).max(Length::ZERO)
        };
        let across = apart(self.sides, *left, *right).to_mm();
        let up = apart(self.heights, *bottom, *top).to_mm();
        Length::mm((across * across + up * up).sqrt())
    }

    /// Judges what has both its place and its number, and asks for what is missing of the others.
    fn to_surroundings(&self, design: &Design, outside: &Outside, report: &mut Report<'_>) {
        let mut missing = Vec::new();
        for it in self.surroundings(outside) {
            match (it.distance, it.clearance) {
                (Some(distance), Some(asked)) => {
                    let row = self.row(design, it.measure, &page(asked), it.levers);
                    report.judge(row, Numbers::at_least(distance, asked.value));
                }
                (distance, asked) => missing.push(it.missing(distance.is_none(), asked.is_none())),
            }
        }
        let measure = Measure("the cap and corners, soffits, meter, regulator, walkway");
        let source = "the unit's manual; the gas supplier";
        let question = "The code has no number for these: where are they, and what does the manual, or the gas supplier, ask of the cap there";
        self.ask_for(design, (measure, source), question, &missing, report);
    }

    /// What the model code has no number for.
    fn surroundings<'a>(&self, outside: &'a Outside) -> [Surrounding<'a>; 5] {
        let from_corner = |corner: Length| (self.sides.low - corner).max(corner - self.sides.high);
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
                distance: outside.soffit.map(|it| it - self.heights.high),
                clearance: outside.soffit_clearance.as_ref(),
                levers: &["vent.rise"],
            },
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
        ]
    }
}

/// Something outside that the cap keeps away from by the manual's or the supplier's number.
struct Surrounding<'a> {
    measure: Measure,
    /// The keys of its place and of the number.
    keys: [&'static str; 2],
    distance: Option<Length>,
    clearance: Option<&'a Manual<Length>>,
    levers: &'static [&'static str],
}

impl Surrounding<'_> {
    /// What is missing of it, in words.
    fn missing(&self, place: bool, number: bool) -> String {
        let keys = self.keys.into_iter().zip([place, number]);
        let keys: Vec<&str> = keys.filter(|it| it.1).map(|it| it.0).collect();
        let what = Subject::from(self.measure);
        format!("{what} ({})", keys.join(", "))
    }
}

/// Judges what rests on known numbers alone; of anything else only the failure is said, a question stands for
/// the rest.
fn judge_known(known: bool, row: Row, numbers: Numbers, report: &mut Report<'_>) {
    if known || Verdict::of_margin(numbers.margin, 0.0) == Verdict::Fail {
        report.judge(row, numbers);
    }
}

/// What openings cannot be passed without.
fn missing_for_openings(
    input: Option<HeatInput>,
    manual: Option<&Manual<Length>>,
) -> impl Iterator<Item = String> {
    let step = match input {
        None => Some("the unit's highest input (appliance.input)"),
        Some(input) if step(input).is_none() => {
            Some("the code's distance beyond the table's last step, for this input")
        }
        Some(_) => None,
    };
    let manual = manual.is_none();
    let manual =
        manual.then_some("the manual's distance from openings (outside.opening_clearance)");
    step.into_iter().chain(manual).map(str::to_owned)
}

/// What air can pass in the wall behind the chase: the openings told of outside, and fixed things inside.
fn openings(design: &Design, outside: &Outside) -> Vec<(Subject, [Length; 4])> {
    let told = outside.openings.iter().flat_map(|it| &it.0).enumerate();
    let told = told.map(|(number, it)| {
        (
            Measure("cap to opening {} outside").of([Thing::Number(number + 1)]),
            *it,
        )
    });
    let fixed = design.params.room.fixed.iter();
    let fixed = fixed.filter(|it| it.opens && it.wall == RoomWall::Back);
    let fixed = fixed.map(|it| {
        let edges = [it.from, it.sill, it.from + it.width, it.sill + it.height];
        (
            Measure("cap to {}").of([Thing::Named(it.name.clone())]),
            edges,
        )
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
