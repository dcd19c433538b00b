//! The nodes of a model in, an animation out that builds it stage by stage in the order of the trade.
//!
//! *Units and frame*: seconds, and metres with y up. Each part that is built has one channel that moves it
//! into place and one that shows it from then on; what is already there stands from the beginning, and the
//! clearance volumes show at the end.
//!
//! *Source*: Khronos glTF 2.0.1 specification, section 3.5.2 note (a node whose scale is zero need not be
//! drawn) and section 3.11 (animations): from memory of the sections' numbers.

use std::collections::BTreeMap;

use glam::DVec3;
use serde_json::{Value, json};

use super::buffer::{Buffer, turned};
use crate::design::{Kind, Part, Stage, Step};

/// Seconds that a stage with parts takes.
const STAGE: f64 = 2.0;
/// Seconds that the job waits at a hold.
const HOLD: f64 = 1.5;
/// Seconds that one part takes to arrive.
const ARRIVAL: f64 = 0.7;
/// Waves in which the parts of a stage set out.
const WAVES: usize = 4;
/// Seconds for which the whole is shown at the end.
const REST: f64 = 3.0;

/// A node that the animation shows.
#[derive(Debug, Clone, Copy)]
pub(super) struct Actor<'a> {
    /// The node's place.
    pub(super) node: usize,
    /// Where it stands in the end, in metres.
    pub(super) place: DVec3,
    /// What it is; `None` for a clearance volume.
    pub(super) part: Option<&'a Part>,
}

/// One step of the job in time.
struct Span {
    step: Step,
    start: f64,
    end: f64,
}

/// The animation of a job's steps, if anything is built.
pub(super) fn animation(
    actors: &[Actor<'_>],
    order: &[Step],
    buffer: &mut Buffer,
) -> Option<Value> {
    let spans = spans(actors, order);
    let end = spans.last()?.end;
    let mut keys = Keys {
        buffer,
        shows: BTreeMap::new(),
        moves: BTreeMap::new(),
        shown: None,
        samplers: Vec::new(),
        channels: Vec::new(),
    };
    for span in &spans {
        let Step::Stage(stage) = span.step else {
            continue;
        };
        let arriving: Vec<(&Actor<'_>, &Part)> = built_at(actors, stage).collect();
        for (number, (actor, part)) in arriving.iter().enumerate() {
            let wave = number * WAVES / arriving.len();
            let stagger = (STAGE - ARRIVAL) / WAVES as f64;
            let start = span.start + stagger * wave as f64;
            keys.show(actor.node, start, None);
            keys.arrive(actor, start, comes_from(part));
        }
    }
    for actor in actors.iter().filter(|actor| actor.part.is_none()) {
        keys.show(actor.node, end, Some(end + REST));
    }
    let steps = spans
        .iter()
        .map(|span| json!({ "name": span.step.name(), "start": span.start, "end": span.end }));
    Some(json!({
        "name": "build order",
        "channels": keys.channels,
        "samplers": keys.samplers,
        "extras": { "steps": steps.collect::<Vec<_>>() },
    }))
}

/// When each step happens; a stage without parts takes no time, and is no step here.
fn spans(actors: &[Actor<'_>], order: &[Step]) -> Vec<Span> {
    let mut spans: Vec<Span> = Vec::new();
    for step in order.iter().copied() {
        let lasts = match step {
            Step::Stage(stage) if built_at(actors, stage).next().is_none() => continue,
            Step::Stage(_) => STAGE,
            // Nothing has been built that anybody could look at.
            Step::Search | Step::FirstFire => continue,
            Step::Hold(_) if spans.is_empty() => continue,
            Step::Hold(_) => HOLD,
        };
        let start = spans.last().map_or(0.5, |span| span.end);
        spans.push(Span {
            step,
            start,
            end: start + lasts,
        });
    }
    spans
}

fn built_at<'a>(
    actors: &'a [Actor<'a>],
    stage: Stage,
) -> impl Iterator<Item = (&'a Actor<'a>, &'a Part)> {
    let parts = actors.iter().filter_map(|actor| Some((actor, actor.part?)));
    parts.filter(move |(_, part)| part.stage == stage)
}

/// Where a part comes from, as seen from its place: out of the room, from above, or from outside. In
/// millimetres of the world.
fn comes_from(part: &Part) -> DVec3 {
    match (part.stage, part.kind) {
        (_, Kind::Cap) => DVec3::Y * 700.0,
        (Stage::Vent | Stage::CableShelf, _) => DVec3::Z * 500.0,
        (Stage::Unit, _) => DVec3::NEG_Y * 1500.0,
        _ => DVec3::NEG_Y * 900.0,
    }
}

/// Samplers and channels under construction; times and samplers that repeat are laid down once.
struct Keys<'a> {
    buffer: &'a mut Buffer,
    /// Samplers that show something, by its first moment in milliseconds.
    shows: BTreeMap<i64, usize>,
    /// Times of arrivals, by their start in milliseconds.
    moves: BTreeMap<i64, usize>,
    /// The values of showing.
    shown: Option<usize>,
    samplers: Vec<Value>,
    channels: Vec<Value>,
}

impl Keys<'_> {
    /// Hides a node until a moment; the animation lasts until `rest` at least.
    fn show(&mut self, node: usize, start: f64, rest: Option<f64>) {
        let sampler = match self.shows.get(&milliseconds(start)) {
            Some(sampler) => *sampler,
            None => self.add_show(start, rest),
        };
        self.channels
            .push(json!({ "sampler": sampler, "target": { "node": node, "path": "scale" } }));
    }

    fn add_show(&mut self, start: f64, rest: Option<f64>) -> usize {
        let times: Vec<f64> = [0.0, start].into_iter().chain(rest).collect();
        let input = self.buffer.add_times(&times);
        let output = if rest.is_some() {
            self.buffer
                .add_values(&[DVec3::ZERO, DVec3::ONE, DVec3::ONE])
        } else {
            let values = [DVec3::ZERO, DVec3::ONE];
            *self
                .shown
                .get_or_insert_with(|| self.buffer.add_values(&values))
        };
        self.samplers
            .push(json!({ "input": input, "output": output, "interpolation": "STEP" }));
        self.shows
            .insert(milliseconds(start), self.samplers.len() - 1);
        self.samplers.len() - 1
    }

    /// Moves a node into its place.
    fn arrive(&mut self, actor: &Actor<'_>, start: f64, from: DVec3) {
        let buffer = &mut *self.buffer;
        let times = self.moves.entry(milliseconds(start));
        let input = *times.or_insert_with(|| buffer.add_times(&[start, start + ARRIVAL]));
        let before = actor.place + turned(from) / 1000.0;
        let output = buffer.add_values(&[before, actor.place]);
        self.samplers
            .push(json!({ "input": input, "output": output }));
        let target = json!({ "node": actor.node, "path": "translation" });
        self.channels
            .push(json!({ "sampler": self.samplers.len() - 1, "target": target }));
    }
}

#[expect(clippy::cast_possible_truncation, reason = "an animation of a minute")]
fn milliseconds(time: f64) -> i64 {
    (time * 1000.0).round() as i64
}
