"""Solves the cutting plans again as a set cover over all full boards, with an exact solver of mixed integer programs.

Each file holds problems in whole numbers with the cost and the bound that the tool found. The tool's plan must not cost
less than the solver's bound, the tool's bound must not exceed the solver's plan, and where both have proved theirs the
costs must be equal.
"""

import json
import sys
from multiprocessing import Pool
from pathlib import Path

import highspy
import numpy

from report import Report

SECONDS = 10.0
# More fills than this for a problem are not listed; the problem then counts as failed, not as passed.
MOST_FILLS = 400_000


def fills(pieces, room):
    """Every set of pieces that fits into a board and leaves no room for another."""
    lengths = [length for length, _ in pieces]
    counts = [0] * len(pieces)

    def go(place, left):
        if place == len(pieces):
            full = all(
                counts[i] == pieces[i][1] or lengths[i] > left for i in range(len(pieces))
            )
            if full:
                yield tuple(counts)
            return
        most = min(pieces[place][1], left // lengths[place])
        for count in range(most, -1, -1):
            counts[place] = count
            yield from go(place + 1, left - count * lengths[place])
        counts[place] = 0

    yield from go(0, room)


def columns(problem):
    """Each fill once, at the cost of the cheapest board that holds it."""
    cheapest = {}
    for room, cost in problem["boards"]:
        for fill in fills(problem["pieces"], room):
            load = sum(n * length for n, (length, _) in zip(fill, problem["pieces"]))
            price = min(price for size, price in problem["boards"] if size >= load)
            cheapest[fill] = min(price, cheapest.get(fill, price))
            if len(cheapest) > MOST_FILLS:
                return None
    return cheapest


def solve(problem):
    """The cost of the solver's plan and its bound."""
    found = columns(problem)
    if found is None:
        return None
    matrix = numpy.array(list(found), dtype=float)
    costs = numpy.array(list(found.values()), dtype=float)
    wanted = numpy.array([count for _, count in problem["pieces"]], dtype=float)
    solver = highspy.Highs()
    solver.setOptionValue("output_flag", False)
    solver.setOptionValue("time_limit", SECONDS)
    solver.setOptionValue("mip_rel_gap", 0.0)
    solver.setOptionValue("mip_abs_gap", 0.5)
    solver.setOptionValue("threads", 1)
    model = highspy.HighsLp()
    model.num_col_ = len(costs)
    model.num_row_ = len(wanted)
    model.col_cost_ = costs
    model.col_lower_ = numpy.zeros(len(costs))
    model.col_upper_ = numpy.full(len(costs), float(wanted.sum()))
    model.row_lower_ = wanted
    model.row_upper_ = numpy.full(len(wanted), highspy.kHighsInf)
    model.integrality_ = [highspy.HighsVarType.kInteger] * len(costs)
    model.a_matrix_.format_ = highspy.MatrixFormat.kColwise
    starts, indices, values = [0], [], []
    for fill in matrix:
        used = numpy.nonzero(fill)[0]
        indices.extend(used)
        values.extend(fill[used])
        starts.append(len(indices))
    model.a_matrix_.start_ = numpy.array(starts, dtype=numpy.int32)
    model.a_matrix_.index_ = numpy.array(indices, dtype=numpy.int32)
    model.a_matrix_.value_ = numpy.array(values, dtype=float)
    solver.passModel(model)
    solver.run()
    info = solver.getInfo()
    return round(info.objective_function_value), info.mip_dual_bound


def main():
    report = Report("plan")
    problems = []
    for argument in sys.argv[1:]:
        for problem in json.loads(Path(argument).read_text(encoding="utf-8")):
            problems.append((f"{Path(argument).stem}, {problem['name']}", problem))
    with Pool() as pool:
        results = pool.map(solve, [problem for _, problem in problems], chunksize=1)
    both = 0
    for (name, problem), result in zip(problems, results):
        report.check(result is not None, f"{name}: few enough fills to list")
        if result is None:
            continue
        cost, bound = result
        report.check(problem["cost"] >= bound - 1e-6, f"{name}: {problem['cost']} is below the bound {bound}")
        report.check(problem["bound"] <= cost, f"{name}: the bound {problem['bound']} is above a plan of {cost}")
        proved = bound > cost - 0.5
        if proved and problem["cost"] == problem["bound"]:
            both += 1
            report.check(problem["cost"] == cost, f"{name}: {problem['cost']}, the solver {cost}")
    report.check(both >= len(problems) * 3 // 4, f"both prove {both} of {len(problems)}: enough to compare")
    print(f"plan: both prove {both} of {len(problems)}")
    report.finish()


if __name__ == "__main__":
    main()
