//! Headers under stone.
//!
//! # What it finds
//! How far a header gives over which stone, tile or brick hangs, against 1/600 of its span. It is taken alone, as a beam on two ends, with its own section: board, finish, framing and mantel over it
//! up to the top of its face, half as much again for creep. Where nobody has written the modulus of its grade, the
//! lowest that framing lumber has stands in: a header that passes with that one passes, and for any other it asks. Of steel
//! it asks what the maker's table says.
//!
//! # Why
//! Mortar does not bend. A header that is strong enough still sags so far that the joints above it open.
//!
//! # Datum
//! Between the jacks.
//!
//! # Source
//! 1/600 of the span for what carries masonry veneer: IRC and IBC, the exterior clause, read in part. 5wL⁴/(384EI):
//! beam under an even load, any handbook. 900,000 psi: utility grade of southern spruce-pine-fir, NDS Supplement, from
//! memory.
//! 1.5 for creep of dry lumber: NDS 3.5.2, from memory.

use glam::DVec3;

use crate::check::load::{self, GRAVITY};
use crate::check::{Measure, Numbers, Report, Row, Rule, Thing};
use crate::design::{Design, Kind, Part, Stock, is_veneer};
use crate::geom::TOLERANCE;
use crate::params::ChaseWall;
use crate::units::{Length, Pressure};

pub(super) const RULE: Rule = Rule {
    name: "header under stone",
    text: include_str!("header_deflection.rs"),
    keys: &[
        "front.header",
        "front.header_modulus",
        "skins.board",
        "skins.lower_finish",
        "skins.upper_finish",
        "skins.lower_weight",
        "skins.upper_weight",
        "skins.lower_material",
        "skins.upper_material",
        "recess.width",
    ],
    check,
};

/// The share of its span that a header under masonry may give.
const SHARE: f64 = 600.0;
/// Of the lowest grade of framing lumber.
const LOWEST: Pressure = Pressure::new(900_000.0);
const CREEP: f64 = 1.5;
/// 1 psi in pascals: NIST SP 811 (2008), appendix B.8.
const PASCALS: f64 = 6894.757;
const SOURCE: &str =
    "1/600 of the span under masonry: IRC and IBC, read in part; the local code decides";

/// The plies of one header, or a flat one alone.
struct Header<'a> {
    wall: ChaseWall,
    plies: Vec<&'a Part>,
}

fn check(design: &Design, report: &mut Report<'_>) {
    let opened = design.layout.opened.as_ref();
    let mut asked = false;
    for header in headers(design) {
        // the header of an opened wall is asked about until it is settled, and there is no other front then
        let unsettled = opened.is_some_and(|it| !it.is_settled);
        let veneer = load::finish_on(design, header.wall)
            .is_some_and(|it| is_veneer(it.material) && it.thickness.is_positive());
        if !veneer || unsettled {
            continue;
        }
        if header.is_steel() {
            // of the one over the unit `unit header` asks; the other's tracks are parts of it
            let over_unit = header.bottom() <= design.layout.heights.header_top;
            if !over_unit && !asked {
                ask_for_steel(&header, report);
                asked = true;
            }
        } else {
            judge(design, &header, report);
        }
    }
}

impl Header<'_> {
    fn bottom(&self) -> Length {
        let bottoms = self.plies.iter().map(|it| it.heights().low);
        bottoms.fold(Length::mm(f64::INFINITY), Length::min)
    }

    fn is_steel(&self) -> bool {
        let mut plies = self.plies.iter();
        plies.any(|it| matches!(it.stock, Stock::Steel(_)))
    }

    fn row(&self) -> Row {
        let ids: Vec<String> = self.plies.iter().map(|it| it.id.clone()).collect();
        let first = ids.first().cloned().map(Thing::Part);
        Row {
            subject: Measure("how far {} gives under its finish").of(first),
            location: self.plies.first().map(|it| it.body.bounds.center()),
            parts: ids,
            source: SOURCE.to_owned(),
            ..Row::default()
        }
    }
}

fn ask_for_steel(header: &Header<'_>, report: &mut Report<'_>) {
    let row = Row {
        levers: &["recess.width"],
        ..header.row()
    };
    let question =
        "Does the maker's table allow this header of steel under its finish, at 1/600 of its span?";
    report.ask(row, None, question);
}

fn headers(design: &Design) -> Vec<Header<'_>> {
    let mut found: Vec<Header<'_>> = Vec::new();
    for part in design.parts.iter().filter(|it| it.kind == Kind::Header) {
        let Some(wall) = part.branch.wall() else {
            continue;
        };
        let bottom = part.heights().low;
        let same = |it: &&mut Header<'_>| {
            it.wall == wall && (it.bottom() - bottom).abs().to_mm() <= TOLERANCE
        };
        match found.iter_mut().find(same) {
            Some(known) => known.plies.push(part),
            None => found.push(Header {
                wall,
                plies: vec![part],
            }),
        }
    }
    found
}

fn judge(design: &Design, header: &Header<'_>, report: &mut Report<'_>) {
    let params = &design.params;
    let Some(first) = header.plies.first() else {
        return;
    };
    let is_unit = (first.heights().low - design.layout.heights.header_bottom)
        .abs()
        .to_mm()
        <= TOLERANCE;
    let row = Row {
        levers: if is_unit {
            &["front.header"]
        } else {
            &["recess.width"]
        },
        ..header.row()
    };
    let jack = first.branch.stud(params).breadth();
    let span = first.sides().size() - 2.0 * jack;
    let load = load_over(design, header, first);
    let gives = |modulus: Pressure| deflection(header, span, load, modulus);
    let limit = span / SHARE;
    let modulus = params.front.header_modulus;
    let numbers = Numbers::at_most(gives(modulus.unwrap_or(LOWEST)), limit);
    if modulus.is_some() || numbers.margin >= -TOLERANCE {
        report.limit(row, numbers);
    } else {
        let question = "With the lowest grade of lumber this header gives too far under its finish: of what grade is it, with what modulus of elasticity (front.header_modulus), or who designs it?";
        report.ask(row, Some(numbers), question);
    }
}

/// What the header carries, in newtons along its whole span.
fn load_over(design: &Design, header: &Header<'_>, first: &Part) -> f64 {
    let along = first.sides();
    let bottom = first.heights().low;
    let top = load::top_of(design, header.wall, along);
    let area = along.size().to_mm() * (top - bottom).max(Length::ZERO).to_mm() * 1e-6;
    let skins = load::skins_on(design, header.wall) * area;
    let framing = design.parts.iter().filter(|it| {
        let middle: DVec3 = it.body.bounds.center();
        let at = Length::mm(middle.x);
        let over = along.low <= at && at <= along.high;
        it.is_of(header.wall) && over && middle.z > bottom.to_mm()
    });
    let framing: f64 = framing.map(load::mass).sum();
    let mantel = load::mantel_on(design, header.wall)
        .filter(|it| it.heights().high > bottom)
        .map_or(0.0, |it| {
            let shared = it.sides().low.max(along.low)..it.sides().high.min(along.high);
            let share = (shared.end - shared.start).max(Length::ZERO) / it.sides().size();
            load::mass(it) * share
        });
    (skins + framing + mantel) * GRAVITY
}

/// 5wL⁴/(384EI), with w the load along the span.
fn deflection(header: &Header<'_>, span: Length, load: f64, modulus: Pressure) -> Length {
    let section = |it: &&Part| {
        let size = it.body.bounds.size() * 1e-3;
        size.y * size.z.powi(3) / 12.0
    };
    let section: f64 = header.plies.iter().map(section).sum();
    let stiffness = modulus.value() * PASCALS * section;
    let length = span.to_mm() * 1e-3;
    let gives = 5.0 * CREEP * load * length.powi(3) / (384.0 * stiffness);
    Length::mm(gives * 1e3)
}
