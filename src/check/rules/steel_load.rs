//! Mantel and finish on a wall of steel studs.
//!
//! # What it finds
//! The load on a front wall of light-gauge steel: the finish, and the mantel where it hangs or rests there: the
//! weight on each foot of the wall against 100 lb, and on each stud against 200 lb. Both are kept, which is the
//! stricter reading of what such studs may carry. Where the finish's weight is not given, it asks.
//!
//! # Why
//! Studs of this kind are made for walls that carry board and little else; anything heavier needs designed studs, or
//! a support of its own.
//!
//! # Datum
//! The finish over the wall's whole height, openings not taken off; the board does not count. A stud takes what hangs
//! over one spacing of the studs.
//!
//! # Source
//! ASTM C645-04, 3.2.2, read: what nonstructural studs may carry beside their board, 100 lb/ft or 200 lb.

use crate::catalog::FramingMember;
use crate::check::load;
use crate::check::{Concern, Measure, Numbers, Quantity, Report, Row, Rule, Sense};
use crate::design::{Design, Kind, Part};
use crate::params::ChaseWall;
use crate::units::Length;

pub(super) const RULE: Rule = Rule {
    name: "steel load",
    concern: Concern::Structure,
    text: include_str!("steel_load.rs"),
    keys: &[
        "chase.stud",
        "chase.stud_spacing",
        "front.bump_out_stud",
        "front.stud",
        "skins.lower_finish",
        "skins.upper_finish",
        "skins.lower_weight",
        "skins.upper_weight",
        "mantel.projection",
        "mantel.thickness",
        "stock.prices",
    ],
    check,
};

const SOURCE: &str =
    "ASTM C645-04 3.2.2, both limits kept, the stricter reading; the maker's tables decide";
/// 1 lb/ft in kilograms per millimetre: 1 lb/ft is 1.488164 kg/m (NIST SP 811 (2008), appendix B.8).
const POUND_A_FOOT: f64 = 1.488_164e-3;
/// 1 lb in kilograms, exactly (same).
const POUND: f64 = 0.453_592_37;

fn check(design: &Design, report: &mut Report<'_>) {
    for wall in [ChaseWall::Front, ChaseWall::SetBack, ChaseWall::BumpOut] {
        let uprights = |it: &&Part| it.is_of(wall) && matches!(it.kind, Kind::Stud | Kind::King);
        let steel = matches!(design.params.stud_of(wall), FramingMember::Steel(_));
        if let Some(upright) = design.parts.iter().find(uprights).filter(|_| steel) {
            judge(design, wall, upright, report);
        }
    }
}

fn judge(design: &Design, wall: ChaseWall, upright: &Part, report: &mut Report<'_>) {
    let Some(finish) = load::finish_on(design, wall) else {
        return;
    };
    let mantel = load::mantel_on(design, wall);
    let has_finish = finish.thickness.is_positive();
    if mantel.is_none() && !has_finish {
        return;
    }
    let ids = mantel.map_or_else(|| vec![upright.id.clone()], |it| vec![it.id.clone()]);
    let named = mantel.unwrap_or(upright);
    let row = |measure: Measure| Row {
        subject: measure.of([wall.into()]),
        parts: ids.clone(),
        location: Some(named.body.bounds.center()),
        source: SOURCE.to_owned(),
        levers: &[
            "mantel.thickness",
            "mantel.projection",
            "chase.stud_spacing",
        ],
        ..Row::default()
    };
    if has_finish && finish.weight.is_none() {
        let about = Measure("finish and mantel on the steel studs of the {} wall");
        let question = format!(
            "What does the finish weigh per area with its mortar ({})? Studs like these carry board and little else.",
            finish.key
        );
        report.ask_for(row(about), None, question, vec![finish.key]);
        return;
    }
    let sides = design
        .layout
        .site
        .framing_at(design.layout.faces.upper_stud);
    let height = load::top_of(design, wall, sides) - design.layout.slab;
    let hung = if has_finish {
        load::finish_weight(&finish) * 1e-6 * height.to_mm()
    } else {
        0.0
    };
    let along = hung + mantel.map_or(0.0, |it| design.mass(it) / it.sides().size().to_mm());
    let numbers = |mass: f64, most: f64| Numbers::new(Quantity::Mass, Sense::AtMost, mass, most);
    let foot = Length::inches(12.0).to_mm();
    let about = Measure("weight on each foot of the steel studs of the {} wall");
    report.limit(
        row(about),
        numbers(along * foot, 100.0 * POUND_A_FOOT * foot),
    );
    let spacing = design.params.chase.stud_spacing.to_mm();
    let about = Measure("weight on each steel stud of the {} wall");
    report.limit(row(about), numbers(along * spacing, 200.0 * POUND));
}
