"""Puzzle: a tree and numbers in, a certificate, the work and hints out. Mathematics only."""

from bookmaker.puzzle.certify import certify
from bookmaker.puzzle.checker import Breach, breaches
from bookmaker.puzzle.finding import Unsolvable
from bookmaker.puzzle.tree import Tree

__all__ = ["Breach", "Tree", "Unsolvable", "breaches", "certify"]
