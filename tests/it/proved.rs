//! A shape that is cut oddly, or is as thin as the tolerance, costs nobody the files: the fault is a finding.

use chasewright::check::{Finding, Verdict, check};
use chasewright::cli::{BuildForm, Form, Look, WORK};
use chasewright::design::{Kind, Note, Part, design};
use chasewright::geom::Mesh;
use chasewright::params::{self, Params};
use chasewright::solids::{Proved, Solids};

use crate::support::assert_near;

/// A demo with the line of a key, in one table, written anew.
fn edited(demo: &str, key: &str, line: &str) -> Params {
    let path = format!("{}/params/{demo}.toml", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(path).unwrap();
    let is_key = |it: &&str| it.starts_with(&format!("{key} ="));
    let old = text.lines().find(is_key).expect("the demo has the key");
    params::read(&text.replace(old, line)).unwrap()
}

/// Vents across a corner whose hole runs past the end of the wall that they go through.
fn past_the_end() -> [(&'static str, Params); 2] {
    ["across-the-corner", "corner-with-wings"]
        .map(|demo| (demo, edited(demo, "path", "rise = \"22 in\"")))
}

#[test]
fn a_hole_past_the_end_of_its_wall_is_found() {
    for (name, params) in past_the_end() {
        let design = design(&params);
        let about = "hole through the wall to the nearer end of that wall";
        let mut found = check(&design);
        found.retain(|it| it.rule == "pass in its bay" && it.subject.to_string() == about);
        let pass = &design.layout.pass;
        let wall = design.layout.pass_wall().unwrap();
        let past = pass.sides.low.min(wall.length - pass.sides.high);
        assert!(past.to_mm() < -1.0, "{name}: {past:?}");
        assert_eq!(found.len(), 1, "{name}");
        assert_eq!(found[0].verdict, Verdict::Fail, "{name}");
        assert_near(found[0].numbers.unwrap().margin, past.to_mm(), 1e-9);
    }
}

/// Each layer of the wall has lost what lies between the wall's end and the hole's sides, its volume by the mesh.
#[test]
fn a_layer_ends_where_a_hole_crosses_its_end() {
    for (name, params) in past_the_end() {
        let design = design(&params);
        let (pass, wall) = (&design.layout.pass, design.layout.pass_wall().unwrap());
        let solids = Solids::new(&design, Mesh::CHORD_ERROR).unwrap();
        let outline = wall.outline();
        let next = outline.iter().cycle().skip(1);
        let whole = outline.iter().zip(next).map(|(a, b)| a.perp_dot(*b));
        let along = pass.sides.high.min(wall.length).to_mm() - pass.sides.low.to_mm().max(0.0);
        let left = whole.sum::<f64>() / 2.0 - along * pass.heights.size().to_mm();
        let layers = design.parts.iter().zip(&solids.parts);
        let layers = layers.filter(|(part, _)| part.kind == Kind::WallLayer);
        let volumes = layers.map(|(_, it)| solids.shapes[it.shape].mesh.volume());
        let volumes: Vec<f64> = volumes.collect();
        let deep = wall.depths.studs + (wall.depths.outside - wall.depths.sheathing);
        let expected = left * deep.to_mm();
        assert_near(volumes.iter().sum::<f64>() / expected, 1.0, 1e-9);
        assert_eq!(volumes.len(), 2, "{name}");
    }
}

/// The back's studs reach farther to the side than its lining, which ends between the linings of the sides.
#[test]
fn a_lining_ends_where_a_hole_crosses_its_end() {
    let turned =
        "path = [\"go 22 in\", \"turn 90 deg toward 50 deg left of back\", \"through back wall\"]";
    let design = design(&edited("flush-in-a-wall", "rise", turned));
    let lining = |it: &&Part| it.id.starts_with("back lining/board/");
    let end = design.parts.iter().find(lining).unwrap().sides().low;
    assert!((end - design.layout.site.chase.low - design.layout.pass.sides.low).is_positive());
    let solids = Solids::new(&design, Mesh::CHORD_ERROR);
    assert!(solids.is_ok(), "{}", solids.unwrap_err());
    let failed = |it: &Finding| it.rule == "pass in its bay" && it.verdict == Verdict::Fail;
    assert!(check(&design).iter().any(failed));
}

fn tiny() -> Params {
    let line = "rear_clearance = { value = \"0.000001 mm\", page = \"11\" }";
    edited("reading-room", "rear_clearance", line)
}

#[test]
fn a_shape_that_cannot_be_proved_is_left_out_alone() {
    let whole = design(&tiny());
    let proved = Proved::new(whole.clone(), Mesh::CHORD_ERROR);
    let unproved: Vec<&str> = proved
        .design
        .notes
        .iter()
        .filter_map(|note| match note {
            Note::Unproved { id, .. } => Some(id.as_str()),
            _ => None,
        })
        .collect();
    assert_eq!(unproved, ["clearance/unit back"]);
    assert_eq!(proved.shown.parts.len(), whole.parts.len());
    assert_eq!(proved.shown.clearances.len() + 1, whole.clearances.len());
    assert_eq!(proved.solids.clearances.len() + 1, whole.clearances.len());
    assert_eq!(proved.design.clearances.len(), whole.clearances.len());
}

/// The files are made, and every command says that one shape is missing.
#[test]
fn every_command_finds_what_cannot_be_proved() {
    let params = tiny();
    let checked = (WORK.check)(&params, Form::Table(Look::default()), &mut |_| true).unwrap();
    let form = BuildForm {
        drawings: false,
        ..BuildForm::default()
    };
    let built = (WORK.build)(&params, form, &mut |_| true).unwrap();
    let packet = (WORK.packet)(&params, BuildForm::default(), &mut |_| true).unwrap();
    assert!(built.files.len() > 15 && packet.files.len() == 1);
    for verdicts in [checked, built.verdicts, packet.verdicts] {
        assert!(verdicts.failed);
        let words: Vec<&str> = verdicts.text.split_whitespace().collect();
        let text = words.join(" ");
        assert!(
            text.contains("clearance/unit back: not a proper solid"),
            "{text}"
        );
        let counts = verdicts.counts;
        assert!(counts.starts_with("1 FAIL, "), "{counts}");
    }
}
