//! A cause in, the smallest change that clears it out.
//!
//! One key at a time first, then two: a second one that mends what the first one breaks, or two that are only valid
//! together. How far a key has to move is told by the margin that it gains for each mark; where nothing is gained at
//! first, a few strides are tried each way.

use super::changes::{Movable, movable, options, whole};
use super::goal::Goal;
use super::slopes::Slopes;
use super::trials::{Changes, Outcome, Trials};
use crate::check::{Change, Finding, Remedy};
use crate::params::{Params, Value};
use crate::units::Length;

/// What came of a search.
pub(super) struct Cure {
    /// What was tried; `None` where nothing could be.
    pub(super) remedy: Option<Remedy>,
    /// What the checks say after it, where one was found.
    pub(super) after: Option<Vec<Finding>>,
}

/// Changes that clear a finding.
struct Attempt {
    changes: Changes,
    size: Length,
    margin: Option<f64>,
    after: Vec<Finding>,
    /// What fails after it and did not before.
    broken: Vec<Finding>,
}

/// How often a first change is mended by a second.
const MENDED: usize = 3;
/// How often a reach that was told by the slope is corrected.
const CORRECTIONS: u32 = 6;

/// The smallest change that leaves a finding the build allowance, or else one that just clears it.
pub(super) fn cure(finding: &Finding, slopes: &Slopes, trials: &mut Trials<'_>) -> Cure {
    trials.begin();
    let before = trials.made();
    for goal in [Goal::Allowance, Goal::Cleared] {
        let mut search = Search {
            finding,
            goal,
            slopes,
            trials,
        };
        if let Some(found) = search.best() {
            return Cure {
                remedy: Some(remedy(finding, &found, trials)),
                after: Some(found.after),
            };
        }
    }
    let was_tried = trials.made() > before;
    let tried = tried(finding, trials);
    Cure {
        remedy: was_tried.then_some(Remedy {
            changes: Vec::new(),
            margin: None,
            tried,
        }),
        after: None,
    }
}

/// The builder's keys that move what these keys are written from, as far as references go, and are none of them.
fn followed(params: &Params, levers: &[&'static str]) -> Vec<&'static str> {
    let mut all = levers.to_vec();
    let mut at = 0;
    while let Some(key) = all.get(at) {
        let thing = params.following(key).map(|it| it.thing);
        let keys = thing.map_or_else(Vec::new, |it| it.moved_by(params));
        for key in keys {
            if !all.contains(&key) {
                all.push(key);
            }
        }
        at += 1;
    }
    all.split_off(levers.len())
}

fn can_change(trials: &Trials<'_>, key: &str) -> bool {
    movable(trials.params, key).is_some() || !options(trials.params, key).is_empty()
}

/// The keys that a cure is looked for in, of those that can be changed.
fn tried(finding: &Finding, trials: &Trials<'_>) -> Vec<&'static str> {
    let followed = followed(trials.params, &finding.levers);
    let all = finding.levers.iter().copied().chain(followed);
    all.filter(|key| can_change(trials, key)).collect()
}

fn remedy(finding: &Finding, found: &Attempt, trials: &Trials<'_>) -> Remedy {
    let params = trials.params;
    let change = |(key, to): &(&'static str, Value)| Change {
        key,
        from: params.written(key),
        to: to.clone(),
        unit: movable(params, key).map_or(params.project.unit, |it| it.unit),
    };
    Remedy {
        changes: found.changes.iter().map(change).collect(),
        margin: found.margin,
        tried: tried(finding, trials),
    }
}

struct Search<'a, 's, 't> {
    finding: &'a Finding,
    goal: Goal,
    slopes: &'s Slopes,
    trials: &'s mut Trials<'t>,
}

impl Search<'_, '_, '_> {
    fn best(&mut self) -> Option<Attempt> {
        let levers = self.finding.levers.clone();
        self.best_of(&levers).or_else(|| {
            // what can be said of no lever is said of what it follows
            let followed = followed(self.trials.params, &levers);
            (!followed.is_empty()).then(|| self.best_of(&followed))?
        })
    }

    fn best_of(&mut self, levers: &[&'static str]) -> Option<Attempt> {
        let mut attempts: Vec<Attempt> = levers.iter().flat_map(|key| self.singles(key)).collect();
        attempts.sort_by(|a, b| a.size.to_mm().total_cmp(&b.size.to_mm()));
        if let Some(place) = attempts.iter().position(|it| it.broken.is_empty()) {
            return Some(attempts.swap_remove(place));
        }
        let mut first = attempts.iter().take(MENDED);
        first
            .find_map(|it| self.mended(it))
            .or_else(|| self.together(levers))
    }

    /// The smallest change of one key each way that clears the finding.
    fn singles(&mut self, key: &'static str) -> Vec<Attempt> {
        let finding = self.finding;
        let changes = match movable(self.trials.params, key) {
            Some(it) => self.moves((finding, &Vec::new()), key, it),
            None => options(self.trials.params, key),
        };
        let all = changes.into_iter();
        all.filter_map(|(size, to)| self.attempt(vec![(key, to)], size))
            .collect()
    }

    /// Changes in full: everything is checked with them, and the finding has to be gone.
    fn attempt(&mut self, changes: Changes, size: Length) -> Option<Attempt> {
        let after = self.trials.checked(self.finding.rule, &changes)?;
        let name = self.finding.name();
        let same = after.iter().find(|it| it.name() == name);
        if same.is_some_and(|it| !self.goal.is_met(it.verdict)) {
            return None;
        }
        let margin = same.and_then(|it| it.numbers).map(|it| it.margin);
        let broken = self.trials.broken(&after);
        Some(Attempt {
            changes,
            size,
            margin,
            after,
            broken,
        })
    }

    /// The fewest marks each way that clear a finding, beside other changes.
    fn moves(
        &mut self,
        (finding, beside): (&Finding, &Changes),
        key: &'static str,
        it: Movable,
    ) -> Vec<(Length, Value)> {
        let slope = self.slopes.of(key, finding);
        let allowance = self.trials.params.project.build_allowance;
        let lacking = self.goal.lacking(finding, allowance);
        let guess = lacking.filter(|_| slope != 0.0);
        let guess = guess.map(|it_lacks| it.marks(it_lacks / slope.abs()));
        let ways: &[i32] = match guess {
            Some(_) if slope > 0.0 => &[1],
            Some(_) => &[-1],
            None => &[1, -1],
        };
        let mut found = Vec::new();
        for way in ways {
            let mut reach = Reach {
                trials: &mut *self.trials,
                finding,
                beside,
                key,
                it,
                way: *way,
                goal: self.goal,
            };
            if let Some(marks) = reach.fewest(guess) {
                found.push((it.size(marks), it.moved(way * marks)));
            }
        }
        found
    }

    /// A second change that clears what a first change broke.
    fn mended(&mut self, first: &Attempt) -> Option<Attempt> {
        let broken = first.broken.first()?;
        let key_is_new = |key: &&&'static str| first.changes.iter().all(|it| it.0 != **key);
        let keys: Vec<&'static str> = broken.levers.iter().filter(key_is_new).copied().collect();
        let mut found: Vec<Attempt> = Vec::new();
        for key in keys {
            let moves = match movable(self.trials.params, key) {
                Some(it) => self.moves((broken, &first.changes), key, it),
                None => options(self.trials.params, key),
            };
            for (size, to) in moves {
                let mut changes = first.changes.clone();
                changes.push((key, to));
                let whole = self.attempt(changes, first.size + size);
                found.extend(whole.filter(|it| it.broken.is_empty()));
            }
        }
        let size = |it: &Attempt| it.size.to_mm();
        found.into_iter().min_by(|a, b| size(a).total_cmp(&size(b)))
    }

    /// Two levers whose values are valid only together.
    fn together(&mut self, levers: &[&'static str]) -> Option<Attempt> {
        for (place, one) in levers.iter().copied().enumerate() {
            for other in levers[place + 1..].iter().copied() {
                for (size, changes) in self.pairs(one, other) {
                    let outcome = self.trials.outcome(self.finding, &changes, self.goal);
                    if !matches!(outcome, Outcome::Cleared(_)) {
                        continue;
                    }
                    let whole = self.attempt(changes, size);
                    if let Some(whole) = whole.filter(|it| it.broken.is_empty()) {
                        return Some(whole);
                    }
                }
            }
        }
        None
    }

    /// Values of two keys of which at least one is refused alone, the smallest changes first.
    fn pairs(&self, one: &'static str, other: &'static str) -> Vec<(Length, Changes)> {
        let params = self.trials.params;
        let is_refused = |key, value: &Value| params.with(key, value).is_err();
        let mut pairs = Vec::new();
        let others = steps(params, other);
        for (size, value) in steps(params, one) {
            let refused = is_refused(one, &value);
            for (second_size, second) in &others {
                if refused || is_refused(other, second) {
                    let changes = vec![(one, value.clone()), (other, second.clone())];
                    pairs.push((size + *second_size, changes));
                }
            }
        }
        pairs.sort_by(|a, b| a.0.to_mm().total_cmp(&b.0.to_mm()));
        pairs.retain(|it| params.with_all(&it.1).is_ok());
        pairs
    }
}

/// Values of a key far apart.
fn steps(params: &Params, key: &'static str) -> Vec<(Length, Value)> {
    let Some(it) = movable(params, key) else {
        return options(params, key);
    };
    let marks = it.strides().into_iter().flat_map(|it| [it, -it]);
    marks
        .map(|marks| (it.size(marks), it.moved(marks)))
        .collect()
}

/// The search along one key, one way.
struct Reach<'a, 't> {
    trials: &'a mut Trials<'t>,
    finding: &'a Finding,
    beside: &'a Changes,
    key: &'static str,
    it: Movable,
    way: i32,
    goal: Goal,
}

impl Reach<'_, '_> {
    fn outcome(&mut self, marks: i32) -> Outcome {
        let mut changes = self.beside.clone();
        changes.push((self.key, self.it.moved(self.way * marks)));
        self.trials.outcome(self.finding, &changes, self.goal)
    }

    /// The fewest marks that clear the finding.
    fn fewest(&mut self, guess: Option<i32>) -> Option<i32> {
        let (mut left, mut clears) = match guess {
            Some(guess) => self.guessed(guess)?,
            None => self.strided()?,
        };
        // a straight slope tells it to the mark
        let mut middle = clears - 1;
        while middle > left {
            match self.outcome(middle) {
                Outcome::Cleared(_) => clears = middle,
                Outcome::Left(_) | Outcome::Refused => left = middle,
            }
            middle = i32::midpoint(left, clears);
        }
        Some(clears)
    }

    /// The first stride that clears it, and the one before it.
    fn strided(&mut self) -> Option<(i32, i32)> {
        let mut left = 0;
        for marks in self.it.strides() {
            match self.outcome(marks) {
                Outcome::Cleared(_) => return Some((left, marks)),
                Outcome::Left(_) => left = marks,
                Outcome::Refused => return None,
            }
        }
        None
    }

    /// A number of marks that clears it, from the slope on, and the last that did not.
    fn guessed(&mut self, guess: i32) -> Option<(i32, i32)> {
        let (mut left, mut marks, most) = (0, guess, self.it.most());
        for _ in 0..CORRECTIONS {
            match self.outcome(marks) {
                Outcome::Cleared(_) => return Some((left, marks)),
                Outcome::Left(margin) => {
                    left = marks;
                    marks = (marks + self.farther(marks, margin)).min(most);
                }
                Outcome::Refused => marks = i32::midpoint(left, marks),
            }
            if marks == left {
                return None;
            }
        }
        None
    }

    /// How many marks more are needed, by what these have gained.
    fn farther(&self, marks: i32, margin: Option<f64>) -> i32 {
        let before = self.finding.numbers.map(|it| it.margin);
        let (Some(margin), Some(before)) = (margin, before) else {
            return marks;
        };
        let gained = (margin - before) / f64::from(marks);
        let allowance = self.trials.params.project.build_allowance;
        let lacked = self.goal.lacking(self.finding, allowance);
        let lacks = lacked.unwrap_or_default() - (margin - before);
        if gained <= 0.0 {
            return marks;
        }
        // never more than thrice as far at once
        whole((lacks / gained).ceil().clamp(1.0, f64::from(2 * marks)))
    }
}
