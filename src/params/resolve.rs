//! Where the things are that heights and places are written from, and what these come to.
//!
//! Each is resolved after those that its thing rests on, so that references may chain; a circle has no first one and
//! is a fault. Nothing here knows of a single key but what moves each thing.

use super::consistent;
use super::datum::{Axis, Datum, Follower, Following};
use super::fault::Fault;
use super::heights::Heights;
use super::list::{PARAMETERS, Params};
use super::sound;
use super::table::Parameter;
use super::value::Value;
use crate::units::{Length, Span, TOLERANCE};

impl Datum {
    /// How high it is, or how far to the right along the chase's face; `None` where these parameters have none.
    pub fn place(self, params: &Params) -> Option<Length> {
        let heights = || Heights::new(params);
        let mantel = params.mantel.as_ref();
        let recess = params.recess.as_ref();
        match self {
            Self::Platform => Some(heights().platform_top),
            Self::UnitTop => Some(heights().body_top),
            Self::OpeningBottom => Some(heights().platform_top + params.appliance.opening_bottom),
            Self::OpeningTop => Some(heights().opening_top),
            Self::Ledge => params.front.ledge.as_ref().map(|_| heights().framing_top),
            Self::MantelUnderside => mantel.map(|it| it.underside),
            Self::MantelTop => mantel.map(|it| it.underside + it.thickness),
            Self::RecessSill => recess.map(|it| it.sill),
            Self::RecessHead => recess.map(|it| it.sill + it.height),
            Self::Ceiling => params
                .has_ceiling()
                .then(|| consistent::ceiling_over_chase(params) + params.slab()),
            Self::ChaseLeft => Some(params.site().chase.low),
            Self::ChaseMiddle => Some(params.site().chase.center()),
            Self::ChaseRight => Some(params.site().chase.high),
            Self::OpeningLeft => Some(opening(params).low),
            Self::UnitCenter => Some(unit_center(params)),
            Self::OpeningRight => Some(opening(params).high),
            Self::RecessLeft => recess_sides(params).map(|it| it.low),
            Self::RecessCenter => recess_sides(params).map(Span::center),
            Self::RecessRight => recess_sides(params).map(|it| it.high),
        }
    }

    /// The builder's own keys that move it, the nearest first; every one that may follow something itself is there.
    pub fn moved_by(self, params: &Params) -> Vec<&'static str> {
        const CHASE: [&str; 2] = ["chase.left", "chase.width"];
        let or_chase = |center: Option<Length>, key: &'static str| match center {
            Some(_) => vec![key],
            None => CHASE.to_vec(),
        };
        let unit = || or_chase(params.appliance.center, "appliance.center");
        let recess = |more: &[&'static str]| {
            let center = params.recess.as_ref().and_then(|it| it.center);
            let mut keys = or_chase(center, "recess.center");
            keys.extend(more);
            keys
        };
        match self {
            Self::Platform | Self::UnitTop | Self::OpeningBottom | Self::OpeningTop => {
                vec!["platform.layers"]
            }
            Self::Ledge => vec!["front.header_ease", "front.header", "platform.layers"],
            Self::MantelUnderside => vec!["mantel.underside"],
            Self::MantelTop => vec!["mantel.underside", "mantel.thickness"],
            Self::RecessSill => vec!["recess.sill"],
            Self::RecessHead => vec!["recess.sill", "recess.height"],
            Self::ChaseLeft => vec!["chase.left"],
            Self::Ceiling | Self::ChaseMiddle | Self::ChaseRight => CHASE.to_vec(),
            Self::OpeningLeft | Self::UnitCenter | Self::OpeningRight => unit(),
            Self::RecessLeft | Self::RecessRight => recess(&["recess.width"]),
            Self::RecessCenter => recess(&[]),
        }
    }

    /// What the parameters would need for it to be there.
    const fn lacking(self) -> &'static str {
        match self {
            Self::Ledge => "a stepped front with `front.ledge`",
            Self::MantelUnderside | Self::MantelTop => "a table [mantel]",
            Self::RecessSill
            | Self::RecessHead
            | Self::RecessLeft
            | Self::RecessCenter
            | Self::RecessRight => "a table [recess]",
            Self::Ceiling => "the ceiling's height, or its readings",
            Self::Platform
            | Self::UnitTop
            | Self::OpeningBottom
            | Self::OpeningTop
            | Self::ChaseLeft
            | Self::ChaseMiddle
            | Self::ChaseRight
            | Self::OpeningLeft
            | Self::UnitCenter
            | Self::OpeningRight => "what every chase has",
        }
    }
}

fn unit_center(params: &Params) -> Length {
    let center = params.appliance.center;
    center.unwrap_or_else(|| params.site().chase.center())
}

fn opening(params: &Params) -> Span {
    Span::about(unit_center(params), params.appliance.opening_width)
}

fn recess_sides(params: &Params) -> Option<Span> {
    let recess = params.recess.as_ref()?;
    let center = recess.center;
    let center = center.unwrap_or_else(|| params.site().chase.center());
    Some(Span::about(center, recess.width))
}

/// Gives every key that follows a thing the value that it comes to.
///
/// # Errors
/// A circle, at each of its keys; a thing that these parameters have not; a value out of its key's range.
pub(super) fn resolve(params: &mut Params) -> Result<(), Vec<Fault>> {
    let mut faults = Vec::new();
    for (key, following) in order(params)? {
        match resolved(params, key, following) {
            Ok((parameter, value)) => {
                (parameter.set)(params, &value);
            }
            Err(fault) => faults.push(fault),
        }
    }
    if faults.is_empty() {
        Ok(())
    } else {
        Err(faults)
    }
}

/// Each after those that its thing rests on.
fn order(params: &Params) -> Result<Vec<Follower>, Vec<Fault>> {
    let mut left = params.following.clone();
    let mut order = Vec::with_capacity(left.len());
    while !left.is_empty() {
        let waits = |it: &Follower| {
            let keys = it.1.thing.moved_by(params);
            left.iter().any(|other| keys.contains(&other.0))
        };
        let Some(free) = left.iter().position(|it| !waits(it)) else {
            return Err(circle(params, &left));
        };
        order.push(left.remove(free));
    }
    Ok(order)
}

/// The faults of a circle: one at each key of it. Some of these keys may only hang on the circle; they are left out.
fn circle(params: &Params, left: &[Follower]) -> Vec<Fault> {
    let next = |from: &Follower| {
        let keys = from.1.thing.moved_by(params);
        left.iter().find(|it| keys.contains(&it.0))
    };
    let mut round: Vec<&Follower> = Vec::new();
    let mut at = left.first();
    while let Some(it) = at.filter(|it| !round.contains(it)) {
        round.push(it);
        at = next(it);
    }
    let begins = round.iter().position(|it| Some(*it) == at);
    let round = round.split_off(begins.unwrap_or_default());
    let unit = params.project.unit;
    let way = |from: usize| {
        let turned = round.iter().cycle().skip(from).take(round.len());
        let told = turned.map(|(key, it)| format!("`{key}` {}", it.text(unit)));
        told.collect::<Vec<_>>().join(", ")
    };
    let fault = |(place, it): (usize, &&Follower)| {
        Fault::new(it.0, format!("`{}` is written from itself", it.0))
            .found(way(place))
            .expected("one of them written as a number")
            .way_out("measure or choose one of these, and write the number")
    };
    round.iter().enumerate().map(fault).collect()
}

fn resolved(
    params: &Params,
    key: &'static str,
    following: Following,
) -> Result<(&'static Parameter, Value), Fault> {
    let unit = params.project.unit;
    let fault =
        |problem: &str| Fault::new(key, format!("`{key}` {problem}")).found(following.text(unit));
    let parameter = PARAMETERS.iter().find(|it| it.key == key);
    let parameter = parameter.filter(|it| it.follows.is_some_and(|it| following.thing.fits(it)));
    let Some(parameter) = parameter else {
        return Err(fault("cannot be written from such a thing")
            .expected("a length")
            .way_out("write the number"));
    };
    if parameter.follows == Some(Axis::Wall) && params.site().is_turned() {
        return Err(fault(
            "is measured along the fireplace wall, and the chase is at an angle to it",
        )
        .expected("a length from the left corner of the room")
        .way_out("write the number"));
    }
    let Some(place) = following.thing.place(params) else {
        return Err(fault("is written from a thing that is not there")
            .expected(following.thing.lacking())
            .way_out("add it, or write the number"));
    };
    let value = Value::Length(on_its_mark(place + following.offset));
    match sound::fault(parameter, &value, unit) {
        Some(fault) => {
            let found = format!("{}, which is {}", following.text(unit), fault.found);
            Err(fault.found(found))
        }
        None => Ok((parameter, value)),
    }
}

/// What lies on a mark of a tape, but for the last digit of a sum, is the very number that is written for it.
fn on_its_mark(length: Length) -> Length {
    let inches = Length::inches((length.to_inches() * 64.0).round() / 64.0);
    let metric = Length::mm((length.to_mm() * 10.0).round() / 10.0);
    let is_near = |it: &Length| (*it - length).abs().to_mm() < TOLERANCE;
    [inches, metric].into_iter().find(is_near).unwrap_or(length)
}

impl Params {
    /// What a key is written from, where it follows something.
    pub fn following(&self, key: &str) -> Option<Following> {
        let own = self.following.iter().find(|it| it.0 == key);
        own.map(|it| it.1)
    }

    /// The value of a key as it is written: what it follows, where it follows something.
    pub fn written(&self, key: &str) -> Option<Value> {
        let follows = self.following(key).map(Value::Following);
        follows.or_else(|| self.get(key))
    }

    /// Writes a key from another thing, or, with nothing, as a number.
    pub(super) fn follow(&mut self, key: &'static str, following: Option<Following>) {
        self.following.retain(|it| it.0 != key);
        if let Some(following) = following {
            self.following.push((key, following));
            let place = |key: &str| PARAMETERS.iter().position(|it| it.key == key);
            self.following.sort_by_key(|it| place(it.0));
        }
    }
}
