"""Scanning: photographs of drawing sheets in, drawings on white with their verdicts out.

Its modules are imported singly, since few runs want them: ``sheet_plan`` and ``pale`` say what a
sheet looks like, ``sources`` reads files, ``take`` takes one picture in, ``batch`` many on several
cores, ``compare`` settles what a second picture of a sheet is, ``rings`` where the spots of a free
sheet are. Sentences are made elsewhere, from ``Refused.reason`` and ``Taken.faults``.
"""
