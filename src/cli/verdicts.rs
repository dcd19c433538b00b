//! The findings as text for a terminal: what needs attention, by cause and worst first; the counts come last.

use super::look::{Look, wrapped};
use crate::check::{Assumption, Finding, Verdict, causes};
use crate::design::Design;
use crate::export::{
    Texts, count, counts_text, decision_text, followed, follower_text, note_text, place_text,
    remedy_text, turns_text, waiting_text,
};
use crate::units::TapeUnit;

/// What every output says before its counts.
const CAUTION: &str = "This is a planning aid. The unit's own manual, the local code and licensed trades decide. Gas work is done and tested by a licensed fitter.";
/// Columns of the longest verdict.
const VERDICT: usize = 7;
/// Columns of the margin.
const MARGIN: usize = 13;

/// Findings by cause, then the notes, what was taken for granted, and what is not shown.
pub(super) fn text(
    design: &Design,
    findings: &[Finding],
    assumptions: &[Assumption],
    look: Look,
) -> String {
    let unit = design.params.project.unit;
    let mut text = format!("{}\n", design.params.project.name);
    let mut last = None;
    for (finding, below) in causes(findings).filter(|it| look.all || needs_a_hand(it.0.verdict)) {
        if last != Some(finding.verdict) {
            text.push('\n');
        }
        last = Some(finding.verdict);
        text.push_str(&shown(finding, below, unit, look));
    }
    text.push('\n');
    let width = look.columns();
    for note in &design.notes {
        let note = format!("note: {}", note_text(note, unit));
        text.push_str(&wrapped(&note, width, ["", "  "]));
    }
    for it in followed(&design.params) {
        let line = format!("follows: {} = {}: {}", it.key, it.written, it.comes_to);
        text.push_str(&wrapped(&line, width, ["", "  "]));
    }
    for it in assumptions {
        let (value, turns) = (it.value.text(unit), turns_text(it, unit));
        let line = format!("assumed: {} = {value}, left out; {turns}", it.key);
        text.push_str(&wrapped(&line, width, ["", "  "]));
    }
    if !look.all {
        text.push_str(&not_shown(findings, width));
    }
    text.push_str(&wrapped(CAUTION, width, ["", ""]));
    text
}

/// The counts, as they stand last of all.
pub(super) fn counts(findings: &[Finding], look: Look) -> String {
    wrapped(&counts_text(findings), look.columns(), ["", "  "])
}

/// Whether somebody has to do something about it.
const fn needs_a_hand(verdict: Verdict) -> bool {
    match verdict {
        Verdict::Fail | Verdict::Tight | Verdict::Ask => true,
        Verdict::Decided | Verdict::Pass | Verdict::Flush => false,
    }
}

/// How many findings are not listed, and how they are.
fn not_shown(findings: &[Finding], width: usize) -> String {
    let rest = Verdict::ALL.into_iter().filter(|it| !needs_a_hand(*it));
    let rest = rest.map(|it| (count(findings, it), it.word()));
    let rest: Vec<String> = rest
        .filter(|it| it.0 > 0)
        .map(|(count, word)| format!("{count} {word}"))
        .collect();
    if rest.is_empty() {
        return String::new();
    }
    let line = format!("Not listed: {}. `check --all` lists them.", rest.join(", "));
    wrapped(&line, width, ["", ""])
}

/// One cause: its verdict, its margin and what it is about on a line, what is known of it below.
fn shown(finding: &Finding, below: &[Finding], unit: TapeUnit, look: Look) -> String {
    let texts = finding.numbers.map(|it| Texts::new(&it, unit));
    let margin = texts.as_ref().map_or("", |it| it.margin.as_str());
    let indent = " ".repeat(VERDICT + 1);
    let hanging = " ".repeat(VERDICT + 1 + MARGIN + 1);
    let word = finding.verdict.word();
    let head = format!("{word:<VERDICT$} {margin:>MARGIN$} ");
    let width = look.columns();
    let mut text = wrapped(&finding.heading(), width, [&head, &hanging]);
    // colored only now, since colors take no columns
    text = text.replacen(word, &look.verdict(finding.verdict), 1);
    for line in lines(finding, texts.as_ref(), below, unit) {
        text.push_str(&wrapped(&line, width, [&indent, &indent]));
    }
    text
}

/// What is measured and asked, where, on whose word, what moves it, and what follows from it.
fn lines(
    finding: &Finding,
    texts: Option<&Texts>,
    below: &[Finding],
    unit: TapeUnit,
) -> Vec<String> {
    let mut facts: Vec<String> = Vec::new();
    if let (Some(texts), Some(numbers)) = (texts, finding.numbers) {
        let sense = numbers.sense.words();
        facts.push(format!("{}, {sense} {}", texts.measured, texts.required));
    }
    if let Some(place) = finding.location {
        facts.push(format!("at {}", place_text(place, unit)));
    }
    let unnamed = finding.parts.iter().map(String::as_str);
    let unnamed: Vec<&str> = unnamed.filter(|it| !finding.subject.names(it)).collect();
    if !unnamed.is_empty() {
        facts.push(unnamed.join(", "));
    }
    facts.push(finding.source.clone());
    // who is asked reads the question first
    let mut lines: Vec<String> = finding.question.clone().into_iter().collect();
    lines.push(facts.join("; "));
    lines.extend(finding.detail.clone());
    lines.extend(finding.decision.as_ref().map(decision_text));
    lines.extend(waiting_text(finding));
    if let Some(remedy) = &finding.remedy {
        lines.push(remedy_text(remedy, finding, unit));
    } else if !finding.levers.is_empty() && finding.verdict <= Verdict::Ask {
        lines.push(format!("move {}", finding.levers.join(", ")));
    }
    let follows = below.iter().map(|it| follower_text(it, unit));
    let follows: Vec<String> = follows.collect();
    if !follows.is_empty() {
        lines.push(format!("same cause: {}", follows.join("; ")));
    }
    lines
}
