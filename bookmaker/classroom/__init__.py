"""Class editions: roster and scans in, pictures of the pupils' own out.

In the order in which a class needs them: ``dealing`` and ``issuing`` (who draws what),
``sheet_page`` and ``hand_out`` (what is printed), ``intake`` and ``keeping`` (what comes back),
``review_pages`` and ``review`` (the teacher's yes or no), ``class_book`` (the drawings on their
pages), ``forgetting``. ``register``, ``review`` and ``made`` keep the class's tables.
"""
