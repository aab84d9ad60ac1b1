"""Reading a typed answer, and marking it: tolerance, the order of verdicts, carried values, marks."""
