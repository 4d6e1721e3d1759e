"""OR-Tools CP-SAT on the same puzzles: the reference of tests and benchmarks."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction

from ortools.sat.python import cp_model

from bookmaker.puzzle import Tree


def model_of(tree: Tree) -> tuple[cp_model.CpModel, list[cp_model.IntVar]]:
    """Labels 0 ... n - 1, all different; differences 1 ... n - 1, all different."""
    model = cp_model.CpModel()
    labels = [model.new_int_var(0, tree.n - 1, f"label{v}") for v in range(tree.n)]
    differences = []
    for a, b in tree.edges:
        difference = model.new_int_var(1, tree.n - 1, f"difference{a}-{b}")
        model.add_abs_equality(difference, labels[a] - labels[b])
        differences.append(difference)
    model.add_all_different(labels)
    model.add_all_different(differences)
    return model, labels


def is_solvable(
    tree: Tree, values: Sequence[int], given: Mapping[int, int], seconds: float = 60.0
) -> bool | None:
    """Whether any numbers may be placed beside the given ones, by one worker; None: time is up."""
    model = cp_model.CpModel()
    domain = cp_model.Domain.from_values(list(values))
    labels = [model.new_int_var_from_domain(domain, f"label{v}") for v in range(tree.n)]
    spread = max(values) - min(values)
    differences = []
    for a, b in tree.edges:
        difference = model.new_int_var(1, spread, f"difference{a}-{b}")
        model.add_abs_equality(difference, labels[a] - labels[b])
        differences.append(difference)
    model.add_all_different(labels)
    model.add_all_different(differences)
    for v, value in given.items():
        model.add(labels[v] == value)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_time_in_seconds = seconds
    status = solver.solve(model)
    if status == cp_model.UNKNOWN:
        return None
    return status in (cp_model.OPTIMAL, cp_model.FEASIBLE)


class _Collect(cp_model.CpSolverSolutionCallback):
    def __init__(self, labels: list[cp_model.IntVar], take: Callable[[tuple[int, ...]], None]):
        super().__init__()
        self._labels = labels
        self._take = take

    def on_solution_callback(self) -> None:
        self._take(tuple(self.value(label) for label in self._labels))


def enumerate_labels(tree: Tree) -> list[tuple[int, ...]]:
    """Every solution, by one worker."""
    model, labels = model_of(tree)
    found: list[tuple[int, ...]] = []
    solver = cp_model.CpSolver()
    solver.parameters.enumerate_all_solutions = True
    solver.parameters.num_workers = 1
    status = solver.solve(model, _Collect(labels, found.append))
    assert status in (cp_model.OPTIMAL, cp_model.INFEASIBLE)
    return found


def first_labels(tree: Tree, seconds: float = 120.0) -> tuple[int, ...] | None:
    """The first solution by one worker; None where time is up."""
    model, labels = model_of(tree)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_time_in_seconds = seconds
    status = solver.solve(model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None
    return tuple(solver.value(label) for label in labels)


def cp_sat_solutions(tree: Tree) -> set[tuple[Fraction, ...]]:
    """Every solution with the numbers 1, 3, 5, ..."""
    return {tuple(Fraction(2 * x + 1) for x in labels) for labels in enumerate_labels(tree)}
