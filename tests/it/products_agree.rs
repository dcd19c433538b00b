//! What two products say of one thing is the same, over all demos: names of parts, quantities, weights, prices, places and
//! verdicts, between the terminal, the CSV and JSON files, the packet, the drawings, STEP and glTF. Lengths of sticks and
//! holes are in `one_number`.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::LazyLock;

use chasewright::check::{check, try_remedies};
use chasewright::cli;
use chasewright::design::design;
use chasewright::export::Products;
use chasewright::takeoff::takeoff;
use chasewright::units::{Length, TapeUnit};
use serde_json::Value;

use crate::one_number::nodes;
use crate::packet::text_of;
use crate::support::{demos, file, run_with};
use crate::takeoff::records;

/// Millimetres that the marks of the tape may lie apart: one of an inch's sixteenths, rounded up or down.
const MARK: f64 = 1.6;
/// Digits behind the point in the CSV files.
const WRITTEN: f64 = 5.1e-4;

/// All products of a demo, read back.
struct Made {
    name: String,
    unit: TapeUnit,
    /// Ids of all parts and clearance volumes.
    ids: BTreeSet<String>,
    lists: BTreeMap<&'static str, List>,
    takeoff: Value,
    findings: Vec<Value>,
    /// Rows of the packet's tables, by caption.
    tables: BTreeMap<String, Vec<Vec<String>>>,
    packet: String,
    step: String,
    nodes: Vec<Value>,
    /// Every text on the drawings.
    drawn: BTreeSet<String>,
    taken: String,
    checked: String,
}

/// A CSV file.
struct List {
    head: Vec<String>,
    rows: Vec<Vec<String>>,
}

impl List {
    fn column<'a>(&self, row: &'a [String], title: &str) -> &'a str {
        let place = self.head.iter().position(|it| it == title);
        &row[place.unwrap_or_else(|| panic!("no column {title} in {:?}", self.head))]
    }

    /// The heading of a column, with the unit that stands in it.
    fn heading(&self, name: &str) -> &str {
        let with_unit = format!("{name} (");
        let mut head = self.head.iter();
        let found = head.find(|it| *it == name || it.starts_with(&with_unit));
        found.unwrap_or_else(|| panic!("no column {name}"))
    }

    /// The columns of each row.
    fn of<'a, const N: usize>(
        &'a self,
        titles: [&'a str; N],
    ) -> impl Iterator<Item = [&'a str; N]> + 'a {
        let rows = self.rows.iter();
        rows.map(move |row| titles.map(|it| self.column(row, it)))
    }
}

/// The CSV files of the takeoff that are compared.
const LISTS: [&str; 5] = [
    "cut-list.csv",
    "sheets.csv",
    "layout-marks.csv",
    "buy-list.csv",
    "weights.csv",
];

static MADE: LazyLock<Vec<Made>> = LazyLock::new(|| {
    let made = demos().into_iter().map(|(name, params)| {
        let design = design(&params);
        let mut findings = check(&design);
        try_remedies(&params, &mut findings);
        let products = Products {
            findings: findings.into(),
            takeoff: takeoff(&design).into(),
            ..Products::of(&design)
        };
        let text = |name| String::from_utf8(file(name, &products)).unwrap();
        let json = |name| serde_json::from_str::<Value>(&text(name)).unwrap();
        let packet = text("packet.html");
        let terminal = |command: &[&str]| {
            let path = format!("params/{name}.toml");
            run_with(&[command, &[&path]].concat(), &cli::WORK, false).out
        };
        let parts = design.parts.iter().map(|it| it.id.clone());
        let texts = products
            .sheets()
            .iter()
            .flat_map(chasewright::drawing::Sheet::texts);
        Made {
            unit: params.project.unit,
            ids: parts
                .chain(design.clearances.iter().map(|it| it.id.clone()))
                .collect(),
            lists: LISTS.map(|it| (it, list(&text(it)))).into(),
            takeoff: json("takeoff.json"),
            findings: json("findings.json")["findings"]
                .as_array()
                .unwrap()
                .clone(),
            tables: tables(&packet),
            packet: text_of(&packet),
            step: text("model.step"),
            nodes: nodes(&file("model.glb", &products)),
            drawn: texts.map(|it| it.text.clone()).collect(),
            taken: terminal(&["takeoff"]),
            checked: terminal(&["check", "--all"]),
            name,
        }
    });
    made.collect()
});

fn list(text: &str) -> List {
    let mut rows = records(text);
    let head = rows.remove(0);
    List { head, rows }
}

/// What stands between two words of a text, again and again.
fn between<'a>(text: &'a str, from: &'a str, to: &'a str) -> impl Iterator<Item = &'a str> {
    let parts = text.split(from).skip(1);
    parts.map(move |it| it.split(to).next().unwrap_or_default())
}

/// The tables of a page, by caption: a row is the texts of its cells.
fn tables(page: &str) -> BTreeMap<String, Vec<Vec<String>>> {
    let words = |html: &str| {
        let text = text_of(&format!("<{html}"));
        text.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let cells = |row: &str| {
        let row = row.replace("<th ", "<td ").replace("<th>", "<td>");
        let cells = between(&row, "<td", "</t").map(|it| words(&format!("td{it}")));
        cells.collect::<Vec<String>>()
    };
    let table = |html: &str| {
        let caption = between(html, "<caption", "</caption>").next()?;
        let rows = between(html, "<tr", "</tr>").skip(1).map(cells);
        Some((words(&format!("caption{caption}")), rows.collect()))
    };
    between(page, "<table", "</table>")
        .filter_map(table)
        .collect()
}

fn text<'a>(value: &'a Value, key: &str) -> &'a str {
    value[key]
        .as_str()
        .unwrap_or_else(|| panic!("{key} of {value}"))
}

fn number(value: &Value, key: &str) -> f64 {
    value[key]
        .as_f64()
        .unwrap_or_else(|| panic!("{key} of {value}"))
}

fn array<'a>(value: &'a Value, key: &str) -> &'a [Value] {
    value[key]
        .as_array()
        .unwrap_or_else(|| panic!("{key} of {value}"))
}

/// Names of the parts that are placed in the STEP file: ISO 10303-44 gives each occurrence a name.
fn occurrences(step: &str) -> Vec<String> {
    let found = between(step, "NEXT_ASSEMBLY_USAGE_OCCURRENCE('", ",#");
    let names = found.filter_map(|it| it.split("','").nth(1));
    let names = names.map(|it| it.trim_end_matches("',''").replace("''", "'"));
    names.filter(|it| it.contains('/')).collect()
}

/// A part has one name in every product, and nothing is named that is not there.
#[test]
fn a_part_has_one_name_everywhere() {
    for made in MADE.iter() {
        let name = &made.name;
        let placed = occurrences(&made.step);
        let in_step: BTreeSet<String> = placed.iter().cloned().collect();
        assert_eq!(
            in_step.len(),
            placed.len(),
            "{name}: one name twice in the STEP file"
        );
        let shown = made.nodes.iter().filter(|it| it.get("mesh").is_some());
        let shown: BTreeSet<String> = shown.map(|it| text(it, "name").to_owned()).collect();
        assert_eq!(in_step, shown, "{name}: STEP and glTF");
        assert_eq!(shown, made.ids, "{name}: glTF and the design");
        let mut named: Vec<(&str, String)> = Vec::new();
        let mut add = |place, id: &str| named.push((place, id.to_owned()));
        for [places] in made.lists["cut-list.csv"].of(["where"]) {
            places.split("; ").for_each(|it| add("cut list", it));
        }
        for [part] in made.lists["sheets.csv"].of(["part"]) {
            add("sheets", part);
        }
        for [what] in made.lists["weights.csv"].of(["what"]) {
            if what.contains('/') && !what.contains('"') {
                add("weights", what);
            }
        }
        for [on, what] in made.lists["layout-marks.csv"].of(["on", "what"]) {
            let ids = [on, what].into_iter().filter(|it| it.contains('/'));
            ids.for_each(|it| add("layout marks", it));
        }
        for finding in &made.findings {
            let parts = array(finding, "parts").iter();
            parts.for_each(|it| add("findings", it.as_str().unwrap()));
        }
        let lost: Vec<_> = named
            .iter()
            .filter(|it| !made.ids.contains(&it.1))
            .collect();
        assert!(lost.is_empty(), "{name}: {lost:?}");
        assert!(named.len() > 50, "{name}: {} names", named.len());
    }
}

/// As many sticks as the lists count bear their mark in the model, and each is on the list.
#[test]
fn a_mark_has_one_quantity_everywhere() {
    for made in MADE.iter() {
        let name = &made.name;
        let mut in_model: BTreeMap<&str, usize> = BTreeMap::new();
        for node in &made.nodes {
            if let Some(mark) = node["extras"]["mark"].as_str() {
                *in_model.entry(mark).or_default() += 1;
            }
        }
        let cuts = &made.lists["cut-list.csv"];
        let packet: BTreeMap<&str, &Vec<String>> = made.tables["Sticks, by wall and from the left"]
            .iter()
            .map(|row| (row[1].as_str(), row))
            .collect();
        assert_eq!(
            packet.len(),
            cuts.rows.len(),
            "{name}: rows of the packet's cut list"
        );
        for [mark, quantity, places, stock] in cuts.of(["mark", "quantity", "where", "stock"]) {
            let count: usize = quantity.parse().unwrap();
            assert_eq!(
                places.split("; ").count(),
                count,
                "{name}: {mark} on the cut list"
            );
            assert_eq!(
                in_model.get(mark),
                Some(&count),
                "{name}: {mark} in the model"
            );
            assert_eq!(
                packet[mark][2..4],
                [quantity, stock],
                "{name}: {mark} in the packet"
            );
        }
        for cut in array(&made.takeoff, "cut_list") {
            let parts = array(cut, "parts").len();
            let row = cuts
                .of(["mark", "quantity"])
                .find(|it| it[0] == text(cut, "mark"));
            assert_eq!(
                row.map(|it| it[1].parse()),
                Some(Ok(parts)),
                "{name}: {cut}"
            );
        }
        assert_eq!(
            in_model.len(),
            cuts.rows.len(),
            "{name}: marks in the model"
        );
    }
}

/// A weight as it is written, in kilograms: the pound is 0.45359237 kg (NIST).
fn kilograms(text: &str) -> Option<f64> {
    let (number, unit) = text.split_once(' ')?;
    let one = match unit {
        "lb" => 0.453_592_37,
        "kg" => 1.0,
        _ => return None,
    };
    number.parse::<f64>().ok().map(|it| it * one)
}

/// A weight is the same in pounds, in kilograms and in every list, and the walls weigh what their parts do.
#[test]
fn a_weight_is_one_weight() {
    for made in MADE.iter() {
        let name = &made.name;
        let weights = &made.lists["weights.csv"];
        let mut in_kilograms: BTreeMap<&str, f64> = BTreeMap::new();
        let heading = weights.heading("weight");
        let unit = heading.trim_start_matches("weight (").trim_end_matches(')');
        for [what, shown, kilos] in weights.of(["what", heading, "kilograms"]) {
            let Some(shown) = kilograms(&format!("{shown} {unit}")) else {
                continue;
            };
            let exact: f64 = kilos.parse().unwrap();
            // a tenth of a pound or of a kilogram is shown
            assert!(
                (shown - exact).abs() < 0.051,
                "{name}: {what} {shown} {exact}"
            );
            in_kilograms.insert(what, exact);
        }
        for row in array(&made.takeoff, "weights") {
            let Some(exact) = row["kilograms"].as_f64() else {
                continue;
            };
            let listed = in_kilograms[text(row, "what")];
            assert!(
                (exact - listed).abs() < WRITTEN,
                "{name}: {row} and {listed}"
            );
        }
        let told = made.taken.split("\nWeights\n").nth(1).unwrap();
        let rows = weights.of(["what", heading]);
        let rows = rows.map(|[what, shown]| (what, format!("{shown} {unit}")));
        for (what, shown) in rows.filter(|it| !it.0.contains('/') && kilograms(&it.1).is_some()) {
            let line = told.lines().find(|it| it.starts_with(&format!(" {what} ")));
            assert!(
                line.is_some_and(|it| it.contains(&shown)),
                "{name}: {what} {shown}"
            );
        }
    }
}

/// What is bought has one name, number, price and cost in every list, and the sum is that of its lines.
#[test]
fn a_price_is_one_price() {
    for made in MADE.iter() {
        let name = &made.name;
        let list = &made.lists["buy-list.csv"];
        let currency = text(&made.takeoff, "currency");
        let (in_price, in_cost) = (list.heading("price"), list.heading("cost"));
        let titles = ["section", "item", "count", "spare", in_price, in_cost];
        let amount = |it: &str| match it {
            "" => String::new(),
            number => format!("{currency}{number}"),
        };
        let bought = list.of(titles).filter(|it| it[0] != "finish");
        let bought = bought.map(|it| it.map(str::to_owned));
        let bought: Vec<_> = bought
            .map(|[section, item, count, spare, price, cost]| {
                [section, item, count, spare, amount(&price), amount(&cost)]
            })
            .collect();
        let json = array(&made.takeoff, "buy");
        assert_eq!(bought.len(), json.len(), "{name}");
        let packet = &made.tables["What to buy"];
        let (mut cents, mut priced) = (0, 0);
        for ([section, item, count, spare, price, cost], row) in bought.iter().zip(json) {
            let of_json = |key: &str| row[key].as_str().unwrap_or_default().to_owned();
            let money = |key: &str| match row[key].as_f64() {
                Some(it) => format!("{currency}{it:.2}"),
                None => String::new(),
            };
            let counted = |key: &str| row[key].as_u64().map(|it| it.to_string());
            let same = [
                of_json("section"),
                of_json("item"),
                money("price"),
                money("cost"),
            ];
            let listed = [section, item, price, cost];
            assert_eq!(same.each_ref(), listed, "{name}: {row}");
            assert_eq!(counted("count").as_ref(), Some(count), "{name}: {row}");
            assert_eq!(counted("spare").as_ref(), Some(spare), "{name}: {row}");
            let shown = packet.iter().find(|it| it.iter().any(|it| it == item));
            let shown = shown.unwrap_or_else(|| panic!("{name}: {item} in the packet"));
            let all = [count, price, cost];
            assert!(
                all.iter()
                    .all(|it| it.is_empty() || shown.iter().any(|cell| cell == *it)),
                "{name}: {all:?} in {shown:?}"
            );
            if !cost.is_empty() {
                let whole: u64 = count.parse::<u64>().unwrap() + spare.parse::<u64>().unwrap();
                let in_cents = |it: &str| {
                    it[currency.len()..]
                        .replace('.', "")
                        .parse::<u64>()
                        .unwrap()
                };
                assert_eq!(in_cents(price) * whole, in_cents(cost), "{name}: {item}");
                (cents, priced) = (cents + in_cents(cost), priced + 1);
                assert!(made.taken.contains(cost), "{name}: {item} on the terminal");
            }
        }
        let cost = made.takeoff["cost"].as_f64().expect("a number");
        assert_eq!(format!("{:.0}", cost * 100.0), cents.to_string(), "{name}");
        let sum = format!("{}.{:02}", cents / 100, cents % 100);
        if priced > 0 {
            let told = format!("{currency}{sum} for {priced} of {} lines", json.len());
            assert!(made.taken.contains(&told), "{name}: {told}");
            assert!(made.packet.contains(&told), "{name}: {told} in the packet");
        }
    }
}

/// A sheet has one name in the buy list, in the list of its pieces and on the terminal, and its pieces one mark.
#[test]
fn a_sheet_has_one_name_everywhere() {
    for made in MADE.iter() {
        let name = &made.name;
        let list = &made.lists["sheets.csv"];
        let bought = made.lists["buy-list.csv"].of(["section", "item"]);
        let bought: BTreeSet<&str> = bought
            .filter(|it| it[0] == "sheets")
            .map(|it| it[1])
            .collect();
        let cut: BTreeSet<&str> = list.of(["sheet"]).map(|it| it[0]).collect();
        assert!(cut.is_subset(&bought), "{name}: {cut:?} of {bought:?}");
        for sheet in &cut {
            assert!(
                made.taken.contains(&format!("Sheets: {sheet}\n")),
                "{name}: {sheet}"
            );
        }
        let pieces = array(&made.takeoff, "sheets").iter();
        let pieces = pieces.flat_map(|it| array(it, "pieces"));
        let pieces: BTreeMap<&str, &str> = pieces
            .map(|it| (text(it, "mark"), text(it, "part")))
            .collect();
        let listed: BTreeMap<&str, &str> =
            list.of(["mark", "part"]).map(|it| (it[0], it[1])).collect();
        assert_eq!(pieces, listed, "{name}");
        for [mark, part, width, height] in list.of(["mark", "part", "width", "height"]) {
            let told = format!("{mark} {width} x {height} {part}");
            assert!(made.taken.contains(&told), "{name}: {told}");
            let drawn = made
                .drawn
                .iter()
                .any(|it| it.split_whitespace().next() == Some(mark));
            assert!(drawn, "{name}: {mark} on the drawings");
        }
    }
}

/// A mark on a plate lies where the JSON says, and where its tape text does.
#[test]
fn a_place_on_a_plate_is_one_place() {
    for made in MADE.iter() {
        let name = &made.name;
        let list = &made.lists["layout-marks.csv"];
        let titles = ["on", "what", "mark at", "mark at mm"];
        let marks: Vec<[&str; 4]> = list.of(titles).collect();
        let mut found = 0;
        for plate in array(&made.takeoff["layout"], "plates") {
            for mark in array(plate, "marks") {
                let (on, part) = (text(plate, "plate"), text(mark, "part"));
                let row = marks.iter().find(|it| it[0] == on && it[1] == part);
                let row = row.unwrap_or_else(|| panic!("{name}: {part} on {on}"));
                let [exact, listed] = [number(mark, "edge_mm"), row[3].parse().unwrap()];
                assert!(
                    (exact - listed).abs() < WRITTEN,
                    "{name}: {row:?} and {exact}"
                );
                let told = Length::parse(row[2], made.unit).unwrap().to_mm();
                assert!((told - exact).abs() < MARK, "{name}: {row:?} and {exact}");
                found += 1;
            }
        }
        assert!(found > 5, "{name}: {found} marks");
    }
}

/// Text with one space where there were several, or a line's end.
fn squeezed(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The findings on the terminal: the verdict, the margin where there is one, and the words, lines joined.
fn told(checked: &str) -> Vec<([String; 2], String)> {
    let verdicts = ["FAIL", "TIGHT", "ASK", "DECIDED", "PASS", "FLUSH"];
    let mut found: Vec<([String; 2], String)> = Vec::new();
    for line in checked.lines() {
        let first = line.split_whitespace().next().unwrap_or_default();
        if verdicts.contains(&first) && line.starts_with(first) {
            let margin: String = line.chars().skip(8).take(13).collect();
            let cells = [first, margin.trim()].map(str::to_owned);
            let words: String = line.chars().skip(22).collect();
            found.push((cells, squeezed(&words)));
        } else if line.starts_with("        ") {
            if let Some((_, words)) = found.last_mut() {
                *words = format!("{words} {}", line.trim());
            }
        } else if !line.is_empty() && !found.is_empty() {
            break;
        }
    }
    found
}

/// A finding has one verdict, one set of numbers and one place on the terminal, in JSON and in the packet.
#[test]
fn a_finding_is_one_finding() {
    for made in MADE.iter() {
        let name = &made.name;
        let told = told(&made.checked);
        assert_eq!(
            told.len(),
            made.findings.len(),
            "{name}: findings on the terminal"
        );
        let packet = squeezed(&made.packet);
        for ((cells, words), finding) in told.iter().zip(&made.findings) {
            let of = |key: &str| finding[key].as_str().unwrap_or_default();
            assert_eq!(
                cells,
                &["verdict", "margin_text"].map(of),
                "{name}: {finding}"
            );
            for key in ["measured_text", "required_text"] {
                assert!(words.contains(of(key)), "{name}: {finding} in {words}");
            }
            let title = format!("{}: {}", text(finding, "rule"), text(finding, "about"));
            assert!(words.contains(&title), "{name}: {title} in {words}");
            assert!(packet.contains(&title), "{name}: {title} in the packet");
            if let Some(place) = finding["location_mm"].as_array() {
                let text = place_of(words);
                let at = text.map(|it| it.map(|it| Length::parse(it, made.unit).unwrap().to_mm()));
                let at = at.unwrap_or_else(|| panic!("{name}: no place in {words}"));
                let up = place[2].as_f64().unwrap();
                assert!((at[2] - up).abs() < MARK, "{name}: {words} and {place:?}");
                let shown = format!(
                    "at {} right, {} out, {} up",
                    text.unwrap()[0],
                    text.unwrap()[1],
                    text.unwrap()[2]
                );
                assert!(packet.contains(&shown), "{name}: {shown} in the packet");
            }
        }
    }
}

/// `at 92" right, 0" out, 57" up`, in its three lengths.
fn place_of(words: &str) -> Option<[&str; 3]> {
    words.split(" at ").find_map(|it| {
        let (right, rest) = it.split_once(" right, ")?;
        let (out, rest) = rest.split_once(" out, ")?;
        Some([right, out, rest.split_once(" up")?.0])
    })
}
