//! What the packet must be: complete and in order, the same bytes twice, small, closed to the network, and
//! nothing but text wherever a user wrote something. Every number in it is one that checks or takeoff report.

use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;

use chasewright::catalog::{FramingMember, Material};
use chasewright::check::{self, Concern, Finding, Measure, Verdict};
use chasewright::design::{self, Branch, Design, Group, Kind, Part, Stage, Stock};
use chasewright::export::{self, Products, findings_json, takeoff_json};
use chasewright::geom::{Body, Frame, Swept};
use chasewright::params::{self, ChaseWall, PARAMETERS, Params};
use chasewright::takeoff::{Takeoff, takeoff};
use chasewright::units::{Length, Marks, Rounding, TapeUnit};
use glam::{DVec2, DVec3};
use serde_json::Value;

use crate::samples;
use crate::support::file;

/// Every demo and every good parameter file.
fn designs() -> Vec<(String, Params)> {
    let root = PathBuf::from(env!("CARGO_MANIFEST_DIR"));
    let folders = ["params", "tests/params/good"];
    let entries = folders.map(|it| std::fs::read_dir(root.join(it)).unwrap());
    let paths = entries.into_iter().flatten().map(|it| it.unwrap().path());
    let mut paths: Vec<PathBuf> = paths
        .filter(|it| it.extension().is_some_and(|it| it == "toml"))
        .collect();
    paths.sort();
    let read = |path: &PathBuf| params::read(&std::fs::read_to_string(path).unwrap()).unwrap();
    paths
        .iter()
        .map(|it| (it.display().to_string(), read(it)))
        .collect()
}

fn demo() -> Params {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/params/reading-room.toml");
    params::read(&std::fs::read_to_string(path).unwrap()).unwrap()
}

/// The files that the packet holds.
const HELD: [&str; 5] = [
    "model.glb",
    "picture-isometric.png",
    "picture-front.png",
    "picture-framing.png",
    "picture-section.png",
];

/// A packet with these findings and drawings, and the files that it was made of.
pub(crate) fn page_of(
    design: &Design,
    findings: &[Finding],
    taken: &Takeoff,
    drawings: &[(String, String)],
) -> (String, BTreeMap<&'static str, Vec<u8>>) {
    let products = Products {
        findings: findings.to_vec().into(),
        takeoff: taken.clone().into(),
        drawings: drawings.to_vec().into(),
        ..Products::of(design)
    };
    let page = String::from_utf8(file("packet.html", &products)).unwrap();
    let needs = HELD.map(|name| (name, file(name, &products)));
    (page, needs.into())
}

fn page(params: &Params) -> String {
    let design = design::design(params);
    let mut findings = check::check(&design);
    check::try_remedies(params, &mut findings);
    page_of(&design, &findings, &takeoff(&design), &[]).0
}

/// The text between the tags, scripts and styles left out, a space for each tag.
pub(crate) fn text_of(page: &str) -> String {
    let mut text = String::new();
    let mut rest = page;
    while let Some(start) = rest.find('<') {
        text.push_str(&rest[..start]);
        text.push(' ');
        let element = ["script", "style"]
            .iter()
            .find(|it| rest[start + 1..].starts_with(**it));
        let end = match element {
            Some(name) => format!("</{name}>"),
            None => ">".to_owned(),
        };
        let from = start + rest[start..].find(&end).unwrap();
        rest = &rest[from + end.len()..];
    }
    text.push_str(rest);
    let entities = [
        ("&quot;", "\""),
        ("&#39;", "'"),
        ("&lt;", "<"),
        ("&gt;", ">"),
        ("&amp;", "&"),
    ];
    for (entity, character) in entities {
        text = text.replace(entity, character);
    }
    text
}

/// The tags of a page without what stands in their attributes, and without what is in scripts and styles.
fn skeleton(page: &str) -> Vec<String> {
    let mut tags = Vec::new();
    let mut rest = page;
    while let Some(start) = rest.find('<') {
        let mut tag = String::new();
        let mut quoted = false;
        let mut end = rest.len();
        for (at, character) in rest.char_indices().skip_while(|(at, _)| *at <= start) {
            match character {
                '"' => quoted = !quoted,
                '>' if !quoted => {
                    end = at;
                    break;
                }
                _ if !quoted => tag.push(character),
                _ => (),
            }
        }
        rest = &rest[end..];
        for name in ["script", "style"] {
            if tag.starts_with(name) {
                rest = &rest[rest.find(&format!("</{name}>")).unwrap()..];
            }
        }
        tags.push(tag);
    }
    tags
}

#[test]
fn sections_stand_in_their_order() {
    let page = page(&demo());
    let ids = [
        "built",
        "verdicts",
        "clearances",
        "questions",
        "cuts",
        "buy",
        "checklist",
        "valve",
        "fire",
        "cautions",
    ];
    let places = ids.map(|id| page.find(&format!("<section id=\"{id}\"")).expect(id));
    assert!(places.is_sorted(), "{places:?}");
}

/// Each line, height and width of the hole is written down at the stage that makes the hole.
#[test]
fn the_center_of_the_hole_is_written_down_with_the_hole() {
    let mut seen = 0;
    for (name, params) in designs() {
        let design = design::design(&params);
        let (page, _) = page_of(&design, &[], &takeoff(&design), &[]);
        let text = text_of(&page);
        let Some(place) = text.find("center of the pipe at the wall's face, from") else {
            continue;
        };
        let stage = text[..place].rfind("As built: ").map(|at| &text[at..]);
        assert!(
            stage.is_some_and(|it| it.starts_with("As built: wall pass")),
            "{name}"
        );
        seen += 1;
    }
    assert!(seen > 0);
}

#[test]
fn everything_that_is_known_is_in_the_packet() {
    for (name, params) in designs() {
        let design = design::design(&params);
        let mut findings = check::check(&design);
        check::try_remedies(&params, &mut findings);
        let taken = takeoff(&design);
        let (page, files) = page_of(&design, &findings, &taken, &[]);
        let text = text_of(&page);
        let has = |what: &str| assert!(text.contains(what), "{name}: {what}");
        for finding in &findings {
            has(&format!("{}: {}", finding.rule, finding.subject));
            // what follows from a cause is told in its row, in a line
            if finding.follows.is_none() {
                has(&finding.source);
            }
            finding.question.iter().for_each(|it| has(it));
        }
        for verdict in Verdict::ALL {
            let count = export::count(&findings, verdict);
            has(&format!("{count} {}", verdict.word()));
        }
        taken.cut_list.iter().for_each(|it| has(&it.mark));
        taken.buy.iter().for_each(|it| has(&it.item));
        taken
            .story_pole
            .iter()
            .for_each(|it| has(&it.what.to_string()));
        taken
            .plumb_lines
            .iter()
            .for_each(|it| has(&it.what.to_string()));
        let packed = taken.packing.iter();
        packed.for_each(|it| has(&format!("packing, {}", it.of)));
        for step in design::order(&design) {
            has(step.name());
        }
        for parameter in PARAMETERS.iter().filter(|it| it.needs_page) {
            if params.get(parameter.key).is_some() {
                has(parameter.key);
            }
        }
        // the four pictures, and the model
        assert_eq!(files.len(), 5, "{name}");
        assert!(
            page.matches("data:image/png;base64,").count() >= 4,
            "{name}"
        );
        assert!(page.len() < 3_000_000, "{name}: {}", page.len());
    }
}

/// A tick that is heard twice, or kept under one name, is two things done or none: walls that go up in two ways have
/// their plates at two stages.
#[test]
fn no_two_ticks_of_the_checklist_are_alike() {
    for (name, params) in designs() {
        let design = design::design(&params);
        let page = page_of(&design, &[], &takeoff(&design), &[]).0;
        let lists = page.split("<ul class=\"ticks\">").skip(1);
        let lists = lists.map(|it| it.split("</ul>").next().unwrap());
        let mut seen = BTreeSet::new();
        for label in lists.flat_map(|it| it.split("<label class=\"check\">").skip(1)) {
            let text = text_of(label).trim().to_owned();
            assert!(seen.insert(text), "{name}: twice {label}");
        }
        assert!(seen.len() > 20, "{name}: {} ticks", seen.len());
    }
}

#[test]
fn nothing_is_covered_before_its_hold() {
    let page = page(&demo());
    let checklist = &page[page.find("<section id=\"checklist\"").unwrap()..];
    let place = |name: &str| checklist.find(&format!("{name}</h3>")).expect(name);
    let framing = place("hold for the framing inspection");
    let gas = place("hold for the gas test");
    let vent = place("hold for the vent inspection");
    assert!(place(">walls") < gas && gas < place(">wiring"));
    assert!(place(">fireblocks") < framing && place(">vent") < vent);
    assert!(vent < framing && framing < place(">board"));
}

#[test]
fn the_same_design_gives_the_same_bytes() {
    assert_eq!(page(&demo()), page(&demo()));
}

/// Names that try to get out of text and attributes, into scripts and styles, and to turn the line round.
const HOSTILE: &str = "\"'></title></style></script><script>alert(1)</script><img src=x onerror=alert(1)>\
    <!--<svg onload=alert(1)>]]>&lt;b&gt;&amp;${alert(1)}`\u{202e}\u{2066}\u{7}";

fn named(name: &str) -> Params {
    let mut params = demo();
    name.clone_into(&mut params.project.name);
    name.clone_into(&mut params.stock.currency);
    for price in &mut params.stock.prices {
        name.clone_into(&mut price.item);
    }
    for member in [&mut params.chase.stud, &mut params.front.header] {
        let FramingMember::Wood(lumber) = member else {
            panic!("{} is no lumber", member.name());
        };
        name.clone_into(&mut lumber.name);
    }
    name.clone_into(&mut params.appliance.side_clearance.page);
    name.clone_into(&mut params.vent.side_clearance.page);
    let pipe = params.pipe.as_mut().unwrap();
    name.clone_into(&mut pipe.joint_screws.page);
    params
}

#[test]
fn what_a_user_wrote_is_nothing_but_text() {
    let drawings = |name: &str| vec![(name.to_owned(), format!("<svg>{name}</svg>"))];
    let make = |name: &str| {
        let params = named(name);
        let design = design::design(&params);
        let findings = check::check(&design);
        page_of(&design, &findings, &takeoff(&design), &drawings(name)).0
    };
    let (hostile, harmless) = (make(HOSTILE), make("harmless"));
    assert_eq!(skeleton(&hostile), skeleton(&harmless));
    assert!(!hostile.contains("<script>alert"));
    assert!(!hostile.contains('\u{202e}') && !hostile.contains('\u{7}'));
    // it is all there, as text
    let shown = HOSTILE.replace(['\u{202e}', '\u{2066}', '\u{7}'], "\u{fffd}");
    assert!(text_of(&hostile).matches(&shown).count() >= 5);
}

#[test]
fn the_page_asks_nothing_of_the_network() {
    let page = page(&demo());
    let policy = page.find("Content-Security-Policy").unwrap();
    assert!(policy < page.find("<style").unwrap());
    assert!(page.contains("default-src &#39;none&#39;; img-src data:; style-src &#39;sha256-"));
    assert!(!page.contains("unsafe-inline"));
    for tag in skeleton(&page) {
        let attributes = tag.split_whitespace().skip(1);
        for attribute in attributes.map(|it| it.split('=').next().unwrap()) {
            let runs = attribute.starts_with("on") || attribute == "style";
            assert!(!runs, "{tag}");
        }
    }
    for (place, _) in page
        .match_indices(" src=\"")
        .chain(page.match_indices(" href=\""))
    {
        let target = page[place..].split('"').nth(1).unwrap();
        let own = target.starts_with("data:") || target.starts_with('#');
        assert!(own, "{}", &target[..target.len().min(60)]);
    }
}

#[test]
fn drawings_stand_as_they_are() {
    let design = design::design(&demo());
    let drawings = [("Plan".to_owned(), "<svg>plan</svg>".to_owned())];
    let page = page_of(&design, &[], &takeoff(&design), &drawings).0;
    // coreutils: printf '<svg>plan</svg>' | base64
    assert!(page.contains("src=\"data:image/svg+xml;base64,PHN2Zz5wbGFuPC9zdmc+\" alt=\"Plan\""));
}

/// Lengths in a text as a tape shows them: up to an inch mark, or with mm.
fn lengths(text: &str) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    let run = |text: &str, extra: &str| {
        let belongs = |it: char| it.is_ascii_digit() || extra.contains(it);
        text.len() - text.trim_end_matches(belongs).len()
    };
    for (place, _) in text.match_indices('"') {
        let before = &text[..place];
        let inches = run(before, "/-'");
        if inches == 0 {
            continue;
        }
        let mut start = place - inches;
        let feet = before[..start].strip_suffix(' ').unwrap_or("");
        let feet = run(feet, "'-");
        if feet > 0 && text[start - 1 - feet..start].contains('\'') {
            start -= feet + 1;
        }
        found.insert(text[start..=place].to_owned());
    }
    for (place, _) in text.match_indices(" mm") {
        let digits = run(&text[..place], "-.");
        if digits > 0 {
            found.insert(text[place - digits..place + 3].to_owned());
        }
    }
    found
}

/// Every length that a JSON document says, in words or in millimetres, however it is rounded.
fn known(value: &Value, key: &str, unit: TapeUnit, into: &mut BTreeSet<String>) {
    match value {
        Value::String(text) => into.extend(lengths(text)),
        Value::Number(number) if key.contains("mm") => {
            for value in [number.as_f64().unwrap(), -number.as_f64().unwrap()] {
                for rounding in [Rounding::Down, Rounding::Up, Rounding::Nearest] {
                    into.insert(Length::mm(value).tape(unit, rounding));
                    into.insert(Length::mm(value).feet_inches(unit.marks(), rounding));
                }
            }
        }
        Value::Array(values) => values.iter().for_each(|it| known(it, key, unit, into)),
        Value::Object(values) => values
            .iter()
            .for_each(|(key, it)| known(it, key, unit, into)),
        _ => (),
    }
}

#[test]
fn every_number_is_one_that_checks_or_takeoff_report() {
    for (name, params) in designs() {
        let design = design::design(&params);
        let unit = params.project.unit;
        let mut findings = check::check(&design);
        check::try_remedies(&params, &mut findings);
        let taken = takeoff(&design);
        let mut reported = BTreeSet::new();
        for json in [
            findings_json(&design, &findings, &check::assumptions(&params, &findings)).unwrap(),
            takeoff_json(&design, &taken).unwrap(),
        ] {
            known(
                &serde_json::from_str(&json).unwrap(),
                "",
                unit,
                &mut reported,
            );
        }
        // what the file takes from the manual is shown beside its page
        for parameter in PARAMETERS.iter().filter(|it| it.needs_page) {
            if let Some(value) = params.get(parameter.key) {
                reported.extend(lengths(&value.text(unit)));
            }
        }
        let shown = lengths(&text_of(&page_of(&design, &findings, &taken, &[]).0));
        assert!(shown.len() > 80, "{name}: {}", shown.len());
        let strange: Vec<&String> = shown.difference(&reported).collect();
        assert!(strange.is_empty(), "{name}: {strange:?}");
    }
}

#[test]
fn lengths_are_found_in_text() {
    let text = "S6 45-1/2\", 12'-2 3/8\" and -1/2\" out; 450 mm, 5.2 mm \"word\"";
    let expected = ["45-1/2\"", "12'-2 3/8\"", "-1/2\"", "450 mm", "5.2 mm"];
    assert_eq!(lengths(text), expected.map(str::to_owned).into());
    assert_eq!(
        Length::inches(146.375).feet_inches(Marks::Sixteenths, Rounding::Down),
        "12'-2 3/8\""
    );
}

/// The first number of an attribute after a place in the page.
fn attribute(page: &str, name: &str) -> f64 {
    let start = page.find(&format!(" {name}=\"")).unwrap();
    page[start..].split('"').nth(1).unwrap().parse().unwrap()
}

/// The mark of a finding at the middle of a red cube lies at the middle of the cube's pixels.
#[test]
fn marks_lie_where_the_picture_shows_the_place() {
    let mut design = samples::empty("two cubes");
    let middle = DVec3::X * design.layout.unit_center.to_mm();
    for (id, place) in [
        ("sound", [0.0, 0.0, 0.0]),
        ("failing", [700.0, -400.0, 900.0]),
    ] {
        let side = Length::mm(200.0);
        design.parts.push(Part {
            id: id.to_owned(),
            kind: Kind::Stud,
            group: Group::Framing,
            branch: Branch::Wall(ChaseWall::Front),
            material: Material::LUMBER,
            stock: Stock::Stick("2x4".to_owned()),
            stage: Stage::Walls,
            body: Body::new(
                Swept::block(side, side, side),
                Frame::at(middle + DVec3::from_array(place)),
            ),
            left_out: Default::default(),
        });
    }
    let at = middle + DVec3::from_array([800.0, -300.0, 1000.0]);
    let finding = Finding {
        rule: "part in part",
        concern: Concern::Framing,
        verdict: Verdict::Fail,
        subject: Measure("a cube").into(),
        numbers: None,
        parts: vec!["failing".to_owned()],
        location: Some(at),
        source: "arithmetic".to_owned(),
        question: None,
        answered_by: Vec::new(),
        decision: None,
        waiting: Vec::new(),
        levers: Vec::new(),
        follows: None,
        detail: None,
        remedy: None,
    };
    let taken = takeoff(&design);
    let (page, files) = page_of(&design, &[finding], &taken, &[]);
    let mut figures = page.split("<div class=\"marked\">").skip(1);
    for file in ["picture-framing.png", "picture-section.png"] {
        let figure = figures.next().unwrap();
        let mark = DVec2::new(attribute(figure, "cx"), attribute(figure, "cy"));
        let red = red_middle(&files[file]);
        assert!(mark.distance(red) < 2.5, "{file}: {mark} {red}");
    }
}

fn red_middle(png: &[u8]) -> DVec2 {
    let mut reader = png::Decoder::new(std::io::Cursor::new(png))
        .read_info()
        .unwrap();
    let mut rows = vec![0; reader.output_buffer_size().unwrap()];
    let width = reader.next_frame(&mut rows).unwrap().width as usize;
    let pixels = rows.chunks(3).enumerate();
    let red = pixels.filter(|(_, it)| it[0] > 90 && it[1] < 60 && it[2] < 60);
    let places: Vec<DVec2> = red
        .map(|(at, _)| DVec2::new((at % width) as f64 + 0.5, (at / width) as f64 + 0.5))
        .collect();
    assert!(places.len() > 1000);
    let low = places.iter().copied().reduce(DVec2::min).unwrap();
    let high = places.iter().copied().reduce(DVec2::max).unwrap();
    (low + high) / 2.0
}
