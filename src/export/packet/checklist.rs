//! The order of the job in, a checklist out: what to do at each stage, what to write down as it was built, and
//! where the job waits for somebody's word.
//!
//! *Source*: common practice, no source, where a text names none; what was planned comes from the takeoff and
//! from the checks.

use std::collections::BTreeSet;

use super::html::Html;
use super::table::{Cell, Table, named_blank, tick};
use super::{Packet, section};
use crate::check::{Finding, Verdict};
use crate::design::{Design, Hold, Kind, Lifted, Method, Raising, Stage, Step, order, raising};
use crate::export::Texts;
use crate::params::{MantelHold, Permission};
use crate::units::{Length, Rounding};

/// Writes the checklist.
pub(super) fn write(html: &mut Html, packet: Packet<'_>) {
    section(
        html,
        "checklist",
        "Checklist, in the order of the job",
        |html| {
            html.leaf(
            "p",
            &[("class", "screen")],
            "Ticks and values stay in this browser, for this packet; print the page to keep them.",
        );
            html.element("ol", &[("class", "steps")], |html| {
                html.element("li", &[("class", "step")], |html| {
                    html.leaf("h3", &[], "before the first cut");
                    ticks(html, "before", &BEFORE.map(str::to_owned));
                    as_built(html, Stage::Existing, &measured(packet, Stage::Existing));
                });
                for step in order(packet.products.design) {
                    match step {
                        Step::Stage(stage) => one_stage(html, packet, stage),
                        Step::Hold(hold) => one_hold(html, hold, step.name()),
                        Step::Search => plain(html, step, &SEARCH),
                        Step::FirstFire => plain(html, step, &CONNECT),
                    }
                }
            });
        },
    );
}

/// What is settled before anything is cut.
const BEFORE: [&str; 7] = [
    "The delivered unit is the one these numbers are for; its manual is on site.",
    "Body, opening and collar of that unit measured; they agree with the parameter file.",
    "Ceiling measured at three points or more, slab checked for high spots, wall checked for plumb.",
    "Someone qualified has confirmed whether the outside wall is bearing.",
    "No cables or heating in the slab where anchors go; cables and pipes in the wall located.",
    "Permit in hand; inspections and gas fitter scheduled.",
    "Every open question above has its answer.",
];

/// What is found out before wall and floor are cut.
const SEARCH: [&str; 3] = [
    "Cables and pipes in the wall located where the hole and the screws go, and shut off.",
    "Studs found and marked; the first one where the parameter file has it.",
    "Nothing in the floor where plates are anchored.",
];

/// What is done last.
const CONNECT: [&str; 3] = [
    "Unit connected by the fitter; every joint up to it checked for leaks at working pressure.",
    "Unit grounded and wired as its manual shows.",
    "First fire by the list below.",
];

/// A step at which nothing is built.
fn plain(html: &mut Html, step: Step, texts: &[&str]) {
    html.line();
    html.element("li", &[("class", "step")], |html| {
        html.leaf("h3", &[], step.name());
        let texts: Vec<String> = texts.iter().map(|it| (*it).to_owned()).collect();
        ticks(html, step.name(), &texts);
    });
}

fn ticks(html: &mut Html, key: &str, texts: &[String]) {
    html.element("ul", &[("class", "ticks")], |html| {
        for text in texts {
            html.element("li", &[], |html| {
                tick(html, &format!("{key}: {text}"), text);
            });
        }
    });
}

fn one_stage(html: &mut Html, packet: Packet<'_>, stage: Stage) {
    html.line();
    html.element("li", &[("class", "step")], |html| {
        html.leaf("h3", &[], stage.name());
        ticks(html, stage.name(), &texts(packet, stage));
        let planned = planned(packet, stage);
        if !planned.is_empty() {
            as_built(html, stage, &planned);
        }
    });
}

/// What is said of plates when they are fixed: before the walls, or with the wall that is raised.
const PLATES: [(Kind, &str); 2] = [
    (
        Kind::SolePlate,
        "Wood sole plates are treated and anchored with fasteners rated for treated wood; steel tracks need no treated wood under them.",
    ),
    (
        Kind::TopPlate,
        "Top plates screwed into rafters or blocking, not into board alone.",
    ),
];

/// What there is to do at a stage.
fn texts(packet: Packet<'_>, stage: Stage) -> Vec<String> {
    let design = packet.products.design;
    let texts: &[&str] = match stage {
        Stage::Existing => &[],
        Stage::WallPass => &[
            "Center of the hole located from one point visible both inside and outside.",
            "Hole framed on all four sides; no stud cut without approval.",
        ],
        Stage::Thimble => &[
            "Thimble or firestop set in the framed hole as its own sheet shows; sealed to the wall outside.",
        ],
        Stage::SealedWall => &[
            "Outside wall behind the chase insulated, sealed and boarded, before anything hides it.",
            "Insulation held back from where the vent will be.",
        ],
        Stage::RoomBlocks => &[
            "Ceiling and walls opened where blocks go between rafters and studs, and closed again.",
        ],
        Stage::Fireblocks => &[
            "Concealed spaces fireblocked where fire could run from one to the next, the gap over the top plates included, before the framing is inspected.",
        ],
        Stage::Gas => &[
            "Gas line roughed in and capped by a licensed fitter; shutoff within reach when everything is finished; no union or valve hidden.",
        ],
        Stage::Wiring => &[
            "Wires and boxes by an electrician, away from the unit and outside the vent's clearance.",
        ],
        Stage::Plates => &[
            "Outline of the chase on the slab, its two diagonals equal.",
            "Ceiling line plumbed up from the floor, not measured along the slope.",
        ],
        Stage::Platform => &["Platform level both ways and firm; nothing moves underfoot."],
        Stage::Walls => &[
            "Every stick is on its mark; crowns all one way, the straightest at the opening.",
            "Opening square and plumb, its width and height measured at both ends.",
            "Raked walls braced until they are tied in.",
            "Blocking in for mantel, screen and shelf.",
        ],
        Stage::Unit => &[
            "Unit level, fastened as its manual shows; its label can be read.",
            "Spacers on the unit neither flattened nor taken off.",
            "Air space around the unit empty: no insulation, no wires, no scraps.",
        ],
        Stage::Vent => &[
            "Pipe rises toward the cap and touches no wood.",
            "Cap outside clear of openings, plants and snow, as manual and code require.",
            "Joints that will be hidden checked by eye and by hand all around.",
            "Distance from pipe to wood measured on every side where it is TIGHT, and written down.",
        ],
        Stage::PassSealed => &[
            "Firestop in; the hole sealed around it against weather and draft, its air space left empty.",
        ],
        Stage::CableShelf => {
            &["Cables run outside the hot space and cannot fall onto unit or pipe."]
        }
        Stage::MantelBrackets => &[
            "Mantel brackets screwed to the sides of studs and level with one another; board and finish are cut around them.",
        ],
        Stage::Board => &[
            "Noncombustible board up to its line; its joints are on framing.",
            "Gap at the unit as its manual requires; no joint at a corner of an opening.",
        ],
        Stage::Finish => {
            &["Finish meets the unit's edge as planned; nothing blocks its air openings."]
        }
        Stage::Mantel => mantel_is_held(design),
        Stage::Screen => {
            &["Mount fixed to framing; plug and cables within reach, air space left all around."]
        }
    };
    let mut texts: Vec<String> = texts.iter().map(|it| (*it).to_owned()).collect();
    texts.extend(PLATES.iter().filter_map(|it| of_plates(design, stage, it)));
    if stage == Stage::Walls {
        let walls = raising(design);
        let goes_up = walls.iter().enumerate();
        let goes_up = goes_up.map(|(at, it)| goes_up_as(packet, at + 1, it));
        texts.splice(0..0, goes_up);
    }
    if stage == Stage::Walls && design.layout.opened.is_some() {
        let held = "Load over the opening shored as its designer says before a stud of the room's wall is cut.";
        texts.insert(0, held.to_owned());
    }
    if stage == Stage::Vent {
        texts.extend(joints(design));
    }
    texts
}

/// How the mantel is fixed.
fn mantel_is_held(design: &Design) -> &'static [&'static str] {
    match design.params.mantel.as_ref().and_then(|it| it.held_by) {
        None => &["Mantel fixed to framing, not to board."],
        Some(MantelHold::Screws) => &[
            "Mantel screwed down through its counterbored holes into the ledge, not to board; holes plugged.",
        ],
        Some(MantelHold::Cleat) => &[
            "Cleat level and screwed through finish and board into framing, each screw felt to bite in wood.",
            "Mantel slid over the cleat and screwed down into it.",
        ],
        Some(MantelHold::Brackets) => {
            &["Mantel laid on its brackets and screwed to them from below."]
        }
    }
}

/// What is said of plates of a kind that are fixed at a stage; of which walls, where others are at another stage.
fn of_plates(design: &Design, stage: Stage, (kind, text): &(Kind, &str)) -> Option<String> {
    let all = || design.parts.iter().filter(|it| it.kind == *kind);
    let mut here = all().filter(|it| it.stage == stage).peekable();
    here.peek()?;
    if all().all(|it| it.stage == stage) {
        return Some((*text).to_owned());
    }
    let walls: BTreeSet<_> = here.filter_map(|it| it.branch.wall()).collect();
    let names: Vec<&str> = walls.iter().map(|it| it.name()).collect();
    let sentence = text.trim_end_matches('.');
    Some(format!("{sentence} ({}).", names.join(", ")))
}

/// How a wall goes up, when, and whether two can lift it.
fn goes_up_as(packet: Packet<'_>, number: usize, wall: &Raising) -> String {
    let name = wall.wall;
    let Method::Raised(way) = &wall.method else {
        return format!(
            "Wall {number}, {name}: built in place, its plates fixed first, each stud tapped in between them."
        );
    };
    let side = way.from.words(name);
    let how = match way.lifted {
        Lifted::Whole => format!("framed flat on the floor and raised as one frame {side}"),
        Lifted::UnderPlate => format!(
            "top plates fixed first; the rest framed flat on the floor, raised {side} beside them and slid under them"
        ),
    };
    let laid = if wall.before_platform {
        ", before the platform is laid"
    } else {
        ""
    };
    let mut weights = packet.products.takeoff().weights.iter();
    let lift = match weights
        .find(|it| it.what.is_wall(name))
        .and_then(|it| it.two_can_lift)
    {
        Some(true) => "; two people can lift it",
        Some(false) => "; too heavy for two people",
        None => "",
    };
    format!("Wall {number}, {name}: {how}{laid}{lift}.")
}

/// How the joints of the pipe are made, where the file says so.
fn joints(design: &Design) -> Option<String> {
    let kit = design.params.pipe.as_ref()?;
    let asks = |answer: Permission| match answer {
        Permission::Yes => "",
        Permission::No => "no ",
    };
    Some(format!(
        "Joints as the manual requires: {} screws (p. {}), {}sealant (p. {}), {}clamp (p. {}).",
        kit.joint_screws.value,
        kit.joint_screws.page,
        asks(kit.joint_sealant.value),
        kit.joint_sealant.page,
        asks(kit.joint_clamp.value),
        kit.joint_clamp.page,
    ))
}

/// What was planned: what it is, and the value.
type Planned = (String, String);

/// What inspectors ask for and later work goes by, each with its name.
fn measured(packet: Packet<'_>, stage: Stage) -> Vec<Planned> {
    let blanks = packet.products.takeoff().as_built.iter();
    let blanks = blanks.filter(|it| it.measured.stage() == stage);
    blanks
        .map(|it| {
            let what = format!("{} ({})", it.measured.words(), it.measured.name());
            (what, it.tape(packet.unit()))
        })
        .collect()
}

/// What is to be measured once a stage is done: lines, heights, and margins that are tight.
fn planned(packet: Packet<'_>, stage: Stage) -> Vec<Planned> {
    let unit = packet.unit();
    let takeoff = packet.products.takeoff();
    let lines = takeoff.plumb_lines.iter();
    let lines = lines.filter(|it| it.what.stage() == stage).map(|it| {
        (
            format!("{}, from the {}", it.what, it.from()),
            it.tape(unit),
        )
    });
    let tape = |length: Length| length.tape(unit, Rounding::Nearest);
    let packing = takeoff.packing.iter().filter(|_| stage == Stage::Plates);
    let packing = packing.map(|it| {
        let place = format!("packing, {}, {} from the {}", it.of, tape(it.at), it.from);
        (place, tape(it.thickness))
    });
    let heights = takeoff.story_pole.iter();
    let heights = heights
        .filter(|it| it.stage == stage)
        .map(|it| (format!("{}, above the bare slab", it.what), it.tape(unit)));
    let tight = packet.products.findings().iter();
    let tight = tight.filter(|it| {
        it.verdict == Verdict::Tight && finding_stage(packet.products.design, it) == stage
    });
    let tight = tight.filter_map(|it| {
        let numbers = it.numbers?;
        let texts = Texts::new(&numbers, unit);
        let limit = format!("{} {}", numbers.sense.words(), texts.required);
        let what = format!("TIGHT, {}", it.heading());
        Some((what, format!("{}, {limit}", texts.measured)))
    });
    let measured = measured(packet, stage).into_iter();
    let known = lines.chain(packing).chain(heights).chain(tight);
    measured.chain(known).collect()
}

/// When the last of a finding's parts is built; what has none is measured with the walls.
fn finding_stage(design: &Design, finding: &Finding) -> Stage {
    let parts = design.parts.iter();
    let stages = parts
        .filter(|it| finding.parts.contains(&it.id))
        .map(|it| it.stage);
    let order = order(design);
    let place = |stage: &Stage| order.iter().position(|it| *it == Step::Stage(*stage));
    let last = stages.max_by_key(place);
    let last = last.filter(|stage| *stage != Stage::Existing);
    last.unwrap_or(Stage::Walls)
}

fn as_built(html: &mut Html, stage: Stage, planned: &[Planned]) {
    let rows = planned.iter().map(|(what, value)| {
        vec![
            Cell::Text(what.clone()),
            Cell::Number(value.clone()),
            Cell::Blank(if value.is_empty() {
                format!("as built: {what}")
            } else {
                format!("as built: {what}, planned {value}")
            }),
        ]
    });
    Table {
        caption: &if stage == Stage::Existing {
            "As delivered".to_owned()
        } else {
            format!("As built: {}", stage.name())
        },
        heads: &["what", "planned", "as built"],
        rows: rows.collect(),
    }
    .write(html);
}

fn one_hold(html: &mut Html, hold: Hold, name: &str) {
    const VISIT: &[&str] = &["inspector", "date", "passed, or what to correct"];
    let (texts, blanks): (&[&str], &[&str]) = match hold {
        Hold::FramingInspection => (
            &[
                "Nothing is covered before the inspection; in another order only where the inspector says so.",
                "Manual, this packet and the permit are on site; the unit's label can be read.",
                "Every margin marked TIGHT is measured and written down.",
            ],
            VISIT,
        ),
        Hold::VentInspection => (
            &[
                "Nothing is covered before the inspector has seen the vent from the unit to the cap; often the same visit as that of the framing.",
                "Distance from pipe to wood written down.",
            ],
            VISIT,
        ),
        Hold::WiringInspection => (&["Boxes are open and wires are seen."], VISIT),
        Hold::BoardInspection => (&["Heads of the board screws not filled yet."], VISIT),
        Hold::GasTest => (
            &[
                "Nothing is covered before the gas line has passed its pressure test.",
                "Tested by a licensed fitter, capped, with the unit isolated from the test pressure.",
                "Every joint checked for leaks; the shutoff works and has its label.",
            ],
            &[
                "fitter and license",
                "date",
                "pressure",
                "minutes held",
                "passed, or what to correct",
            ],
        ),
    };
    let texts: Vec<String> = texts.iter().map(|it| (*it).to_owned()).collect();
    html.line();
    html.element("li", &[("class", "step hold")], |html| {
        html.element("h3", &[], |html| {
            html.leaf("span", &[("class", "stop")], "HOLD");
            html.text(" ");
            html.text(name);
        });
        ticks(html, name, &texts);
        html.element("p", &[("class", "signed")], |html| {
            for blank in blanks {
                named_blank(html, blank, name);
            }
        });
    });
}

/// Writes the label for the gas shutoff and the steps of the first fire.
pub(super) fn valve_and_fire(html: &mut Html, packet: Packet<'_>) {
    section(html, "valve", "Valve label", |html| {
        html.leaf(
            "p",
            &[],
            "Cut it out and hang it on the gas shutoff of the unit.",
        );
        html.element("div", &[("class", "label")], |html| {
            html.leaf("p", &[("class", "big")], "GAS SHUTOFF: FIREPLACE");
            html.element("p", &[], |html| {
                html.words(&packet.products.design.params.project.name);
            });
            html.leaf(
                "p",
                &[],
                "Handle across the pipe: closed. Handle along the pipe: open.",
            );
            html.element("p", &[("class", "signed")], |html| {
                for name in [
                    "where the valve is",
                    "unit, from its own label",
                    "fitted by",
                    "date",
                ] {
                    named_blank(html, name, "valve label");
                }
            });
            html.leaf(
                "p",
                &[("class", "strong")],
                "Smell gas? Touch no switch. Leave, and call from outside.",
            );
        });
    });
    section(html, "fire", "First firing", |html| {
        ticks(html, "first firing", &FIRE.map(str::to_owned));
        html.element("p", &[("class", "signed")], |html| {
            for name in FIRE_VALUES {
                named_blank(html, name, "first firing");
            }
        });
    });
}

/// The first fire, in order.
const FIRE: [&str; 8] = [
    "Gas test passed and signed; vent complete up to the cap; nothing stored in the chase.",
    "Carbon monoxide alarm on this floor just tested.",
    "The manual's pages on the first fire have been read; packing, films and labels removed as it says.",
    "Finish, mortar and paint cured for as long as their makers say.",
    "Windows open: new coatings smell while they cure. Nobody sleeps in the room.",
    "Glass is on and closed; it and the front get very hot, so children and pets stay away.",
    "Flame looks as the manual shows; burner, pilot and controls work as they should.",
    "Temperatures after an hour, compared with the manual and with what the screen tolerates.",
];

/// What is measured at the first fire.
const FIRE_VALUES: [&str; 5] = [
    "wall above the opening",
    "underside of the mantel",
    "air in the recess, at its top",
    "wood within reach behind the front",
    "date, and who",
];
