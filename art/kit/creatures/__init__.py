"""One module a creature.

Each declares NAME (as printed), CHAPTER, DESCRIPTION, SPOTS (spot -> per cent of width and
height), LINKS ("a-b") and ``draw() -> Sheet``.
"""
