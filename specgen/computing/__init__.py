"""From answers to calculations: what each takes from the brief, and the values it gives back.

The formulas stand in `specgen.calculations`; here their inputs are found among the answers and
their results named, so that conditions, texts and tables of clauses can read them like answers.
"""
