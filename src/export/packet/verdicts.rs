//! Findings in, verdicts out: worst first, each with its numbers, its source, what was tried, and its place.

use super::html::Html;
use super::places;
use super::table::{Cell, Place, Table};
use super::{Packet, section};
use crate::check::{Finding, Verdict, causes, not_judged};
use crate::export::{
    ExportError, Followed, Texts, count, decision_text, followed, follower_text, note_text,
    place_text, remedy_text, turns_text, waiting_text, why_text,
};
use crate::units::TapeUnit;

/// Writes the verdicts; what needs somebody to do something stands out, the rest is a table.
pub(super) fn write(html: &mut Html, packet: Packet<'_>) -> Result<(), ExportError> {
    let findings = packet.products.findings();
    let unit = packet.unit();
    let open = findings.iter().take_while(|it| is_open(it)).count();
    let figure = places::Figure::new(packet, &findings[..open])?;
    section(html, "verdicts", "Verdicts, worst first", |html| {
        counts(html, findings);
        let allowance = packet.products.design.params.project.build_allowance;
        let allowance = allowance.tape(unit, crate::units::Rounding::Nearest);
        html.leaf(
            "p",
            &[],
            &format!(
                "TIGHT: less is left than the build allowance of {allowance}; measure on site before covering. Each number is rounded to a tape mark on the safe side: margins down, measured values down where a least is required and up where a most is, required values the other way."
            ),
        );
        html.element("ol", &[("class", "cards")], |html| {
            let mut number = 1;
            for (finding, below) in causes(&findings[..open]) {
                card(html, number, (finding, below), unit);
                number += 1 + below.len();
            }
        });
        figure.write(html);
        rest(html, &findings[open..], open, unit);
        notes(html, packet);
    });
    Ok(())
}

/// Whether somebody has to do something about it.
fn is_open(finding: &Finding) -> bool {
    finding.verdict <= Verdict::Ask
}

/// How many findings have each verdict.
pub(super) fn counts(html: &mut Html, findings: &[Finding]) {
    html.element("ul", &[("class", "counts")], |html| {
        for verdict in Verdict::ALL {
            let count = count(findings, verdict);
            let class = format!("verdict {}", verdict.word().to_lowercase());
            let class = if count == 0 { "verdict none" } else { &class };
            let text = format!("{count} {}", verdict.word());
            html.leaf("li", &[("class", class)], &text);
        }
        let waiting = not_judged(findings);
        let class = if waiting == 0 {
            "verdict none"
        } else {
            "verdict ask"
        };
        html.leaf("li", &[("class", class)], &format!("{waiting} not judged"));
    });
}

fn card(html: &mut Html, number: usize, (finding, below): (&Finding, &[Finding]), unit: TapeUnit) {
    let verdict = finding.verdict.word();
    let class = format!("card {}", verdict.to_lowercase());
    let id = format!("finding-{number}");
    html.line();
    let attributes = [("class", class.as_str()), ("id", id.as_str())];
    html.element("li", &attributes, |html| {
        html.element("h3", &[], |html| {
            let class = format!("verdict {}", verdict.to_lowercase());
            html.leaf("span", &[("class", "count")], &number.to_string());
            html.text(" ");
            html.leaf("span", &[("class", class.as_str())], verdict);
            html.text(" ");
            html.leaf("span", &[], &finding.heading());
        });
        numbers(html, finding, unit);
        for line in lines(finding, unit) {
            html.leaf("p", &[], &line);
        }
        place(number, finding).write(html);
        follows(html, number + 1, below, unit);
    });
}

/// What follows from a cause, a line each with its own number and place.
fn follows(html: &mut Html, first: usize, below: &[Finding], unit: TapeUnit) {
    if below.is_empty() {
        return;
    }
    html.leaf("p", &[], "Same cause:");
    html.element("ul", &[], |html| {
        for (number, finding) in (first..).zip(below) {
            let id = format!("finding-{number}");
            html.element("li", &[("id", id.as_str())], |html| {
                let text = format!("{number} {}", follower_text(finding, unit));
                html.leaf("span", &[], &text);
                html.text(" ");
                place(number, finding).write(html);
            });
        }
    });
}

fn numbers(html: &mut Html, finding: &Finding, unit: TapeUnit) {
    let Some(numbers) = finding.numbers else {
        return;
    };
    let texts = Texts::new(&numbers, unit);
    html.element("dl", &[("class", "numbers")], |html| {
        for (name, text) in [
            ("measured", &texts.measured),
            ("required", &texts.required),
            ("margin", &texts.margin),
        ] {
            html.element("div", &[], |html| {
                html.leaf("dt", &[], name);
                html.leaf("dd", &[], text);
            });
        }
    });
}

/// What else is to be said of a finding, a paragraph each.
fn lines(finding: &Finding, unit: TapeUnit) -> Vec<String> {
    let mut lines = Vec::new();
    lines.extend(finding.question.clone());
    lines.extend(finding.decision.as_ref().map(decision_text));
    lines.extend(waiting_text(finding));
    lines.extend(finding.detail.clone());
    if let Some(remedy) = &finding.remedy {
        lines.push(remedy_text(remedy, finding, unit));
    } else if !finding.levers.is_empty() && is_open(finding) {
        lines.push(format!("move {}", finding.levers.join(", ")));
    }
    let place = finding.location.map(|it| place_text(it, unit));
    let place = place.map_or_else(String::new, |it| format!("at {it}; "));
    lines.push(format!("{place}{}", finding.source));
    lines
}

fn place(number: usize, finding: &Finding) -> Place {
    Place {
        what: format!("{number}, {}", finding.heading()),
        location: finding.location.map(|it| it.to_array()),
        parts: finding.parts.clone(),
    }
}

/// What is as it should be, in one table.
fn rest(html: &mut Html, findings: &[Finding], before: usize, unit: TapeUnit) {
    if findings.is_empty() {
        return;
    }
    let rows = findings
        .iter()
        .enumerate()
        .map(|(place, finding)| row(before + place + 1, finding, unit));
    let table = Table {
        caption: "DECIDED, PASS and FLUSH",
        heads: &[
            "no.", "verdict", "check", "measured", "required", "margin", "place",
        ],
        rows: rows.collect(),
    };
    html.element("details", &[], |html| {
        let text = format!("The other {}: DECIDED, PASS and FLUSH", findings.len());
        html.leaf("summary", &[], &text);
        table.write(html);
    });
}

fn row(number: usize, finding: &Finding, unit: TapeUnit) -> Vec<Cell> {
    let texts = finding.numbers.map(|it| Texts::new(&it, unit));
    let [measured, required, margin] =
        texts.map_or_else(Default::default, |it| [it.measured, it.required, it.margin]);
    let mut check = vec![finding.heading()];
    check.extend(lines(finding, unit));
    vec![
        Cell::Number(number.to_string()),
        Cell::Text(finding.verdict.word().to_owned()),
        Cell::Lines(check),
        Cell::Number(measured),
        Cell::Number(required),
        Cell::Number(margin),
        Cell::Place(place(number, finding)),
    ]
}

fn notes(html: &mut Html, packet: Packet<'_>) {
    let notes = &packet.products.design.notes;
    if notes.is_empty() {
        return;
    }
    html.leaf("h3", &[], "Built differently than asked");
    html.element("ul", &[], |html| {
        for note in notes {
            html.leaf("li", &[], &note_text(note, packet.unit()));
        }
    });
}

/// Writes the questions that only somebody else can answer.
pub(super) fn questions(html: &mut Html, packet: Packet<'_>) {
    let findings = packet.products.findings().iter().enumerate();
    let asked = findings.filter_map(|(place, it)| {
        (it.verdict == Verdict::Ask).then_some((place + 1, it, it.question.as_ref()?))
    });
    let rows = asked.map(|(number, finding, question)| {
        vec![
            Cell::Number(number.to_string()),
            Cell::Lines(vec![
                question.clone(),
                finding.heading(),
                finding.source.clone(),
            ]),
            Cell::Blank(format!("answer to {number}, and who gave it")),
        ]
    });
    let rows: Vec<_> = rows.collect();
    section(html, "questions", "Questions still open", |html| {
        if rows.is_empty() {
            html.leaf("p", &[], "No check has an open question.");
        } else {
            let about = "Only the manual, the inspector or a trade can answer these.";
            html.leaf("p", &[], about);
        }
        Table {
            caption: "Questions still open",
            heads: &["no.", "question", "answer, and who gave it"],
            rows,
        }
        .write(html);
        decided(html, packet);
    });
}

/// Writes what somebody decided.
fn decided(html: &mut Html, packet: Packet<'_>) {
    let findings = packet.products.findings().iter();
    let rows = findings.filter_map(|it| {
        let decision = it.decision.as_ref()?;
        Some(vec![
            Cell::Lines(vec![
                it.question.clone().unwrap_or_default(),
                format!("{}: {}", it.rule, it.subject),
            ]),
            Cell::Text(decision.who.clone()),
            Cell::Text(decision.date.clone()),
            Cell::Text(decision.what.clone().unwrap_or_default()),
        ])
    });
    let rows: Vec<_> = rows.collect();
    if rows.is_empty() {
        return;
    }
    html.leaf("h3", &[], "Decided");
    Table {
        caption: "Questions that were decided",
        heads: &["question", "who", "when", "what"],
        rows,
    }
    .write(html);
}

/// Writes the defaults on which verdicts rest, each with a blank to confirm it.
pub(super) fn assumptions(html: &mut Html, packet: Packet<'_>) {
    let unit = packet.unit();
    let rows = packet.products.assumptions().iter().map(|it| {
        vec![
            Cell::Text(format!("{} = {}", it.key, it.value.text(unit))),
            Cell::Lines(vec![why_text(it), turns_text(it, unit)]),
            Cell::Blank(format!("{} confirmed by", it.key)),
        ]
    });
    let rows: Vec<_> = rows.collect();
    section(html, "assumptions", "Assumed defaults", |html| {
        let about = if rows.is_empty() {
            "No verdict depends on a default."
        } else {
            "Defaults that nobody entered, and the verdicts that would change if they were off by the build allowance or chosen otherwise. Worst first."
        };
        html.leaf("p", &[], about);
        Table {
            caption: "Assumed defaults",
            heads: &["key", "why, and what depends on it", "confirmed"],
            rows,
        }
        .write(html);
        following(html, packet);
    });
}

/// Writes what is written from another thing, where something is: what it comes to stands beside it.
fn following(html: &mut Html, packet: Packet<'_>) {
    let all = followed(&packet.products.design.params);
    if all.is_empty() {
        return;
    }
    let row = |it: Followed| {
        let cells = [it.key.to_owned(), it.written, it.comes_to];
        cells.map(Cell::Text).into()
    };
    html.leaf("h3", &[], "Written from another thing");
    Table {
        caption: "Heights and places that follow another thing",
        heads: &["key", "in the file", "comes to"],
        rows: all.into_iter().map(row).collect(),
    }
    .write(html);
}
