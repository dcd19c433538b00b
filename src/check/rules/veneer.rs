//! Stone that is adhered to the board.
//!
//! # What it finds
//! Of stone, tile and brick: the weight against 15 lb/ft², and the thickness of the stone against 2-5/8 in, where the
//! code adopts TMS 402-16 or an earlier one. About a weight up to 20 lb/ft² it asks, since a code may allow that much
//! indoors; and about a finish that is thicker than the limit with its mortar, where the stone alone is not given.
//! For TMS 402-22, which changed the limits, and where the edition or the finish's weight is not given, it asks once.
//! The load of the face's finish on the slab, per length of the front, is given with it. How far a header under it
//! may sag is judged with the header.
//!
//! # Why
//! Stone too heavy for its mortar comes down, and framing for a light veneer sags under it.
//!
//! # Datum
//! Weight as it hangs, mortar included, over the area of the face. The thickness is that of the stone alone; the
//! whole finish is used where that is not given.
//!
//! # Source
//! TMS 402-16 12.3, adhered veneer, from memory; indoors 20 lb/ft², IBC 2018 1404.10, from memory. That the edition of
//! 2022 rewrote the limits was read in a trade article; the new numbers were not, so none is asserted.

use crate::check::{Concern, Measure, Numbers, Quantity, Report, Row, Rule, Sense, Subject, Thing};
use crate::design::{ChaseFace, Design, Kind, finish_weight, is_veneer, point};
use crate::geom::TOLERANCE;
use crate::params::{End, VeneerStandard};
use crate::units::{AreaWeight, Length, TapeUnit};

pub(super) const RULE: Rule = Rule {
    name: "veneer",
    concern: Concern::Structure,
    text: include_str!("veneer.rs"),
    keys: &[
        "skins.lower_finish",
        "skins.upper_finish",
        "skins.side_finish",
        "skins.lower_weight",
        "skins.upper_weight",
        "skins.side_weight",
        "skins.lower_material",
        "skins.upper_material",
        "skins.side_material",
        "skins.stone_thickness",
        "skins.veneer_standard",
    ],
    check,
};

const HEAVIEST: AreaWeight = AreaWeight::new(15.0);
/// What a code may allow indoors.
const HEAVIEST_INDOORS: AreaWeight = AreaWeight::new(20.0);
const THICKEST: Length = Length::inches(2.625);
const SOURCE: &str = "TMS 402-16 12.3, from memory; the local code decides";

/// A finish on one of the faces.
pub(super) struct Veneer {
    name: &'static str,
    thickness: Length,
    weight: Option<AreaWeight>,
    levers: &'static [&'static str],
}

impl Veneer {
    /// Where it is.
    pub(super) const fn name(&self) -> &'static str {
        self.name
    }
}

fn check(design: &Design, report: &mut Report<'_>) {
    let veneers = veneers(design);
    if veneers.is_empty() {
        return;
    }
    let layout = &design.layout;
    let row = |subject: Subject, levers| Row {
        subject,
        location: Some(point(
            layout.unit_center,
            layout.faces.lower_finished,
            layout.heights.opening_top,
        )),
        source: SOURCE.to_owned(),
        levers,
        detail: line_load(design),
        ..Row::default()
    };
    let weighed = veneers.iter().any(|it| it.weight.is_some());
    let question = match design.params.skins.veneer_standard {
        VeneerStandard::Tms402Of16 if weighed => None,
        VeneerStandard::Tms402Of16 => {
            Some("What does the finish weigh per area with its mortar (skins.lower_weight)?")
        }
        VeneerStandard::Tms402Of22 => Some(
            "TMS 402-22 has new limits for adhered veneer: is this finish within them in weight, size and thickness?",
        ),
        VeneerStandard::Unknown => Some(
            "What does the finish weigh per area with its mortar (skins.lower_weight), and which edition of TMS 402 does your code adopt?",
        ),
    };
    if let Some(question) = question {
        let mut keys = Vec::new();
        if !weighed {
            keys.push("skins.lower_weight");
        }
        if design.params.skins.veneer_standard == VeneerStandard::Unknown {
            keys.push("skins.veneer_standard");
        }
        let row = row(Measure("the finish adhered to the board").into(), &[]);
        report.ask_for(row, None, question, keys);
        return;
    }
    let alone = design.params.skins.stone_thickness;
    for veneer in veneers {
        let thickness = Measure("thickness of the finish {}").of([Thing::Word(veneer.name)]);
        judge_thickness(
            row(thickness, veneer.levers),
            (veneer.thickness, alone),
            report,
        );
        if let Some(weight) = veneer.weight {
            let subject = Measure("weight of the finish {}").of([Thing::Word(veneer.name)]);
            judge_weight(row(subject, &[]), weight, report);
        }
    }
}

/// The stone alone against the limit, or the whole finish where that is not given.
fn judge_thickness(row: Row, (whole, alone): (Length, Option<Length>), report: &mut Report<'_>) {
    let numbers = Numbers::at_most(alone.unwrap_or(whole).min(whole), THICKEST);
    if alone.is_none() && numbers.margin < -TOLERANCE {
        let question = "How thick is the stone alone, without its mortar (skins.stone_thickness)?";
        report.ask(row, Some(numbers), question);
    } else {
        report.limit(row, numbers);
    }
}

fn judge_weight(row: Row, weight: AreaWeight, report: &mut Report<'_>) {
    let [measured, most] = [weight, HEAVIEST].map(AreaWeight::value);
    let numbers = Numbers::new(Quantity::AreaWeight, Sense::AtMost, measured, most);
    let indoors = HEAVIEST_INDOORS.value();
    if numbers.margin < -TOLERANCE && measured <= indoors + TOLERANCE {
        let question = "Does your code allow a veneer indoors up to 20 lb/ft2, with headers under it that sag no more than 1/600 of their span?";
        report.ask(row, Some(numbers), question);
    } else {
        report.limit(row, numbers);
    }
}

/// Every finish that is stuck to the board as stone, tile or brick is.
pub(super) fn veneers(design: &Design) -> Vec<Veneer> {
    let (skins, layout) = (&design.params.skins, &design.layout);
    let veneer = |name, thickness, weight, levers| Veneer {
        name,
        thickness,
        weight,
        levers,
    };
    let all = [
        (
            is_veneer(skins.lower_material),
            veneer(
                "around the unit",
                skins.lower_finish,
                skins.lower_weight,
                &["skins.lower_finish"][..],
            ),
        ),
        (
            layout.is_stepped() && is_veneer(skins.upper_material),
            veneer(
                "above the ledge",
                skins.upper_finish,
                skins.upper_weight,
                &["skins.upper_finish"],
            ),
        ),
        (
            layout.site.ends.contains(&End::Free) && is_veneer(skins.side_material),
            veneer(
                "on the sides",
                skins.side_finish,
                skins.side_weight,
                &["skins.side_finish"],
            ),
        ),
    ];
    let there = all
        .into_iter()
        .filter(|(there, it)| *there && it.thickness.is_positive());
    there.map(|it| it.1).collect()
}

/// What the front's finish weighs per length of the front, in words.
fn line_load(design: &Design) -> Option<String> {
    let mut kilograms = 0.0;
    for part in design.parts.iter().filter(|it| it.kind == Kind::Finish) {
        let is_front = part.branch.face().is_some_and(ChaseFace::is_front);
        if is_front && finish_weight(&design.params, part.branch).is_some() {
            kilograms += design.mass(part);
        }
    }
    let load = kilograms / (design.layout.site.chase.size().to_mm() * 1e-3);
    // 1 lb/ft = 1.488164 kg/m: NIST SP 811 (2008), appendix B.8
    let text = match design.params.project.unit {
        TapeUnit::Inch => format!("{:.0} lb/ft", (load / 1.488_164).ceil()),
        TapeUnit::Millimeter => format!("{:.0} kg/m", load.ceil()),
    };
    (kilograms > 0.0).then(|| format!("the front's finish puts {text} on the slab under it"))
}
