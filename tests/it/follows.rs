//! Heights and places that are written from another thing: the same design as the number, and moving with the thing.

use std::collections::BTreeSet;

use chasewright::check::{Finding, check, try_remedies};
use chasewright::design::design;
use chasewright::export::{FORMATS, Products, findings_json, followed, remedy_text};
use chasewright::params::{
    Axis, Datum, Following, PARAMETERS, Parameter, Params, Value, parameter,
};
use chasewright::units::{Length, Rounding, TapeUnit};

use crate::generate::random_params;
use crate::packet::text_of;
use crate::scenarios::demo;
use crate::support::{assert_near, changed, demos, file, read_table, seeds, written};

/// The heights and places that may follow something, of those that these parameters write as a number.
fn followers(params: &Params) -> impl Iterator<Item = (&'static Parameter, Axis, Length)> {
    PARAMETERS.iter().filter_map(|it| {
        let Some(Value::Length(now)) = params.get(it.key) else {
            return None;
        };
        Some((it, it.follows?, now))
    })
}

/// The same parameters with every key written as a number.
fn absolute(params: &Params) -> Params {
    let keys = params.following.iter().map(|it| it.0);
    let numbers: Vec<_> = keys.map(|key| (key, params.get(key).unwrap())).collect();
    let plain = params.with_all(&numbers).unwrap();
    assert_eq!(plain.following, []);
    plain
}

/// A length of the parameters.
fn inches(params: &Params, key: &str) -> f64 {
    match params.get(key) {
        Some(Value::Length(length)) => length.to_inches(),
        other => panic!("{key}: {other:?}"),
    }
}

/// Each key written from each thing that is there, so that it comes to the same; and those that cannot be.
fn rewritten(params: &Params) -> Vec<(&'static str, Following, Params)> {
    let mut all = Vec::new();
    for (parameter, axis, now) in followers(params) {
        for thing in Datum::ALL.iter().filter(|it| it.fits(axis)) {
            let Some(place) = thing.place(params) else {
                continue;
            };
            let following = Following {
                thing: *thing,
                offset: now - place,
            };
            let written = params.with(parameter.key, &Value::Following(following));
            match written {
                Ok(it) => all.push((parameter.key, following, it)),
                Err(faults) => {
                    let turned = axis == Axis::Wall && params.site().is_turned();
                    let round = thing.moved_by(params).contains(&parameter.key);
                    assert!(turned || round, "{}: {faults:#?}", parameter.key);
                }
            }
        }
    }
    all
}

/// A file with a key written from a thing is, but for that, the file with the number: read, and changed in memory.
#[test]
fn what_follows_is_the_same_design_as_the_number() {
    let (mut of_memory, mut of_text) = (0, 0);
    for (name, params) in demos() {
        let plain = absolute(&params);
        for (key, following, mut it) in rewritten(&plain) {
            assert_eq!(it.following, [(key, following)]);
            it.following.clear();
            assert_eq!(it, plain, "{name}: {key} {following:?}");
            of_memory += 1;
            // only what lies on a mark can be written with all its digits
            let unit = plain.project.unit;
            let mark = following.offset.to_mark(unit, Rounding::Nearest);
            if (mark - following.offset).abs().to_mm() > 1e-9 {
                continue;
            }
            let text = format!("{:?}", following.text(unit));
            let mut file = written(&name, &[(key, &text)]);
            for (other, _) in &params.following {
                let (group, own) = other.split_once('.').unwrap();
                let number = plain.get(other).unwrap().text(unit);
                let table = file[group].as_table_mut().unwrap();
                if *other != key {
                    table.insert(own.to_owned(), number.into());
                }
            }
            let mut read = read_table(&file).unwrap_or_else(|it| panic!("{text}: {it:#?}"));
            assert_eq!(read.following.len(), 1, "{name}: {key} = {text}");
            read.following.clear();
            assert_eq!(read, plain, "{name}: {key} = {text}");
            of_text += 1;
        }
    }
    assert!(of_memory > 300 && of_text > 150, "{of_memory} {of_text}");
}

#[test]
fn what_follows_is_the_same_design_in_random_designs() {
    let mut seen = BTreeSet::new();
    for seed in seeds(0..300) {
        let plain = absolute(&random_params(seed));
        for (key, following, it) in rewritten(&plain) {
            // what lies on no mark may be off in the last digit
            let [own, number] = [&it, &plain].map(|it| inches(it, key));
            assert_near(own, number, 1e-9);
            let it = it.with(key, &plain.get(key).unwrap()).unwrap();
            assert_eq!(it, plain, "seed {seed}: {key} {following:?}");
            seen.insert(following.thing.name());
        }
    }
    assert_eq!(seen.len(), Datum::ALL.len(), "{seen:?}");
}

/// Every file of a demo is the same to the byte, but for the lines that tell what was written. What is tried on it,
/// another default, moves what follows along, so that what rests on a default is told by the other file's own trials.
#[test]
fn the_products_are_those_of_the_number() {
    let own = demo("room-divider");
    assert_eq!(own.following.len(), 3, "the demo has following heights");
    let plain = absolute(&own);
    let models = [design(&own), design(&plain)];
    let products = [Products::of(&models[0]), Products::of(&models[1])];
    let mut same = 0;
    for format in FORMATS {
        let made = [0, 1].map(|it| format.files(&products[it]));
        let [Ok(a), Ok(b)] = made else {
            // the scale model is made by its own command
            assert!(made.iter().all(Result::is_err), "{}", format.file);
            continue;
        };
        for ((name, a), (_, b)) in a.into_iter().zip(b) {
            if name == "findings.json" || name == "packet.html" {
                continue;
            }
            assert!(a == b, "{name} is another file");
            same += 1;
        }
    }
    assert!(same > 20, "{same} files");
    let json = |which: usize| -> serde_json::Value {
        let bytes = file("findings.json", &products[which]);
        serde_json::from_slice(&bytes).unwrap()
    };
    let (mut own_json, mut plain_json) = (json(0), json(1));
    let told = own_json["following"].take();
    assert_eq!(told[1]["key"], "mantel.underside");
    assert_eq!(told[1]["written"], "on the ledge");
    assert_eq!(told[1]["comes_to"], "43-1/4\"");
    own_json.as_object_mut().unwrap().remove("following");
    for it in [&mut own_json, &mut plain_json] {
        it.as_object_mut().unwrap().remove("assumptions");
    }
    assert_eq!(own_json, plain_json);
    let page = String::from_utf8(file("packet.html", &products[0])).unwrap();
    let page = text_of(&page);
    assert!(
        page.contains("2-1/4\" above the mantel"),
        "not in the packet"
    );
    let without = findings_json(&models[1], &[], &[]).unwrap();
    assert!(!without.contains("following"));
}

/// One change of the platform, and all that stands on it follows; a number stays.
#[test]
fn a_higher_platform_moves_what_follows() {
    let follows = changed(
        "reading-room",
        &[
            ("skins.noncombustible_to", "\"on the ledge\""),
            ("mantel.underside", "\"on the ledge\""),
            ("recess.sill", "\"2-1/4 in above the mantel\""),
            (
                "appliance.center",
                "\"42 in right of the chase's left end\"",
            ),
            ("blocking.side_rail", "\"6 in below the ceiling\""),
        ],
    );
    let higher = |params: &Params| {
        let mut layers = params.platform.layers.clone();
        layers.push(layers[0].clone());
        params.with("platform.layers", &Value::Layers(layers))
    };
    let after = higher(&follows).unwrap();
    let moved = |key: &str| inches(&after, key) - inches(&follows, key);
    // a 2x4 lying flat is 1-1/2 in: DOC PS 20, table of minimum dressed sizes, dry
    for key in ["skins.noncombustible_to", "mantel.underside", "recess.sill"] {
        assert_near(moved(key), 1.5, 1e-9);
    }
    for key in ["appliance.center", "blocking.side_rail"] {
        assert_near(moved(key), 0.0, 0.0);
    }
    let plain = demo("reading-room");
    let number = higher(&plain).unwrap().mantel.unwrap().underside;
    assert_eq!(number, plain.mantel.unwrap().underside);
    // a plain number ends it, and what it is followed by goes on
    let forty_five = Value::Length(Length::inches(45.0));
    let set = follows.with("mantel.underside", &forty_five).unwrap();
    assert_eq!(set.written("mantel.underside"), Some(forty_five));
    assert_near(set.recess.unwrap().sill.to_inches(), 50.75, 1e-9);
    // and what leaves out the table that something follows has nothing to follow
    assert!(follows.without_table("mantel").is_err());
    let left_out = follows.without("appliance.center").unwrap();
    assert_eq!(left_out.following("appliance.center"), None);
}

/// A key that may follow something itself, and moves a thing, is known to move it: else a chain of references would be
/// resolved in the wrong order. And what is said to move a thing moves it somewhere.
#[test]
fn what_moves_a_thing_is_known() {
    let mut moving: BTreeSet<(&str, &str)> = BTreeSet::new();
    let mut said: BTreeSet<(&str, &str)> = BTreeSet::new();
    for (name, params) in demos() {
        let plain = absolute(&params);
        for thing in Datum::ALL {
            let Some(place) = thing.place(&plain) else {
                continue;
            };
            let known = thing.moved_by(&plain);
            said.extend(known.iter().map(|key| (thing.name(), *key)));
            for it in PARAMETERS.iter().filter(|it| !it.needs_page) {
                let is_known = known.contains(&it.key);
                if it.follows.is_none() && !is_known {
                    continue;
                }
                let others: Vec<Value> = match plain.get(it.key) {
                    Some(Value::Length(now)) => [-0.25, 0.25, 3.0]
                        .map(|by| Value::Length(now + Length::inches(by)))
                        .into(),
                    Some(Value::Layers(mut layers)) => {
                        layers.push(layers[0].clone());
                        vec![Value::Layers(layers)]
                    }
                    Some(Value::Lumber(_)) => it.others(&plain),
                    _ => continue,
                };
                let after = others.iter().filter_map(|to| plain.with(it.key, to).ok());
                let moves = after
                    .filter_map(|it| thing.place(&it))
                    .any(|it| it != place);
                assert!(!moves || is_known, "{name}: {thing} by {}", it.key);
                if moves {
                    moving.insert((thing.name(), it.key));
                }
            }
        }
    }
    let never: Vec<_> = said.difference(&moving).collect();
    assert_eq!(never, [] as [&(&str, &str); 0]);
}

/// What a remedy changes of a key that follows is what was written: how far it is from what it follows.
#[test]
fn a_remedy_moves_what_was_written() {
    let params = changed(
        "reading-room",
        &[
            ("skins.noncombustible_to", "\"on the ledge\""),
            ("mantel.underside", "\"on the ledge\""),
            ("recess.sill", "\"2-1/4 in above the mantel\""),
            ("mantel.projection", "\"5 in\""),
            (
                "mantel.rule",
                "{ steps = [[\"2-1/2 in\", \"9 in\"], [\"5 in\", \"13-1/2 in\"]], page = \"18\" }",
            ),
        ],
    );
    let mut findings = check(&design(&params));
    try_remedies(&params, &mut findings);
    let found = findings.iter().find(|it| it.rule == "mantel rule").unwrap();
    let remedy = found.remedy.as_ref().expect("a remedy");
    let text = remedy_text(remedy, found, TapeUnit::Inch);
    assert!(
        text.contains("mantel.underside on the ledge \u{2192} 1/2\" above the ledge")
            || text.contains("mantel.underside on the ledge \u{2192} 3/4\" above the ledge")
            || text.contains("mantel.underside on the ledge \u{2192} 1\" above the ledge"),
        "{text}"
    );
    let changes: Vec<_> = remedy
        .changes
        .iter()
        .map(|it| (it.key, it.to.clone()))
        .collect();
    let after = params.with_all(&changes).unwrap();
    assert!(after.following("mantel.underside").is_some());
    // the recess has gone up with the mantel
    let up = |it: &Params| it.recess.as_ref().unwrap().sill - it.mantel.as_ref().unwrap().underside;
    assert_near(up(&after).to_mm(), up(&params).to_mm(), 1e-9);
    assert!(
        followed(&after)
            .iter()
            .any(|it| it.written.ends_with("above the ledge"))
    );
}

/// Where moving what was written does not help, what it follows is moved: here a shutoff that is written from the chase
/// stands in a stick, and the chase moves.
#[test]
fn a_remedy_moves_what_is_followed() {
    // the shutoff alone, so that the search is short
    let moved_by = |it: &Finding, key: &str| it.rule == "part in part" && it.levers.contains(&key);
    let of_shutoff = |place: u64| {
        let params = following(&absolute(&random_params(place)));
        let mut findings = check(&design(&params));
        findings
            .retain(|it| moved_by(it, "gas.shutoff_right") && !it.levers.contains(&"chase.left"));
        (params, findings)
    };
    let keys_of = |(params, mut findings): (Params, Vec<Finding>)| {
        try_remedies(&params, &mut findings);
        let remedies = findings.iter().flat_map(|it| &it.remedy);
        let changes = remedies.flat_map(|it| &it.changes);
        changes.map(|it| it.key).collect::<Vec<_>>()
    };
    let designs = (0..200).map(of_shutoff);
    let mut designs = designs.filter(|it| !it.1.is_empty());
    assert!(designs.any(|it| keys_of(it).contains(&"chase.left")));
}

/// The same design with all that can follow written from another thing.
fn following(plain: &Params) -> Params {
    let mut params = plain.clone();
    for (key, following, _) in rewritten(plain) {
        if params.following(key).is_none()
            && let Ok(it) = params.with(key, &Value::Following(following))
        {
            params = it;
        }
    }
    params
}

/// What may follow is a height or a place of the builder's, or where another trade puts something after him.
#[test]
fn what_may_follow() {
    let keys = PARAMETERS.iter().filter(|it| it.follows.is_some());
    let keys: Vec<&str> = keys.map(|it| it.key).collect();
    assert!(keys.contains(&"mantel.underside") && keys.contains(&"gas.shutoff_right"));
    for key in [
        "gas.stub_right",
        "gas.stub_up",
        "wall.first_stud",
        "mantel.thickness",
    ] {
        assert_eq!(parameter(key).unwrap().follows, None, "{key}");
    }
}
