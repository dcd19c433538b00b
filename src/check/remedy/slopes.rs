//! How much each open finding's margin changes where one of the builder's dimensions moves by a mark.

use std::collections::BTreeMap;

use super::changes::movable;
use super::trials::Trials;
use crate::check::{Finding, Name, Verdict};

/// The change of margins per millimetre of a key.
#[derive(Debug, Default)]
pub(super) struct Slopes {
    slopes: BTreeMap<(&'static str, Name), f64>,
}

/// Less than this is no change.
const NONE: f64 = 1e-6;

impl Slopes {
    /// Measures them for every lever of what fails or is tight: a design for each lever.
    pub(super) fn measured(findings: &[Finding], trials: &mut Trials<'_>) -> Self {
        let open = findings.iter().filter(|it| is_open(it));
        let open: Vec<&Finding> = open.filter(|it| it.numbers.is_some()).collect();
        let mut keys: Vec<&'static str> = open.iter().flat_map(|it| &it.levers).copied().collect();
        keys.sort_unstable();
        keys.dedup();
        let mut slopes = BTreeMap::new();
        for key in keys {
            let Some((by, after)) = moved(key, trials) else {
                continue;
            };
            let after: BTreeMap<Name, f64> = after
                .iter()
                .filter_map(|it| Some((it.name(), it.numbers?.margin)))
                .collect();
            for finding in &open {
                let (Some(numbers), Some(margin)) = (finding.numbers, after.get(&finding.name()))
                else {
                    continue;
                };
                let slope = (margin - numbers.margin) / by;
                if slope.abs() > NONE {
                    slopes.insert((key, finding.name()), slope);
                }
            }
        }
        Self { slopes }
    }

    /// How much a finding's margin gains for a millimetre more of a key; 0 where it gains nothing, or it is not known.
    pub(super) fn of(&self, key: &'static str, finding: &Finding) -> f64 {
        let slope = self.slopes.get(&(key, finding.name()));
        slope.copied().unwrap_or_default()
    }
}

/// Whether a finding fails or is tight.
pub(super) const fn is_open(finding: &Finding) -> bool {
    matches!(finding.verdict, Verdict::Fail | Verdict::Tight)
}

/// All findings with a key moved by the smallest step that its value allows, and that step in millimetres.
fn moved(key: &'static str, trials: &mut Trials<'_>) -> Option<(f64, Vec<Finding>)> {
    let movable = movable(trials.params, key)?;
    [1, -1].into_iter().find_map(|marks| {
        let after = trials.checked("causes", &vec![(key, movable.moved(marks))])?;
        Some((movable.stepped(marks), after))
    })
}
