//! The findings as a table that fits a terminal of 100 columns.

use std::fmt::Write as _;

use comfy_table::{ContentArrangement, Table, presets};
use glam::DVec3;

use crate::check::{Finding, Verdict};
use crate::design::Design;
use crate::export::{Texts, note_text};
use crate::units::{Length, Rounding, TapeUnit};

/// Columns of the terminal that the table is made for.
const WIDTH: u16 = 100;

/// What every output says last.
const CAUTION: &str = "\
This is a planning aid. The unit's own manual, the local code and licensed trades decide.
Gas work is done and tested by a licensed fitter.
";

/// All findings, worst first, then the notes, the counts and the open questions.
pub(super) fn findings(design: &Design, findings: &[Finding]) -> String {
    let unit = design.params.project.unit;
    let mut table = Table::new();
    table
        .load_style(presets::UTF8_HORIZONTAL_ONLY)
        .set_content_arrangement(ContentArrangement::Dynamic)
        .set_width(WIDTH)
        .set_header([
            "",
            "check",
            "measured",
            "required",
            "margin",
            "where, source, what to move",
        ]);
    for finding in findings {
        let texts = finding.numbers.map(|it| Texts::new(&it, unit));
        let [measured, required, margin] =
            texts.map_or_else(Default::default, |it| [it.measured, it.required, it.margin]);
        table.add_row([
            finding.verdict.word().to_owned(),
            what(finding),
            measured,
            required,
            margin,
            place(finding, unit),
        ]);
    }
    let mut text = format!("{}\n", design.params.project.name);
    for line in table.to_string().lines() {
        let _ = writeln!(text, "{}", line.trim_end());
    }
    for note in &design.notes {
        let _ = writeln!(text, "note: {}", note_text(note, unit));
    }
    let counts = Verdict::ALL.map(|verdict| {
        let count = findings.iter().filter(|it| it.verdict == verdict).count();
        format!("{count} {}", verdict.word())
    });
    let questions = findings.iter().filter(|it| it.question.is_some()).count();
    let _ = writeln!(text, "{}; open questions: {questions}", counts.join(", "));
    text.push_str(CAUTION);
    text
}

fn what(finding: &Finding) -> String {
    let mut text = format!("{}: {}", finding.rule, finding.about);
    for more in [&finding.question, &finding.detail, &finding.remedy]
        .into_iter()
        .flatten()
    {
        let _ = write!(text, "\n{more}");
    }
    text
}

fn place(finding: &Finding, unit: TapeUnit) -> String {
    let mut lines = Vec::new();
    if !finding.parts.is_empty() {
        lines.push(finding.parts.join(", "));
    }
    if let Some(location) = finding.location {
        lines.push(spot(location, unit));
    }
    lines.push(finding.source.clone());
    if !finding.levers.is_empty() && finding.verdict <= Verdict::Ask {
        lines.push(format!("move {}", finding.levers.join(", ")));
    }
    lines.join("\n")
}

/// A place as a tape finds it from the left corner of the room.
fn spot(location: DVec3, unit: TapeUnit) -> String {
    let text = |value| Length::mm(value).tape(unit, Rounding::Nearest);
    format!(
        "{} right, {} out, {} up",
        text(location.x),
        text(-location.y),
        text(location.z)
    )
}
