"""Steps between the stages: what one stage gives in, what the next one takes out, and Problems.

Each is a module of its own, called by ``compile`` in the pipeline's order: ``opening`` (manifests),
``lettering`` (letters the faces lack), ``taking`` (art), ``spotting`` and ``joining`` (spots and
links left to us), ``certify`` (certificates and their check), ``placing`` (puzzles fitted onto
paper), ``practised`` (numbers against the grade), ``example``, ``slips``, ``inking``. ``answers``
marks pupils' work, ``posing`` puts a page to the mathematics.
"""
