"""Puzzle: a tree and numbers in, a certificate, the work and hints out. Mathematics only."""
