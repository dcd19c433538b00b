//! Tables that fit a terminal of 100 columns, and the findings as one.

use std::fmt::Write as _;

use comfy_table::{ContentArrangement, Table, presets};

use crate::check::{Assumption, Finding, Verdict, causes};
use crate::design::Design;
use crate::export::{
    Texts, counts_text, decision_text, followed, follower_text, note_text, place_text, remedy_text,
    turns_text, waiting_text,
};
use crate::units::TapeUnit;

/// Columns of the terminal that the table is made for.
pub(super) const WIDTH: u16 = 100;

/// What every output says last.
const CAUTION: &str = "\
This is a planning aid. The unit's own manual, the local code and licensed trades decide.
Gas work is done and tested by a licensed fitter.
";

/// A table without rows that fits the width.
pub(super) fn table(headings: &[&str]) -> Table {
    let mut table = Table::new();
    table
        .load_style(presets::UTF8_HORIZONTAL_ONLY)
        .set_content_arrangement(ContentArrangement::Dynamic)
        .set_width(WIDTH)
        .set_header(headings.iter().copied());
    table
}

/// All findings by cause, worst first, then the notes, what follows another thing, what was taken for granted, the counts and the open questions.
pub(super) fn findings(
    design: &Design,
    findings: &[Finding],
    assumptions: &[Assumption],
) -> String {
    let unit = design.params.project.unit;
    let mut table = table(&["", "measured", "required", "margin", "check"]);
    for (finding, below) in causes(findings) {
        let texts = finding.numbers.map(|it| Texts::new(&it, unit));
        let [measured, required, margin] =
            texts.map_or_else(Default::default, |it| [it.measured, it.required, it.margin]);
        let verdict = finding.verdict.word().to_owned();
        table.add_row([
            verdict,
            measured,
            required,
            margin,
            what(finding, below, unit),
        ]);
    }
    let mut text = format!("{}\n", design.params.project.name);
    for line in table.to_string().lines() {
        let _ = writeln!(text, "{}", line.trim_end());
    }
    for note in &design.notes {
        let _ = writeln!(text, "note: {}", note_text(note, unit));
    }
    for it in followed(&design.params) {
        let _ = writeln!(
            text,
            "follows: {} = {}: {}",
            it.key, it.written, it.comes_to
        );
    }
    text.push_str(&taken_for_granted(assumptions, unit));
    let _ = writeln!(text, "{}", counts_text(findings));
    text.push_str(CAUTION);
    text
}

/// The defaults on which verdicts rest, worst first.
fn taken_for_granted(assumptions: &[Assumption], unit: TapeUnit) -> String {
    let mut text = String::new();
    for it in assumptions {
        let (value, turns) = (it.value.text(unit), turns_text(it, unit));
        let _ = writeln!(text, "assumed: {} = {value}, left out; {turns}", it.key);
    }
    text
}

/// What a finding is about, where, on whose word, and what moves it.
fn what(finding: &Finding, below: &[Finding], unit: TapeUnit) -> String {
    let mut text = finding.heading();
    let unnamed: Vec<&str> = finding
        .parts
        .iter()
        .map(String::as_str)
        .filter(|part| !finding.subject.names(part))
        .collect();
    let place = finding
        .location
        .map(|it| format!("at {}", place_text(it, unit)));
    let mut facts: Vec<String> = place.into_iter().collect();
    if !unnamed.is_empty() {
        facts.push(unnamed.join(", "));
    }
    facts.push(finding.source.clone());
    let _ = write!(text, "\n{}", facts.join("; "));
    for more in [&finding.detail, &finding.question].into_iter().flatten() {
        let _ = write!(text, "\n{more}");
    }
    if let Some(decision) = &finding.decision {
        let _ = write!(text, "\n{}", decision_text(decision));
    }
    if let Some(waiting) = waiting_text(finding) {
        let _ = write!(text, "\n{waiting}");
    }
    if let Some(remedy) = &finding.remedy {
        let _ = write!(text, "\n{}", remedy_text(remedy, finding, unit));
    } else if !finding.levers.is_empty() && finding.verdict <= Verdict::Ask {
        let _ = write!(text, "\nmove {}", finding.levers.join(", "));
    }
    for it in below {
        let _ = write!(text, "\nfrom it follows: {}", follower_text(it, unit));
    }
    text
}
