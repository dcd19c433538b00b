//! Parts and clearance volumes alike: what every format has to know of one thing in the model.

use super::appearance::Appearance;
use super::products::Bodies;
use crate::design::{Clearance, ClearanceKind, Group, Kind, Part};
use crate::solids::Placed;

/// One thing in the model, placed.
#[derive(Debug, Clone, Copy)]
pub(super) struct Item<'a> {
    /// What it is.
    pub(super) what: What<'a>,
    /// Where its shape stands.
    pub(super) placed: Placed,
    /// Whether it fails a check.
    pub(super) failing: bool,
}

/// What a thing in the model is.
#[derive(Debug, Clone, Copy)]
pub(super) enum What<'a> {
    Part(&'a Part),
    Clearance(&'a Clearance),
}

/// The kind of a thing, for telling like from unlike.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum AnyKind {
    Part(Kind),
    Clearance(ClearanceKind),
}

impl<'a> Item<'a> {
    /// Everything in the model, clearance volumes included, in the order of groups and then of the design.
    pub(super) fn all(bodies: &Bodies<'a>) -> Vec<Self> {
        let parts = bodies.design.parts.iter().zip(&bodies.solids.parts);
        let parts = parts.map(|(part, placed)| Self {
            what: What::Part(part),
            placed: *placed,
            failing: bodies.failing.contains(&part.id),
        });
        let volumes = bodies.design.clearances.iter();
        let volumes = volumes.zip(&bodies.solids.clearances);
        let volumes = volumes.map(|(clearance, placed)| Self {
            what: What::Clearance(clearance),
            placed: *placed,
            failing: false,
        });
        let mut items: Vec<Self> = parts.chain(volumes).collect();
        items.sort_by_key(Self::group);
        items
    }

    /// Its id.
    pub(super) fn id(&self) -> &'a str {
        match self.what {
            What::Part(part) => &part.id,
            What::Clearance(clearance) => &clearance.id,
        }
    }

    /// The branch of the model tree it hangs on.
    pub(super) fn group(&self) -> Group {
        match self.what {
            What::Part(part) => part.group,
            What::Clearance(_) => Group::Clearances,
        }
    }

    /// Its kind.
    pub(super) fn kind(&self) -> AnyKind {
        match self.what {
            What::Part(part) => AnyKind::Part(part.kind),
            What::Clearance(clearance) => AnyKind::Clearance(clearance.kind),
        }
    }

    /// Its kind in words.
    pub(super) fn kind_name(&self) -> &'static str {
        match self.kind() {
            AnyKind::Part(kind) => kind.name(),
            AnyKind::Clearance(kind) => kind.name(),
        }
    }

    /// What it looks like, failing or not.
    pub(super) fn look(&self) -> Appearance {
        if self.failing {
            Appearance::FAILING
        } else {
            self.appearance()
        }
    }

    /// What it looks like while nothing is wrong with it.
    pub(super) fn appearance(&self) -> Appearance {
        match self.what {
            What::Part(part) => Appearance::of_part(part),
            What::Clearance(clearance) => Appearance::of_clearance(clearance.kind),
        }
    }
}
