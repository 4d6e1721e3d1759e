"""Class editions: roster and scans in, pictures of the pupils' own out."""
