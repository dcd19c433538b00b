//! The cutting plan: what holds of every plan, small ones against all there are, and instances for an outside solver.

use std::path::PathBuf;

use chasewright::design::design;
use chasewright::takeoff::plan::{Problem, Progress, Solution, solve, solve_watched};
use chasewright::takeoff::takeoff;
use serde_json::json;

use crate::generate::Random;
use crate::scenarios::demo;
use crate::support::seeds;

/// Half micrometres in a 16th of an inch.
const SIXTEENTH: u64 = 3175;
/// The default of `stock.search_nodes`.
const NODES: usize = 2000;

fn length(sixteenths: u64) -> u64 {
    (sixteenths * SIXTEENTH).div_ceil(2)
}

/// Pieces on a tape's marks, each with a saw cut of 1/8 in; boards of 8 to 16 ft, priced in three ways.
pub(crate) fn instance(seed: u64) -> Problem {
    let mut random = Random(seed);
    let wanted = 5 + usize::try_from(random.below(56)).unwrap();
    let mut pieces: Vec<(u64, usize)> = Vec::new();
    let mut count = 0;
    while count < wanted {
        let more = (1 + usize::try_from(random.below(6)).unwrap()).min(wanted - count);
        pieces.push((length(16 * 12 + random.below(16 * 100) + 2), more));
        count += more;
    }
    let by_length = random.below(3);
    let boards = [8_u64, 10, 12, 14, 16]
        .into_iter()
        .filter(|feet| *feet > 8 || seed.is_multiple_of(2));
    let boards = boards.map(|feet| {
        let price = match by_length {
            0 => feet,
            1 => feet * 52 + random.below(60),
            // long boards cost more for each foot
            _ => feet * 40 + feet * feet,
        };
        (length(feet * 12 * 16 - 8 + 2), price)
    });
    Problem {
        pieces,
        boards: boards.collect(),
    }
}

fn assert_sound(problem: &Problem, solution: &Solution, seed: u64) {
    let mut cut = vec![0; problem.pieces.len()];
    let mut cost = 0;
    for (board, pieces) in &solution.boards {
        let (room, price) = problem.boards[*board];
        let load: u64 = pieces.iter().map(|it| problem.pieces[*it].0).sum();
        assert!(load <= room, "seed {seed}: a board holds {load} of {room}");
        assert!(!pieces.is_empty(), "seed {seed}: a board without a piece");
        cost += price;
        for piece in pieces {
            cut[*piece] += 1;
        }
    }
    let wanted: Vec<usize> = problem.pieces.iter().map(|it| it.1).collect();
    assert_eq!(cut, wanted, "seed {seed}: every piece is cut once");
    assert_eq!(cost, solution.cost, "seed {seed}");
    assert!(solution.bound <= solution.cost, "seed {seed}");
}

/// The least cost by trying everything, for a handful of pieces.
fn least(problem: &Problem, rest: &mut Vec<u64>, boards: &mut Vec<u64>) -> u64 {
    let Some(piece) = rest.pop() else {
        let price = |load: &u64| {
            let fits = problem.boards.iter().filter(|it| it.0 >= *load);
            fits.map(|it| it.1).min().unwrap()
        };
        return boards.iter().map(price).sum();
    };
    let longest = problem.boards.iter().map(|it| it.0).max().unwrap();
    let mut best = u64::MAX;
    for at in 0..boards.len() {
        if boards[at] + piece <= longest {
            boards[at] += piece;
            best = best.min(least(problem, rest, boards));
            boards[at] -= piece;
        }
    }
    boards.push(piece);
    best = best.min(least(problem, rest, boards));
    boards.pop();
    rest.push(piece);
    best
}

#[test]
fn small_plans_cost_as_little_as_any() {
    for seed in seeds(0..150) {
        let mut problem = instance(seed);
        let mut left = 8;
        for piece in &mut problem.pieces {
            piece.1 = piece.1.min(left);
            left -= piece.1;
        }
        let solution = solve(&problem, NODES);
        assert_sound(&problem, &solution, seed);
        let mut rest: Vec<u64> = Vec::new();
        for (length, count) in &problem.pieces {
            rest.extend(std::iter::repeat_n(*length, *count));
        }
        let least = least(&problem, &mut rest, &mut Vec::new());
        assert_eq!(solution.cost, least, "seed {seed}");
        assert_eq!(solution.bound, least, "seed {seed}: proved");
    }
}

/// The instances, with what the solver says of them, for `tests/outside/plan.py`.
#[test]
fn plans_are_written_for_the_outside_solver() {
    let mut proved = 0;
    let cases: Vec<_> = seeds(0..200)
        .map(|seed| {
            let problem = instance(seed);
            let solution = solve(&problem, NODES);
            assert_sound(&problem, &solution, seed);
            if seed.is_multiple_of(8) {
                let again = solve(&problem, NODES);
                assert_eq!(solution, again, "seed {seed}: twice the same");
            }
            proved += usize::from(solution.is_proved());
            json!({
                "name": format!("seed {seed}"),
                "pieces": problem.pieces,
                "boards": problem.boards,
                "cost": solution.cost,
                "bound": solution.bound,
            })
        })
        .collect();
    assert!(proved >= 195, "only {proved} of 200 plans are proved");
    write("seeded.json", &cases);
}

/// The demos' own plans: no plan takes less. In a release build each takes under 5 ms; the limit here leaves room for a
/// debug build on a busy machine.
#[test]
fn the_demos_plans_are_proved() {
    let names = [
        "reading-room",
        "stepped-face",
        "flat-with-cabinets",
        "rises-away-from-wall",
    ];
    let mut cases = Vec::new();
    for name in names {
        let takeoff = takeoff(&design(&demo(name)));
        for plan in takeoff.boards {
            let kind = plan.board.name();
            assert!(plan.solution.is_proved(), "{name}: {kind}");
            let again = solve(&plan.problem, NODES);
            assert_eq!(again, plan.solution, "{name}: {kind}");
            cases.push(json!({
                "name": format!("{name}, {}", plan.board.name()),
                "pieces": plan.problem.pieces,
                "boards": plan.problem.boards,
                "cost": plan.solution.cost,
                "bound": plan.solution.bound,
            }));
        }
    }
    write("demos.json", &cases);
}

fn write(name: &str, cases: &[serde_json::Value]) {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("plans");
    std::fs::create_dir_all(&folder).unwrap();
    std::fs::write(folder.join(name), json!(cases).to_string()).unwrap();
}

/// A search that is stopped gives the best so far with its bound; until then it only comes nearer.
#[test]
fn a_stopped_search_keeps_its_best_plan() {
    let problem = instance(172);
    let whole = solve(&problem, NODES);
    for most in [1, 2, 5, 20] {
        let mut seen: Vec<Progress> = Vec::new();
        let mut watch = |progress| {
            seen.push(progress);
            seen.len() < most
        };
        let stopped = solve_watched(&problem, NODES, &mut watch);
        assert_sound(&problem, &stopped, 172);
        assert!(stopped.is_stopped && !stopped.is_proved(), "{most}");
        assert!(seen.len() <= most + 1, "{most}: asked again after the end");
        assert!(stopped.nodes < whole.nodes, "{most}");
        for pair in seen.windows(2) {
            let nearer = pair[1].cost <= pair[0].cost && pair[1].bound >= pair[0].bound;
            assert!(nearer && pair[1].nodes >= pair[0].nodes, "{pair:?}");
        }
        let last = seen.last().unwrap();
        assert!(stopped.cost <= last.cost && stopped.bound >= last.bound);
    }
    assert!(!whole.is_stopped);
}

/// 200 pieces of 200 lengths: within one board of the bound.
#[test]
fn many_pieces_stay_within_a_board_of_the_bound() {
    let mut random = Random(7);
    let pieces = (0..200).map(|_| (length(16 * 12 + random.below(16 * 100)), 1));
    let boards = [8_u64, 10, 12, 14, 16].map(|feet| (length(feet * 12 * 16 - 8 + 2), feet));
    let problem = Problem {
        pieces: pieces.collect(),
        boards: boards.to_vec(),
    };
    let solution = solve(&problem, NODES);
    assert_sound(&problem, &solution, 7);
    let gap = solution.cost - solution.bound;
    assert!(gap <= 16, "{gap} ft above the bound, more than a board");
}
