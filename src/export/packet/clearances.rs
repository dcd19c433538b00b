//! Parameters in, the numbers of the unit's manual with their pages out, and what is left of each clearance.

use std::collections::BTreeMap;

use super::html::Html;
use super::table::{Cell, Table};
use super::{Packet, section};
use crate::check::Finding;
use crate::export::Texts;
use crate::params::{PARAMETERS, Parameter, Value};

/// Writes every number of the manual, and the smallest margin at each clearance volume.
pub(super) fn write(html: &mut Html, packet: Packet<'_>) {
    section(html, "clearances", "Clearances and their pages", |html| {
        html.leaf(
            "p",
            &[],
            "Copied from the manual of this unit; check each against its page. The unit's listing governs.",
        );
        volumes(html, packet);
        manual(html, packet);
    });
}

/// The nearest part to each clearance volume.
fn volumes(html: &mut Html, packet: Packet<'_>) {
    let mut nearest: BTreeMap<&str, &Finding> = BTreeMap::new();
    let judged = packet.products.findings().iter();
    for finding in judged.filter(|it| it.rule == "clearance") {
        let volumes = &packet.products.design.clearances;
        let is_volume = |id: &&String| volumes.iter().any(|it| it.id == **id);
        let Some(volume) = finding.parts.iter().find(is_volume) else {
            continue;
        };
        let margin = |it: &Finding| it.numbers.map_or(f64::INFINITY, |it| it.margin);
        let known = nearest.entry(volume).or_insert(finding);
        if margin(finding) < margin(known) {
            *known = finding;
        }
    }
    let volumes = packet.products.design.clearances.iter();
    let rows = volumes.filter_map(|volume| {
        let finding = nearest.get(volume.id.as_str())?;
        let texts = Texts::new(&finding.numbers?, packet.unit());
        let name = volume.id.trim_start_matches("clearance/");
        let other = finding.parts.iter().find(|it| **it != volume.id);
        Some(vec![
            Cell::Text(name.to_owned()),
            Cell::Text(volume.datum.to_owned()),
            Cell::Text(other.cloned().unwrap_or_default()),
            Cell::Number(texts.required),
            Cell::Number(texts.measured),
            Cell::Number(texts.margin),
            Cell::Text(finding.verdict.word().to_owned()),
            Cell::Text(finding.source.clone()),
        ])
    });
    Table {
        caption: "Nearest part to each clearance",
        heads: &[
            "clearance",
            "counts from",
            "nearest",
            "required",
            "measured",
            "margin",
            "verdict",
            "source",
        ],
        rows: rows.collect(),
    }
    .write(html);
}

fn manual(html: &mut Html, packet: Packet<'_>) {
    let params = &packet.products.design.params;
    let rows = PARAMETERS.iter().filter_map(|parameter| {
        let Value::Manual { value, page } = params.get(parameter.key)? else {
            return None;
        };
        Some(row(parameter, &value.text(packet.unit()), &page))
    });
    Table {
        caption: "Numbers and answers of the manual",
        heads: &["key", "what", "in the file", "page", "seen in the manual"],
        rows: rows.collect(),
    }
    .write(html);
}

fn row(parameter: &Parameter, value: &str, page: &str) -> Vec<Cell> {
    vec![
        Cell::Text(parameter.key.to_owned()),
        Cell::Text(parameter.meaning.replace('`', "")),
        Cell::Text(value.to_owned()),
        Cell::Words(page.to_owned()),
        Cell::Tick(format!("{} on page {page}", parameter.key)),
    ]
}
