//! The findings as JSON: numbers in millimetres, degrees, kilograms, square metres or plain counts,
//! and beside them the text that a tape shows.
//!
//! Tape text is rounded at the edge only: what is measured and what is left over goes down, what is
//! required goes up.

use glam::DVec3;
use serde::Serialize;
use serde_json::{Map, Value};

use super::following::followed;
use super::{ExportError, Format, Set};
use crate::check::{
    Assumption, Finding, Numbers, Quantity, Remedy, Sense, Subject, Verdict, causes, not_judged,
};
use crate::design::{Design, Note};
use crate::params::Decision;
use crate::units::{Length, Rounding, TapeUnit};

pub(super) const FORMAT: Format = Format::new(Set::Model, "findings.json", |products, _| {
    Ok(findings_json(products.design, products.findings(), products.assumptions())?.into_bytes())
});

/// Goes up when a name goes or means something else; a name that is new leaves it.
const VERSION: u32 = 1;
/// From where `location_mm` counts.
const PLACES: &str = "millimeters: x to the right along the fireplace wall from the left corner of the room, y into that wall from its finished face (a distance measured out into the room is -y), z up from the heights' datum; across a corner, in the frame of the chase, as the model's files have it";

#[derive(Serialize)]
struct Document<'a> {
    version: u32,
    name: &'a str,
    places: &'static str,
    build_allowance_mm: f64,
    counts: Map<String, Value>,
    consequences: usize,
    open_questions: usize,
    not_judged: usize,
    findings: Vec<Entry<'a>>,
    assumptions: Vec<Assumed<'a>>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    following: Vec<Follows>,
    notes: Vec<String>,
}

#[derive(Serialize)]
struct Entry<'a> {
    rule: &'a str,
    concern: &'static str,
    verdict: &'static str,
    about: String,
    quantity: Option<&'static str>,
    unit: Option<&'static str>,
    measured: Option<f64>,
    required: Option<f64>,
    margin: Option<f64>,
    measured_text: Option<String>,
    required_text: Option<String>,
    margin_text: Option<String>,
    parts: &'a [String],
    location_mm: Option<[f64; 3]>,
    source: &'a str,
    question: Option<&'a str>,
    decided: Option<Decided<'a>>,
    answered_by: &'a [&'static str],
    waiting: Vec<Waits<'a>>,
    moved_by: &'a [&'static str],
    detail: Option<&'a str>,
    remedy: Option<Tried<'a>>,
    consequences: Vec<Self>,
}

#[derive(Serialize)]
struct Follows {
    key: &'static str,
    written: String,
    comes_to: String,
}

#[derive(Serialize)]
struct Assumed<'a> {
    key: &'a str,
    value: String,
    why: String,
    verdicts: Vec<Turned<'a>>,
}

#[derive(Serialize)]
struct Turned<'a> {
    rule: &'a str,
    about: String,
    verdict: Option<&'static str>,
    with: String,
    then: &'static str,
}

impl<'a> Assumed<'a> {
    fn new(assumption: &'a Assumption, unit: TapeUnit) -> Self {
        let turns = assumption.turns.iter().map(|it| Turned {
            rule: it.rule,
            about: it.subject.to_string(),
            verdict: it.from.map(Verdict::word),
            with: it.with.text(unit),
            then: it.to.word(),
        });
        Self {
            key: assumption.key,
            value: assumption.value.text(unit),
            why: why_text(assumption),
            verdicts: turns.collect(),
        }
    }
}

#[derive(Serialize)]
struct Decided<'a> {
    who: &'a str,
    date: &'a str,
    what: Option<&'a str>,
}

impl<'a> Decided<'a> {
    fn new(decision: &'a Decision) -> Self {
        Self {
            who: &decision.who,
            date: &decision.date,
            what: decision.what.as_deref(),
        }
    }
}

#[derive(Serialize)]
struct Waits<'a> {
    rule: &'a str,
    about: Option<String>,
}

#[derive(Serialize)]
struct Tried<'a> {
    changes: Vec<Changed>,
    margin: Option<f64>,
    keys: &'a [&'static str],
    text: String,
}

#[derive(Serialize)]
struct Changed {
    key: &'static str,
    from: Option<String>,
    to: String,
}

/// The findings of a design as JSON text.
///
/// # Errors
/// Only if a number cannot be written as JSON.
pub fn findings_json(
    design: &Design,
    findings: &[Finding],
    assumptions: &[Assumption],
) -> Result<String, ExportError> {
    let unit = design.params.project.unit;
    let count = |verdict| count(findings, verdict);
    let document = Document {
        version: VERSION,
        places: PLACES,
        name: &design.params.project.name,
        build_allowance_mm: rounded(design.params.project.build_allowance.to_mm()),
        counts: Verdict::ALL
            .map(|it| (it.word().to_owned(), count(it).into()))
            .into_iter()
            .collect(),
        consequences: findings.iter().filter(|it| it.follows.is_some()).count(),
        open_questions: count(Verdict::Ask),
        not_judged: not_judged(findings),
        findings: causes(findings)
            .map(|(cause, below)| Entry {
                consequences: below.iter().map(|it| Entry::new(it, unit)).collect(),
                ..Entry::new(cause, unit)
            })
            .collect(),
        assumptions: assumptions
            .iter()
            .map(|it| Assumed::new(it, unit))
            .collect(),
        following: followed(&design.params)
            .into_iter()
            .map(|it| Follows {
                key: it.key,
                written: it.written,
                comes_to: it.comes_to,
            })
            .collect(),
        notes: design
            .notes
            .iter()
            .map(|note| note_text(note, unit))
            .collect(),
    };
    let mut text = serde_json::to_string_pretty(&document)?;
    text.push('\n');
    Ok(text)
}

impl<'a> Entry<'a> {
    fn new(finding: &'a Finding, unit: TapeUnit) -> Self {
        let numbers = finding.numbers;
        let texts = numbers.map(|it| Texts::new(&it, unit));
        Self {
            rule: finding.rule,
            concern: finding.concern.name(),
            verdict: finding.verdict.word(),
            about: finding.subject.to_string(),
            quantity: numbers.map(|it| it.quantity.name()),
            unit: numbers.map(|it| it.quantity.unit()),
            measured: numbers.map(|it| rounded(it.measured)),
            required: numbers.map(|it| rounded(it.required)),
            margin: numbers.map(|it| rounded(it.margin)),
            measured_text: texts.as_ref().map(|it| it.measured.clone()),
            required_text: texts.as_ref().map(|it| it.required.clone()),
            margin_text: texts.map(|it| it.margin),
            parts: &finding.parts,
            location_mm: finding.location.map(|it| it.to_array().map(rounded)),
            source: &finding.source,
            question: finding.question.as_deref(),
            decided: finding.decision.as_ref().map(Decided::new),
            answered_by: &finding.answered_by,
            waiting: finding
                .waiting
                .iter()
                .map(|it| Waits {
                    rule: it.rule,
                    about: it.subject.as_ref().map(ToString::to_string),
                })
                .collect(),
            moved_by: &finding.levers,
            detail: finding.detail.as_deref(),
            remedy: finding
                .remedy
                .as_ref()
                .map(|it| Tried::new(it, finding, unit)),
            consequences: Vec::new(),
        }
    }
}

impl<'a> Tried<'a> {
    fn new(remedy: &'a Remedy, finding: &Finding, unit: TapeUnit) -> Self {
        let changes = remedy.changes.iter().map(|it| Changed {
            key: it.key,
            from: it.from.as_ref().map(|from| from.text(it.unit)),
            to: it.to.text(it.unit),
        });
        Self {
            changes: changes.collect(),
            margin: remedy.margin.map(rounded),
            keys: &remedy.tried,
            text: remedy_text(remedy, finding, unit),
        }
    }
}

/// How many causes have a verdict; what follows from a cause is not counted beside it.
pub fn count(findings: &[Finding], verdict: Verdict) -> usize {
    let all = causes(findings).map(|it| it.0);
    all.filter(|it| it.verdict == verdict).count()
}

/// The counts of all verdicts, of what follows from them, and of what is not judged.
pub fn counts_text(findings: &[Finding]) -> String {
    let counts = Verdict::ALL.map(|it| format!("{} {}", count(findings, it), it.word()));
    let below = findings.iter().filter(|it| it.follows.is_some()).count();
    let below = if below > 0 {
        format!("; {below} more follow from these")
    } else {
        String::new()
    };
    let waiting = not_judged(findings);
    format!("{}{below}; not judged: {waiting}", counts.join(", "))
}

/// What follows from a cause, on one line.
pub fn follower_text(finding: &Finding, unit: TapeUnit) -> String {
    let margin = finding.numbers.map_or_else(String::new, |it| {
        format!(", margin {}", Texts::new(&it, unit).margin)
    });
    format!("{} {}{margin}", finding.verdict.word(), finding.heading())
}

/// What was tried, in words: the change and the margin that it leaves, or what did not help.
pub fn remedy_text(remedy: &Remedy, finding: &Finding, unit: TapeUnit) -> String {
    if remedy.changes.is_empty() {
        let tried = remedy.tried.join(", ");
        return format!("no fix found by changing these alone or in pairs: {tried}");
    }
    let changes = remedy.changes.iter().map(|it| {
        let from = it.from.as_ref();
        let from = from.map_or_else(|| "left out".to_owned(), |from| from.text(it.unit));
        format!("{} {from} \u{2192} {}", it.key, it.to.text(it.unit))
    });
    let changes: Vec<String> = changes.collect();
    let outcome = match (remedy.margin, finding.numbers) {
        (Some(margin), Some(numbers)) => {
            let texts = Texts::new(&Numbers { margin, ..numbers }, unit);
            format!("margin {}", texts.margin)
        }
        _ => "cleared".to_owned(),
    };
    format!("tried and works: {}: {outcome}", changes.join(" and "))
}

/// Why a value is what it is: nobody said otherwise.
pub fn why_text(assumption: &Assumption) -> String {
    format!("left out, so its default: {}", assumption.meaning)
}

/// What rests on an assumption, in words: the worst turns, and how many there are besides.
pub fn turns_text(assumption: &Assumption, unit: TapeUnit) -> String {
    const SHOWN: usize = 3;
    let turns = assumption.turns.iter().take(SHOWN).map(|it| {
        let from = it.from.map_or("nothing", Verdict::word);
        let (with, to) = (it.with.text(unit), it.to.word());
        format!(
            "with {with}, {}: {}: {from} \u{2192} {to}",
            it.rule, it.subject
        )
    });
    let mut texts: Vec<String> = turns.collect();
    let more = assumption.turns.len().saturating_sub(SHOWN);
    if more > 0 {
        texts.push(format!("and {more} more"));
    }
    texts.join("; ")
}

/// Who decided, when and what, in words.
pub fn decision_text(decision: &Decision) -> String {
    let what = decision.what.as_ref();
    let what = what.map_or(String::new(), |it| format!(": {it}"));
    format!("decided by {}, {}{what}", decision.who, decision.date)
}

/// What waits for the answer to a question, by rule, in words; nothing where nothing does.
pub fn waiting_text(finding: &Finding) -> Option<String> {
    let mut rules: Vec<(&str, Vec<Option<&Subject>>)> = Vec::new();
    for it in &finding.waiting {
        match rules.iter_mut().find(|(rule, _)| *rule == it.rule) {
            Some((_, subjects)) => subjects.push(it.subject.as_ref()),
            None => rules.push((it.rule, vec![it.subject.as_ref()])),
        }
    }
    let texts = rules
        .into_iter()
        .map(|(rule, subjects)| match subjects.as_slice() {
            [Some(subject)] => format!("{rule}: {subject}"),
            [_] => rule.to_owned(),
            more => format!("{} of {rule}", more.len()),
        });
    let texts: Vec<String> = texts.collect();
    (!texts.is_empty()).then(|| format!("waiting for it: {}", texts.join("; ")))
}

/// A finding's numbers as people read them: each rounded by itself, to the safe side.
#[derive(Debug, Clone)]
pub struct Texts {
    /// What the design has: rounded down where a least is asked, up where a most.
    pub measured: String,
    /// What is asked: rounded up where it is a least, down where it is a most.
    pub required: String,
    /// What is left, rounded down.
    pub margin: String,
}

impl Texts {
    /// The texts of numbers, for a tape of this unit.
    pub fn new(numbers: &Numbers, unit: TapeUnit) -> Self {
        let text = |value, rounding| match numbers.quantity {
            Quantity::Length => Length::mm(value).tape(unit, rounding),
            Quantity::Count => format!("{value:.0}"),
            Quantity::Angle
            | Quantity::Mass
            | Quantity::Area
            | Quantity::AreaWeight
            | Quantity::GasFlow => format!(
                "{} {}",
                hundredths(value, rounding),
                numbers.quantity.unit()
            ),
        };
        let (measured, required) = match numbers.sense {
            Sense::AtLeast => (Rounding::Down, Rounding::Up),
            Sense::AtMost => (Rounding::Up, Rounding::Down),
        };
        Self {
            measured: text(numbers.measured, measured),
            required: text(numbers.required, required),
            margin: text(numbers.margin, Rounding::Down),
        }
    }
}

/// A number with two decimals; what lies within a billionth of a hundredth is that hundredth.
fn hundredths(value: f64, rounding: Rounding) -> String {
    let scaled = value * 100.0;
    let whole = scaled.round();
    let rounded = match rounding {
        _ if (scaled - whole).abs() <= 1e-9 * scaled.abs().max(1.0) => whole,
        Rounding::Down => scaled.floor(),
        Rounding::Up => scaled.ceil(),
        Rounding::Nearest => whole,
    };
    // never minus zero
    format!("{:.2}", rounded / 100.0 + 0.0)
}

/// A place as a tape finds it from the left corner of the room.
pub fn place_text(location: DVec3, unit: TapeUnit) -> String {
    let text = |value| Length::mm(value).tape(unit, Rounding::Nearest);
    format!(
        "{} right, {} out, {} up",
        text(location.x),
        text(-location.y),
        text(location.z)
    )
}

/// What a design did otherwise than asked, in words.
pub fn note_text(note: &Note, unit: TapeUnit) -> String {
    match note {
        Note::LeftOut { id, why } => format!("{id} was left out: {why}"),
        Note::Unproved { id, why } => format!("{id} is not in the model's files: {why}"),
        Note::Assumed { key, value } => {
            format!("{key} is not given: drawn as {value}, assumed")
        }
        Note::Dropped { wall, center } => format!(
            "{wall}: the layout stud at {} is left out: a jack, king or end stud is there",
            center.tape(unit, Rounding::Nearest)
        ),
    }
}

/// A number to a billionth, and never minus zero.
fn rounded(value: f64) -> f64 {
    (value * 1e9).round() / 1e9 + 0.0
}
