//! The gas pipe by its longest run.
//!
//! # What it finds
//! What the published table gives as the pipe's capacity over its longest run, against the total input of everything
//! on it, and the smallest size with that capacity. Between two rows the longer run counts; a run past the last row
//! fails. Tubing has tables of its own, so it asks. Where the total input on the pipe is not given, it fails a pipe
//! that is too small for the unit alone, and asks about any other. Propane has other tables, so it asks.
//!
//! # Why
//! A pipe that is too small starves the unit when the furnace runs too.
//!
//! # Datum
//! The longest run, from the meter or regulator to the farthest outlet, whichever branch is sized.
//!
//! # Source
//! IFGC 2018 table 402.4(2), 0.5 in of water, from memory and rederived in its first row; table
//! 402.4(3), 3.0 in of water, read in a secondary copy. Demand is Btu/h by the supplier's heating value
//! (common practice, no source).

use super::first_of;
use crate::catalog::{GAS_HALF_INCH_DROP, GAS_THREE_INCH_DROP, GasRow};
use crate::check::{Concern, Measure, Numbers, Quantity, Report, Row, Rule, Sense};
use crate::design::{Design, Kind, point};
use crate::params::{Fuel, Gas, GasMaterial, GasPipe, GasTable};
use crate::units::{HeatInput, Length};

pub(super) const RULE: Rule = Rule {
    name: "gas pipe",
    concern: Concern::FireAndGas,
    text: include_str!("gas_pipe.rs"),
    keys: &[
        "appliance.input",
        "gas.fuel",
        "gas.stub_right",
        "gas.stub_out",
        "gas.stub_up",
        "gas.demand",
        "gas.pipe",
        "gas.material",
        "gas.longest_run",
        "gas.sized_by",
        "gas.heating_value",
    ],
    check,
};

fn check(design: &Design, report: &mut Report<'_>) {
    let Some(gas) = &design.params.gas else {
        return;
    };
    let (table, name): (&[GasRow], _) = match gas.sized_by {
        GasTable::HalfInch => (&GAS_HALF_INCH_DROP, "402.4(2), from memory"),
        GasTable::ThreeInches => (&GAS_THREE_INCH_DROP, "402.4(3), read in a secondary copy"),
    };
    let row = Row {
        subject: Measure("gas pipe: capacity over its longest run").into(),
        parts: first_of(design, Kind::GasStub),
        location: Some(point(gas.stub_right, gas.stub_out, gas.stub_up)),
        source: format!("IFGC 2018 table {name}; the local code decides"),
        levers: &[],
        detail: None,
    };
    if gas.fuel == Fuel::Propane {
        report.ask(
            row,
            None,
            "Which table sizes the pipe for propane, and what does it say for this run?",
        );
        return;
    }
    let question = match gas.material {
        Some(GasMaterial::Steel) => None,
        Some(GasMaterial::Copper | GasMaterial::Flexible) => Some(
            "The line is tubing (gas.material): which table of its maker sizes it, and what does it say for this run?",
        ),
        None => Some("What is the gas line made of (gas.material)? The table is for steel pipe."),
    };
    if let Some(question) = question {
        report.ask(row, None, question);
        return;
    }
    match longest(table, gas) {
        Some(longest) => judge(design, gas, longest, row, report),
        None => past_the_table(row, table, gas, report),
    }
}

/// Judges the pipe by a row of the table.
fn judge(design: &Design, gas: &Gas, longest: &GasRow, row: Row, report: &mut Report<'_>) {
    let against = |demand: HeatInput| {
        let needed = demand.value() / f64::from(gas.heating_value);
        let measured = carries(longest, gas.pipe);
        let detail = Some(smallest(longest, needed));
        let numbers = Numbers::new(Quantity::GasFlow, Sense::AtLeast, measured, needed);
        (numbers, detail)
    };
    if let Some(demand) = gas.demand {
        let (numbers, detail) = against(demand);
        report.limit(Row { detail, ..row }, numbers);
        return;
    }
    let alone = design.params.appliance.input.map(against);
    match alone {
        Some((numbers, detail)) if numbers.margin < 0.0 => {
            let measure = Measure("gas pipe: capacity over its longest run, for the unit alone");
            let subject = measure.into();
            report.limit(Row { subject, detail, ..row }, numbers);
        }
        _ => report.ask_for(
            row,
            None,
            "What else is on this pipe, and what is the total input of everything on it, the unit included (gas.demand)?",
            vec!["gas.demand"],
        ),
    }
}

/// The first row that is as long as the run; `None` past the last.
fn longest<'a>(table: &'a [GasRow], gas: &Gas) -> Option<&'a GasRow> {
    let long_enough = |row: &&GasRow| !(gas.longest_run - feet(row.feet)).is_positive();
    table.iter().find(long_enough)
}

/// Cubic feet per hour of a size.
fn carries(row: &GasRow, pipe: GasPipe) -> f64 {
    let [half, three_quarters, one, one_and_quarter] = row.capacity;
    f64::from(match pipe {
        GasPipe::Half => half,
        GasPipe::ThreeQuarters => three_quarters,
        GasPipe::One => one,
        GasPipe::OneAndQuarter => one_and_quarter,
    })
}

/// The smallest size that is enough, in words.
fn smallest(row: &GasRow, needed: f64) -> String {
    let sizes = [
        GasPipe::Half,
        GasPipe::ThreeQuarters,
        GasPipe::One,
        GasPipe::OneAndQuarter,
    ];
    let size = sizes.into_iter().find(|it| carries(row, *it) >= needed);
    size.map_or_else(
        || "no size in the table is enough".to_owned(),
        |size| format!("by the {} ft row, {} in is enough", row.feet, size.word()),
    )
}

fn feet(count: u32) -> Length {
    Length::inches(12.0) * f64::from(count)
}

fn past_the_table(row: Row, table: &[GasRow], gas: &Gas, report: &mut Report<'_>) {
    let last = table.last().map_or(Length::ZERO, |row| feet(row.feet));
    let measure = Measure("gas pipe: longest run against the last row of the table");
    report.fail(
        Row {
            subject: measure.into(),
            ..row
        },
        Some(Numbers::at_most(gas.longest_run, last)),
    );
}
