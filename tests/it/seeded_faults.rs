//! A fault put into a demo on purpose, one for each rule: that rule finds it, and no other does, but
//! for those that the row names with its reason.
//!
//! A row is a demo and keys written over it, as they stand in a parameter file; a key of a table that
//! the demo has not adds the table.

use std::collections::BTreeSet;

use chasewright::check::rules::RULES;
use chasewright::check::{Finding, Verdict, check};
use chasewright::design::{Design, design};
use chasewright::params::Params;

use crate::support::{changed, read_table, without, written};
use crate::told::{hold, told};

/// One fault.
struct Fault {
    /// The rule that has to find it.
    rule: &'static str,
    /// FAIL, or ASK for a rule that only asks.
    verdict: Verdict,
    demo: &'static str,
    /// Keys and their new values, both as TOML.
    changes: &'static [(&'static str, &'static str)],
    /// A part that is taken away: no keys leave a stick unheld, or a step between studs too wide.
    taken_away: Option<&'static str>,
    /// A key that is left out.
    left_out: Option<&'static str>,
    /// Other rules that cannot but find it too, and why.
    also: &'static [(&'static str, &'static str)],
}

impl Fault {
    const fn without(self, part: &'static str) -> Self {
        Self {
            taken_away: Some(part),
            ..self
        }
    }

    const fn leaving_out(self, key: &'static str) -> Self {
        Self {
            left_out: Some(key),
            ..self
        }
    }

    /// The demo with the fault in it.
    fn design(&self) -> Design {
        let mut file = written(self.demo, self.changes);
        if let Some(key) = self.left_out {
            file = without(&file, key).expect("the demo has it");
        }
        let mut model = design(&read_table(&file).expect("it can be read"));
        if let Some(part) = self.taken_away {
            let parts = model.parts.len();
            model.parts.retain(|it| it.id != part);
            assert_eq!(model.parts.len() + 1, parts, "{part} is not there");
        }
        model
    }

    /// What a walk over all files needs of it; none where no keys make it.
    fn params(&self) -> Option<Params> {
        let mut file = written(self.demo, self.changes);
        if let Some(key) = self.left_out {
            file = without(&file, key)?;
        }
        read_table(&file).ok().filter(|_| self.taken_away.is_none())
    }

    /// What its own rule says of it.
    fn told_of(&self, model: &Design) -> Vec<Finding> {
        let findings = check(model).into_iter();
        let own = findings.filter(|it| it.rule == self.rule && it.verdict == self.verdict);
        own.collect()
    }

    const fn and(self, also: &'static [(&'static str, &'static str)]) -> Self {
        Self { also, ..self }
    }
}

/// Every faulty file, by its rule.
pub(crate) fn faulty() -> Vec<(String, Params)> {
    let faulty = FAULTS.iter();
    let faulty =
        faulty.filter_map(|it| Some((format!("{} in {}", it.rule, it.demo), it.params()?)));
    faulty.collect()
}

const fn fails(
    rule: &'static str,
    demo: &'static str,
    changes: &'static [(&'static str, &'static str)],
) -> Fault {
    Fault {
        rule,
        verdict: Verdict::Fail,
        demo,
        changes,
        taken_away: None,
        left_out: None,
        also: &[],
    }
}

const fn asks(
    rule: &'static str,
    demo: &'static str,
    changes: &'static [(&'static str, &'static str)],
) -> Fault {
    Fault {
        verdict: Verdict::Ask,
        ..fails(rule, demo, changes)
    }
}

const FAULTS: &[Fault] = &[
    fails(
        "part in part",
        "flat-with-cabinets",
        &[("legs.top", r#""50 in""#)],
    ),
    fails(
        "clearance",
        "rises-away-from-wall",
        &[("skins.noncombustible_to", r#""47 in""#)],
    ),
    fails(
        "inside the room",
        "rises-away-from-wall",
        &[
            ("gas.stub_from", r#""floor""#),
            ("gas.stub_out", r#""18 ft""#),
        ],
    )
    .and(&[("gas stub", "what is outside the room is outside the chase")]),
    fails("enclosure", "flush-in-a-wall", &[("behind.cover", "0")]),
    fails("held", "rises-away-from-wall", &[]).without("front/jack/1"),
    fails("stud spacing", "rises-away-from-wall", &[]).without("left side/stud/2"),
    fails(
        "part without room",
        "rises-away-from-wall",
        &[("gas.stub_out", r#""0 in""#)],
    ),
    asks(
        "treated plate",
        "stepped-face",
        &[("platform.layers", r#"["3/4 in panel"]"#)],
    )
    .and(&[(
        "mantel on the framing",
        "the platform is lower, and the ledge with it",
    )]),
    fails(
        "stud height",
        "rises-away-from-wall",
        &[("chase.stud_spacing", r#""25 in""#)],
    )
    .and(&[(
        "studs behind the finish",
        "stone on studs 25 in apart is asked about",
    )]),
    fails(
        "tilt-up",
        "flat-with-cabinets",
        &[
            ("ceiling.gap", r#""0 in""#),
            ("raising.front", r#""tilt_up""#),
        ],
    ),
    asks("not told", "reading-room", &[]).leaving_out("wall.sheathing"),
    // it is judged, and somebody's word is no tape
    asks(
        "decided",
        "reading-room",
        &[(
            "project.decided",
            r#"[{ question = "mantel rule", who = "builder", date = "2026-11-30" }]"#,
        )],
    ),
    asks("ceiling slope", "flat-with-cabinets", &[]).leaving_out("ceiling.slope"),
    fails(
        "walkway",
        "rises-away-from-wall",
        &[("room.depth", r#""60 in""#)],
    )
    .and(&[("opposite wall", "the room ends before the opening")]),
    fails(
        "unit in the chase",
        "rises-away-from-wall",
        &[("chase.depth", r#""18-3/4 in""#)],
    )
    .and(&[(
        "clearance",
        "the wall's board stands in the clearance behind the body",
    )]),
    fails(
        "opening in the front",
        "flat-with-cabinets",
        &[("appliance.center", r#""101 in""#)],
    )
    .and(&[
        ("part in part", "the king stands in the end stud"),
        (
            "unit header",
            "it hangs on the end stud's side of the chase",
        ),
    ]),
    fails(
        "unit through the opening",
        "rises-away-from-wall",
        &[("appliance.standoff", r#""3-1/4 in""#)],
    )
    .and(&[("part in part", "the spacers lie in the header")]),
    fails(
        "near side wall",
        "rises-away-from-wall",
        &[("appliance.side_wall", r#"{ value = "68 in", page = "9" }"#)],
    )
    .and(&[("likely", "no manual asks so much")]),
    fails(
        "opposite wall",
        "rises-away-from-wall",
        &[(
            "appliance.front_clearance",
            r#"{ value = "190 in", page = "9" }"#,
        )],
    )
    .and(&[("likely", "no manual or panel has such a number")]),
    fails(
        "hearth",
        "rises-away-from-wall",
        &[("room.hearth_out", r#""10 in""#)],
    ),
    asks("receptacles", "rises-away-from-wall", &[]).leaving_out("chase.receptacles"),
    asks("gas entry", "rises-away-from-wall", &[]).leaving_out("appliance.gas_entry"),
    fails(
        "gas joints",
        "rises-away-from-wall",
        &[("gas.hidden_joints", "true")],
    ),
    fails(
        "access for service",
        "rises-away-from-wall",
        &[("appliance.service", r#"{ value = "panel", page = "22" }"#)],
    ),
    fails(
        "floor",
        "rises-away-from-wall",
        &[
            ("room.floor_kind", r#""tensioned_slab""#),
            ("room.tendons_marked", r"false"),
        ],
    ),
    fails(
        "platform panel",
        "rises-away-from-wall",
        &[("platform.span_rating", r#""12 in""#)],
    )
    .and(&[("likely", "no manual or panel has such a number")]),
    fails(
        "thickness of the wall",
        "rises-away-from-wall",
        &[("vent.thickest_wall", r#"{ value = "4 in", page = "20" }"#)],
    ),
    asks("finish material", "rises-away-from-wall", &[]).leaving_out("skins.lower_material"),
    asks(
        "studs behind the finish",
        "rises-away-from-wall",
        &[("chase.stud_spacing", r#""24 in""#)],
    ),
    fails(
        "screen over the fire",
        "rises-away-from-wall",
        &[("screen.over_fire", r#"{ value = "no", page = "6" }"#)],
    ),
    fails(
        "carbon monoxide alarm",
        "rises-away-from-wall",
        &[("room.monoxide_alarm", r"false")],
    ),
    fails(
        "nail plates",
        "flat-with-cabinets",
        &[
            ("fasteners.nail_plates", "false"),
            ("cables.diameter", r#""1-1/4 in""#),
            ("cables.keep_out", r#"{ value = "3 in", page = "12" }"#),
            (
                "cables.route",
                r#"[["42 in", "24-3/4 in", "20 in"], ["50 in", "24-3/4 in", "20 in"]]"#,
            ),
        ],
    ),
    asks(
        "lip against skin",
        "rises-away-from-wall",
        &[("appliance.face_offset", r#""1/8 in""#)],
    )
    .and(&[("unit set forward", "the manual has to allow it")]),
    fails(
        "unit set forward",
        "reading-room",
        &[
            ("appliance.face_offset", r#""1/8 in""#),
            (
                "appliance.most_forward",
                r#"{ value = "0 in", page = "9" }"#,
            ),
        ],
    )
    .and(&[("lip against skin", "the lip comes forward with the unit")]),
    fails(
        "mantel hold",
        "flat-with-cabinets",
        &[("mantel.held_by", r#""screws""#)],
    ),
    asks(
        "stone on the sides",
        "stepped-face",
        &[("skins.side_material", r#""stone""#)],
    ),
    asks(
        "visits",
        "reading-room",
        &[("visits.framing", r#""finish""#)],
    ),
    fails(
        "pipe behind the front",
        "reading-room",
        &[("chase.stud", r#""2x6""#)],
    )
    .and(&[("clearance", "header and sill stand in the pipe's clearance")]),
    fails(
        "pipe before the wall",
        "room-divider",
        &[
            ("vent.collar_offset", r#""18-1/2 in""#),
            ("chase.depth", r#""26 in""#),
        ],
    )
    .and(&[(
        "clearance",
        "the back's framing stands in the pipe's clearance",
    )]),
    fails(
        "run under the ceiling",
        "stepped-face",
        &[("vent.rise", r#""54-1/2 in""#)],
    )
    .and(&[
        ("clearance", "the ceiling hangs into the run's clearance"),
        ("part in part", "the firestop is as high as the clearance"),
    ]),
    fails(
        "pass in its bay",
        "rises-away-from-wall",
        &[
            ("wall.stud_spacing", r#""10 in""#),
            ("wall.first_stud", r#""4 in""#),
        ],
    )
    .and(&[("existing stud cut", "a hole wider than its bay cuts a stud")]),
    asks(
        "existing stud cut",
        "rises-away-from-wall",
        &[("wall.first_stud", r#""8 in""#)],
    ),
    fails(
        "pass angle",
        "pass-at-an-angle",
        &[("vent.angled_pass", r#"{ value = "no", page = "15" }"#)],
    ),
    asks(
        "rafter cut",
        "roof-pass",
        &[("roof.first_rafter", r#""9 in""#)],
    )
    .and(&[("attachment", "the rafters move away from the front's plate")]),
    fails(
        "rafter cut",
        "roof-pass",
        &[
            ("roof.first_rafter", r#""9 in""#),
            ("rafters.kind", r#""truss""#),
        ],
    )
    .and(&[("attachment", "under trusses a gap has to be wider")]),
    fails(
        "joint in reach",
        "rises-away-from-wall",
        &[("vent.hand_reach", r#""12 in""#)],
    ),
    fails("ceiling readings", "readings", &[("ceiling.gap", "2")]),
    asks(
        "wall plumb",
        "rises-away-from-wall",
        &[("wall.plumb", r#"[["4 in", "3 in"], ["90 in", "3-3/8 in"]]"#)],
    ),
    asks(
        "floor readings",
        "rises-away-from-wall",
        &[(
            "room.floor",
            r#"[["60 in", "2 in", "40 in"], ["90 in", "20 in", "40-1/2 in"]]"#,
        )],
    ),
    asks(
        "corner square",
        "square-in-a-corner",
        &[("room.left_corner", r#""60-1/2 in""#)],
    ),
    fails(
        "mantel rule",
        "rises-away-from-wall",
        &[("mantel.projection", r#""12 in""#)],
    ),
    fails(
        "mantel on the framing",
        "stepped-face",
        &[("front.header_ease", r#""1 in""#)],
    )
    .and(&[
        ("mantel hold", "no ledge is under it"),
        ("blocking", "a mantel off the ledge hangs where no block is"),
    ]),
    fails(
        "recess above the mantel",
        "rises-away-from-wall",
        &[("recess.sill", r#""57 in""#)],
    ),
    fails(
        "recess in the front",
        "rises-away-from-wall",
        &[("recess.center", r#""90 in""#)],
    )
    .and(&[
        (
            "mantel hold",
            "sticks lie in one another where its cleat is screwed",
        ),
        ("part in part", "the king stands in the end stud"),
    ]),
    fails(
        "recess under the ceiling",
        "metric-mono-slope",
        &[("recess.height", "1114")],
    )
    .and(&[("part in part", "the plate lies in the header")]),
    fails(
        "recess header",
        "rises-away-from-wall",
        &[
            ("ceiling.height", r#""115 in""#),
            ("recess.header_form", r#""flat""#),
        ],
    ),
    fails(
        "recess and pipe",
        "reading-room",
        &[("recess.depth", r#""4-1/2 in""#)],
    )
    .and(&[(
        "clearance",
        "the framing behind the recess stands in the pipe's clearance",
    )]),
    fails(
        "screen in the recess",
        "rises-away-from-wall",
        &[("screen.width", r#""57 in""#)],
    ),
    asks(
        "screen height",
        "rises-away-from-wall",
        &[("screen.seat_distance", r#""6 ft""#)],
    ),
    fails(
        "vent rise",
        "rises-away-from-wall",
        &[("vent.least_rise", r#"{ value = "19-1/4 in", page = "18" }"#)],
    )
    .and(&[("agreement", "the manual's table begins lower")]),
    fails(
        "run slope",
        "pass-at-an-angle",
        &[(
            "vent.path",
            r#"["go 520", "turn 90 deg toward 12 deg right of back", "through back wall rising 1.9 %"]"#,
        )],
    ),
    asks(
        "pipe joints",
        "roof-pass",
        &[
            ("pipe.joint_screws", r#"{ value = 0, page = "30" }"#),
            ("pipe.joint_sealant", r#"{ value = "no", page = "30" }"#),
            ("pipe.joint_clamp", r#"{ value = "no", page = "30" }"#),
        ],
    ),
    fails(
        "vent limits",
        "rises-away-from-wall",
        &[("vent.longest_run", r#"{ value = "17 in", page = "18" }"#)],
    )
    .and(&[("agreement", "the manual's table goes farther")]),
    fails(
        "terminal",
        "rises-away-from-wall",
        &[(
            "outside.openings",
            r#"[["98 in", "36 in", "140 in", "80 in"]]"#,
        )],
    )
    .and(&[("agreement", "the chase stands before that window")]),
    fails(
        "insulation",
        "rises-away-from-wall",
        &[(
            "appliance.insulation_distance",
            r#"{ value = "3 in", page = "17" }"#,
        )],
    ),
    fails(
        "envelope",
        "rises-away-from-wall",
        &[("wall.sealed", "false")],
    ),
    asks(
        "gas line",
        "rises-away-from-wall",
        &[("gas.test_minutes", "15")],
    ),
    fails(
        "gas stub",
        "rises-away-from-wall",
        &[("gas.stub_right", r#""43 in""#)],
    ),
    fails(
        "gas shutoff",
        "rises-away-from-wall",
        &[
            ("gas.shutoff_right", r#""13' 8\"""#),
            ("gas.shutoff_out", r#""8 ft""#),
        ],
    ),
    fails(
        "gas pipe",
        "rises-away-from-wall",
        &[("gas.pipe", r#""1/2""#)],
    ),
    fails(
        "beside the opening",
        "flat-with-cabinets",
        &[("legs.distance", r#""5 in""#)],
    ),
    fails(
        "door swing",
        "flat-with-cabinets",
        &[
            ("cabinets.hinge", r#""near""#),
            ("cabinets.depth", r#""28 in""#),
            ("cabinets.door", r#""22 in""#),
            (
                "side_rule.rows",
                r#"{ value = [["30 in", "12 in"]], page = "15" }"#,
            ),
            ("legs.distance", r#""14 in""#),
        ],
    ),
    asks(
        "agreement",
        "rises-away-from-wall",
        &[("vent.longest_run", r#"{ value = "19 ft", page = "18" }"#)],
    ),
    asks(
        "likely",
        "rises-away-from-wall",
        &[("vent.most_elbows", r#"{ value = 11, page = "18" }"#)],
    ),
    fails(
        "flange",
        "rises-away-from-wall",
        &[("appliance.flange", r#"{ value = "1/2 in", page = "8" }"#)],
    ),
    fails(
        "stock lengths",
        "rises-away-from-wall",
        &[("stock.lengths", r#"["6 ft"]"#)],
    ),
    asks(
        "pipe sections",
        "reading-room",
        &[
            ("pipe.sections", r#"["36 in", "48 in"]"#),
            ("pipe.adjustable", r#""0 in""#),
        ],
    ),
    fails(
        "veneer",
        "rises-away-from-wall",
        &[("skins.lower_weight", r#""21 lb/ft2""#)],
    ),
    fails(
        "cables",
        "rises-away-from-wall",
        &[("cables.keep_out", r#"{ value = "14 in", page = "21" }"#)],
    ),
    fails(
        "attachment",
        "flat-with-cabinets",
        &[("fasteners.ceiling_screw", r#""3 in""#)],
    ),
    fails(
        "bores and notches",
        "flat-with-cabinets",
        &[
            ("cables.diameter", r#""3/8 in""#),
            ("cables.keep_out", r#"{ value = "3 in", page = "12" }"#),
            (
                "cables.route",
                r#"[["39 in", "11.5 in", "20 in"], ["44 in", "11.5 in", "20 in"]]"#,
            ),
        ],
    ),
    fails(
        "blocking",
        "flat-with-cabinets",
        &[("blocking.side_rail", r#""0 in""#)],
    ),
    asks(
        "board joint",
        "flat-with-cabinets",
        &[("blocking.board_joint", "false")],
    ),
    fails(
        "brackets",
        "flat-with-cabinets",
        &[
            ("appliance.brackets", r#"["40 in"]"#),
            ("blocking.mantel", "false"),
        ],
    )
    .and(&[
        (
            "agreement",
            "over the top of the body nothing is screwed to it",
        ),
        (
            "blocking",
            "the mantel's blocks would be behind the brackets",
        ),
    ]),
    fails(
        "plates",
        "flat-with-cabinets",
        &[("stock.lengths", r#"["20 in"]"#)],
    )
    .and(&[("stock lengths", "no stud comes out of such boards")]),
    fails(
        "fireblocking",
        "flat-with-cabinets",
        &[
            ("chase.width", r#""128 in""#),
            ("cabinets.sides", r#""left""#),
        ],
    ),
    fails(
        "fireblocking at the ceiling",
        "rises-away-from-wall",
        &[("ceiling.over_chase", r#""open""#)],
    ),
    fails(
        "unit header",
        "flat-with-cabinets",
        &[("front.header_form", r#""flat""#)],
    ),
    fails(
        "fixed things",
        "square-in-a-corner",
        &[("room.clear_beside", r#""8 in""#)],
    ),
    asks(
        "mantel ends",
        "square-in-a-corner",
        &[("cabinets.height", r#""40 in""#)],
    ),
    fails(
        "mantel way in",
        "square-in-a-corner",
        &[("room.way_in", r#""12 ft""#)],
    ),
    fails(
        "steel load",
        "steel-front",
        &[
            ("mantel.combustible", "false"),
            ("mantel.thickness", r#""12-1/8 in""#),
        ],
    )
    .and(&[(
        "mantel rule",
        "of a noncombustible mantel it asks what the manual says",
    )]),
];

/// What is open: every FAIL and every question, by its rule.
type Said = BTreeSet<(&'static str, Verdict, String, Option<String>)>;

fn open(design: &Design) -> Said {
    let findings = check(design).into_iter();
    let open = findings.filter(|it| matches!(it.verdict, Verdict::Fail | Verdict::Ask));
    open.map(|it| (it.rule, it.verdict, it.subject.to_string(), it.question))
        .collect()
}

#[test]
fn each_fault_is_found_by_its_own_rule_alone() {
    let mut wrong = Vec::new();
    for fault in FAULTS {
        let before = open(&design(&changed(fault.demo, &[])));
        let after = open(&fault.design());
        let new: Said = after.difference(&before).cloned().collect();
        let found: BTreeSet<&str> = new.iter().map(|it| it.0).collect();
        let also = fault.also.iter().map(|it| it.0);
        let expected: BTreeSet<&str> = also.chain([fault.rule]).collect();
        let own = new.iter().filter(|it| it.0 == fault.rule);
        let own: BTreeSet<Verdict> = own.map(|it| it.1).collect();
        if found != expected || own != BTreeSet::from([fault.verdict]) {
            wrong.push(format!("{}, {}: {new:#?}", fault.rule, fault.demo));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// What the findings of a rule do not say, and why.
const UNSAID: &[(&str, &str, &str)] = &[
    ("agreement", "key", "of the manual or the house"),
    ("agreement", "parts", "two keys"),
    ("agreement", "place", "two keys"),
    ("attachment", "place", "one bite for all screws"),
    ("blocking", "place in a part", "where no wood is"),
    ("beside the opening", "place in a part", "beside them"),
    ("brackets", "place in a part", "the end of the stick"),
    ("ceiling slope", "key", "of the room"),
    ("carbon monoxide alarm", "key", "of the house"),
    ("carbon monoxide alarm", "parts", "none of the chase"),
    ("corner square", "key", "of the room"),
    ("decided", "key", "is about no part"),
    ("decided", "parts", "is about no part"),
    ("decided", "place", "is about no part"),
    ("enclosure", "key", "asks for a cover"),
    ("envelope", "key", "asks what was done"),
    ("envelope", "parts", "of the whole wall"),
    ("finish material", "key", "asks what it is"),
    ("finish material", "parts", "all of the finish"),
    (
        "fireblocking at the ceiling",
        "key",
        "asks what fills the gap",
    ),
    ("floor", "key", "of the room"),
    ("flange", "place in a part", "the gap"),
    ("floor readings", "key", "of the room"),
    ("gas joints", "key", "how the line is made"),
    ("gas line", "key", "asks for a table"),
    ("gas pipe", "key", "asks for the meter"),
    ("hearth", "parts", "the floor is one part"),
    ("held", "key", "a stick is missing"),
    ("joint in reach", "place in a part", "where the hand is"),
    ("likely", "key", "of the manual or the house"),
    ("likely", "parts", "a number"),
    ("likely", "place", "a number"),
    ("mantel ends", "key", "asks what carries them"),
    ("mantel hold", "place", "no screw finds a place"),
    ("near side wall", "parts", "room that is left"),
    ("not told", "key", "asks for a fact"),
    ("not told", "parts", "of all that rests on it"),
    ("not told", "place", "of all that rests on it"),
    ("opening in the front", "parts", "room that is left"),
    ("part without room", "place", "it is nowhere"),
    ("pipe joints", "key", "of the pipe as it is sold"),
    ("pass angle", "key", "asks what the manual allows"),
    ("pass angle", "place", "all of the pass"),
    ("pipe before the wall", "place in a part", "the gap"),
    ("receptacles", "key", "asks who sets them"),
    ("receptacles", "parts", "along the chase"),
    ("recess in the front", "parts", "room that is left"),
    ("screen height", "place in a part", "the recess's middle"),
    ("screen in the recess", "place in a part", "the gap"),
    ("screen over the fire", "key", "its maker forbids it"),
    ("stud spacing", "place in a part", "between uprights"),
    ("thickness of the wall", "key", "of the house"),
    ("tilt-up", "place in a part", "on the ceiling"),
    ("unit through the opening", "place in a part", "the opening"),
    ("veneer", "key", "asks for the standard"),
    ("veneer", "parts", "all of the finish"),
    ("visits", "key", "of the job"),
    ("visits", "place", "of the job"),
    ("walkway", "parts", "room that is left"),
    ("wall plumb", "key", "of the room"),
];

/// A verdict names the parts that it is about, where they are, whence the number is, and the keys that move it.
#[test]
fn each_fault_says_where_it_is_and_what_to_move() {
    let mut unsaid = BTreeSet::new();
    for fault in FAULTS {
        let model = fault.design();
        for found in fault.told_of(&model) {
            let parts = model.parts.iter().map(|it| (&it.id, &it.body.bounds));
            let volumes = model.clearances.iter();
            let volumes = volumes.map(|it| (&it.id, &it.body.bounds));
            let named = parts
                .chain(volumes)
                .filter(|it| found.parts.contains(it.0))
                .map(|it| [it.1.low, it.1.high])
                .reduce(|a, b| [a[0].min(b[0]), a[1].max(b[1])]);
            // in the box round the parts, to a millimeter
            let outside = found
                .location
                .zip(named)
                .is_some_and(|(at, [low, high])| (at - low).min(high - at).min_element() < -1.0);
            let lacks = [
                ("place in a part", outside),
                ("source", found.source.is_empty()),
                ("place", found.location.is_none()),
                ("parts", found.parts.is_empty()),
                ("key", found.levers.is_empty()),
            ];
            let lacks = lacks.into_iter().filter(|it| it.1);
            unsaid.extend(lacks.map(|(what, _)| (fault.rule, what)));
        }
    }
    let known: BTreeSet<_> = UNSAID.iter().map(|it| (it.0, it.1)).collect();
    assert_eq!(unsaid, known);
}

/// Word for word what the rule says of its fault.
#[test]
fn each_fault_is_told_as_it_was() {
    let mut text = String::new();
    for fault in FAULTS {
        text.extend(fault.told_of(&fault.design()).iter().map(told));
    }
    hold("seeded faults", &text);
}

#[test]
fn every_rule_has_its_fault() {
    let with: BTreeSet<&str> = FAULTS.iter().map(|it| it.rule).collect();
    let listed: BTreeSet<&str> = RULES.iter().map(|it| it.name).collect();
    assert_eq!(with, listed);
    let why = FAULTS.iter().flat_map(|it| it.also);
    for (rule, why) in why {
        assert!(listed.contains(rule) && !why.is_empty(), "{rule}: {why}");
    }
}
